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

use fretloom::answer::{Harmony, PairAnswer, PairPlace, Wishes, marks, pairs_over, places_of_pair};
use fretloom::glyphs::{make_ascii, to_ascii};
use fretloom::library::{Library, LoadedTunings};
use fretloom::picture::{Handed, Labels, NeckPicture, Top};
use fretloom::tui::NeckWidget;
use fretloom::tui::event::Event;
use fretloom::tui::program::Program;
use fretloom::tui::runtime::App;
use fretloom::tui::theme::Theme;
use fretloom_fretboard::{Capo, Fret, FretRange, Neck, Shape, ShapeQuery, StringSet};
use fretloom_theory::{Degree, Families, Spelling};
use neck_reader::{DrawnNeck, Lie, ReadMark, WhichTriad};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::widgets::Widget;

/// Plain and altered chords, sharp and flat roots; the last two have labels of three signs.
const CHORDS: [&str; 6] = ["Gmaj7#11", "Ebm", "F#maj7", "Cm7b5", "C7alt", "G7b13"];
const WIDTHS: [u16; 5] = [30, 60, 80, 120, 200];
const FIRST_FRETS: [u8; 4] = [1, 2, 9, 13];

fn necks() -> Vec<Neck> {
    LoadedTunings::load(None).iter().map(|(tuning, _)| Neck::new(tuning.clone())).collect()
}

/// The first, a middle and the last pair of a chord: majors, minors, diminished, augmented.
fn some_pairs(chord: &str) -> Vec<PairAnswer> {
    let harmony = Harmony::of_chord(chord).unwrap();
    let all = pairs_over(&harmony, &Families::default(), &Wishes::default(), Spelling::Plain).pairs;
    let last = all.len() - 1;
    [0, last / 2, last].map(|at| all.get(at).unwrap().clone()).to_vec()
}

/// The lowest shape of the pair's first triad, on the strings it lies on.
fn any_shape(neck: &Neck, pair: &PairAnswer) -> Shape {
    let shapes = ShapeQuery::default().shapes(neck, pair.pair().first());
    *shapes.first().unwrap()
}

/// The frets from this one on.
fn from(fret: u8) -> FretRange {
    FretRange::new(Fret::new(fret).unwrap(), Fret::HIGHEST).unwrap()
}

fn drawn(picture: &NeckPicture, width: u16) -> Buffer {
    let area = Rect::new(0, 0, width, picture.height());
    let mut buffer = Buffer::empty(area);
    NeckWidget::new(picture, &Theme::terminal()).render(area, &mut buffer);
    buffer
}

/// The marks that the model has on the open strings and on these frets.
fn expected(
    places: &[PairPlace],
    labels: Labels,
    frets: &RangeInclusive<u8>,
) -> BTreeSet<ReadMark> {
    let in_view = places.iter().map(|place| mark_of(place, labels));
    in_view.filter(|mark| mark.fret == 0 || frets.contains(&mark.fret)).collect()
}

fn mark_of(place: &PairPlace, labels: Labels) -> ReadMark {
    ReadMark {
        string: place.place.string.number(),
        fret: place.place.fret.number(),
        which: if place.which == fretloom_theory::WhichTriad::First {
            WhichTriad::First
        } else {
            WhichTriad::Second
        },
        label: place.label(labels),
        root: place.member == Degree::ROOT,
    }
}

fn in_ascii(marks: BTreeSet<ReadMark>) -> BTreeSet<ReadMark> {
    marks.into_iter().map(|mark| ReadMark { label: to_ascii(&mark.label), ..mark }).collect()
}

/// Reads a drawn neck and compares it with the model: in signs, and in ASCII.
fn assert_reads_back(
    picture: &NeckPicture,
    neck: &Neck,
    places: &[PairPlace],
    labels: Labels,
    width: u16,
) -> RangeInclusive<u8> {
    assert_reads_back_lying(picture, neck, places, labels, (width, Lie::default()))
}

/// The same of a picture that may be upside down or mirrored.
fn assert_reads_back_lying(
    picture: &NeckPicture,
    neck: &Neck,
    places: &[PairPlace],
    labels: Labels,
    (width, lie): (u16, Lie),
) -> RangeInclusive<u8> {
    let mut buffer = drawn(picture, width);
    let shown = neck_reader::text(&buffer);
    let read = DrawnNeck::read_lying(&buffer, lie).unwrap();
    let wanted = expected(places, labels, &read.frets);
    assert_eq!(read.marks, wanted, "{width} columns\n{shown}");
    assert_eq!(read.strings, neck.tuning().string_count());
    assert_eq!(read.cells, cells(neck, &read.frets), "{width} columns\n{shown}");
    assert_eq!(read.bars, bars(neck, &read.frets), "{width} columns\n{shown}");
    make_ascii(&mut buffer);
    let ascii = DrawnNeck::read_lying(&buffer, lie).unwrap();
    assert_eq!(ascii.marks, in_ascii(wanted));
    assert_eq!((ascii.frets, ascii.bars), (read.frets.clone(), read.bars));
    read.frets
}

