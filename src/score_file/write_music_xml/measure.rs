//! Measures.

use fretloom_theory::{Bar, KeySignature, Meter, Quarters};

use super::attributes::{self, Attributes};
use super::marks::Mark;
use super::note::{Notes, Spot};
use super::staves::Staff;
use super::xml::Xml;
use crate::score_file::notation::{Accidentals, Beats, Piece, Struck, of_bar};
use crate::score_file::written_score::WrittenScore;

/// What the measures are written from.
pub(super) struct Measures<'a> {
    pub(super) written: &'a WrittenScore,
    pub(super) bars: &'a [Bar],
    pub(super) notes: &'a Notes<'a>,
    pub(super) struck: &'a [Struck],
    /// The pieces of each bar, voice by voice.
    pub(super) voices: &'a [Vec<Vec<Piece>>],
    pub(super) marks: &'a [Mark<'a>],
}

impl Measures<'_> {
    pub(super) fn write(&self, xml: &mut Xml) {
        let mut marks = self.marks;
        let mut before: Option<Held> = None;
        for (index, bar) in self.bars.iter().enumerate() {
            let end = bar.from.checked_add(bar.length).unwrap_or(bar.from);
            let (own, later) = marks.split_at(marks.partition_point(|mark| mark.at < end));
            let held = Held::at(self.written, bar);
            let implicit = if bar.missing.is_zero() { "no" } else { "yes" };
            let number = bar.label.to_string();
            xml.element("measure", &[("implicit", implicit), ("number", &number)], |xml| {
                self.attributes(xml, index, &held.since(before));
                self.staves(xml, index, bar, own, held.key);
                self.bar_line(xml, index, end);
            });
            (marks, before) = (later, Some(held));
        }
    }

    fn attributes(&self, xml: &mut Xml, index: usize, changes: &Attributes) {
        let Notes { divisions, staves, .. } = self.notes;
        if index == 0 {
            let divisions = divisions.of_quarter();
            attributes::first(xml, changes, divisions, *staves, &self.written.tuning);
        } else {
            attributes::later(xml, changes);
        }
    }

    fn staves(
        &self,
        xml: &mut Xml,
        index: usize,
        bar: &Bar,
        marks: &[Mark<'_>],
        key: KeySignature,
    ) {
        for (staff, of_staff) in self.notes.staves.all().iter().zip(0..) {
            let mut accidentals = Accidentals::of_bar(key);
            for (voice, pieces) in self.voices.iter().enumerate() {
                let pieces = pieces.get(index).map_or(&[][..], Vec::as_slice);
                let is_first = voice == 0;
                if !is_first && pieces.iter().all(|piece| piece.struck.is_none()) {
                    continue;
                }
                let leads = is_first && *staff == Staff::Notes;
                if !leads {
                    xml.element("backup", &[], |xml| {
                        xml.leaf("duration", &self.notes.divisions.count(bar.length));
                    });
                }
                let beams = match staff {
                    Staff::Notes => of_bar(pieces, &Beats::of(bar)),
                    Staff::Tab => Vec::new(),
                };
                // Programs count four voices a staff.
                let number = of_staff * self.voices.len().max(4) + voice + 1;
                for (index, piece) in pieces.iter().enumerate() {
                    if leads {
                        self.marks(xml, piece, marks);
                    }
                    let beams = beams.get(index).map_or(&[][..], Vec::as_slice);
                    let spot = Spot { staff: *staff, voice: number, beams };
                    self.piece(xml, piece, spot, &mut accidentals);
                }
            }
        }
    }

    fn piece(&self, xml: &mut Xml, piece: &Piece, spot: Spot<'_>, accidentals: &mut Accidentals) {
        match piece.struck.and_then(|index| self.struck.get(index)) {
            Some(struck) => self.notes.chord(xml, piece, struck, spot, accidentals),
            None => self.notes.rest(xml, piece, spot),
        }
    }

    /// What stands over a piece.
    fn marks(&self, xml: &mut Xml, piece: &Piece, marks: &[Mark<'_>]) {
        let end = piece.end();
        for mark in marks.iter().filter(|mark| piece.from <= mark.at && mark.at < end) {
            let after = mark.at.checked_sub(piece.from).unwrap_or_default();
            mark.write(xml, self.notes.divisions.count(after));
        }
    }

    /// A double bar before a section, and the end.
    fn bar_line(&self, xml: &mut Xml, index: usize, end: Quarters) {
        let is_last = index + 1 == self.bars.len();
        let mut sections = self.written.sections.changes().iter();
        let style = match sections.any(|(from, _)| *from == end) {
            _ if is_last => "light-heavy",
            true => "light-light",
            false => return,
        };
        xml.element("barline", &[("location", "right")], |xml| xml.leaf("bar-style", style));
    }
}

/// What holds in a bar.
#[derive(Clone, Copy)]
struct Held {
    key: KeySignature,
    meter: Meter,
}

impl Held {
    fn at(written: &WrittenScore, bar: &Bar) -> Held {
        let key = written.score.keys.at(bar.from).copied();
        Held { key: key.unwrap_or(KeySignature::NONE), meter: bar.meter }
    }

    /// What is new; all of it in the first bar.
    fn since(self, before: Option<Held>) -> Attributes {
        Attributes {
            key: Some(self.key).filter(|key| before.is_none_or(|before| before.key != *key)),
            meter: Some(self.meter)
                .filter(|meter| before.is_none_or(|before| before.meter != *meter)),
        }
    }
}
