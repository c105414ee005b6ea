//! A chart with its plan, and below it how that is comped: one tab for all of it.

use fretloom_fretboard::{Ease, Neck};
use fretloom_theory::{NamedPitch, Pitch};

use super::CARE;
use super::changes::changes;
use super::line::head;
use crate::answer::{CompedChanges, CompedStab, CompingAnswer, TuningAnswer};
use crate::export::text::TabText;
use crate::picture::TabLook;

/// `changes --comping`
pub(in crate::cli) fn comped_changes(
    answer: &CompedChanges,
    neck: &Neck,
    tuning: &TuningAnswer,
) -> String {
    let plan = changes(&answer.changes, tuning);
    format!("{plan}\n{}", comping(&answer.comping, neck))
}

fn comping(answer: &CompingAnswer, neck: &Neck) -> String {
    let tab = TabText::new(&answer.tab(neck), &TabLook::default());
    let systems: String = tab.systems.iter().map(|system| format!("\n{system}")).collect();
    let is_wide = answer.stabs.iter().any(|stab| stab.shape.shape.ease() != Ease::Easy);
    let care = if is_wide { format!("\n{CARE}") } else { String::new() };
    format!("{}{}{systems}\n{}{care}", told(answer), head(&tab.head), tab.legend)
}

/// `comped at frets 3 to 8, the top voice from G4 to B4`
fn told(answer: &CompingAnswer) -> String {
    let tops = || answer.stabs.iter().map(CompedStab::top);
    let name = |pitch: Option<Pitch>| pitch.map(|pitch| NamedPitch::everyday(pitch).to_string());
    let range = name(tops().min()).zip(name(tops().max()));
    let range = range.map(|(low, high)| format!(", the top voice from {low} to {high}"));
    let (first, last) = (answer.area.first(), answer.area.last());
    format!("comped at frets {first} to {last}{}\n", range.unwrap_or_default())
}
