//! The ways to play a line, each with its tablature.

use fretloom_fretboard::Tuning;

use super::{CARE, tuning_line};
use crate::answer::{FingerAnswer, WayAnswer};
use crate::export::text::{TabHead, TabText};
use crate::picture::TabLook;
use crate::score_file::ReadScore;

/// The ways as text, each with its tablature.
pub(in crate::cli) fn finger(answer: &FingerAnswer, tuning: &Tuning, score: &ReadScore) -> String {
    let of_way = |way: &WayAnswer| TabText::new(&way.tab(tuning, score), &TabLook::default());
    let tabs: Vec<TabText> = answer.ways.iter().map(of_way).collect();
    let mut text = tuning_line(&answer.tuning);
    if let Some(TabText { head: TabHead { title, capo, time, remark, .. }, .. }) = tabs.first() {
        let lines = [title.as_ref(), capo.as_ref(), Some(time), remark.as_ref()];
        lines.into_iter().flatten().for_each(|line| text += &format!("{line}\n"));
    }
    for ((way, tab), number) in answer.ways.iter().zip(&tabs).zip(1..) {
        text += &format!("\n{}", head(way, number));
        tab.systems.iter().for_each(|system| text += &format!("\n{system}"));
    }
    let legends = tabs.iter().map(|tab| tab.legend.clone());
    let legend = legends.reduce(|legend, other| legend.and(&other));
    legend.iter().for_each(|legend| text += &format!("\n{legend}"));
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
