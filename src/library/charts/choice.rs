//! What a player has settled, as a file has it.

use std::ops::{Range, RangeInclusive};

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
    let (beat, beat_place) = beat(section);
    let before = section.problem_count();
    let scale = section.read_key("scale", |value| {
        Scale::read_with(&in_quotes(value)?, own).map_err(|error| advice(&error))
    });
    let pair = section.read_key("pair", |value| Ok(read_pair(&in_quotes(value)?)?.0));
    let is_sound = section.problem_count() == before;
    let (bar, beat) = (bar?, beat?);
    let choice = ChartChoice { bar: u64::from(bar.value), beat, scale, pair };
    if Chart::moment_of(chorus, &choice).is_none() {
        let bars = bars_of(chorus);
        match beat_place.filter(|_| bars.contains(&choice.bar)) {
            Some(place) => section.report(&place, format!("a beat that bar {} has", choice.bar)),
            None => {
                let (first, last) = bars.into_inner();
                section.report(&bar.span, format!("a bar that is heard, {first} to {last}"));
            }
        }
        return None;
    }
    if choice.settles_nothing() && is_sound {
        let beginning = section.beginning().clone();
        section.report(&beginning, "a key `scale` or `pair`: what is settled there");
    }
    Some(choice).filter(|choice| !choice.settles_nothing())
}

/// The first one where none is said, else where it is said; `None` where it cannot be read.
fn beat(section: &mut Fields<'_>) -> (Option<ChartBeat>, Option<Range<usize>>) {
    const EXPECTED: &str = "a beat from 1, as in 2, or in quotes, as in \"2&\" or \"2+1/3\"";
    let before = section.problem_count();
    match section.optional("beat", EXPECTED, read_beat) {
        Some(beat) => (Some(beat.value), Some(beat.span)),
        None if section.problem_count() > before => (None, None),
        None => (Some(ChartBeat::FIRST), None),
    }
}

fn read_beat(value: &DeValue<'_>) -> Option<ChartBeat> {
    let number = || decimal(value).and_then(ChartBeat::nearest);
    text(value).map_or_else(number, |typed| typed.parse().ok())
}

/// The numbers of its bars: a pick-up is 0.
fn bars_of(chorus: &Chorus) -> RangeInclusive<u64> {
    let first = match chorus.bars.bar(0).map(|bar| bar.label) {
        Some(BarLabel::Number(0)) => 0,
        Some(BarLabel::Number(_) | BarLabel::Text(_)) | None => 1,
    };
    let count = u64::try_from(chorus.heard.len()).unwrap_or(u64::MAX);
    first..=(count + first).saturating_sub(1)
}
