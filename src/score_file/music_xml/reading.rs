//! Where the reader of a part stands, and what it has found.

use std::collections::BTreeMap;

use fretloom_theory::{Bar, ChordSymbol, KeySignature, Meter, Quarters};

use super::graces::Graces;
use super::marks::Marks;
use super::raw_note::RawNote;
use super::staff_tuning::StaffTuning;
use super::tempo_change::TempoChange;
use super::time::Time;
use super::transposition::Transposition;
use super::unfolding::Measure;
use super::voices::Voices;
use crate::score_file::offer::Tally;

/// Whether notes are kept. Those of other parts are counted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Notes {
    Kept,
    Counted,
}

/// What was found in a part.
#[derive(Default, Debug)]
pub(super) struct Found {
    pub(super) notes: Vec<RawNote>,
    pub(super) bars: Vec<Bar>,
    pub(super) keys: Vec<(Quarters, KeySignature)>,
    pub(super) chords: Vec<(Quarters, ChordSymbol)>,
    /// When the last bar ends.
    pub(super) end: Quarters,
    /// The staff with a clef of tablature.
    pub(super) tablature: Option<u32>,
    /// When each measure begins, those without length too.
    pub(super) measures: Vec<Measure>,
    /// What sends the player elsewhere, by measure, counted from 0.
    pub(super) marks: BTreeMap<u64, Marks>,
    /// How staves are tuned.
    pub(super) tunings: BTreeMap<u32, StaffTuning>,
    /// The notes of each staff, where they are only counted.
    pub(super) tally: BTreeMap<u32, Tally>,
    pub(super) unpitched: usize,
    pub(super) cues: usize,
}

/// A part that is being read. Moments are counted from the beginning.
pub(super) struct Reading<'a> {
    pub(super) found: Found,
    pub(super) notes: Notes,
    /// Of all parts, in the order in which they were read.
    pub(super) tempi: &'a mut Vec<TempoChange>,
    pub(super) graces: Graces,
    pub(super) voices: Voices,
    /// How many divisions a quarter note has.
    pub(super) divisions: Option<f64>,
    /// From what is written to what sounds: of every staff, and of single ones.
    pub(super) transpositions: BTreeMap<Option<u32>, Transposition>,
    pub(super) meter: Meter,
    /// What the measure has shown so far.
    pub(super) marks: Marks,
    /// The bar as it is numbered.
    pub(super) bar: String,
    /// Which bar, counted from 0.
    pub(super) bar_index: u64,
    /// When the bar began.
    pub(super) bar_from: Time,
    /// When what comes next begins.
    pub(super) cursor: Time,
    /// The furthest moment that the bar has reached.
    pub(super) furthest: Time,
    /// When the last note or rest began that was no chord's other note.
    pub(super) last_onset: Option<Time>,
}

impl<'a> Reading<'a> {
    pub(super) fn new(tempi: &'a mut Vec<TempoChange>, notes: Notes) -> Reading<'a> {
        Reading {
            found: Found::default(),
            notes,
            tempi,
            graces: Graces::default(),
            voices: Voices::default(),
            divisions: None,
            transpositions: BTreeMap::new(),
            meter: Meter::COMMON,
            marks: Marks::default(),
            bar: String::new(),
            bar_index: 0,
            bar_from: Time::ZERO,
            cursor: Time::ZERO,
            furthest: Time::ZERO,
            last_onset: None,
        }
    }

    /// Moves on.
    pub(super) fn advance(&mut self, length: Time) {
        self.cursor = self.cursor.plus(length);
        self.furthest = self.furthest.max(self.cursor);
    }

    /// Moves back, not beyond the beginning of the bar.
    pub(super) fn back_up(&mut self, length: Time) {
        self.cursor = self.cursor.minus(length).max(self.bar_from);
    }

    /// Gives the grace notes that wait their place before what begins now.
    pub(super) fn settle_graces(&mut self) {
        let main = self.cursor;
        let after = self.last_onset.filter(|onset| *onset < main);
        for (index, grace) in self.graces.settle(after) {
            if let Some(note) = self.found.notes.get_mut(index) {
                (note.from, note.grace) = (main, grace);
            }
        }
    }

    /// From what is written on a staff to what sounds.
    pub(super) fn transposition(&self, staff: u32) -> Transposition {
        let of_staff = self.transpositions.get(&Some(staff));
        let of_all = self.transpositions.get(&None);
        of_staff.or(of_all).copied().unwrap_or_default()
    }
}
