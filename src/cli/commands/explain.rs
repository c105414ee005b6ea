//! `explain`: from a line to what it is made of.

use super::read_score::read_score;
use crate::answer::{ExplainAnswer, Refusal};
use crate::cli::args;
use crate::cli::call::Call;
use crate::cli::complain::complain;
use crate::cli::text;

impl Call<'_> {
    /// What is odd about the file is said on standard error, where the line could be read.
    pub(super) fn explain(&self, wanted: &args::Explain) -> Result<String, Refusal> {
        let score = read_score(&wanted.file, &wanted.choice, 0)?;
        let answer = ExplainAnswer::new(&score, wanted.chords.as_deref(), self.spelling())?;
        answer.remarks.iter().for_each(complain);
        Ok(self.printed(&answer, text::explain))
    }
}
