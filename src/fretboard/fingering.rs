//! Fingering a line: string, fret and finger for each of its notes.
//!
//! A line is fingered by its cost: [`cost`](self) says what a note costs where it is, and what it
//! costs to go from one note to the next in the time there is. The state of the search holds where
//! the hand is, so that it looks further than from note to note; the search is exact, and takes
//! time and memory in proportion to the line. This is about notes one after another; for notes held
//! together see [`Hand::grip`](crate::Hand::grip).

mod cheapest;
mod cost;
mod error;
mod moment;
mod note;
mod query;
mod search;
mod stands;
mod strings;
mod touch;
mod ways;

use std::fmt;

use crate::{Ease, Finger, Hand, HandPosition, Neck, Place, StringSet};
use moment::Moment;
use touch::Touch;
use ways::PAUSE_S;

pub use error::{FingeringError, Misfit};
pub use note::{LineNote, Pin};
pub use query::{FingeringQuery, Taste};
pub use ways::Why;

/// One note of a line as it is played.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct FingeredNote {
    /// Where.
    pub place: Place,
    /// With which finger.
    pub finger: Finger,
    /// Where the hand is meanwhile; the finger may reach out of it.
    pub position: HandPosition,
}

/// A line as it is played: each note with its place, its finger, and where the hand is.
#[derive(Clone, PartialEq, Debug)]
pub struct Fingering {
    notes: Vec<FingeredNote>,
    /// Indices of notes by the moment they are played at.
    moments: Vec<Vec<usize>>,
    late: Vec<usize>,
    beyond_a_hand: Vec<usize>,
    cost: f64,
    why: Why,
}

impl Fingering {
    /// The fingering that takes way `path[i]` at moment `i`.
    fn new(moments: &[Moment], path: &[usize], cost: f64, why: Why) -> Fingering {
        let mut notes: Vec<(usize, FingeredNote)> = Vec::new();
        for (moment, way) in moments.iter().zip(path) {
            let touches = moment.stands.touches(*way).iter();
            notes.extend(moment.notes.iter().zip(touches).map(|(index, touch)| {
                let Touch { place, finger, hand: position } = *touch;
                (*index, FingeredNote { place, finger, position })
            }));
        }
        notes.sort_unstable_by_key(|(index, _)| *index);
        let those = |which: fn(&Moment) -> bool| {
            let moments = moments.iter().filter(|moment| which(moment));
            moments.flat_map(|moment| moment.notes.iter().copied()).collect()
        };
        Fingering {
            notes: notes.into_iter().map(|(_, note)| note).collect(),
            late: those(|moment| moment.is_late),
            beyond_a_hand: those(|moment| moment.stands.is_beyond_a_hand()),
            moments: moments.iter().map(|moment| moment.notes.clone()).collect(),
            cost,
            why,
        }
    }

    fn because(self, why: Why) -> Fingering {
        Fingering { why, ..self }
    }

    fn at_cost(self, cost: f64) -> Fingering {
        Fingering { cost, ..self }
    }

    /// The notes in the order they were given.
    #[must_use]
    pub fn notes(&self) -> &[FingeredNote] {
        &self.notes
    }

    /// What it costs; one is the effort of moving the hand a millimetre with time to spare.
    #[must_use]
    pub const fn cost(&self) -> f64 {
        self.cost
    }

    /// The condition under which it is the best.
    #[must_use]
    pub const fn why(&self) -> Why {
        self.why
    }

    /// Notes that begin with others, yet had to be put after them: there was no string left for
    /// them. By their indices in the line.
    #[must_use]
    pub fn late(&self) -> &[usize] {
        &self.late
    }

    /// Notes that sound together and are more than one hand can hold, by their indices in the line;
    /// recordings have such things (a bend, a strum, the other hand).
    #[must_use]
    pub fn beyond_a_hand(&self) -> &[usize] {
        &self.beyond_a_hand
    }

