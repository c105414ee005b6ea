//! Where a line rests because nothing is to be played.

use super::{ChordStretch, LineQuery};
use crate::line::{Phrase, Start};
use crate::time::Quarters;

impl LineQuery {
    /// The phrases of the line from rest to rest: each part is made as a line of its own, and begins
    /// near to where the one before ended.
    pub(super) fn between_rests(&self, phrases: impl Fn(&LineQuery) -> Vec<Phrase>) -> Vec<Phrase> {
        let mut all: Vec<Phrase> = Vec::new();
        for part in self.parts() {
            let start = if all.is_empty() { self.start } else { Some(Start::FromBefore) };
            all.extend(phrases(&LineQuery { start, ..part }));
        }
        all
    }

    fn parts(&self) -> Vec<LineQuery> {
        let begins = self.chords.first().map_or(Quarters::ZERO, |first| first.from);
        let froms = [begins].into_iter().chain(self.rests.iter().map(|rest| rest.to.max(begins)));
        let untils = self.rests.iter().map(|rest| rest.from).chain([self.end]);
        let spans = froms.zip(untils).filter(|(from, until)| from < until);
        spans.map(|(from, until)| self.between(from, until)).collect()
    }

    fn between(&self, from: Quarters, until: Quarters) -> LineQuery {
        let first = self.chord_at(from).map(|chord| ChordStretch { from, ..chord.clone() });
        let within = |chord: &&ChordStretch| from < chord.from && chord.from < until;
        let others = self.chords.iter().filter(within).cloned();
        let is_reached = |at: Quarters| from < at && (at < until || until == self.end);
        let targets = self.targets.iter().filter(|target| is_reached(target.at)).copied();
        LineQuery {
            chords: first.into_iter().chain(others).collect(),
            end: until,
            targets: targets.collect(),
            rests: Vec::new(),
            ..self.clone()
        }
    }
}
