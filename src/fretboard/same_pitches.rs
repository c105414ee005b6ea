//! The same three pitches on other strings.

use std::cmp::Reverse;
use std::fmt;

use crate::shape::Meaning;
use crate::strings_going_up::strings_going_up;
use crate::{Ease, Hand, Neck, Place, Shape, StringSet};

/// Another place of a shape: the same three pitches on other strings. Prints as its reason, as in
/// `on strings 5-4-3, 5 frets up`.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SamePitches {
    /// The shape there.
    pub shape: Shape,
    /// How many frets up the neck the hand goes for it; negative towards the nut.
    pub frets: i8,
}

impl fmt::Display for SamePitches {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let frets = self.frets.unsigned_abs();
        let noun = if frets == 1 { "fret" } else { "frets" };
        write!(f, "on strings {}, ", self.shape.string_set())?;
        match self.frets {
            0 => f.write_str("in the same position"),
            1.. => write!(f, "{frets} {noun} up"),
            _ => write!(f, "{frets} {noun} down"),
        }
    }
}

impl Shape {
    /// The other places of the same three pitches that `hand` can hold: those that are fewest frets
    /// away first, and of equals those on more of the same strings. As in every shape, a string that
    /// sounds higher open has the higher pitch.
    ///
    /// ```
    /// use fretloom_fretboard::{Hand, Neck, ShapeQuery, Tuning};
    /// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
    /// let g = "G".parse::<fretloom_theory::SpelledTriad>().unwrap().triad();
    /// let shapes = ShapeQuery::default().on("4-3-2".parse().unwrap()).shapes(&neck, g);
    /// let elsewhere = shapes[1].same_pitches(&neck, Hand::default()); // G at 5-4-3
    /// assert_eq!(elsewhere[0].to_string(), "on strings 5-4-3, 4 frets up");
    /// ```
    #[must_use]
    pub fn same_pitches(&self, neck: &Neck, hand: Hand) -> Vec<SamePitches> {
        let sets = StringSet::every(neck.tuning().string_count(), 3);
        let others = sets.filter(|set| *set != self.string_set());
        let there = others.filter_map(|set| self.on_set(neck, set));
        let taken = there.map(|shape| shape.held_by(neck, hand));
        let held = taken.filter(|shape| shape.ease() != Ease::Beyond);
        let mut elsewhere: Vec<SamePitches> =
            held.map(|shape| SamePitches { shape, frets: self.frets_up_to(&shape) }).collect();
        elsewhere.sort_by_key(|there| {
            let strings = there.shape.strings();
            let kept = strings.iter().filter(|s| self.string_set().contains(**s)).count();
            (there.frets.unsigned_abs(), 3 - kept)
        });
        elsewhere
    }

    /// The same pitches on the strings of `set`.
    fn on_set(&self, neck: &Neck, set: StringSet) -> Option<Shape> {
        let strings = strings_going_up(neck, set)?;
        let [low, middle, high] = strings.map(|(_, string)| string);
        let [lowest, second, third] = self.going_up();
        let note =
            |string, pitch| Some((Place { string, fret: neck.fret_of(pitch, string)? }, pitch));
        let mut notes = [note(low, lowest)?, note(middle, second)?, note(high, third)?];
        notes.sort_unstable_by_key(|(place, _)| Reverse(place.string));
        let (triad, inversion, voicing) = (self.triad(), self.inversion(), self.voicing());
        Some(Shape::at(neck, Meaning { triad, inversion, voicing }, notes))
    }

    fn frets_up_to(&self, other: &Shape) -> i8 {
        let number = |shape: &Shape| i8::try_from(shape.position().number()).unwrap_or(i8::MAX);
        number(other) - number(self)
    }
}
