//! What is typed on the keepers screen.

use std::fmt;

use fretloom_fretboard::StringSet;
use fretloom_theory::{KeyCycle, ReadError};

use crate::answer::ChordKind;
use crate::glyphs::printable_line;
use crate::store::{Keeper, KeeperChange, KeeperId, Limit, PracticeRecord};
use crate::tui::widget::TextField;

/// A line of text that is being typed, and what it is to be.
pub(super) struct Field {
    pub(super) what: Typed,
    pub(super) text: TextField,
}

/// What is typed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Typed {
    /// What a keeper is called.
    Name(KeeperId),
    /// What is noted beside it.
    Notes(KeeperId),
    /// Its tags.
    Tags(KeeperId),
    /// In which keys, on which string sets and under which limits it is practised.
    How(KeeperId),
    /// Words by which keepers are found.
    Words,
    /// The kind of chord that they serve.
    Kind,
}

/// The word of what is practised in its own key alone.
const HERE: &str = "here";

/// What stands between two lines of notes where they are typed in one.
const LINE_BREAK: &str = " / ";

impl Typed {
    /// What is said of what is typed, as long as it can be read.
    pub(super) const fn help(self) -> &'static str {
        match self {
            Typed::Name(_) => "what it is called; nothing: by its pair and its chord",
            Typed::Notes(_) => "whatever you want to remember; / between spaces begins a new line",
            Typed::Tags(_) => "words by which it is found, with commas between: ballad, slow",
            Typed::How(_) => {
                "how it is practised: here, fourths, semitones, tones or shuffled; string sets as \
                 4-3-2; one-position, one-string-set, rests-compulsory"
            }
            Typed::Words => {
                "words that all stand somewhere in it: chord, pair, notes, tags, tuning"
            }
            Typed::Kind => {
                "a kind of chord, as in m7b5: what was kept over it, or lies in its usual scale"
            }
        }
    }
}

impl Field {
    /// As long as a page of notes.
    const LONGEST: usize = 2_000;

    /// A field that holds what there is; what is typed goes on behind it.
    pub(super) fn new(what: Typed, text: &str) -> Field {
        let mut text = TextField::holding_up_to(text, Field::LONGEST);
        text.go_to_end();
        Field { what, text }
    }

    /// What stands before the field.
    pub(super) fn label(&self) -> String {
        match self.what {
            Typed::Name(id) => format!(" name of {id} "),
            Typed::Notes(id) => format!(" notes of {id} "),
            Typed::Tags(id) => format!(" tags of {id} "),
            Typed::How(id) => format!(" practise {id} "),
            Typed::Words => " find ".to_owned(),
            Typed::Kind => " serves ".to_owned(),
        }
    }

    /// Why what is typed cannot be taken, if it cannot.
    pub(super) fn mistake(&self) -> Option<String> {
        match self.what {
            Typed::Kind => kind(&self.text.text()).err().map(|error| error.to_string()),
            Typed::How(_) => How::read(&self.text.text()).err(),
            Typed::Name(_) | Typed::Notes(_) | Typed::Tags(_) | Typed::Words => None,
        }
    }
}

/// How a keeper is practised, as it is typed in one line: `fourths 4-3-2 3-2-1 rests-compulsory`.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
struct How {
    keys: Option<String>,
    sets: Vec<StringSet>,
    limits: Vec<Limit>,
}

impl How {
    fn of(record: &PracticeRecord) -> How {
        let PracticeRecord { keys, sets, limits, .. } = record.clone();
        How { keys, sets, limits }
    }

    /// Reads words in any order; each is an order of keys, a string set or a limit.
    fn read(text: &str) -> Result<How, String> {
        let mut how = How::default();
        for word in text.split([' ', ',']).filter(|word| !word.is_empty()) {
            if let Some(limit) = Limit::of_word(word) {
                if !how.limits.contains(&limit) {
                    how.limits.push(limit);
                }
            } else if let Ok(set) = word.parse::<StringSet>() {
                if !how.sets.contains(&set) {
                    how.sets.push(set);
                }
            } else if word == HERE || word.parse::<KeyCycle>().is_ok() {
                how.keys = Some(word.to_owned());
            } else {
                return Err(format!(
                    "found \"{}\", expected {HERE}, fourths, semitones, tones or shuffled, a string \
                     set as 4-3-2, or one-position, one-string-set or rests-compulsory",
                    printable_line(word)
                ));
            }
        }
        Ok(how)
    }

    fn changes(self, before: &How) -> Vec<KeeperChange> {
        let keys = (self.keys != before.keys).then_some(KeeperChange::Keys(self.keys));
        let sets = (self.sets != before.sets).then_some(KeeperChange::Sets(self.sets));
        let limits = (self.limits != before.limits).then_some(KeeperChange::Limits(self.limits));
        keys.into_iter().chain(sets).chain(limits).collect()
    }
}

impl fmt::Display for How {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sets = self.sets.iter().map(ToString::to_string);
        let limits = self.limits.iter().map(|limit| limit.word().to_owned());
        let words: Vec<String> = self.keys.clone().into_iter().chain(sets).chain(limits).collect();
        f.write_str(&words.join(" "))
    }
}

/// How a keeper is practised, in one line.
pub(super) fn how_in_line(keeper: &Keeper) -> String {
    How::of(&keeper.practice).to_string()
}

/// A kind of chord, or none where nothing is typed.
pub(super) fn kind(text: &str) -> Result<Option<ChordKind>, ReadError> {
    match text.trim() {
        "" => Ok(None),
        text => text.parse().map(Some),
    }
}

/// Notes in one line.
pub(super) fn notes_in_line(notes: &str) -> String {
    notes.lines().collect::<Vec<_>>().join(LINE_BREAK)
}

/// What changes a keeper to what was typed; nothing where nothing is new.
pub(super) fn changes(what: Typed, typed: &str, keeper: &Keeper) -> Vec<KeeperChange> {
    let typed = typed.trim();
    match what {
        Typed::Name(_) => {
            let name = (!typed.is_empty()).then(|| typed.to_owned());
            if name == keeper.name { Vec::new() } else { vec![KeeperChange::Name(name)] }
        }
        Typed::Notes(_) if typed == notes_in_line(&keeper.notes).trim() => Vec::new(),
        Typed::Notes(_) => {
            let lines: Vec<&str> = typed.split(LINE_BREAK).map(str::trim).collect();
            vec![KeeperChange::Notes(lines.join("\n").trim_end().to_owned())]
        }
        Typed::Tags(_) => tag_changes(typed, keeper),
        Typed::How(_) => {
            let how = How::read(typed).unwrap_or_else(|_| How::of(&keeper.practice));
            how.changes(&How::of(&keeper.practice))
        }
        Typed::Words | Typed::Kind => Vec::new(),
    }
}

fn tag_changes(typed: &str, keeper: &Keeper) -> Vec<KeeperChange> {
    let mut tags: Vec<String> = Vec::new();
    for tag in typed.split(',').map(str::trim).filter(|tag| !tag.is_empty()) {
        if !tags.iter().any(|other| other == tag) {
            tags.push(tag.to_owned());
        }
    }
    let lost = keeper.tags.iter().filter(|tag| !tags.contains(tag)).cloned();
    let new = tags.iter().filter(|tag| !keeper.tags.contains(tag)).cloned();
    lost.map(KeeperChange::Untag).chain(new.map(KeeperChange::Tag)).collect()
}
