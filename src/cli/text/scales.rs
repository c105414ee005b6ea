//! Scales and their triads as text.

use fretloom_theory::parent_in_words;

use super::chords::chord_lines;
use super::table::table;
use crate::answer::{ChosenScale, ScaleTriad, ScalesAnswer, TriadsAnswer};
use crate::words::{mode_of, spaced};

/// `scales`
pub(in crate::cli) fn scales(answer: &ScalesAnswer) -> String {
    let row = |(chosen, rank): (&ChosenScale, usize)| {
        vec![
            format!("{rank:>3}"),
            chosen.scale().to_string(),
            spaced(chosen.degrees()),
            chosen.why().map(ToString::to_string).unwrap_or_default(),
        ]
    };
    let rows: Vec<Vec<String>> = answer.scales.iter().zip(1..).map(row).collect();
    let reading = answer.reading.as_ref().map(|reading| format!("  {reading}\n"));
    let reading = reading.unwrap_or_default();
    format!("{}{reading}\n{}", chord_lines(&answer.chord), table(&rows))
}

/// `triads`
pub(in crate::cli) fn triads(answer: &TriadsAnswer) -> String {
    let row = |ScaleTriad { degree, triad, .. }: &ScaleTriad| {
        vec![
            format!("{degree:>4}"),
            triad.to_string(),
            spaced(triad.notes()),
            triad.quality().word().to_owned(),
        ]
    };
    let rows: Vec<Vec<String>> = answer.triads.iter().map(row).collect();
    format!("{}\n\n{}", scale_line(&answer.scale), table(&rows))
}

/// A scale, its notes, and where its parent lies.
pub(super) fn scale_line(chosen: &ChosenScale) -> String {
    let scale = chosen.scale();
    let mut text = format!("{scale}   {}", spaced(scale.notes()));
    if let Some(parent) = scale.parent() {
        text += &format!("   {}", mode_of(parent.mode, &parent.on_everyday_root()));
    }
    if let Some(said) = parent_in_words(scale) {
        text += &format!(", {said}");
    }
    if let Some(asked) = scale.respelled_from() {
        text += &format!("   on {} instead of {asked}, to be readable", scale.root());
    }
    text
}
