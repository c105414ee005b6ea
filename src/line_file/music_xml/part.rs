//! One part: where its reader stands, and what it has found.

use fretloom_fretboard::Pin;
use fretloom_theory::Pitch;

use super::grace::Grace;
use super::measure;
use super::ties::Ties;
use super::xml::Xml;
use crate::line_file::LineError;
use crate::line_file::tempo::{TempoChange, TempoMap};

/// A note with its time in quarter notes.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct RawNote {
    /// From the beginning; for a grace note, that of its main note.
    pub(super) from_quarter: f64,
    /// Nothing for a grace note.
    pub(super) quarters: f64,
    /// How far before its main note, if it is a grace note.
    pub(super) grace: Option<Grace>,
    pub(super) pitch: Pitch,
    pub(super) pin: Pin,
    pub(super) staff: u32,
    /// The bar as it is numbered.
    pub(super) bar: String,
    /// Which bar, counted from 0.
    pub(super) bar_index: u64,
    /// Counted from 1.
    pub(super) beat: f64,
    /// Where it stands, in bytes.
    pub(super) offset: usize,
}

impl RawNote {
    pub(super) fn onset_s(&self, tempi: &TempoMap) -> f64 {
        let main_s = tempi.seconds_at(self.from_quarter);
        self.grace.map_or(main_s, |grace| main_s - grace.before_s(main_s, tempi))
    }

    pub(super) fn duration_s(&self, tempi: &TempoMap) -> f64 {
        let main_s = tempi.seconds_at(self.from_quarter);
        match self.grace {
            Some(grace) => grace.step_s(main_s, tempi),
            None => tempi.seconds_at(self.from_quarter + self.quarters) - main_s,
        }
    }
}

/// Whether notes are kept. Those of other parts are not even looked at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Notes {
    Kept,
    PassedOver,
}

/// What was found in a part.
#[derive(Debug)]
pub(super) struct Part {
    pub(super) notes: Vec<RawNote>,
    /// The staff with a clef of tablature.
    pub(super) tablature: Option<u32>,
    pub(super) has_repeats: bool,
    pub(super) unpitched: usize,
    pub(super) cues: usize,
}

/// A part that is being read.
pub(super) struct Reading<'a> {
    pub(super) part: Part,
    pub(super) keep: Notes,
    pub(super) tempi: &'a mut Vec<TempoChange>,
    pub(super) ties: Ties,
    /// Grace notes that still wait for their main note, by index.
    pub(super) graces: Vec<usize>,
    /// How many divisions a quarter note has.
    pub(super) divisions: Option<f64>,
    /// Semitones from the written pitch to the sounding one: of every staff, and of single ones.
    pub(super) transposes: Vec<(Option<u32>, i32)>,
    /// How many quarter notes a beat is.
    pub(super) beat_quarters: f64,
    pub(super) bar: String,
    pub(super) bar_index: u64,
    /// Quarter notes from the beginning: of the bar, of what comes next, and of the furthest point
    /// that the bar has reached.
    pub(super) bar_from: f64,
    pub(super) cursor: f64,
    pub(super) furthest: f64,
    /// Where the last note or rest began that was no chord's other note.
    pub(super) last_onset: Option<f64>,
}

impl Part {
    /// Reads a part that has just been opened.
    pub(super) fn read(xml: &mut Xml<'_>, tempi: &mut Vec<TempoChange>) -> Result<Part, LineError> {
        let mut reading = Reading::new(tempi, Notes::Kept);
        reading.measures(xml)?;
        Ok(reading.part)
    }

    /// Reads past a part, keeping its tempi.
    pub(super) fn read_tempi(
        xml: &mut Xml<'_>,
        tempi: &mut Vec<TempoChange>,
    ) -> Result<(), LineError> {
        Reading::new(tempi, Notes::PassedOver).measures(xml)
    }

    /// What a player should know of how the part was read.
    pub(super) fn remarks(&self) -> Vec<String> {
        let mut remarks = Vec::new();
        if self.has_repeats {
            remarks.push("the part has repeats, which are not unfolded".to_owned());
        }
        if self.unpitched > 0 {
            remarks.push(format!("left out {} notes without a pitch", self.unpitched));
        }
        if self.cues > 0 {
            remarks.push(format!("left out {} cue notes", self.cues));
        }
        remarks
    }
}

impl<'a> Reading<'a> {
    fn new(tempi: &'a mut Vec<TempoChange>, keep: Notes) -> Reading<'a> {
        let part =
            Part { notes: Vec::new(), tablature: None, has_repeats: false, unpitched: 0, cues: 0 };
        Reading {
            part,
            keep,
            tempi,
            ties: Ties::default(),
            graces: Vec::new(),
            divisions: None,
            transposes: Vec::new(),
            beat_quarters: 1.0,
            bar: String::new(),
            bar_index: 0,
            bar_from: 0.0,
            cursor: 0.0,
            furthest: 0.0,
            last_onset: None,
        }
    }

    fn measures(&mut self, xml: &mut Xml<'_>) -> Result<(), LineError> {
        while let Some(element) = xml.next_child()? {
            if element.name == "measure" {
                measure::read(self, xml, &element)?;
            } else {
                xml.skip()?;
            }
        }
        self.settle_graces(self.cursor);
        Ok(())
    }

    /// Moves on by so many quarter notes, back where they are negative.
    pub(super) fn advance(&mut self, quarters: f64) {
        self.cursor += quarters;
        self.furthest = self.furthest.max(self.cursor);
    }

    /// Semitones from what is written on a staff to what sounds.
    pub(super) fn transposed_by(&self, staff: u32) -> i32 {
        let of_staff = self.transposes.iter().rev().find(|(of, _)| *of == Some(staff));
        let of_all = self.transposes.iter().rev().find(|(of, _)| of.is_none());
        of_staff.or(of_all).map_or(0, |(_, semitones)| *semitones)
    }
}
