//! The drawn neck is read back.
//!
//! The reader in `support/neck_reader.rs` knows the picture's promises and none of the code that
//! draws it. What it reads must be the model's places, no more and no fewer; what lies beyond the
//! edge must be exactly what is not drawn.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "support/neck_reader.rs"]
mod neck_reader;

use std::collections::BTreeSet;
use std::ops::RangeInclusive;

use fretloom::answer::{
    Families, Labels, Moment, PairAnswer, PlaceAnswer, Wishes, pairs_over, places_of_pair,
};
use fretloom::glyphs::{make_ascii, to_ascii};
use fretloom::library::{Library, LoadedTunings};
use fretloom::tui::event::Event;
use fretloom::tui::explore::Explore;
use fretloom::tui::neck::NeckPicture;
use fretloom::tui::runtime::App;
use fretloom::tui::theme::Theme;
use fretloom_fretboard::{Neck, Shape, ShapeQuery, StringSet};
use fretloom_theory::Spelling;
use neck_reader::{DrawnNeck, ReadMark, Side};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Plain and altered chords, sharp and flat roots; the last two have labels of three signs.
const CHORDS: [&str; 6] = ["Gmaj7#11", "Ebm", "F#maj7", "Cm7b5", "C7alt", "G7b13"];
const WIDTHS: [u16; 5] = [30, 60, 80, 120, 200];
const FIRST_FRETS: [u8; 4] = [1, 2, 9, 13];

fn necks() -> Vec<Neck> {
    LoadedTunings::load(None).iter().map(|(tuning, _)| Neck::new(tuning.clone())).collect()
}

/// The first, a middle and the last pair of a chord: majors, minors, diminished, augmented.
fn some_pairs(chord: &str) -> Vec<PairAnswer> {
    let moment = Moment::of_chord(chord).unwrap();
    let all = pairs_over(&moment, &Families::default(), &Wishes::default(), Spelling::Plain).pairs;
    let last = all.len() - 1;
    [0, last / 2, last].map(|at| all[at].clone()).to_vec()
}

/// The lowest shape of the pair's first triad, on the strings it lies on.
fn any_shape(neck: &Neck, pair: &PairAnswer) -> Shape {
    let shapes = ShapeQuery::default().shapes(neck, pair.pair.first());
    *shapes.first().unwrap()
}

fn drawn(picture: &NeckPicture, width: u16) -> Buffer {
    let area = Rect::new(0, 0, width, picture.height());
    let mut buffer = Buffer::empty(area);
    picture.draw(area, &mut buffer, &Theme::terminal());
    buffer
}

/// The marks that the model has on the open strings and on these frets.
fn expected(
    places: &[PlaceAnswer],
    labels: Labels,
    frets: &RangeInclusive<u8>,
) -> BTreeSet<ReadMark> {
    let in_view = places.iter().map(|place| mark_of(place, labels));
    in_view.filter(|mark| mark.fret == 0 || frets.contains(&mark.fret)).collect()
}

fn mark_of(place: &PlaceAnswer, labels: Labels) -> ReadMark {
    ReadMark {
        string: place.place.string.number(),
        fret: place.place.fret.number(),
        side: if place.side == fretloom_fretboard::Side::First {
            Side::First
        } else {
            Side::Second
        },
        label: labels.label(place),
    }
}

fn in_ascii(marks: BTreeSet<ReadMark>) -> BTreeSet<ReadMark> {
    marks.into_iter().map(|mark| ReadMark { label: to_ascii(&mark.label), ..mark }).collect()
}

/// Reads a drawn neck and compares it with the model: in signs, and in ASCII.
fn assert_reads_back(
    picture: &NeckPicture,
    neck: &Neck,
    places: &[PlaceAnswer],
    labels: Labels,
    width: u16,
) -> RangeInclusive<u8> {
    let mut buffer = drawn(picture, width);
    let read = DrawnNeck::read(&buffer).unwrap();
    let wanted = expected(places, labels, &read.frets);
    assert_eq!(read.marks, wanted, "{width} columns\n{}", neck_reader::text(&buffer));
    assert_eq!(read.strings, neck.tuning().string_count());
    make_ascii(&mut buffer);
    let ascii = DrawnNeck::read(&buffer).unwrap();
    assert_eq!(ascii.marks, in_ascii(wanted));
    assert_eq!(ascii.frets, read.frets);
    read.frets
}

