//! Charts in TOML.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use fretloom_theory::{
    BarFault, BarSection, BarText, Chart, ChartBeat, ChartChoice, Key, Meter, OptionalChords,
    PickUp, ScaleKind, Tempo,
};
use toml::de::DeValue;

use super::bars_place::BarsPlace;
use super::choice;
use super::read_chart::ReadChart;
use super::written::HEAD_KEYS;
use crate::library::Problem;
use crate::library::fields::{Fields, decimal, text};
use crate::library::in_quotes::{in_quotes, read as read_text};

const SECTION_KEYS: &[&str] = &["name", "bars"];

const SECTIONS: &str = "sections, each as in [[section]] above bars = \"| Dm7 | G7 |\"";

const CHOICES: &str = "choices, each as in [[choice]] above bar = 1 and scale = \"G altered\"";

/// The longest file in which broken lines are skipped, in bytes: to look for them takes long.
const LONGEST_SALVAGED: usize = 64 * 1024;

/// The most choices of a chart: a bar that is heard has one at least.
const MOST_CHOICES: usize = 10_000;

/// Reads a chart in TOML.
///
/// # Errors
///
/// Where the form is uncertain: everything that is wrong.
pub(super) fn read(
    file: &str,
    content: &str,
    own: &[ScaleKind],
) -> Result<ReadChart, Vec<Problem>> {
    let mut intact = String::new();
    let mut fields = match content.len() {
        ..=LONGEST_SALVAGED => Fields::salvage(file, content, &mut intact),
        _ => Fields::read(file, content).map_err(|problem| vec![problem])?,
    };
    fields.report_unknown(&[&HEAD_KEYS[..], &["section", "choice"]].concat());
    let head = Head::read(&mut fields);
    match bars(file, content, &mut fields, &head) {
        Ok((bars, faults)) => {
            let mut chart = head.over(bars);
            settle(&mut fields, &mut chart, own);
            Ok(ReadChart { problems: told(fields, faults), ..ReadChart::of(chart) })
        }
        Err(fault) => Err(told(fields, fault.into_iter().collect())),
    }
}

/// All problems in the order of the file.
fn told(fields: Fields<'_>, faults: Vec<Problem>) -> Vec<Problem> {
    let mut problems = fields.into_problems();
    problems.extend(faults);
    problems.sort_by_key(|problem| (problem.line, problem.column));
    problems
}

/// What stands above the sections.
struct Head {
    title: Option<String>,
    key: Option<Key>,
    meter: Option<Meter>,
    tempo: Option<Tempo>,
    feel: Option<String>,
    pick_up: Option<PickUp>,
}

impl Head {
    fn read(fields: &mut Fields<'_>) -> Head {
        let mut words = |key, expected| fields.optional(key, expected, text).map(|it| it.value);
        let title = words("title", "a title in quotes");
        let feel = words("feel", "how it is played, in quotes, as in \"swing\"");
        Head {
            title,
            key: fields.read_key("key", |value| read_text(&in_quotes(value)?)),
            meter: fields.read_key("meter", |value| read_text(&in_quotes(value)?)),
            tempo: fields.read_key("tempo", read_tempo),
            feel,
            pick_up: fields.read_key("pickup", read_pick_up),
        }
    }

    fn over(self, bars: BarText) -> Chart {
        let Head { title, key, tempo, feel, .. } = self;
        Chart { title, key, tempo, feel, ..Chart::of(bars) }
    }
}

fn read_tempo(value: &DeValue<'_>) -> Result<Tempo, String> {
    let read = decimal(value).filter(|a_minute| Tempo::ASKED.contains(a_minute));
    let (low, high) = Tempo::ASKED.into_inner();
    let expected = || format!("quarter notes a minute, {low} to {high}, as in 120");
    read.and_then(Tempo::nearest).ok_or_else(expected)
}

