//! The ways to play a line, each with its tablature.

use fretloom_fretboard::Tuning;

use super::{CARE, tuning_line};
use crate::answer::{FingerAnswer, WayAnswer};
use crate::export;
use crate::score_file::ReadScore;

/// The ways as text, each with its tablature.
pub(in crate::cli) fn finger(answer: &FingerAnswer, tuning: &Tuning, score: &ReadScore) -> String {
    let mut text = tuning_line(&answer.tuning);
    if !tuning.capo().is_none() {
        text += &format!("{}: frets and positions count from it\n", tuning.capo());
    }
    if !score.has_written_bars() {
        text += &format!("a bar line every {} seconds\n", ReadScore::BAR_S);
    }
    for (way, number) in answer.ways.iter().zip(1..) {
        text += &format!("\n{}\n{}", head(way, number), export::text::tab(&way.tab(tuning, score)));
    }
    for (index, remark) in answer.remarks.iter().enumerate() {
        let gap = if index == 0 { "\n" } else { "" };
        text += &format!("{gap}{remark}\n");
    }
    if answer.ways.iter().any(|way| way.is_wide) {
        text += &format!("\n{CARE}");
    }
    text
}

fn head(way: &WayAnswer, number: usize) -> String {
    format!("{number}  cost {}   {}\n", way.cost(), way.fingering)
}
