//! The patterns that there are.

use fretloom_theory::Stroke;

use super::table::{row, table};
use crate::answer::{PatternAnswer, PatternsAnswer};
use crate::library::Source;

/// `patterns`
pub(in crate::cli) fn patterns(answer: &PatternsAnswer) -> String {
    let head = row(["id", "figures", "strokes", "long", "bars", "name"]);
    let rows = answer.patterns.iter().map(pattern);
    let rows: Vec<Vec<String>> = std::iter::once(head).chain(rows).collect();
    table(&rows) + LEGEND
}

const LEGEND: &str = "
Figures count a triad's notes upward from the lowest of the inversion in hand;
groups take turns between the two triads. In 4/4, so many eighths are one round,
and after so many bars it begins on beat 1 with the same triad again.
";

fn pattern(answer: &PatternAnswer) -> Vec<String> {
    let pattern = &answer.pattern;
    let bars = answer.comes_round.map_or("never".to_owned(), |round| round.bars.to_string());
    let name = match &pattern.source {
        Source::BuiltIn => pattern.name.clone(),
        Source::File(_) => format!("{} ({})", pattern.name, pattern.source),
    };
    vec![
        pattern.id.clone(),
        pattern.figures.to_string(),
        answer.strokes.iter().map(|stroke| sign(*stroke)).collect(),
        pattern.figures.length().to_string(),
        bars,
        name,
    ]
}

const fn sign(stroke: Option<Stroke>) -> char {
    match stroke {
        Some(Stroke::Down) => '⊓',
        Some(Stroke::Up) => 'V',
        None => '-',
    }
}
