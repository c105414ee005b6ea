//! The drawn neck: string 1 on top, the nut at the left, every note of a pair in its place; the
//! other way up, or mirrored for a left hand, where the player wants that.
//!
//! The two triads differ by their brackets, `[G]` and `(A)`, before they differ by colour. A
//! [`NeckPicture`] is data: what to draw and from which fret. Where each thing goes on the cells of
//! a screen is [`NeckGeometry`]'s business, and no music is computed while drawing.

mod draw;
mod geometry;
mod hit;

pub use geometry::NeckGeometry;
pub use hit::NeckHit;

use std::cmp::Reverse;

use fretloom_fretboard::{Fret, Inlay, Neck, OpenString, Shape, Side, StringSet, Tuning};

use crate::answer::{LeftOutPlace, PlaceAnswer};
use crate::picture::{FretWidths, Labels};

/// What is drawn of a neck.
#[derive(Clone, PartialEq, Debug)]
pub struct NeckPicture {
    /// From the top down: string 1 first, unless the picture is upside down.
    strings: Vec<StringLine>,
    hand: Handed,
    fret_widths: FretWidths,
    marks: Vec<Mark>,
    /// Notes that the pair leaves out.
    left_out: Vec<Ghost>,
    /// By fret, from fret 0.
    inlays: Vec<Inlay>,
    first_fret: u8,
    last_fret: u8,
    /// Where the neck itself ends; more than is shown, perhaps.
    end: u8,
}

/// Which hand frets: where the nut is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Handed {
    /// The nut at the left.
    Right,
    /// The mirror image, the nut at the right.
    Left,
}

/// One string.
#[derive(Clone, PartialEq, Eq, Debug)]
struct StringLine {
    number: u8,
    name: String,
    /// The fret it starts at, 0 for the nut.
    starts_at: u8,
    /// The fret where a capo holds it, 0 where none does.
    capo: u8,
    /// A string that is not in use now is drawn quietly.
    quiet: bool,
}

/// One note in its place.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Mark {
    string: u8,
    fret: u8,
    label: String,
    first_triad: bool,
    presence: Presence,
    /// Is it in the shape in hand?
    held: bool,
    /// Was it in the pair before?
    stays: bool,
}

/// A note that is not in the pair: a faint label without a bracket.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Ghost {
    string: u8,
    fret: u8,
    label: String,
}

/// How far a note belongs to what is looked at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Presence {
    /// It is looked at.
    Seen,
    /// A finger leaves its fret for it.
    Stretched,
    /// Another place of the pair: a dot.
    Aside,
}

impl NeckPicture {
    /// All notes of a pair on a neck, from the nut.
    #[must_use]
    pub fn new(neck: &Neck, places: &[PlaceAnswer], labels: Labels) -> NeckPicture {
        let tuning = neck.tuning();
        let mut strings: Vec<StringLine> = tuning
            .strings()
            .map(|(number, string)| StringLine {
                number: number.number(),
                name: name_of(tuning, string),
                starts_at: string.starts_at().number(),
                capo: if string.is_behind_capo() { string.sounds_from().number() } else { 0 },
                quiet: false,
            })
            .collect();
        strings.sort_by_key(|string| string.number);
        let mark = |place: &PlaceAnswer| Mark {
            string: place.place.string.number(),
            fret: place.place.fret.number(),
            label: place.label(labels),
            first_triad: place.side == Side::First,
            presence: Presence::Seen,
            held: false,
            stays: false,
        };
        let last_fret = tuning.last_fret();
        NeckPicture {
            strings,
            hand: Handed::Right,
            fret_widths: FretWidths::Even,
            left_out: Vec::new(),
            marks: places.iter().map(mark).collect(),
            inlays: (0..=last_fret.number())
                .filter_map(Fret::new)
                .map(|fret| neck.inlay(fret))
                .collect(),
            first_fret: 1,
            last_fret: last_fret.number(),
            end: last_fret.number(),
        }
    }

    /// With a view of the pair: its places as they are, stretches between `~`, all other places of
    /// the pair as dots.
    #[must_use]
    pub fn seeing(mut self, view: &[PlaceAnswer], labels: Labels) -> NeckPicture {
        for mark in &mut self.marks {
            let is_there = |place: &&PlaceAnswer| {
                (place.place.string.number(), place.place.fret.number()) == (mark.string, mark.fret)
            };
            let Some(place) = view.iter().find(is_there) else {
                mark.presence = Presence::Aside;
                continue;
            };
            mark.label = place.label(labels);
            if place.seen.as_ref().is_some_and(|seen| seen.stretched) {
                mark.presence = Presence::Stretched;
            }
        }
        self
    }