    /// How often the hand changes its position.
    #[must_use]
    pub fn shifts(&self) -> usize {
        self.shifted().count()
    }

    /// How many notes are open strings.
    #[must_use]
    pub fn open_strings(&self) -> usize {
        self.notes.iter().filter(|note| note.finger == Finger::Open).count()
    }

    /// The strings it uses; `None` for a line without notes.
    #[must_use]
    pub fn strings(&self) -> Option<StringSet> {
        StringSet::of(self.notes.iter().map(|note| note.place.string))
    }

    /// The lowest and the highest position of the hand; `None` for a line without notes.
    #[must_use]
    pub fn positions(&self) -> Option<(HandPosition, HandPosition)> {
        let positions = || self.notes.iter().map(|note| note.position);
        positions().min().zip(positions().max())
    }

    /// Notes that a finger has to reach [wide](Ease::Wide) for: their indices, and how many
    /// millimetres lie between the fret of the first finger and theirs.
    pub fn wide_reaches(&self, neck: &Neck, hand: Hand) -> impl Iterator<Item = (usize, f64)> {
        let reaches = self.notes.iter().enumerate().filter(|(_, note)| note.finger != Finger::Open);
        let reaches = reaches
            .map(|(index, note)| (index, neck.span_mm(note.position.fret(), note.place.fret)));
        reaches.filter(move |(_, mm)| hand.ease_of(*mm) != Ease::Easy)
    }

    /// The moments at which the hand has moved, by the notes before and after.
    fn shifted(&self) -> impl Iterator<Item = (usize, usize)> {
        let ends = self.moments.windows(2).filter_map(|two| match two {
            [before, after] => Some((*before.last()?, *after.first()?)),
            _ => None,
        });
        ends.filter(|(before, after)| self.position(*before) != self.position(*after))
    }

    fn position(&self, index: usize) -> Option<HandPosition> {
        self.notes.get(index).map(|note| note.position)
    }

    /// Shifts for which neither an open string nor a pause gives time.
    fn hurried_shifts(&self, line: &[LineNote]) -> usize {
        let open =
            |index: usize| self.notes.get(index).is_some_and(|note| note.finger == Finger::Open);
        let onset_s = |index: usize| line.get(index).map_or(0.0, LineNote::onset_s);
        let hurried = self.shifted().filter(|(before, after)| {
            !open(*before) && !open(*after) && onset_s(*after) - onset_s(*before) < PAUSE_S
        });
        hurried.count()
    }

    fn stays_within(&self, low: HandPosition, high: HandPosition) -> bool {
        self.notes.iter().all(|note| low <= note.position && note.position <= high)
    }

    /// Does it ask as little that cannot be as `other` does?
    fn is_as_playable_as(&self, other: &Fingering) -> bool {
        self.late == other.late && self.beyond_a_hand == other.beyond_a_hand
    }

    fn has_places_of(&self, other: &Fingering) -> bool {
        self.notes.iter().map(|note| note.place).eq(other.notes.iter().map(|note| note.place))
    }
}

impl fmt::Display for Fingering {
    /// Why it is offered, and what it is like: `the easiest of all; no shift, in V, strings 4-3`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.why.fmt(f)?;
        let (Some((low, high)), Some(strings)) = (self.positions(), self.strings()) else {
            return Ok(());
        };
        match self.shifts() {
            0 => write!(f, "; no shift, in {low}")?,
            1 => write!(f, "; one shift, {low} to {high}")?,
            shifts => write!(f, "; {shifts} shifts, {low} to {high}")?,
        }
        let named = if strings.len() == 1 { "string" } else { "strings" };
        write!(f, ", {named} {strings}")?;
        match self.open_strings() {
            0 => Ok(()),
            1 => f.write_str(", one open string"),
            open => write!(f, ", {open} open strings"),
        }
    }
}

#[cfg(test)]
mod tests;
