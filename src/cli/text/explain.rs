//! What a line does, bar by bar.

use fretloom_theory::{ExplainedBar, Explanation, Spelling};

use crate::answer::ExplainAnswer;
use crate::words::wrapped;

/// How wide the sentences are at most.
const COLUMNS: usize = 80;

/// `explain`
pub(in crate::cli) fn explain(answer: &ExplainAnswer) -> String {
    told(&answer.explanation, answer.spelling)
}

/// A sentence for each bar, or for each chord of a bar, after the number of the bar.
pub(super) fn told(explanation: &Explanation, spelling: Spelling) -> String {
    let bars = &explanation.bars;
    let labels: Vec<String> = bars.iter().map(|bar| bar.label.to_string()).collect();
    let width = labels.iter().map(|label| label.chars().count()).max().unwrap_or_default();
    let said = |(bar, label): (&ExplainedBar, &String)| {
        let said = wrapped(&bar.why(spelling).to_string(), COLUMNS.saturating_sub(width + 2));
        let gap = " ".repeat(width + 2);
        format!("{label:>width$}  {}\n", said.join(&format!("\n{gap}")))
    };
    bars.iter().zip(&labels).map(said).collect()
}
