//! Where on the neck a phrase is played, as its player says it.

use std::fmt;

use fretloom_fretboard::{FretRange, HandPosition, StringSet};

use crate::library::fields::{Fields, count, text};
use crate::library::in_quotes::{in_quotes, read};

/// Where on the neck a phrase is played, as its player says it; at least one of the three is there.
///
/// View and strings go together: where a phrase has one of them, those of its line are not its own.
/// Frets that it leaves out are those of the line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PhraseArea {
    /// The view.
    pub view: Option<PhraseView>,
    /// The strings.
    pub strings: Option<StringSet>,
    /// The frets.
    pub frets: Option<FretRange>,
}

/// A view of the neck by its word, with what belongs to it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PhraseView {
    /// Everything under one hand; without a position, where the frets begin.
    Position(Option<HandPosition>),
    /// Everything on the strings, 3-2-1 without any.
    Set,
    /// A chain of shapes across the strings: which one, from 1.
    Across(usize),
    /// Two notes on each of three strings: which run, from 1; near a position first, if it has one.
    Two(Option<HandPosition>, usize),
}

/// The keys that say where a phrase is played.
pub(super) const AREA_KEYS: [&str; 5] = ["view", "position", "choice", "strings", "frets"];

const WORDS: [&str; 4] = ["position", "set", "across", "two"];

impl fmt::Display for PhraseView {
    /// Its word, as it is typed.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            PhraseView::Position(_) => "position",
            PhraseView::Set => "set",
            PhraseView::Across(_) => "across",
            PhraseView::Two(..) => "two",
        })
    }
}

impl PhraseView {
    fn read(word: &str, position: Option<HandPosition>, choice: usize) -> Option<PhraseView> {
        match word {
            "position" => Some(PhraseView::Position(position)),
            "set" => Some(PhraseView::Set),
            "across" => Some(PhraseView::Across(choice)),
            "two" => Some(PhraseView::Two(position, choice)),
            _ => None,
        }
    }

    /// Its position, if it has one.
    pub(super) const fn position(self) -> Option<HandPosition> {
        match self {
            PhraseView::Position(position) | PhraseView::Two(position, _) => position,
            PhraseView::Set | PhraseView::Across(_) => None,
        }
    }

    /// Which of its ways, where it is not the first.
    pub(super) fn choice(self) -> Option<usize> {
        match self {
            PhraseView::Across(choice) | PhraseView::Two(_, choice) => {
                Some(choice).filter(|choice| *choice > 1)
            }
            PhraseView::Position(_) | PhraseView::Set => None,
        }
    }
}

impl PhraseArea {
    /// What a section says of it; none where it says nothing. What cannot be used is reported.
    pub(super) fn read(section: &mut Fields<'_>) -> Option<PhraseArea> {
        let word = section.read_key("view", |value| {
            let known = text(value).filter(|word| WORDS.contains(&word.as_str()));
            known.ok_or_else(|| format!("one of {}", WORDS.join(", ")))
        });
        let word = word.as_deref();
        let position = section.read_key("position", |value| {
            unless_beside(word, &["position", "two"])?;
            read(&in_quotes(value)?)
        });
        let choice = section.read_key("choice", |value| {
            unless_beside(word, &["across", "two"])?;
            let number = count(value).filter(|number| *number > 0);
            let number = number.and_then(|number| usize::try_from(number).ok());
            number.ok_or_else(|| "a whole number, 1 for the best way".to_owned())
        });
        let strings = section.read_key("strings", |value| {
            if word == Some("across") {
                return Err("no strings beside view = \"across\", which goes over all".to_owned());
            }
            read(&in_quotes(value)?)
        });
        let frets = section.read_key("frets", |value| read(&in_quotes(value)?));
        let view = word.and_then(|word| PhraseView::read(word, position, choice.unwrap_or(1)));
        let area = PhraseArea { view, strings, frets };
        let is_said = view.is_some() || strings.is_some() || frets.is_some();
        is_said.then_some(area)
    }
}

/// What says nothing beside another view, or without one, is refused.
fn unless_beside(word: Option<&str>, views: &[&str]) -> Result<(), String> {
    if word.is_some_and(|word| views.contains(&word)) {
        return Ok(());
    }
    let views: Vec<String> = views.iter().map(|view| format!("\"{view}\"")).collect();
    Err(format!("view = {} beside it", views.join(" or ")))
}