/// Every place of the model in view that is not an open string.
fn cells(neck: &Neck, frets: &RangeInclusive<u8>) -> BTreeSet<(u8, u8)> {
    let places = neck.places().map(|(place, _)| (place.string.number(), place.fret.number()));
    places.filter(|(_, fret)| *fret > 0 && frets.contains(fret)).collect()
}

/// Where the capo holds strings, as it was asked for: one that begins above it is not held.
fn bars(neck: &Neck, frets: &RangeInclusive<u8>) -> BTreeSet<(u8, u8)> {
    let capo = neck.tuning().capo();
    let held = neck
        .tuning()
        .strings()
        .filter(|(string, open)| capo.covers(*string) && open.starts_at() < capo.fret());
    let bars = held.map(|(string, _)| (string.number(), capo.fret().number()));
    bars.filter(|(_, fret)| frets.contains(fret)).collect()
}

/// Pairs on every tuning: of two chords on each, taken in turn.
fn for_every_pair_and_neck(mut check: impl FnMut(&Neck, &PairAnswer, &[PairPlace])) {
    let pairs: Vec<Vec<PairAnswer>> = CHORDS.iter().map(|chord| some_pairs(chord)).collect();
    let mut chords = pairs.iter().cycle();
    for neck in necks() {
        for pair in chords.by_ref().take(2).flatten() {
            check(&neck, pair, &places_of_pair(&neck, pair));
        }
    }
}

