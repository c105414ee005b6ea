//! Reads one key file against the commands there are.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue};

use super::super::key::Key;
use super::rows::Rows;
use crate::library::Problem;
use crate::library::problem::line_and_column;
use crate::library::recover::recover;
use crate::words::nearest;

/// A problem quotes no more than this many characters.
const QUOTED: usize = 40;

type Name<'i> = Spanned<DeString<'i>>;
type Value<'i> = Spanned<DeValue<'i>>;

/// The keys that a file gives to a row of the map.
pub(super) struct Entry {
    pub(super) row: usize,
    pub(super) claims: Vec<Claim>,
}

impl Entry {
    pub(super) fn keys(&self) -> Vec<Key> {
        self.claims.iter().map(|claim| claim.key).collect()
    }
}

/// A key that a file gives to a command, and where in the file.
#[derive(Clone, Copy)]
pub(super) struct Claim {
    pub(super) key: Key,
    row: usize,
    line: usize,
    column: usize,
}

impl Claim {
    pub(super) fn problem(&self, file: &str, expected: String) -> Problem {
        let text = self.key.to_string();
        Problem { file: file.to_owned(), line: self.line, column: self.column, text, expected }
    }
}

/// The entries of a file that can be used, in its order, and everything that is wrong with it.
pub(super) fn read<C>(map: &Rows<C>, file: &str, text: &str) -> (Vec<Entry>, Vec<Problem>) {
    let mut reader =
        Reader { map, file, text, entries: Vec::new(), used: Vec::new(), problems: Vec::new() };
    let (sound, broken) = recover(text);
    for line in broken {
        reader.report(line.span, format!("valid TOML ({})", line.message));
    }
    let table = DeTable::parse(&sound).unwrap_or_else(|_| Spanned::new(0..0, DeTable::new()));
    for (name, value) in in_file_order(table.get_ref()) {
        reader.section(name, value);
    }
    reader.problems.sort_by_key(|problem| (problem.line, problem.column));
    (reader.entries, reader.problems)
}

/// The parser sorts by name, but which of two entries came first decides who keeps a key.
fn in_file_order<'a, 'i>(table: &'a DeTable<'i>) -> Vec<(&'a Name<'i>, &'a Value<'i>)> {
    let mut entries: Vec<_> = table.iter().collect();
    entries.sort_by_key(|(name, _)| name.span().start);
    entries
}

struct Reader<'a, C> {
    map: &'a Rows<C>,
    file: &'a str,
    text: &'a str,
    entries: Vec<Entry>,
    /// Keys that this file has given away.
    used: Vec<Claim>,
    problems: Vec<Problem>,
}

