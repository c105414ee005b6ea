//! Makes keepers of the entries of the file.
//!
//! A key that is not known, or whose value means nothing here, counts as absent; the file keeps it as it
//! stands. Only an entry that lacks what makes it a keeper is not understood as a whole.

use fretloom_fretboard::{Fret, Place, StringNumber, StringSet};
use fretloom_theory::{Pitch, Quarters};

use super::asked::Asked;
use super::item::{Entries, Item};
use super::keeper::{
    Keeper, KeeperId, Kept, KeptNote, KeptPlan, KeptShape, KeptThing, NewKeeper, finger,
};
use super::kept_tuning::Tunings;
use super::practice_record::{Beats, KeyAway, Limit, PracticeRecord, TriedBy, Try, Unit, Verdict};

/// What an entry is to this version.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Entry {
    /// A keeper.
    Keeper(Box<Keeper>),
    /// A keeper without a number, or whose number another one has: it gets one with the next change.
    Unnumbered(Box<Keeper>),
    /// Something else, which is carried along.
    NotUnderstood,
}

/// Makes an entry of its keys. Tunings that are the same are read once.
#[derive(Default)]
pub(super) struct EntryReader {
    tunings: Tunings,
}

impl EntryReader {
    pub(super) fn read(&mut self, entries: &Entries<'_>) -> Entry {
        let mut draft = Draft::new();
        for (key, item) in entries {
            draft.take(key, item, &mut self.tunings);
        }
        draft.finished()
    }
}

/// A keeper of which only some keys have been read.
struct Draft {
    id: Option<KeeperId>,
    keeper: Keeper,
    what: String,
    shape: Option<KeptShape>,
    notes: Option<Vec<KeptNote>>,
    plan: Option<KeptPlan>,
    holds_something: bool,
}

impl Draft {
    fn new() -> Draft {
        Draft {
            id: None,
            keeper: Keeper::new(KeeperId::FIRST, NewKeeper::default()),
            what: String::new(),
            shape: None,
            notes: None,
            plan: None,
            holds_something: false,
        }
    }

    fn take(&mut self, key: &str, item: &Item<'_>, tunings: &mut Tunings) {
        let keeper = &mut self.keeper;
        match key {
            "id" => self.id = item.whole().and_then(KeeperId::new),
            "kept" => keeper.kept.on = item.day(),
            "what" => self.what = item.text().unwrap_or("?").to_owned(),
            "name" => keeper.name = owned(item),
            "chord" => keeper.kept.chord = owned(item),
            "scale" => keeper.kept.scale = owned(item),
            "scale_notes" => keeper.kept.scale_notes = owned(item),
            "pair" => keeper.kept.pair = owned(item),
            "tuning" => keeper.kept.tuning = tunings.read(item),
            "view" => keeper.kept.view = owned(item),
            "strings" => keeper.kept.strings = strings(item),
            "screen" => keeper.kept.screen = owned(item),
            "notes" => keeper.notes = owned(item).unwrap_or_default(),
            "tags" => keeper.tags = tags(item),
            "shape" => self.shape = shape(item),
            "line" => self.notes = item.list().and_then(|notes| notes.iter().map(note).collect()),
            "plan" => self.plan = plan(item),
            _ => take_practice(&mut keeper.practice, key, item),
        }
        self.holds_something |=
            matches!(key, "chord" | "scale" | "pair" | "shape" | "plan" | "line");
    }

    fn finished(self) -> Entry {
        let what = match (self.what.as_str(), self.shape, self.notes, self.plan) {
            ("" | "pair", ..) => KeptThing::Pair,
            ("ladder", ..) => KeptThing::Ladder,
            ("shape", Some(shape), ..) => KeptThing::Shape(shape),
            ("line", _, Some(notes), _) => KeptThing::Line(notes),
            ("plan", _, _, Some(plan)) => KeptThing::Plan(plan),
            _ => return Entry::NotUnderstood,
        };
        if !self.holds_something {
            return Entry::NotUnderstood;
        }
        let kept = Kept { what, ..self.keeper.kept };
        match self.id {
            Some(id) => Entry::Keeper(Box::new(Keeper { id, kept, ..self.keeper })),
            None => Entry::Unnumbered(Box::new(Keeper { kept, ..self.keeper })),
        }
    }
}