    /// With the fingers of a shape as labels of its places.
    #[must_use]
    pub fn fingered(mut self, shape: &Shape) -> NeckPicture {
        for (place, finger) in shape.places().into_iter().zip(shape.fingers().into_iter().flatten())
        {
            let (string, fret) = (place.string.number(), place.fret.number());
            let there = self.marks.iter_mut().filter(|m| m.string == string && m.fret == fret);
            there.for_each(|mark| mark.label = finger.number().to_string());
        }
        self
    }

    /// With this shape in hand.
    #[must_use]
    pub fn holding(mut self, shape: &Shape) -> NeckPicture {
        for place in shape.places() {
            let (string, fret) = (place.string.number(), place.fret.number());
            let held = self.marks.iter_mut().filter(|m| m.string == string && m.fret == fret);
            held.for_each(|mark| mark.held = true);
        }
        self
    }

    /// With the notes that the pair leaves out, as faint letters in their places.
    #[must_use]
    pub fn with_left_out(mut self, places: &[LeftOutPlace], labels: Labels) -> NeckPicture {
        let ghost = |place: &LeftOutPlace| Ghost {
            string: place.place.string.number(),
            fret: place.place.fret.number(),
            label: place.label(labels),
        };
        self.left_out = places.iter().map(ghost).collect();
        self
    }

    /// With these places underlined: the pair before had their notes too.
    #[must_use]
    pub fn keeping<'a>(mut self, stay: impl Iterator<Item = &'a PlaceAnswer>) -> NeckPicture {
        for place in stay {
            let (string, fret) = (place.place.string.number(), place.place.fret.number());
            let there = self.marks.iter_mut().filter(|m| m.string == string && m.fret == fret);
            there.for_each(|mark| mark.stays = true);
        }
        self
    }

    /// With cells as wide as that.
    #[must_use]
    pub fn with_fret_widths(mut self, widths: FretWidths) -> NeckPicture {
        self.fret_widths = widths;
        self
    }

    /// With the strings outside this set drawn quietly.
    #[must_use]
    pub fn locked_to(mut self, set: StringSet) -> NeckPicture {
        let used: Vec<u8> = set.iter().map(|string| string.number()).collect();
        for string in &mut self.strings {
            string.quiet = !used.contains(&string.number);
        }
        self
    }

    /// Only these frets, of those the neck has; the open strings stay in view at the left.
    #[must_use]
    pub fn between(mut self, first: u8, last: u8) -> NeckPicture {
        self.last_fret = last.min(self.end);
        self.first_fret = first.clamp(1, self.last_fret.max(1));
        self
    }

    /// As a left-handed player sees it: the mirror image, with the nut at the right. Numbers,
    /// strings and fingers stay what they are.
    #[must_use]
    pub fn left_handed(mut self) -> NeckPicture {
        self.hand = Handed::Left;
        self
    }

    /// With string 1 at the bottom, as the neck looks from above.
    #[must_use]
    pub fn upside_down(mut self) -> NeckPicture {
        self.strings.sort_by_key(|string| Reverse(string.number));
        self
    }

    /// Rows that the picture takes: the fret numbers, the strings, the inlays.
    #[must_use]
    pub fn height(&self) -> u16 {
        self.strings.len() as u16 + 2
    }

    /// Where everything goes in a picture of that width.
    #[must_use]
    pub fn geometry(&self, width: u16) -> NeckGeometry {
        let frets = (self.first_fret, self.last_fret);
        NeckGeometry::new(self.fret_widths, width, self.text_widths(), frets)
    }

    /// Columns that show every fret, at their narrowest.
    #[must_use]
    pub fn narrowest_width(&self) -> u16 {
        let frets = (self.first_fret, self.last_fret);
        NeckGeometry::width_for(self.fret_widths, self.text_widths(), frets)
    }

    /// The widest string name and the widest label.
    fn text_widths(&self) -> [u16; 2] {
        let name = self.strings.iter().map(|string| string.name.chars().count()).max();
        let label = self.marks.iter().map(|mark| mark.label.chars().count()).max();
        [name.unwrap_or(1) as u16, label.unwrap_or(1) as u16]
    }
}

/// What an open string is called: with its octave where the strings do not rise to string 1, so
/// that their order by pitch is seen.
fn name_of(tuning: &Tuning, string: OpenString) -> String {
    let note = string.note();
    if tuning.is_reentrant() { note.to_string() } else { note.name().to_string() }
}

impl StringLine {
    /// Where it sounds from: its start, or the capo. It has places above that only.
    fn sounds_from(&self) -> u8 {
        self.starts_at.max(self.capo)
    }
}