/// Labels, widths and first frets in every combination on each neck, shared out among its six
/// pairs: two of them meet each combination.
#[test]
fn every_note_of_the_pair_is_where_the_model_has_it() {
    let mut turn = Labels::ALL.into_iter().cycle();
    for_every_pair_and_neck(|neck, _, places| {
        for width in WIDTHS {
            for first in FIRST_FRETS {
                let labels = turn.next().unwrap();
                let picture = NeckPicture::new(neck, marks(places, labels)).within(from(first));
                let frets = assert_reads_back(&picture, neck, places, labels, width);
                let last = neck.tuning().last_fret().number();
                assert_eq!(*frets.start(), first.min(last));
                assert!(*frets.end() <= last);
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
            let plain = NeckPicture::new(neck, marks(places, labels));
            let held = plain.clone().holding(&shape);
            for picture in [held.clone(), held.locked_to(set), plain.locked_to(set)] {
                assert_reads_back(&picture, neck, places, labels, 80);
            }
        }
    });
}

const LIES: [Lie; 4] = [
    Lie { left_handed: false, upside_down: false },
    Lie { left_handed: true, upside_down: false },
    Lie { left_handed: false, upside_down: true },
    Lie { left_handed: true, upside_down: true },
];

fn lying(picture: NeckPicture, lie: Lie) -> NeckPicture {
    let handed = if lie.left_handed { Handed::Left } else { Handed::Right };
    picture.for_hand(handed).with_top(if lie.upside_down { Top::Last } else { Top::First })
}

/// No capo, full ones, and partial ones on every tuning that has their strings.
fn capoed(neck: &Neck) -> Vec<Neck> {
    let capos = [("0", None), ("2", None), ("7", None), ("2", Some("3-2")), ("3", Some("5-4-3"))];
    let with = |(fret, strings)| {
        let capo = Capo::read(fret, strings).unwrap();
        neck.tuning().clone().with_capo(capo).ok().map(Neck::new)
    };
    let capoed: Vec<Neck> = capos.into_iter().filter_map(with).collect();
    assert!(capoed.len() >= 4, "{}", neck.tuning().id());
    capoed
}

/// Every lie and width behind every capo, each at one first fret in turn: from neck to neck the
/// turns move on by one, so that all combinations come round.
#[test]
fn capos_and_pictures_of_every_lie_read_back() {
    let pair = &some_pairs("Gmaj7#11")[0];
    let mut firsts = [1, 3, 9].into_iter().cycle();
    for neck in necks().iter().flat_map(capoed) {
        let places = places_of_pair(&neck, pair);
        let picture = NeckPicture::new(&neck, marks(&places, Labels::Note));
        for lie in LIES {
            for width in [30, 80, 200] {
                let first = firsts.next().unwrap();
                let picture = lying(picture.clone().within(from(first)), lie);
                let at = (width, lie);
                assert_reads_back_lying(&picture, &neck, &places, Labels::Note, at);
            }
            let picture = lying(picture.clone().within("1-7".parse().unwrap()), lie);
            let narrowest = (picture.narrowest_width(), lie);
            let frets = assert_reads_back_lying(&picture, &neck, &places, Labels::Note, narrowest);
            assert_eq!(frets, 1..=7);
        }
        firsts.next();
    }
}

/// Cell for cell, apart from the words, which are not mirrored: brackets stand where they stood.
#[test]
fn a_left_handed_neck_is_the_mirror_image() {
    for_every_pair_and_neck(|neck, _, places| {
        let picture = NeckPicture::new(neck, marks(places, Labels::Note));
        let (right, left) = (drawn(&picture, 80), drawn(&picture.for_hand(Handed::Left), 80));
        for y in 1..right.area.height {
            for x in 0..80 {
                let mirrored = match right[(x, y)].symbol() {
                    "[" => "]",
                    "]" => "[",
                    "(" => ")",
                    ")" => "(",
                    "‹" => "›",
                    "›" => "‹",
                    "┤" => "├",
                    sign if "┃║┼─".contains(sign) => sign,
                    _ => continue,
                };
                assert_eq!(left[(79 - x, y)].symbol(), mirrored, "{x} {y}");
            }
        }
    });
}

/// Octaves stand beside the names where the strings do not rise to string 1.
#[test]
fn re_entrant_strings_carry_their_octaves() {
    let pair = &some_pairs("Gmaj7#11")[0];
    for neck in necks() {
        let places = places_of_pair(&neck, pair);
        let picture = NeckPicture::new(&neck, marks(&places, Labels::Note));
        let strings: Vec<_> = neck.tuning().strings().map(|(_, open)| open.note()).collect();
        let rises = strings.windows(2).all(|two| two[0].pitch() <= two[1].pitch());
        let name = |note: &fretloom_theory::NamedPitch| {
            if rises { note.name().to_string() } else { note.to_string() }
        };
        let names: Vec<String> = strings.iter().rev().map(name).collect();
        for lie in LIES {
            let buffer = drawn(&lying(picture.clone(), lie), 120);
            let read = DrawnNeck::read_lying(&buffer, lie).unwrap();
            assert_eq!(read.names, names, "{}", neck_reader::text(&buffer));
        }
    }
}

#[test]
fn a_window_of_frets_ends_where_it_was_told_to() {
    for_every_pair_and_neck(|neck, _, places| {
        let picture =
            NeckPicture::new(neck, marks(places, Labels::Degree)).within("3-7".parse().unwrap());
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
        let picture = NeckPicture::new(neck, marks(places, Labels::Note)).holding(&shape);
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
            let mut program = open(chord, tuning);
            program.update(Event::Resize { columns, rows });
            for keys in ["", "n", "space space space l", "n end", "down s T"] {
                type_keys(&mut program, keys);
                assert_screen_agrees(&program, Rect::new(0, 0, columns, rows));
            }
        }
    }
}

fn open(chord: &str, tuning: &str) -> Program {
    let library = Library::load(None);
    let mut program = Program::open(Some(chord), tuning, library, Spelling::Plain).unwrap();
    program.use_theme(Theme::terminal());
    program
}

fn type_keys(program: &mut Program, keys: &str) {
    for key in keys.split_whitespace() {
        program.update(Event::Key(key.parse().unwrap()));
    }
}

fn assert_screen_agrees(program: &Program, area: Rect) {
    let mut buffer = Buffer::empty(area);
    program.draw(area, &mut buffer);
    let read = DrawnNeck::read(&buffer).unwrap();
    let wanted = expected(program.explore().places(), program.explore().labels(), &read.frets);
    assert_eq!(read.marks, wanted, "\n{}", neck_reader::text(&buffer));
    assert_eq!(read.strings, program.neck().tuning().string_count());
    let shape = program.explore().shape(program.neck()).unwrap();
    let strings = shape.shape.strings().map(|string| string.number());
    let held = strings.into_iter().zip(shape.frets.map(|fret| fret.number()));
    let in_view = held.filter(|(_, fret)| *fret == 0 || read.frets.contains(fret));
    assert_eq!(read.held, in_view.collect(), "\n{}", neck_reader::text(&buffer));
}
