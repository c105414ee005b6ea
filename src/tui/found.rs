//! What jobs of the program find out.

use crate::answer::{ChangesAnswer, Refusal};
use crate::tui::sound::FoundSound;

/// What a job of the program has found out.
#[derive(Debug)]
#[non_exhaustive]
pub enum Found {
    /// What is to be heard.
    Sound(FoundSound),
    /// The plans of a chart.
    Plan(Box<FoundPlan>),
}

/// The plans of a chart, or why there are none.
#[derive(Debug)]
pub struct FoundPlan {
    /// Which of the charts it was asked for, counted by the screen.
    pub(in crate::tui) number: u64,
    pub(in crate::tui) answer: Result<ChangesAnswer, Refusal>,
}
