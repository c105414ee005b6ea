//! The ways to play a line, each with its tablature.

use fretloom_fretboard::Tuning;

use super::{CARE, tuning_line};
use crate::answer::{FingerAnswer, WayAnswer};
use crate::export::text::{Legend, TabHead, TabText};
use crate::picture::TabLook;
use crate::score_file::ReadScore;

/// The ways as text, each with its tablature.
pub(in crate::cli) fn finger(answer: &FingerAnswer, tuning: &Tuning, score: &ReadScore) -> String {
    let of_way = |way: &WayAnswer| TabText::new(&way.tab(tuning, score), &TabLook::default());
    let tabs: Vec<TabText> = answer.ways.iter().map(of_way).collect();
    let mut text = tuning_line(&answer.tuning);
    let mut legend = Legend::default();
    for ((way, tab), number) in answer.ways.iter().zip(&tabs).zip(1..) {
        if number == 1 {
            let TabHead { title, capo, time, remark, .. } = &tab.head;
            let lines = [title.as_ref(), capo.as_ref(), Some(time), remark.as_ref()];
            lines.into_iter().flatten().for_each(|line| text += &format!("{line}\n"));
        }
        text += &format!("\n{}", head(way, number));
        tab.systems.iter().for_each(|system| text += &format!("\n{system}"));
        legend = legend.and(&tab.legend);
    }
    text += &format!("\n{legend}");
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