/// `1`, `0.5` or `"1/2"`.
fn read_pick_up(value: &DeValue<'_>) -> Result<PickUp, String> {
    if let Some(typed) = text(value) {
        return read_text(&typed);
    }
    let number = decimal(value).filter(|beats| *beats > 0.0);
    let part = |denominator: u8| {
        let parts = number? * f64::from(denominator);
        let fits = parts.fract() == 0.0 && parts <= f64::from(u8::MAX);
        PickUp::new(if fits { parts as u8 } else { 0 }, denominator)
    };
    let expected = "a number of beats, as in 1, or in quotes, as in \"1/3\"";
    (1..=u8::MAX).find_map(part).ok_or_else(|| expected.to_owned())
}

/// A section of the file.
struct Section<'a> {
    name: Option<String>,
    text: String,
    place: BarsPlace<'a>,
}

/// The bars of all sections, and what is wrong with some of them.
///
/// # Errors
///
/// Where the form is uncertain; with a problem, or where that has been reported.
fn bars(
    file: &str,
    content: &str,
    fields: &mut Fields<'_>,
    head: &Head,
) -> Result<(BarText, Vec<Problem>), Option<Problem>> {
    let before = fields.problem_count();
    let sections = sections(content, fields).ok_or(None)?;
    if sections.is_empty() {
        if fields.problem_count() == before {
            let beginning = fields.beginning().clone();
            fields.report(&beginning, SECTIONS);
        }
        return Err(None);
    }
    let texts: Vec<BarSection<'_>> = sections
        .iter()
        .map(|section| BarSection { name: section.name.as_deref(), text: &section.text })
        .collect();
    let problem = |fault: &BarFault| {
        sections.get(fault.section).map(|section| section.place.problem(file, fault))
    };
    let meter = head.meter.unwrap_or(Meter::COMMON);
    match BarText::read_marking(&texts, meter, head.pick_up) {
        Ok((bars, faults)) => Ok((bars, faults.iter().filter_map(problem).collect())),
        Err(fault) => Err(problem(&fault)),
    }
}

/// The sections; `None` where one of them has no bars, which is reported.
fn sections<'a>(content: &'a str, fields: &mut Fields<'_>) -> Option<Vec<Section<'a>>> {
    let mut sections = Vec::new();
    for mut section in fields.take_list("section", SECTIONS) {
        section.report_unknown(SECTION_KEYS);
        let name = section.read_key("name", read_name);
        let bars = section.required("bars", "bars in quotes, as in \"| Dm7 | G7 |\"", |value| {
            value.as_str().map(str::to_owned)
        });
        fields.add_problems_of(section);
        sections.push(bars.map(|bars| Section {
            name,
            place: BarsPlace::in_quotes(content, &bars.span, &bars.value),
            text: bars.value,
        }));
    }
    sections.into_iter().collect()
}

fn read_name(value: &DeValue<'_>) -> Result<String, String> {
    let name = text(value).and_then(|name| BarSection::name_in_brackets(&name));
    name.ok_or_else(|| "a name in quotes without brackets and bar lines, as in \"A\"".to_owned())
}

/// Puts the choices into the chart that can be used, and reports the others.
fn settle(fields: &mut Fields<'_>, chart: &mut Chart, own: &[ScaleKind]) {
    let chorus = chart.chorus(OptionalChords::Played);
    let mut choices: BTreeMap<(u64, ChartBeat), ChartChoice> = BTreeMap::new();
    for (count, mut section) in fields.take_list("choice", CHOICES).into_iter().enumerate() {
        let beginning = section.beginning().clone();
        if count == MOST_CHOICES {
            fields.report(&beginning, format!("at most {MOST_CHOICES} choices"));
            break;
        }
        let read = choice::read(&mut section, &chorus, own);
        fields.add_problems_of(section);
        let Some(choice) = read else { continue };
        match choices.entry((choice.bar, choice.beat)) {
            Entry::Vacant(free) => {
                free.insert(choice);
            }
            Entry::Occupied(taken) => {
                let (bar, beat) = taken.key();
                fields.report(&beginning, format!("one choice for beat {beat} of bar {bar}"));
            }
        }
    }
    chart.choices = choices.into_values().collect();
}
