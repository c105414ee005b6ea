//! Scales and their triads as text.

use super::chords::chord_lines;
use super::table::table;
use crate::answer::{ScaleAnswer, ScalesAnswer, TriadsAnswer};
use crate::words::{mode_of, spaced};

/// `scales`
pub(in crate::cli) fn scales(answer: &ScalesAnswer) -> String {
    let mut rows = Vec::new();
    for scale in &answer.scales {
        rows.push(vec![
            format!("{:>3}", scale.rank.unwrap_or_default()),
            scale.scale.to_string(),
            spaced(&scale.degrees),
            scale.why.clone(),
        ]);
    }
    let reading = answer.reading.as_ref().map(|reading| format!("  {reading}\n"));
    let reading = reading.unwrap_or_default();
    format!("{}{reading}\n{}", chord_lines(&answer.chord), table(&rows))
}

/// `triads`
pub(in crate::cli) fn triads(answer: &TriadsAnswer) -> String {
    let rows: Vec<Vec<String>> = answer
        .triads
        .iter()
        .map(|triad| {
            vec![
                format!("{:>4}", triad.degree),
                triad.name.to_string(),
                spaced(triad.notes),
                triad.quality.to_owned(),
            ]
        })
        .collect();
    format!("{}\n\n{}", scale_line(&answer.scale), table(&rows))
}

/// A scale, its notes, and where its parent lies.
pub(super) fn scale_line(scale: &ScaleAnswer) -> String {
    let mut text = format!("{}   {}", scale.scale, spaced(&scale.notes));
    if let Some(parent) = &scale.parent {
        text += &format!("   {}", mode_of(scale.mode.unwrap_or(1), &parent.on_everyday_root()));
    }
    if let Some(said) = &scale.said {
        text += &format!(", {said}");
    }
    if let Some(asked) = scale.respelled_from {
        text += &format!("   on {} instead of {asked}, to be readable", scale.root);
    }
    text
}
