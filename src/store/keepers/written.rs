//! Keepers as the file has them: a line for each key, which [`plain`](super::plain) reads.

use std::fmt::Write;

use super::asked::Asked;
use super::keeper::{Keeper, Kept, KeptNote, KeptPlan, KeptShape, KeptThing};
use super::kept_tuning;
use super::practice_record::{KeyAway, PracticeRecord, TriedBy, Try, Unit};
use super::values::{lines, quoted, quoted_list, table};
use crate::words::dashed;

/// A keeper with the head of its table and a blank line after it.
pub(super) fn keeper(keeper: &Keeper) -> String {
    let mut text = String::from("[[keeper]]\n");
    for (key, value) in entries(keeper) {
        // Writing to a string does not fail.
        let _ = writeln!(text, "{key} = {value}");
    }
    text + "\n"
}

fn entries(keeper: &Keeper) -> Vec<(&'static str, String)> {
    let mut entries = vec![("id", keeper.id.to_string())];
    entries.extend(of_kept(&keeper.kept));
    entries.extend(keeper.name.as_ref().map(|name| ("name", quoted(name))));
    if !keeper.notes.is_empty() {
        entries.push(("notes", quoted(&keeper.notes)));
    }
    if !keeper.tags.is_empty() {
        entries.push(("tags", quoted_list(&keeper.tags)));
    }
    entries.extend(of_practice(&keeper.practice));
    entries
}

fn of_kept(kept: &Kept) -> Vec<(&'static str, String)> {
    let text = |key, text: &Option<String>| text.as_ref().map(|text| (key, quoted(text)));
    let mut entries: Vec<(&str, String)> = Vec::new();
    entries.extend(kept.on.map(|day| ("kept", day.to_string())));
    entries.push(("what", quoted(kept.what.word())));
    entries.extend(text("chord", &kept.chord));
    entries.extend(text("scale", &kept.scale));
    entries.extend(text("scale_notes", &kept.scale_notes));
    entries.extend(text("pair", &kept.pair));
    entries.extend(text("view", &kept.view));
    entries.extend(kept.strings.map(|set| ("strings", quoted(&set.to_string()))));
    match &kept.what {
        KeptThing::Pair | KeptThing::Ladder => {}
        KeptThing::Shape(held) => entries.push(("shape", shape(held))),
        KeptThing::Line(notes) => entries.push(("line", lines(notes.iter().map(note)))),
        KeptThing::Plan(planned) => entries.push(("plan", plan(planned))),
    }
    entries.extend(kept.tuning.as_ref().map(|tuning| ("tuning", kept_tuning::written(tuning))));
    entries.extend(text("screen", &kept.screen));
    entries
}

fn of_practice(practice: &PracticeRecord) -> Vec<(&'static str, String)> {
    let mut entries: Vec<(&str, String)> = Vec::new();
    entries.extend(practice.start.map(|start| ("start", start.to_string())));
    entries.extend(practice.keys.as_ref().map(|keys| ("keys", quoted(keys))));
    if !practice.sets.is_empty() {
        let sets: Vec<String> = practice.sets.iter().map(ToString::to_string).collect();
        entries.push(("sets", quoted_list(&sets)));
    }
    if !practice.limits.is_empty() {
        let words: Vec<&str> = practice.limits.iter().map(|limit| limit.word()).collect();
        entries.push(("limits", quoted_list(&words)));
    }
    if !practice.tries.is_empty() {
        entries.push(("tries", lines(practice.tries.iter().map(one_try))));
    }
    entries
}

fn shape(shape: &KeptShape) -> String {
    let places = shape.places();
    let mut entries = vec![
        ("triad", quoted(shape.triad())),
        ("strings", quoted(&dashed(places.iter().map(|place| place.string)))),
        ("frets", numbers(places.iter().map(|place| place.fret.number()))),
    ];
    if !shape.fingers().is_empty() {
        entries.push(("fingers", numbers(shape.fingers().iter().map(|finger| finger.number()))));
    }
    table(entries)
}

fn numbers(numbers: impl Iterator<Item = u8>) -> String {
    format!("[{}]", numbers.map(|number| number.to_string()).collect::<Vec<_>>().join(", "))
}

fn note(note: &KeptNote) -> String {
    let mut entries = vec![
        ("onset", quoted(&note.onset.to_string())),
        ("length", quoted(&note.length.to_string())),
        ("midi", note.pitch.midi().to_string()),
        ("string", note.place.string.to_string()),
        ("fret", note.place.fret.to_string()),
    ];
    entries.extend(note.finger.map(|finger| ("finger", finger.number().to_string())));
    table(entries)
}

fn plan(plan: &KeptPlan) -> String {
    let mut entries = vec![("chart", quoted(&plan.chart))];
    entries.extend(plan.key.as_ref().map(|key| ("key", quoted(key))));
    entries.extend(plan.frets.as_ref().map(|frets| ("frets", quoted(frets))));
    table(entries)
}

/// A try as a table on one line.
pub(super) fn one_try(tried: &Try) -> String {
    let mut entries = vec![("on", tried.on.to_string())];
    entries.extend(tried.tempo.map(|tempo| ("tempo", tempo.to_string())));
    entries.extend(unit(&tried.unit));
    entries.push(("verdict", quoted(tried.verdict.word())));
    entries.extend(tried.next.map(|next| ("next", next.to_string())));
    table(entries)
}

fn unit(unit: &Unit) -> Vec<(&'static str, String)> {
    let mut entries: Vec<(&str, String)> = Vec::new();
    if unit.key != KeyAway::HERE {
        entries.push(("up", unit.key.semitones().to_string()));
    }
    entries.extend(unit.strings.map(|set| ("strings", quoted(&set.to_string()))));
    entries.extend(unit.limit.map(|limit| ("limit", quoted(limit.word()))));
    if let TriedBy::Ear(asked) = unit.by {
        entries.push(("by", quoted("ear")));
        if asked != Asked::default() {
            entries.push(("asked", quoted(asked.word())));
        }
    }
    entries
}
