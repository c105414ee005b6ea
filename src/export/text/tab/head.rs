//! What stands at the head of a tab.

use std::fmt;

use crate::export::text::tuning::tuning_line;
use crate::glyphs::printable_line;
use crate::picture::{Tab, TabRhythm, TimesFrom};

/// What stands at the head of a tab; prints as a line for each.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TabHead {
    /// The title.
    pub title: Option<String>,
    /// The tuning: its name, and its strings as tunings are written.
    pub tuning: String,
    /// The capo, and what that means for frets.
    pub capo: Option<String>,
    /// Meter and tempo.
    pub time: String,
    /// What is not known of the rhythm.
    pub remark: Option<String>,
}

impl TabHead {
    pub(super) fn of(tab: &Tab) -> TabHead {
        let title = tab.title.as_deref().map(str::trim).filter(|title| !title.is_empty());
        let capo = tab.tuning.capo();
        TabHead {
            title: title.map(printable_line),
            tuning: printable_line(&tuning_line(&tab.tuning)),
            capo: (!capo.is_none()).then(|| format!("{capo}: frets and positions count from it")),
            time: time(tab),
            remark: remark(tab.rhythm).map(str::to_owned),
        }
    }
}

impl fmt::Display for TabHead {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [title, capo, remark] = [&self.title, &self.capo, &self.remark].map(Option::as_ref);
        let lines = [title, Some(&self.tuning), capo, Some(&self.time), remark];
        lines.into_iter().flatten().try_for_each(|line| writeln!(f, "{line}"))
    }
}

/// `4/4, 120 quarter notes a minute`; of seconds, as what they are counted.
fn time(tab: &Tab) -> String {
    let tempo = (tab.tempo.a_minute() * 10.0).round() / 10.0;
    let changes = if tab.tempo_changes { " at first" } else { "" };
    match (tab.times, tab.rhythm) {
        (TimesFrom::Seconds, TabRhythm::NotCounted) => {
            let bar_s = tab.meter.bar().to_f64() * tab.tempo.quarter_s();
            format!("times are seconds, with a bar line every {bar_s} seconds")
        }
        (TimesFrom::Seconds, TabRhythm::Counted | TabRhythm::LengthsRounded) => {
            let meter = tab.meter;
            format!("times are seconds, counted as {meter} at {tempo} quarter notes a minute")
        }
        (TimesFrom::Writing | TimesFrom::Playing, _) => {
            format!("{}, {tempo} quarter notes a minute{changes}", tab.meter)
        }
    }
}

/// What is not known of the rhythm.
fn remark(rhythm: TabRhythm) -> Option<&'static str> {
    match rhythm {
        TabRhythm::Counted => None,
        TabRhythm::LengthsRounded => Some("how long notes last is rounded to parts of a beat"),
        TabRhythm::NotCounted => {
            Some("notes begin between the parts of beats, so that no rhythm is written")
        }
    }
}
