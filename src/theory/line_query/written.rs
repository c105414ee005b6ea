//! Phrases as a player writes them.

use super::{LineQuery, WrittenPhrase};
use crate::line::Phrase;

impl LineQuery {
    /// The written phrases in order of time.
    pub(super) fn written_phrases(&self) -> Vec<Phrase> {
        let phrase = |(index, written)| self.as_written(index, written);
        self.written.iter().enumerate().filter_map(phrase).collect()
    }

    fn as_written(&self, index: usize, written: &WrittenPhrase) -> Option<Phrase> {
        let chord = self.chord_at(written.from)?;
        let next = self.written.get(index + 1).map(|next| next.from);
        let aimed_at = written.target.map(|target| target.at);
        let end = written.to.or(next);
        // The pattern goes on until the target, which is held until the end.
        let to = match (aimed_at, end) {
            (Some(at), Some(end)) if written.to.is_some() => at.min(end),
            (Some(at), _) => at,
            (None, end) => end.unwrap_or(self.end),
        };
        let held = end.and_then(|end| end.checked_sub(aimed_at?)).filter(|held| !held.is_zero());
        let length = |at| held.unwrap_or_else(|| self.rest_of_the_bar(at));
        let usual = self.phrase(chord, written.from, to);
        let pattern = written.pattern.clone().unwrap_or(usual.pattern.clone());
        let pattern = if written.is_wide { pattern.wide() } else { pattern };
        let target = written.target.map(|target| self.target(&target, length(target.at), &pattern));
        Some(Phrase {
            pair: written.pair.unwrap_or(chord.pair),
            rhythm: written.rhythm.clone().unwrap_or(usual.rhythm.clone()),
            travel: written.travel.unwrap_or(usual.travel),
            start: written.start.unwrap_or(self.start_of(index)),
            begin: written.begin,
            ending: written.ending.unwrap_or(self.ending()),
            notes: written.notes.clone(),
            reach: written.reach,
            pattern,
            target,
            ..usual
        })
    }
}
