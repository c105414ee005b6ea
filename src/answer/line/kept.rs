//! A changed line is played as before where it has not changed.

use std::collections::{BTreeMap, BTreeSet};

use fretloom_fretboard::{Neck, Pin};
use fretloom_theory::{Pitch, Quarters};

use super::answer::LineAnswer;
use super::edit::LineEdit;
use super::ground::LineGround;
use super::note::ToldNote;
use super::played::LineWay;

/// How many bars beside a changed one may be fingered anew, the fewest first.
const AROUND: [u64; 2] = [0, 1];

impl LineAnswer {
    /// The ways to play this line with changed notes. Each is as it was but for the bars in which a
    /// note has changed, or, where no hand can play that, but for those beside them too. One that
    /// cannot be kept even so is left out.
    pub(super) fn kept_ways(
        &self,
        neck: &Neck,
        ground: &LineGround,
        notes: &[ToldNote],
        pins: &[Pin],
        edits: &[LineEdit],
    ) -> Vec<LineWay> {
        let changed = self.changed_bars(notes, edits);
        let indices: BTreeMap<(Quarters, Pitch), usize> =
            self.notes.iter().enumerate().map(|(index, told)| (key(told), index)).collect();
        let kept = |way: &LineWay, around: u64| {
            let pin = |(told, own): (&ToldNote, &Pin)| {
                let bar = self.bar_of(told.note.onset);
                let is_near = changed.iter().any(|changed| changed.abs_diff(bar) <= around);
                let before = indices.get(&key(told)).filter(|_| !is_near);
                let place = before.and_then(|index| way.way.notes.get(*index)).map(|at| at.place);
                let at = |place: fretloom_fretboard::Place| Pin {
                    string: Some(place.string),
                    fret: Some(place.fret),
                };
                place.map_or(*own, at)
            };
            let pins: Vec<Pin> = notes.iter().zip(pins).map(pin).collect();
            LineWay::as_before(neck, &self.question, ground, notes, &pins)
        };
        let first = |way| AROUND.into_iter().find_map(|around| kept(way, around));
        self.ways.iter().filter_map(first).collect()
    }

    /// The bars in which other notes are played than before, or on strings that are asked for.
    fn changed_bars(&self, notes: &[ToldNote], edits: &[LineEdit]) -> BTreeSet<u64> {
        let keys = |notes: &[ToldNote]| notes.iter().map(key).collect::<BTreeSet<_>>();
        let (before, now) = (keys(&self.notes), keys(notes));
        let others = before.symmetric_difference(&now).map(|(onset, _)| *onset);
        let settled = edits.iter().filter_map(|edit| match edit {
            LineEdit::String(at, _) => Some(at.onset),
            LineEdit::Note(_) | LineEdit::Slur(_) => None,
        });
        others.chain(settled).map(|onset| self.bar_of(onset)).collect()
    }

    fn bar_of(&self, onset: Quarters) -> u64 {
        self.question.chords.bars().at(onset).map_or(0, |at| at.index)
    }
}

fn key(told: &ToldNote) -> (Quarters, Pitch) {
    (told.note.onset, told.note.pitch)
}
