//! A player's file with another chart in it: what stays is left as it is written.
//!
//! The text is changed entry by entry, so that comments, unknown keys and what could not be used
//! survive. What comes out is read before it is believed: where it is not the chart that is wanted, the
//! file is written anew.

use std::collections::BTreeMap;

use fretloom_theory::{Chart, ChartBeat, ChartChoice, ScaleKind};
use toml_edit::{ArrayOfTables, DocumentMut, Item, Table, Value};

use super::read_chart::ReadChart;
use super::written::{HEAD_KEYS, chosen, head, sections, text_of_chart};
use crate::library::in_quotes::quoted;

/// The text of a file with this chart, made of the text that it had before.
pub(super) fn edited_text(old: &str, chart: &Chart, own: &[ScaleKind]) -> String {
    let edited = edited(old, chart, own).filter(|text| {
        let read = ReadChart::of_text("", text, own);
        read.is_ok_and(|read| read.chart == *chart)
    });
    edited.unwrap_or_else(|| text_of_chart(chart))
}

/// `None` where the text is no TOML, or not the kind of TOML that is changed entry by entry.
fn edited(old: &str, chart: &Chart, own: &[ScaleKind]) -> Option<String> {
    let was = ReadChart::of_text("", old, own).ok()?;
    let mut document: DocumentMut = old.parse().ok()?;
    edit_head(&mut document, &was.chart, chart)?;
    edit_sections(&mut document, &was.chart, chart)?;
    edit_choices(&mut document, &was.chart, chart)?;
    Some(document.to_string())
}

fn edit_head(document: &mut DocumentMut, was: &Chart, chart: &Chart) -> Option<()> {
    let (was, wanted) = (BTreeMap::from_iter(head(was)), BTreeMap::from_iter(head(chart)));
    let changed = HEAD_KEYS.into_iter().filter(|key| was.get(key) != wanted.get(key));
    for key in changed {
        put(document.as_table_mut(), key, wanted.get(key).map(String::as_str))?;
    }
    Some(())
}

/// Gives a key another value, with the comment that stands beside it; or takes it away.
fn put(table: &mut Table, key: &str, value: Option<&str>) -> Option<()> {
    let Some(value) = value else {
        table.remove(key);
        return Some(());
    };
    let mut value: Value = value.parse().ok()?;
    match table.get_mut(key).map(Item::as_value_mut) {
        Some(there) => {
            let there = there?;
            *value.decor_mut() = there.decor().clone();
            *there = value;
        }
        None => {
            table.insert(key, Item::Value(value));
        }
    }
    Some(())
}

fn edit_sections(document: &mut DocumentMut, was: &Chart, chart: &Chart) -> Option<()> {
    let (was, wanted) = (sections(was), sections(chart));
    let there = list_of(document, "section")?;
    if was.len() != wanted.len() || there.len() != was.len() {
        // Other sections than before: they are written in the place of those.
        if was != wanted {
            there.clear();
            wanted.iter().try_for_each(|(name, bars)| {
                there.push(section(name.as_deref(), bars)?);
                Some(())
            })?;
        }
        return Some(());
    }
    for ((table, was), (name, bars)) in there.iter_mut().zip(&was).zip(&wanted) {
        if was.0 != *name {
            put(table, "name", name.as_deref().map(quoted).as_deref())?;
        }
        if was.1 != *bars {
            put(table, "bars", Some(bars))?;
        }
    }
    Some(())
}

fn section(name: Option<&str>, bars: &str) -> Option<Table> {
    let mut table = Table::new();
    if let Some(name) = name {
        put(&mut table, "name", Some(&quoted(name)))?;
    }
    put(&mut table, "bars", Some(bars))?;
    Some(table)
}

fn edit_choices(document: &mut DocumentMut, was: &Chart, chart: &Chart) -> Option<()> {
    if was.choices == chart.choices {
        return Some(());
    }
    let there = list_of(document, "choice")?;
    let wanted = |moment: &(u64, ChartBeat)| chart.choice_at(moment.0, moment.1);
    // What was read and is settled no more goes; what could not be used stays.
    let is_gone = |table: &Table| {
        let moment = moment(table).filter(|(bar, beat)| was.choice_at(*bar, *beat).is_some());
        moment.is_some_and(|moment| wanted(&moment).is_none())
    };
    there.retain(|table| !is_gone(table));
    let mut written = Vec::new();
    for table in there.iter_mut() {
        let Some(moment) = moment(table) else { continue };
        let Some(choice) = wanted(&moment) else { continue };
        if was.choice_at(moment.0, moment.1) != Some(choice) {
            settle(table, choice)?;
        }
        written.push(moment);
    }
    let is_new = |choice: &&ChartChoice| !written.contains(&(choice.bar, choice.beat));
    for choice in chart.choices.iter().filter(is_new) {
        let mut table = Table::new();
        put(&mut table, "bar", Some(&choice.bar.to_string()))?;
        settle(&mut table, choice)?;
        there.push(table);
    }
    Some(())
}

/// Of which moment a choice is, where that can be read.
fn moment(table: &Table) -> Option<(u64, ChartBeat)> {
    let bar = u64::try_from(table.get("bar")?.as_integer()?).ok()?;
    let Some(beat) = table.get("beat") else { return Some((bar, ChartBeat::FIRST)) };
    let number = || beat.as_integer().map(|beat| beat as f64).or(beat.as_float());
    let read = match beat.as_str() {
        Some(typed) => typed.parse().ok(),
        None => number().and_then(ChartBeat::nearest),
    };
    Some((bar, read?))
}

fn settle(table: &mut Table, choice: &ChartChoice) -> Option<()> {
    let said = BTreeMap::from_iter(chosen(choice));
    let is_first = choice.beat == ChartBeat::FIRST;
    for key in ["beat", "scale", "pair"] {
        // The first beat need not be said, nor a beat as it is written here.
        if key != "beat" || (table.get(key).is_none() && !is_first) {
            put(table, key, said.get(key).map(String::as_str))?;
        }
    }
    Some(())
}

/// The sections of a list, which may be empty; `None` where they are written in another way.
fn list_of<'d>(document: &'d mut DocumentMut, key: &str) -> Option<&'d mut ArrayOfTables> {
    let item =
        document.as_table_mut().entry(key).or_insert(Item::ArrayOfTables(ArrayOfTables::new()));
    item.as_array_of_tables_mut()
}
