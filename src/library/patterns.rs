//! The patterns, built in and the player's own: one file, with a section for each.
//!
//! The name of the section is the pattern's id, by which it is asked for:
//!
//! ```toml
//! [three-and-two]
//! name = "five: three and two"
//! figures = "132 32"
//! note = "Five against the bar."
//! ```
//!
//! `note` may be missing. An id is made of small letters, digits and hyphens, and does not read as
//! figures itself.

use std::path::{Path, PathBuf};

use fretloom_theory::{Pattern, ReadError};

use super::fields::{Fields, text};
use super::files::text_if_there;
use super::{Problem, Source};

/// The file's name in the player's folder.
const FILE: &str = "patterns.toml";

const BUILT_IN: &str = include_str!("../../assets/patterns.toml");

const KEYS: &[&str] = &["name", "figures", "note"];

const A_SECTION: &str = "a section, as in [three-and-two] above its name and figures";

/// A pattern with the names it goes by.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NamedPattern {
    /// What it is asked for by.
    pub id: String,
    /// What it is, in words.
    pub name: String,
    /// The pattern itself.
    pub figures: Pattern,
    /// What it is good for, where that is said.
    pub note: Option<String>,
    /// Where it comes from.
    pub source: Source,
}

/// Every pattern that could be read, and what was wrong with the others.
///
/// # Example
///
/// ```
/// use fretloom::library::LoadedPatterns;
/// let patterns = LoadedPatterns::load(None);
/// assert!(patterns.problems().is_empty());
/// let five = patterns.by_id_or_name("three-and-two").unwrap();
/// assert_eq!(five.figures.to_string(), "132 32");
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LoadedPatterns {
    patterns: Vec<NamedPattern>,
    problems: Vec<Problem>,
}

impl LoadedPatterns {
    /// The built-in patterns, and those in `patterns.toml` of the player's `config_folder`. A
    /// player's pattern with the id of a built-in one replaces it. One that cannot be used is
    /// reported and left out.
    #[must_use]
    pub fn load(config_folder: Option<&Path>) -> LoadedPatterns {
        let mut loaded = LoadedPatterns { patterns: Vec::new(), problems: Vec::new() };
        loaded.add("assets/patterns.toml", BUILT_IN, &Source::BuiltIn);
        if let Some(folder) = config_folder {
            loaded.add_file(folder.join(FILE));
        }
        loaded
    }

    /// The patterns in the text of one file, and what is wrong with it.
    #[must_use]
    pub fn of_text(file: &str, content: &str) -> LoadedPatterns {
        let mut loaded = LoadedPatterns { patterns: Vec::new(), problems: Vec::new() };
        loaded.add(file, content, &Source::File(PathBuf::from(file)));
        loaded
    }

    /// The patterns: built-in ones first, each file in its own order.
    #[must_use]
    pub fn patterns(&self) -> &[NamedPattern] {
        &self.patterns
    }

    /// The pattern with that id or name; upper and lower case are the same.
    #[must_use]
    pub fn by_id_or_name(&self, text: &str) -> Option<&NamedPattern> {
        let is = |name: &str| name.eq_ignore_ascii_case(text.trim());
        let by_id = self.patterns.iter().find(|pattern| is(&pattern.id));
        by_id.or_else(|| self.patterns.iter().find(|pattern| is(&pattern.name)))
    }

    /// What could not be used.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    fn add_file(&mut self, path: PathBuf) {
        match text_if_there(&path) {
            Ok(None) => {}
            Ok(Some(content)) => {
                self.add(&path.display().to_string(), &content, &Source::File(path));
            }
            Err(problem) => self.problems.push(problem),
        }
    }

    fn add(&mut self, file: &str, content: &str, source: &Source) {
        let mut intact = String::new();
        let mut fields = Fields::salvage(file, content, &mut intact);
        for (id, place) in fields.names() {
            let Some(mut section) = fields.take_section(&id, &place, A_SECTION) else { continue };
            section.report_unknown(KEYS);
            let named = match check_id(&id) {
                Ok(()) => read(&id, &mut section, source),
                Err(expected) => {
                    section.report(&place, expected);
                    None
                }
            };
            fields.add_problems_of(section);
            if let Some(named) = named {
                self.put(named);
            }
        }
        self.problems.extend(fields.into_problems());
    }

    fn put(&mut self, pattern: NamedPattern) {
        match self.patterns.iter_mut().find(|there| there.id == pattern.id) {
            Some(there) => *there = pattern,
            None => self.patterns.push(pattern),
        }
    }
}

/// Can a pattern be asked for by it? What reads as figures would always be taken for them.
fn check_id(text: &str) -> Result<(), &'static str> {
    let fits = |char| matches!(char, 'a'..='z' | '0'..='9' | '-');
    let begins = text.starts_with(|first: char| first.is_ascii_lowercase());
    if !begins || !text.chars().all(fits) {
        return Err("an id of small letters, digits and hyphens, as in my-cell");
    }
    match text.parse::<Pattern>() {
        Ok(_) => Err("an id that cannot be taken for figures, as in my-cell"),
        Err(_) => Ok(()),
    }
}

fn read(id: &str, section: &mut Fields<'_>, source: &Source) -> Option<NamedPattern> {
    let name = section.required("name", "a name, as in \"threes up\"", text);
    let figures = section.required("figures", "figures in quotes, as in \"132 32\"", text);
    let note = section.optional("note", "a sentence in quotes", text);
    // Everything is read before any error ends the reading, so that every mistake is reported.
    let (name, figures) = (name?, figures?);
    match figures.value.parse() {
        Ok(pattern) => Some(NamedPattern {
            id: id.to_owned(),
            name: name.value,
            figures: pattern,
            note: note.map(|note| note.value),
            source: source.clone(),
        }),
        Err(error) => {
            section.report(&figures.span, expected(&error));
            None
        }
    }
}

fn expected(error: &ReadError) -> String {
    format!("{} (character {})", error.advice(), error.at())
}

#[cfg(test)]
mod tests;
