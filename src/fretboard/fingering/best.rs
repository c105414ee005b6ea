//! The cheapest fingering of a line.

use super::condition::FingeringCondition;
use super::cost::{Avoid, Cost};
use super::error::FingeringError;
use super::fingered_line::Fingering;
use super::fingered_note::FingeredNote;
use super::line_note::LineNote;
use super::onset::{Onset, Onsets};
use super::query::FingeringQuery;
use super::search::{CostToGo, total};
use crate::Neck;

impl FingeringQuery {
    /// The cheapest fingering. The same line always gets the same one.
    ///
    /// Time and memory grow with the length of the line and no faster.
    ///
    /// # Errors
    ///
    /// Where notes have no place: all of them are named.
    pub fn best(&self, neck: &Neck, line: &[LineNote]) -> Result<Fingering, FingeringError> {
        self.solve(neck, line, |_, to_go| {
            to_go.fingering(&to_go.best(), FingeringCondition::Easiest)
        })
    }

    /// What a fingering of `line` costs by this query's cost, whoever made it; `None` where it is
    /// none: another number of notes, a note that does not sound there, two on one string at once,
    /// a finger that cannot be there.
    #[must_use]
    pub(crate) fn cost_of(
        &self,
        neck: &Neck,
        line: &[LineNote],
        notes: &[FingeredNote],
    ) -> Option<f64> {
        let cost = Cost::new(neck, self, Avoid::Nothing, line);
        let onsets = Onsets { neck, query: self, cost: &cost }.of(line).ok()?;
        let path: Vec<usize> =
            onsets.iter().map(|onset| onset.choice_of(notes)).collect::<Option<_>>()?;
        (notes.len() == line.len()).then(|| total(&onsets, &cost, &path))
    }

    /// The best without what is to be avoided, at its ordinary cost.
    pub(super) fn best_without(
        &self,
        neck: &Neck,
        line: &[LineNote],
        avoid: Avoid,
    ) -> Result<Fingering, FingeringError> {
        let dear = Cost::new(neck, self, avoid, line);
        let ordinary = Cost::new(neck, self, Avoid::Nothing, line);
        let onsets = Onsets { neck, query: self, cost: &ordinary }.of(line)?;
        let path = CostToGo::new(&onsets, &dear).best();
        let cost = total(&onsets, &ordinary, &path);
        Ok(Fingering::new(&onsets, &path, cost, FingeringCondition::Easiest))
    }

    /// Answers with the onsets of a line and the exact costs to go from them.
    pub(super) fn solve<T>(
        &self,
        neck: &Neck,
        line: &[LineNote],
        answer: impl FnOnce(&[Onset], &CostToGo<'_>) -> T,
    ) -> Result<T, FingeringError> {
        let cost = Cost::new(neck, self, Avoid::Nothing, line);
        let onsets = Onsets { neck, query: self, cost: &cost }.of(line)?;
        let to_go = CostToGo::new(&onsets, &cost);
        Ok(answer(&onsets, &to_go))
    }
}
