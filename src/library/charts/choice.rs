//! What a player has settled, as a file has it.

use fretloom_theory::{BarLabel, Chart, ChartBeat, ChartChoice, Chorus, Scale, ScaleKind};
use toml::de::DeValue;

use crate::library::fields::{Fields, count, decimal, text};
use crate::library::in_quotes::{advice, in_quotes, read_pair};

const KEYS: &[&str] = &["bar", "beat", "scale", "pair"];

/// Reads one choice; what cannot be used of it is reported. `None` where that leaves nothing.
pub(super) fn read(
    section: &mut Fields<'_>,
    chorus: &Chorus,
    own: &[ScaleKind],
) -> Option<ChartChoice> {
    section.report_unknown(KEYS);
    let bar = section.required("bar", "a bar that is heard, as in 1", count);
    let beat = beat(section);
    let before = section.problem_count();
    let scale = section.read_key("scale", |value| {
        Scale::read_with(&in_quotes(value)?, own).map_err(|error| advice(&error))
    });
    let pair = section.read_key("pair", |value| Ok(read_pair(&in_quotes(value)?)?.0));
    let is_sound = section.problem_count() == before;
    let (bar, beat) = (bar?, beat?);
    let choice = ChartChoice { bar: u64::from(bar.value), beat, scale, pair };
    if Chart::moment_of(chorus, &choice).is_none() {
        section.report(&bar.span, a_bar_of(chorus));
        return None;
    }
    if choice.settles_nothing() && is_sound {
        let beginning = section.beginning().clone();
        section.report(&beginning, "a key `scale` or `pair`: what is settled there");
    }
    Some(choice).filter(|choice| !choice.settles_nothing())
}

/// The first one where none is said; `None` where it cannot be read.
fn beat(section: &mut Fields<'_>) -> Option<ChartBeat> {
    let before = section.problem_count();
    let beat = section.read_key("beat", read_beat);
    if section.problem_count() > before { None } else { beat.or(Some(ChartBeat::FIRST)) }
}

fn read_beat(value: &DeValue<'_>) -> Result<ChartBeat, String> {
    const EXPECTED: &str = "a beat from 1, as in 2, or in quotes, as in \"2&\" or \"2+1/3\"";
    let number = || decimal(value).and_then(ChartBeat::nearest);
    let read = text(value).map_or_else(number, |typed| typed.parse().ok());
    read.ok_or_else(|| EXPECTED.to_owned())
}

/// What is said of a beat that is not there.
fn a_bar_of(chorus: &Chorus) -> String {
    let first = match chorus.bars.bar(0).map(|bar| bar.label) {
        Some(BarLabel::Number(0)) => 0,
        Some(BarLabel::Number(_) | BarLabel::Text(_)) | None => 1,
    };
    let last = chorus.heard.len() + first - 1;
    format!("a beat that is heard: of bars {first} to {last}")
}
