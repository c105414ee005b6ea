//! A line with its fingering.

use std::fmt;

use super::condition::FingeringCondition;
use super::fingered_note::FingeredNote;
use super::hurry::PAUSE_S;
use super::line_note::LineNote;
use super::onset::Onset;
use crate::{Ease, Finger, Hand, HandPosition, Neck, StringSet};

/// A line as it is played: each note with its place, its finger, and where the hand is.
#[derive(Clone, PartialEq, Debug)]
pub struct Fingering {
    notes: Vec<FingeredNote>,
    /// Indices of notes by the onset they are played at.
    onsets: Vec<Vec<usize>>,
    late: Vec<usize>,
    /// Notes that sound together and are more than one hand can hold, by their indices in the line.
    /// Recordings have such things: a bend, a strum, the other hand.
    beyond_a_hand: Vec<usize>,
    cost: f64,
    condition: FingeringCondition,
}

impl Fingering {
    /// The fingering that takes choice `path[i]` at onset `i`.
    pub(super) fn new(
        onsets: &[Onset],
        path: &[usize],
        cost: f64,
        condition: FingeringCondition,
    ) -> Fingering {
        let mut notes: Vec<(usize, FingeredNote)> = Vec::new();
        for (onset, choice) in onsets.iter().zip(path) {
            let fingered = onset.choices.notes(*choice).iter().copied();
            notes.extend(onset.notes.iter().copied().zip(fingered));
        }
        notes.sort_unstable_by_key(|(index, _)| *index);
        let those = |which: fn(&Onset) -> bool| {
            let onsets = onsets.iter().filter(|onset| which(onset));
            onsets.flat_map(|onset| onset.notes.iter().copied()).collect()
        };
        Fingering {
            notes: notes.into_iter().map(|(_, note)| note).collect(),
            late: those(|onset| onset.is_late),
            beyond_a_hand: those(|onset| onset.choices.is_beyond_a_hand()),
            onsets: onsets.iter().map(|onset| onset.notes.clone()).collect(),
            cost,
            condition,
        }
    }

    /// The same fingering as the best under a condition.
    pub(super) fn under(self, condition: FingeringCondition) -> Fingering {
        Fingering { condition, ..self }
    }

    pub(super) fn at_cost(self, cost: f64) -> Fingering {
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
    pub const fn condition(&self) -> FingeringCondition {
        self.condition
    }

    /// Notes that begin with others, yet had to be put after them: there was no string left for
    /// them. By their indices in the line.
    #[must_use]
    pub fn late(&self) -> &[usize] {
        &self.late
    }

    /// How often the hand changes its position.
    #[must_use]
    pub(crate) fn shifts(&self) -> usize {
        self.shifted().count()
    }

    /// How many notes are open strings.
    #[must_use]
    pub(crate) fn open_strings(&self) -> usize {
        self.notes.iter().filter(|note| note.finger == Finger::Open).count()
    }

    /// The strings it uses; `None` for a line without notes.
    #[must_use]
    pub(crate) fn strings(&self) -> Option<StringSet> {
        StringSet::of(self.notes.iter().map(|note| note.place.string))
    }

    /// The lowest and the highest position of the hand; `None` for a line without notes.
    #[must_use]
    pub(crate) fn positions(&self) -> Option<(HandPosition, HandPosition)> {
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

    /// The onsets before which the hand moves: the note before and the first note after.
    fn shifted(&self) -> impl Iterator<Item = (usize, usize)> {
        let ends = self.onsets.windows(2).filter_map(|two| match two {
            [before, after] => Some((*before.last()?, *after.first()?)),
            _ => None,
        });
        ends.filter(|(before, after)| self.position(*before) != self.position(*after))
    }

    fn position(&self, index: usize) -> Option<HandPosition> {
        self.notes.get(index).map(|note| note.position)
    }

    /// Shifts for which neither an open string nor a pause gives time.
    pub(super) fn hurried_shifts(&self, line: &[LineNote]) -> usize {
        let open =
            |index: usize| self.notes.get(index).is_some_and(|note| note.finger == Finger::Open);
        let onset_s = |index: usize| line.get(index).map_or(0.0, LineNote::onset_s);
        let hurried = self.shifted().filter(|(before, after)| {
            !open(*before) && !open(*after) && onset_s(*after) - onset_s(*before) < PAUSE_S
        });
        hurried.count()
    }

    pub(super) fn stays_within(&self, low: HandPosition, high: HandPosition) -> bool {
        self.notes.iter().all(|note| low <= note.position && note.position <= high)
    }

    /// Does it ask as little that cannot be as `other` does?
    pub(super) fn is_as_playable_as(&self, other: &Fingering) -> bool {
        self.late == other.late && self.beyond_a_hand == other.beyond_a_hand
    }

    pub(super) fn has_places_of(&self, other: &Fingering) -> bool {
        self.notes.iter().map(|note| note.place).eq(other.notes.iter().map(|note| note.place))
    }
}

impl fmt::Display for Fingering {
    /// Why it is offered, and what it is like: `the easiest of all; no shift, in V, strings 4-3`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.condition.fmt(f)?;
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