impl<C> Reader<'_, C> {
    fn section(&mut self, name: &Name<'_>, value: &Value<'_>) {
        let written = name.get_ref().as_ref();
        let sections = self.map.rows.iter().map(|row| row.section);
        if !sections.clone().any(|known| known == written) {
            let expected = one_of("a section", written, sections);
            self.report(name.span(), expected);
            return;
        }
        match value.get_ref() {
            DeValue::Table(commands) => {
                for (command, keys) in in_file_order(commands) {
                    self.entry(written, command, keys);
                }
            }
            _ => self.report(value.span(), format!("a section, written [{written}]")),
        }
    }

    fn entry(&mut self, section: &str, name: &Name<'_>, value: &Value<'_>) {
        let written = name.get_ref().as_ref();
        let rows = self.map.rows.iter();
        let Some(row) = rows.clone().position(|row| row.section == section && row.name == written)
        else {
            let expected = match rows.clone().find(|row| row.name == written) {
                Some(row) => {
                    format!("a command of [{section}]; `{written}` is of [{}]", row.section)
                }
                None => {
                    let names = rows.filter(|row| row.section == section).map(|row| row.name);
                    one_of(&format!("a command of [{section}]"), written, names)
                }
            };
            self.report(name.span(), expected);
            return;
        };
        match value.get_ref() {
            DeValue::Array(list) => {
                let claims = list.iter().filter_map(|key| self.key(row, key)).collect::<Vec<_>>();
                // An empty list takes the keys away; a list of nothing but mistakes does not.
                if list.is_empty() || !claims.is_empty() {
                    self.entries.push(Entry { row, claims });
                }
            }
            _ => self.report(value.span(), "a list of keys, as in [\"down\", \"j\"]".into()),
        }
    }

    fn key(&mut self, row: usize, value: &Value<'_>) -> Option<Claim> {
        let Some(written) = value.get_ref().as_str() else {
            self.report(value.span(), "a key in quotes, as in \"j\"".into());
            return None;
        };
        match written.parse::<Key>() {
            Ok(key) => self.claim(row, key, value.span()),
            Err(error) => {
                self.report(value.span(), error.advice());
                None
            }
        }
    }

    /// The key, unless this file has already given it to a command that is heard with this one.
    fn claim(&mut self, row: usize, key: Key, span: Range<usize>) -> Option<Claim> {
        let taken = self.used.iter().find(|used| used.key == key && self.meet(used.row, row));
        let taken = taken.map(|taken| self.not_yet_used(taken));
        if let Some(expected) = taken.or_else(|| self.is_kept(row, key)) {
            self.report(span, expected);
            return None;
        }
        let (line, column) = line_and_column(self.text, span.start);
        let claim = Claim { key, row, line, column };
        self.used.push(claim);
        Some(claim)
    }

    /// Are the commands of two rows heard together?
    fn meet(&self, one: usize, other: usize) -> bool {
        let (Some(one), Some(other)) = (self.map.rows.get(one), self.map.rows.get(other)) else {
            return false;
        };
        self.map.are_heard_together(one.heard, other.heard)
    }

    /// What was expected, where another command must keep this key: one that always has a key, and
    /// that this file has given no other one before.
    fn is_kept(&self, row: usize, key: Key) -> Option<String> {
        let given = |at: &usize| self.entries.iter().any(|entry| entry.row == *at);
        let mut rows = self.map.rows.iter().enumerate();
        let (_, keeper) = rows.find(|(at, keeper)| {
            *at != row
                && keeper.kept
                && keeper.keys.contains(&key)
                && self.meet(*at, row)
                && !given(at)
        })?;
        let (name, section) = (keeper.name, keeper.section);
        Some(format!("another key; this one is for `{name}` of [{section}]"))
    }

    fn not_yet_used(&self, taken: &Claim) -> String {
        let Some(by) = self.map.rows.get(taken.row) else { return String::new() };
        let (section, name, line) = (by.section, by.name, taken.line);
        format!("a key not yet used in [{section}]; `{name}` has it (line {line})")
    }

    fn report(&mut self, span: Range<usize>, expected: String) {
        let (line, column) = line_and_column(self.text, span.start);
        let text = self.text.get(span).unwrap_or_default();
        let first_line = text.lines().next().unwrap_or_default();
        let quoted = first_line.strip_prefix('"').and_then(|text| text.strip_suffix('"'));
        self.problems.push(Problem {
            file: self.file.to_owned(),
            line,
            column,
            text: quoted.unwrap_or(first_line).chars().take(QUOTED).collect(),
            expected,
        });
    }
}

/// What was expected, with the nearest name, or with all of them if none is near.
fn one_of<'a>(what: &str, written: &str, names: impl Iterator<Item = &'a str> + Clone) -> String {
    if let Some(nearest) = nearest(written, names.clone()) {
        return format!("{what}; did you mean `{nearest}`?");
    }
    let mut all: Vec<String> = Vec::new();
    for name in names.map(|name| format!("`{name}`")) {
        // Rows of one section need not stand together.
        if !all.contains(&name) {
            all.push(name);
        }
    }
    format!("{what}: {}", all.join(", "))
}
