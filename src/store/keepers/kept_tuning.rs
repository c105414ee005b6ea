//! A tuning, whole, as a keeper has it: the keys of a tuning's file, with its id and its capo.

use std::borrow::Cow;
use std::sync::Arc;

use fretloom_fretboard::{Capo, Fret, Instrument, OpenString, StringNumber, Tuning};
use fretloom_theory::NamedPitch;

use super::item::Item;
use super::values::{quoted, table};

/// The tunings that were read last. Most keepers have one of a few.
#[derive(Default)]
pub(super) struct Tunings {
    known: Vec<(Item<'static>, Arc<Tuning>)>,
}

/// How many are remembered.
const REMEMBERED: usize = 16;

impl Tunings {
    /// The tuning of a table; `None` where it is none.
    pub(super) fn read(&mut self, item: &Item<'_>) -> Option<Arc<Tuning>> {
        if let Some((_, tuning)) = self.known.iter().find(|(known, _)| known == item) {
            return Some(Arc::clone(tuning));
        }
        let tuning = Arc::new(tuning(item)?);
        self.known.truncate(REMEMBERED - 1);
        self.known.insert(0, (owned(item), Arc::clone(&tuning)));
        Some(tuning)
    }
}

fn owned(item: &Item<'_>) -> Item<'static> {
    match item {
        Item::Text(text) => Item::Text(Cow::Owned(text.clone().into_owned())),
        Item::Whole(number) => Item::Whole(*number),
        Item::Decimal(number) => Item::Decimal(*number),
        Item::Truth(truth) => Item::Truth(*truth),
        Item::Day(day) => Item::Day(*day),
        Item::List(items) => Item::List(items.iter().map(owned).collect()),
        Item::Table(entries) => {
            let entry = |(key, item): &(Cow<'_, str>, Item<'_>)| {
                (Cow::Owned(key.clone().into_owned()), owned(item))
            };
            Item::Table(entries.iter().map(entry).collect())
        }
        Item::Other => Item::Other,
    }
}

fn tuning(item: &Item<'_>) -> Option<Tuning> {
    let starts = listed(item, "start_frets", |start| start.whole().and_then(Fret::new))?;
    let strings = listed(item, "strings", pitch)?.into_iter().enumerate().map(|(index, note)| {
        OpenString::starting_at(note, starts.get(index).copied().unwrap_or(Fret::OPEN))
    });
    let (frets, scale_mm) = (item.get("frets")?.whole()?, item.get("scale_mm")?.decimal()?);
    let tuning = Tuning::new(strings.collect(), frets, scale_mm).ok()?;
    let beside = listed(item, "beside", |notes| notes.list()?.iter().map(pitch).collect())?;
    let tuning = if beside.is_empty() { tuning } else { tuning.with_courses(beside).ok()? };
    let text = |key| item.get(key).and_then(Item::text);
    let instrument = Instrument::from_word(text("instrument")?);
    let named = tuning.named(text("id")?, text("name")?, instrument);
    named.with_capo(capo(item)?).ok()
}

/// A list that may be absent.
fn listed<T>(item: &Item<'_>, key: &str, read: impl Fn(&Item<'_>) -> Option<T>) -> Option<Vec<T>> {
    match item.get(key) {
        Some(list) => list.list()?.iter().map(read).collect(),
        None => Some(Vec::new()),
    }
}

fn pitch(item: &Item<'_>) -> Option<NamedPitch> {
    item.text()?.parse().ok()
}

fn capo(item: &Item<'_>) -> Option<Capo> {
    let Some(fret) = item.get("capo") else { return Some(Capo::NONE) };
    let fret = fret.whole().and_then(Fret::new)?;
    Some(match item.get("capo_strings") {
        Some(strings) => Capo::partial(fret, strings.text()?.parse().ok()?),
        None => Capo::full(fret),
    })
}

/// The table of a tuning, on one line.
pub(super) fn written(tuning: &Tuning) -> String {
    let quoted_note = |note: NamedPitch| format!("\"{note:#}\"");
    let strings: Vec<(StringNumber, OpenString)> = tuning.strings().collect();
    let list = |items: Vec<String>| format!("[{}]", items.join(", "));
    let notes = strings.iter().map(|(_, open)| quoted_note(open.note()));
    let mut entries = vec![
        ("id", quoted(tuning.id())),
        ("name", quoted(tuning.name())),
        ("instrument", quoted(tuning.instrument().word())),
        ("strings", list(notes.collect())),
        ("frets", tuning.last_fret().to_string()),
        ("scale_mm", tuning.scale_mm().to_string()),
    ];
    if strings.iter().any(|(_, open)| !open.starts_at().is_open()) {
        let starts = strings.iter().map(|(_, open)| open.starts_at().to_string());
        entries.push(("start_frets", list(starts.collect())));
    }
    if tuning.has_courses() {
        let course = |(number, _): &(StringNumber, OpenString)| {
            list(tuning.doublings(*number).iter().copied().map(quoted_note).collect())
        };
        entries.push(("beside", list(strings.iter().map(course).collect())));
    }
    let capo = tuning.capo();
    if !capo.is_none() {
        entries.push(("capo", capo.fret().to_string()));
        entries.extend(capo.strings().map(|set| ("capo_strings", quoted(&set.to_string()))));
    }
    table(entries)
}