fn take_practice(practice: &mut PracticeRecord, key: &str, item: &Item<'_>) {
    match key {
        "start" => practice.start = beats(item),
        "keys" => practice.keys = owned(item),
        "sets" => practice.sets = listed(item, strings),
        "limits" => practice.limits = listed(item, |item| Limit::of_word(item.text()?)),
        "tries" => practice.tries = listed(item, one_try),
        _ => {}
    }
}

fn owned(item: &Item<'_>) -> Option<String> {
    item.text().map(str::to_owned)
}

/// What can be read of a list.
fn listed<T>(item: &Item<'_>, read: impl Fn(&Item<'_>) -> Option<T>) -> Vec<T> {
    item.list().unwrap_or_default().iter().filter_map(read).collect()
}

fn strings(item: &Item<'_>) -> Option<StringSet> {
    item.text()?.parse().ok()
}

fn beats(item: &Item<'_>) -> Option<Beats> {
    item.whole().and_then(Beats::new)
}

fn tags(item: &Item<'_>) -> Vec<String> {
    let mut tags: Vec<String> = Vec::new();
    for tag in listed(item, owned) {
        if !tags.contains(&tag) {
            tags.push(tag);
        }
    }
    tags
}

fn one_try(item: &Item<'_>) -> Option<Try> {
    let mut tried = Try {
        on: item.get("on")?.day()?,
        unit: Unit::default(),
        tempo: None,
        verdict: Verdict::of_word(item.get("verdict")?.text()?)?,
        next: None,
    };
    let asked = match item.get("asked") {
        Some(asked) => Asked::of_word(asked.text()?)?,
        None => Asked::default(),
    };
    for (key, item) in item.table()? {
        match &**key {
            "tempo" => tried.tempo = beats(item),
            "next" => tried.next = item.day(),
            // Of what cannot be read nobody knows what was tried.
            "up" => tried.unit.key = KeyAway::up(item.whole()?),
            "strings" => tried.unit.strings = Some(strings(item)?),
            "limit" => tried.unit.limit = Some(Limit::of_word(item.text()?)?),
            "by" => tried.unit.by = tried_by(item.text()?, asked)?,
            _ => {}
        }
    }
    Some(tried)
}

/// The way of a word: `hand` or `ear`.
fn tried_by(word: &str, asked: Asked) -> Option<TriedBy> {
    match word {
        "hand" => Some(TriedBy::Hand),
        "ear" => Some(TriedBy::Ear(asked)),
        _ => None,
    }
}

fn shape(item: &Item<'_>) -> Option<KeptShape> {
    let set = strings(item.get("strings")?)?;
    let frets: Option<Vec<Fret>> = item.get("frets")?.list()?.iter().map(fret).collect();
    let places: Vec<Place> =
        set.iter().zip(frets?).map(|(string, fret)| Place::new(string, fret)).collect();
    let fingers = item.get("fingers").map_or(&[] as &[_], |item| item.list().unwrap_or_default());
    let fingers: Option<Vec<_>> =
        fingers.iter().map(|item| item.whole().and_then(finger)).collect();
    let is_whole = places.len() == set.len();
    KeptShape::new(item.get("triad")?.text()?, places, fingers?).filter(|_| is_whole)
}

fn fret(item: &Item<'_>) -> Option<Fret> {
    item.whole().and_then(Fret::new)
}

fn note(item: &Item<'_>) -> Option<KeptNote> {
    let string = item.get("string")?.whole().and_then(StringNumber::new)?;
    Some(KeptNote {
        onset: quarters(item.get("onset")?)?,
        length: quarters(item.get("length")?)?,
        pitch: item.get("midi")?.whole().and_then(Pitch::from_midi)?,
        place: Place::new(string, fret(item.get("fret")?)?),
        finger: match item.get("finger") {
            Some(item) => Some(item.whole().and_then(finger)?),
            None => None,
        },
    })
}

/// `3`, `1/2`
fn quarters(item: &Item<'_>) -> Option<Quarters> {
    let text = item.text()?;
    let (numerator, denominator) = text.split_once('/').unwrap_or((text, "1"));
    Quarters::new(numerator.parse().ok()?, denominator.parse().ok()?)
}

fn plan(item: &Item<'_>) -> Option<KeptPlan> {
    let text = |key| item.get(key).and_then(owned);
    Some(KeptPlan { chart: text("chart")?, key: text("key"), frets: text("frets") })
}
