//! Phrases as a player writes them.

use super::{ChordStretch, LineQuery, WrittenPhrase};
use crate::line::{Phrase, Start};
use crate::time::Quarters;

impl LineQuery {
    /// The written phrases in order of time.
    pub(super) fn written_phrases(&self) -> Vec<Phrase> {
        let next = |index: usize| self.written.get(index + 1).map(|next| next.from);
        let phrase = |(index, written): (usize, &WrittenPhrase)| {
            let chord = self.chord_at(written.from)?;
            Some(self.as_written(written, chord, next(index), index == 0))
        };
        self.written.iter().enumerate().filter_map(phrase).collect()
    }

    fn as_written(
        &self,
        written: &WrittenPhrase,
        chord: &ChordStretch,
        next: Option<Quarters>,
        is_first: bool,
    ) -> Phrase {
        let aimed_at = written.target.map(|target| target.at);
        let end = next.unwrap_or(self.end);
        let to = written.to.or(aimed_at).unwrap_or(end);
        let usual = self.phrase(chord, written.from, to);
        let first = self.start.filter(|_| is_first).unwrap_or(Start::FromBefore);
        // A target is held until the next phrase, else to the end of its bar.
        let held = next.and_then(|next| next.checked_sub(aimed_at?)).filter(|held| !held.is_zero());
        let length = |at| held.unwrap_or_else(|| self.rest_of_the_bar(at));
        Phrase {
            pair: written.pair.unwrap_or(chord.pair),
            pattern: written.pattern.clone().unwrap_or(usual.pattern.clone()),
            rhythm: written.rhythm.clone().unwrap_or(usual.rhythm.clone()),
            travel: written.travel.unwrap_or(usual.travel),
            start: written.start.unwrap_or(first),
            target: written.target.map(|target| self.target(&target, length(target.at))),
            notes: written.notes.clone(),
            ..usual
        }
    }
}
