//! Arpeggios: a triad going up, two or three notes a string.

use fretloom_theory::{Pitch, Triad, TriadQuality};

use crate::passage::Passage;
use crate::{Ease, Finger, Fret, Hand, HandPosition, Neck, Place};
use fretloom_theory::Inversion;

/// How many notes lie on each string of an arpeggio.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum PerString {
    /// Two.
    Two,
    /// Three.
    Three,
}

impl PerString {
    /// Two or three; `None` for every other number.
    #[must_use]
    pub const fn new(notes: u8) -> Option<PerString> {
        match notes {
            2 => Some(PerString::Two),
            3 => Some(PerString::Three),
            _ => None,
        }
    }

    /// The number, 2 or 3.
    #[must_use]
    pub(crate) const fn number(self) -> u8 {
        match self {
            PerString::Two => 2,
            PerString::Three => 3,
        }
    }

    /// Over how many strings it makes six notes, the triad twice.
    pub(crate) const fn strings_for_six(self) -> usize {
        match self {
            PerString::Two => 3,
            PerString::Three => 2,
        }
    }
}

/// A triad played one note after another, upwards through every chord tone, with two or three
/// notes on each of neighbouring strings.
///
/// Lists run in the order of playing, from the lowest note up. On a re-entrant instrument that is
/// not always from the highest string number down.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{ArpeggioQuery, Neck, PerString, Tuning};
/// use fretloom_theory::SpelledTriad;
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let g = "G".parse::<SpelledTriad>().unwrap().triad();
/// let query = ArpeggioQuery::new(PerString::Two).on("4-3".parse().unwrap());
/// let lowest = &query.arpeggios(&neck, g)[0];
/// let frets: Vec<u8> = lowest.frets().map(|fret| fret.number()).collect();
/// assert_eq!(frets, [0, 5, 4, 7]); // D G on string 4, B D on string 3
/// assert_eq!(lowest.inversion().to_string(), "second");
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Arpeggio {
    triad: Triad,
    inversion: Inversion,
    notes: Vec<(Place, Pitch)>,
    passage: Passage,
    ease: Ease,
}

impl Arpeggio {
    /// Which member sounds first and lowest.
    #[must_use]
    pub const fn inversion(&self) -> Inversion {
        self.inversion
    }

    /// Is the inversion a matter of names, because the triad is augmented?
    #[must_use]
    pub fn by_name_only(&self) -> bool {
        self.triad.quality() == TriadQuality::Augmented
    }

    /// Where its notes lie, with what sounds there.
    #[must_use]
    pub fn notes(&self) -> &[(Place, Pitch)] {
        &self.notes
    }

    /// Its frets, in the order of playing.
    pub fn frets(&self) -> impl Iterator<Item = Fret> {
        self.notes.iter().map(|(place, _)| place.fret)
    }

    /// The widest stretch on one of its strings, in millimetres from fret to fret; the hand may
    /// shift on the way.
    #[must_use]
    pub const fn stretch_mm(&self) -> f64 {
        self.passage.stretch_mm()
    }

    /// How hard that is for the hand.
    #[must_use]
    pub const fn ease(&self) -> Ease {
        self.ease
    }

    /// Fingers in the order of playing, as [`FingeringQuery`](crate::FingeringQuery) chooses them
    /// for eighth notes at 120 beats a minute; `None` where the notes of one string lie beyond the
    /// reach of the hand.
    #[must_use]
    pub fn fingers(&self) -> Option<Vec<Finger>> {
        self.passage.fingers()
    }

    /// Where the hand stands one after another; a hand that stays has one position, and without
    /// fingers there is none.
    #[must_use]
    pub fn positions(&self) -> Vec<HandPosition> {
        self.passage.positions()
    }

    /// Where the hand stands first; where there are no fingers, the lowest fretted fret.
    #[must_use]
    pub fn position(&self) -> HandPosition {
        self.passage.position()
    }

    /// An arpeggio of notes that rise; the caller answers for the music.
    pub(crate) fn of(
        neck: &Neck,
        hand: Hand,
        (triad, inversion): (Triad, Inversion),
        notes: Vec<(Place, Pitch)>,
    ) -> Self {
        let passage = Passage::new(neck, hand, &notes);
        let held = passage.fingers().is_some();
        let ease = if held { hand.ease_of(passage.stretch_mm()) } else { Ease::Beyond };
        Arpeggio { triad, inversion, notes, passage, ease }
    }
}