/// Every chord's pairs on every tuning.
fn for_every_pair_and_neck(mut check: impl FnMut(&Neck, &PairAnswer, &[PlaceAnswer])) {
    for neck in necks() {
        for pair in CHORDS.iter().flat_map(|chord| some_pairs(chord)) {
            check(&neck, &pair, &places_of_pair(&neck, &pair));
        }
    }
}

#[test]
fn every_note_of_the_pair_is_where_the_model_has_it() {
    for_every_pair_and_neck(|neck, _, places| {
        for labels in Labels::ALL {
            let picture = NeckPicture::new(neck, places, labels);
            for width in WIDTHS {
                for first in FIRST_FRETS {
                    let scrolled = picture.clone().between(first, u8::MAX);
                    let frets = assert_reads_back(&scrolled, neck, places, labels, width);
                    let last = neck.tuning().last_fret().number();
                    assert_eq!(*frets.start(), first.min(last));
                    assert!(*frets.end() <= last);
                }
            }
        }
    });
}

#[test]
fn a_held_shape_and_a_locked_set_move_no_note() {
    for_every_pair_and_neck(|neck, pair, places| {
        let shape = any_shape(neck, pair);
        let set: StringSet = "4-3-2".parse().unwrap();
        for labels in Labels::ALL {
            let plain = NeckPicture::new(neck, places, labels);
            let held = plain.clone().holding(&shape);
            for picture in [held.clone(), held.locked_to(set), plain.locked_to(set)] {
                assert_reads_back(&picture, neck, places, labels, 80);
            }
        }
    });
}

#[test]
fn a_window_of_frets_ends_where_it_was_told_to() {
    for_every_pair_and_neck(|neck, _, places| {
        let picture = NeckPicture::new(neck, places, Labels::Degree).between(3, 7);
        assert_eq!(assert_reads_back(&picture, neck, places, Labels::Degree, 80), 3..=7);
        let narrowest = picture.narrowest_width();
        assert_eq!(assert_reads_back(&picture, neck, places, Labels::Degree, narrowest), 3..=7);
    });
}

/// The marks of one place: `═` beside it, or its looks where the label fills the cell.
#[test]
fn exactly_the_held_shape_looks_held() {
    for_every_pair_and_neck(|neck, pair, places| {
        let shape = any_shape(neck, pair);
        let picture = NeckPicture::new(neck, places, Labels::Note).holding(&shape);
        let read = DrawnNeck::read(&drawn(&picture, 200)).unwrap();
        let places = shape.places().into_iter();
        let wanted: BTreeSet<(u8, u8)> =
            places.map(|place| (place.string.number(), place.fret.number())).collect();
        assert_eq!(read.held, wanted);
    });
}

#[test]
fn the_neck_in_the_whole_screen_is_the_explorers_own() {
    for (tuning, chord) in [
        ("guitar-standard", "Gmaj7#11"),
        ("guitar-7-string", "Bb13"),
        ("ukulele-high-g", "C7sus4"),
        ("bass-4-string", "Cm7b5"),
    ] {
        for (columns, rows) in [(60, 24), (80, 24), (130, 45)] {
            let mut explore = open(chord, tuning);
            explore.update(Event::Resize { columns, rows });
            for keys in ["", "n", "space space space l", "n end", "down s T"] {
                type_keys(&mut explore, keys);
                assert_screen_agrees(&explore, Rect::new(0, 0, columns, rows));
            }
        }
    }
}

fn open(chord: &str, tuning: &str) -> Explore {
    let library = Library::load(None);
    let mut explore = Explore::open(Some(chord), tuning, library, Spelling::Plain).unwrap();
    explore.use_theme(Theme::terminal());
    explore
}

fn type_keys(explore: &mut Explore, keys: &str) {
    for key in keys.split_whitespace() {
        explore.update(Event::Key(key.parse().unwrap()));
    }
}

fn assert_screen_agrees(explore: &Explore, area: Rect) {
    let mut buffer = Buffer::empty(area);
    explore.draw(area, &mut buffer);
    let read = DrawnNeck::read(&buffer).unwrap();
    let wanted = expected(explore.places(), explore.labels(), &read.frets);
    assert_eq!(read.marks, wanted, "\n{}", neck_reader::text(&buffer));
    assert_eq!(read.strings, explore.neck().tuning().string_count());
    let shape = explore.shape().unwrap();
    let held = shape.strings.into_iter().zip(shape.frets);
    let in_view = held.filter(|(_, fret)| *fret == 0 || read.frets.contains(fret));
    assert_eq!(read.held, in_view.collect(), "\n{}", neck_reader::text(&buffer));
}
