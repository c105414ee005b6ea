//! A line with its fingering.

use std::fmt;

use super::broken_chord::BrokenChord;
use super::condition::FingeringCondition;
use super::fingered_note::FingeredNote;
use super::hurry::Hurry;
use super::onset::Onset;
use crate::{Ease, Finger, Hand, HandPosition, Neck, StringSet};

/// A line as it is played: each note with its place, its finger, and where the hand is.
#[derive(Clone, PartialEq, Debug)]
pub struct Fingering {
    notes: Vec<FingeredNote>,
    /// By note, at which of the onsets it is played.
    moments: Vec<u32>,
    broken_chords: Vec<BrokenChord>,
    shifts: Shifts,
    cost: f64,
    condition: FingeringCondition,
}

impl Fingering {
    /// The same, told as what it was before a change: its places were settled by who asked for it.
    ///
    /// ```
    /// use fretloom_fretboard::{FingeringCondition, FingeringQuery, LineNote, Neck, Tuning};
    /// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
    /// let line = [LineNote::new(0.0, 0.25, "F3".parse::<fretloom_theory::NamedPitch>().unwrap().pitch())];
    /// let line: Vec<LineNote> = line.into_iter().flatten().collect();
    /// let fingering = FingeringQuery::default().best(&neck, &line).unwrap().as_before();
    /// assert_eq!(fingering.condition(), FingeringCondition::AsBefore);
    /// ```
    #[must_use]
    pub fn as_before(self) -> Fingering {
        Fingering { condition: FingeringCondition::AsBefore, ..self }
    }

    /// The fingering that takes choice `path[i]` at onset `i`.
    pub(super) fn new(
        onsets: &[Onset],
        path: &[usize],
        cost: f64,
        condition: FingeringCondition,
    ) -> Fingering {
        let mut notes: Vec<(usize, u32, FingeredNote)> = Vec::new();
        for ((onset, choice), moment) in onsets.iter().zip(path).zip(0..) {
            let fingered = onset.choices.notes(*choice).iter();
            let held = onset.notes.iter().zip(fingered);
            notes.extend(held.map(|(index, note)| (*index, moment, *note)));
        }
        notes.sort_unstable_by_key(|(index, ..)| *index);
        Fingering {
            moments: notes.iter().map(|(_, moment, _)| *moment).collect(),
            notes: notes.into_iter().map(|(.., note)| note).collect(),
            broken_chords: broken_chords(onsets),
            shifts: Shifts::of(onsets, path),
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

    /// At which moment of the line a note is played, counted from 0: those of one moment sound
    /// together. Of a [broken chord](Fingering::broken_chords) each group has its own.
    #[must_use]
    pub fn moment(&self, note: usize) -> Option<usize> {
        self.moments.get(note).map(|moment| *moment as usize)
    }

    /// The chords that no hand plays at once, in the order of time.
    #[must_use]
    pub fn broken_chords(&self) -> &[BrokenChord] {
        &self.broken_chords
    }

    /// How often the hand changes its position.
    #[must_use]
    pub(crate) fn shifts(&self) -> usize {
        self.shifts.all
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

    /// Shifts for which neither an open string nor a pause gives time.
    pub(super) fn hurried_shifts(&self) -> usize {
        self.shifts.hurried
    }

    pub(super) fn stays_within(&self, low: HandPosition, high: HandPosition) -> bool {
        self.notes.iter().all(|note| low <= note.position && note.position <= high)
    }

    /// Does it ask as little that cannot be as `other` does?
    pub(super) fn is_as_playable_as(&self, other: &Fingering) -> bool {
        self.broken_chords == other.broken_chords
    }

    pub(super) fn has_places_of(&self, other: &Fingering) -> bool {
        self.notes.iter().map(|note| note.place).eq(other.notes.iter().map(|note| note.place))
    }
}

/// How often the hand changes its position.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
struct Shifts {
    all: usize,
    /// Those for which neither an open string nor a pause gives time.
    hurried: usize,
}

impl Shifts {
    /// Those from onset to onset on a path.
    fn of(onsets: &[Onset], path: &[usize]) -> Shifts {
        let mut shifts = Shifts::default();
        let held = onsets.iter().zip(path);
        for ((here, from), (next, to)) in held.clone().zip(held.skip(1)) {
            let (from, to) = (here.choices.notes(*from).last(), next.choices.notes(*to).first());
            let Some((from, to)) = from.zip(to).filter(|(a, b)| a.position != b.position) else {
                continue;
            };
            let is_open = from.finger == Finger::Open || to.finger == Finger::Open;
            let has_time = is_open || Hurry::within_s(next.at_s - here.at_s).is_a_pause();
            shifts.all += 1;
            shifts.hurried += usize::from(!has_time);
        }
        shifts
    }
}

fn broken_chords(onsets: &[Onset]) -> Vec<BrokenChord> {
    let mut chords: Vec<BrokenChord> = Vec::new();
    let mut last_is_broken = false;
    for (index, onset) in onsets.iter().enumerate() {
        match (onset.broken_by, chords.last_mut()) {
            (Some(_), Some(chord)) if last_is_broken => chord.groups.push(onset.notes.clone()),
            (Some(by), _) => {
                let begun = index.checked_sub(1).map(|before| onsets[before].notes.clone());
                let groups = begun.into_iter().chain([onset.notes.clone()]).collect();
                chords.push(BrokenChord { groups, by });
            }
            (None, _) => {}
        }
        last_is_broken = onset.broken_by.is_some();
    }
    chords
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
