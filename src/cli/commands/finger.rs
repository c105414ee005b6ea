//! `finger`: from a file to the ways to play what it holds.

use super::read_score::read_score;
use crate::answer::{FingerAnswer, FingerQuestion, Refusal};
use crate::cli::args;
use crate::cli::call::Call;
use crate::cli::complain::complain;
use crate::cli::queries::fingering_query;
use crate::cli::text;
use crate::score_file::ReadScore;

impl Call<'_> {
    /// What is odd about the file is said on standard error, where the line could be played.
    pub(super) fn finger(&self, wanted: &args::Finger) -> Result<String, Refusal> {
        let (neck, tuning, frets) = self.neck_within(wanted.where_to.frets.as_deref())?;
        let query = fingering_query(wanted, frets)?;
        let score = score(wanted)?;
        let question = FingerQuestion { query, count: wanted.ways.into() };
        let answer = FingerAnswer::new(&neck, tuning, &score, &question)?;
        score.remarks().iter().for_each(complain);
        Ok(self.printed(&answer, |answer| text::finger(answer, neck.tuning(), &score)))
    }
}

/// The score that is asked about.
fn score(wanted: &args::Finger) -> Result<ReadScore, Refusal> {
    let choice = wanted.choice.choice();
    let score = read_score(&wanted.file, &choice)?;
    Ok(if wanted.no_pins { score.without_pins() } else { score })
}
