//! The keys of a TOML file, read one by one, each with its place in the text.
//!
//! The table is read by hand and not through `derive`: a derived reader stops at the first mistake,
//! and cannot say where an unknown key stands.

use std::cell::Cell;
use std::ops::Range;
use std::rc::Rc;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::Problem;
use super::recover::recover;
use crate::words::nearest;

/// The keys of one file, and the problems found so far.
pub(crate) struct Fields<'a> {
    file: &'a str,
    content: &'a str,
    table: DeTable<'a>,
    /// Where it is told that a key is missing.
    beginning: Range<usize>,
    problems: Vec<Problem>,
    /// How many problems of the file may still be told, its sections together.
    untold: Rc<Cell<usize>>,
}

/// The most problems that are told of a file. Each takes a look at the text before it.
const MOST_PROBLEMS: usize = 200;

const THERE_IS_MORE: &str =
    "fewer mistakes: what is wrong here and elsewhere is told when those before are mended";

/// A value with its place.
pub(crate) struct Field<T> {
    pub(crate) value: T,
    pub(crate) span: Range<usize>,
}

impl<'a> Fields<'a> {
    /// The keys of a file; `Err` where it is not TOML. Only the first syntax error is reported:
    /// those that a parser finds after it mostly follow from it.
    pub(crate) fn read(file: &'a str, content: &'a str) -> Result<Fields<'a>, Problem> {
        match DeTable::parse(content) {
            Ok(table) => Ok(Fields::of(file, content, table.into_inner())),
            Err(error) => {
                let span = error.span().unwrap_or_default();
                let expected = format!("TOML ({})", error.message());
                Err(Problem::at(file, content, (span.start, span.end), expected))
            }
        }
    }

    /// The keys of a file in which broken lines are reported and skipped. `intact` receives the
    /// text without those lines.
    pub(crate) fn salvage(file: &'a str, content: &'a str, intact: &'a mut String) -> Fields<'a> {
        let (text, broken) = recover(content);
        *intact = text;
        // What `recover` returns is valid, or empty.
        let table = DeTable::parse(intact).map(Spanned::into_inner).unwrap_or_default();
        let mut fields = Fields::of(file, content, table);
        for line in broken {
            fields.report(&line.span, format!("TOML ({})", line.message));
        }
        fields
    }

    fn of(file: &'a str, content: &'a str, table: DeTable<'a>) -> Fields<'a> {
        let untold = Rc::new(Cell::new(MOST_PROBLEMS));
        Fields { file, content, table, beginning: 0..0, problems: Vec::new(), untold }
    }

    /// The keys of a section that stands there.
    fn section(&self, table: DeTable<'a>, beginning: Range<usize>) -> Fields<'a> {
        let untold = Rc::clone(&self.untold);
        Fields { beginning, untold, ..Fields::of(self.file, self.content, table) }
    }

    /// Takes out the keys under the name of a section, which stands at this place. A value that is
    /// no section is reported.
    pub(crate) fn take_section(
        &mut self,
        name: &str,
        place: &Range<usize>,
        expected: &str,
    ) -> Option<Fields<'a>> {
        let found = self.table.remove(name)?;
        let span = found.span();
        match found.into_inner() {
            DeValue::Table(table) => Some(self.section(table, place.clone())),
            _ => {
                self.report(&span, expected);
                None
            }
        }
    }

    /// Takes out the sections of a list, each with its keys, as `[[choice]]` begins them. What is no
    /// list of sections is reported.
    pub(crate) fn take_list(&mut self, name: &str, expected: &str) -> Vec<Fields<'a>> {
        let Some(found) = self.table.remove(name) else { return Vec::new() };
        let span = found.span();
        let DeValue::Array(items) = found.into_inner() else {
            self.report(&span, expected);
            return Vec::new();
        };
        let mut sections = Vec::with_capacity(items.len());
        for item in items {
            let span = item.span();
            match item.into_inner() {
                DeValue::Table(table) => {
                    sections.push(self.section(table, span));
                }
                _ => self.report(&span, expected),
            }
        }
        sections
    }

    /// Where the section begins, or the file.
    pub(crate) fn beginning(&self) -> &Range<usize> {
        &self.beginning
    }

    /// Adds the problems of a section.
    pub(crate) fn add_problems_of(&mut self, section: Fields<'_>) {
        self.problems.extend(section.problems);
    }

    /// Reports every key that is not one of `known`, with the known key that is nearest to it.
    pub(crate) fn report_unknown(&mut self, known: &[&str]) {
        let unknown = self.names().into_iter().filter(|(name, _)| !known.contains(&name.as_str()));
        // No more are looked at than can be told.
        for (name, place) in unknown.take(MOST_PROBLEMS + 1) {
            let expected = match nearest(&name, known.iter().copied()) {
                Some(near) => format!("`{near}`, perhaps; this key is not used"),
                None => format!("one of {}; this key is not used", known.join(", ")),
            };
            self.report(&place, expected);
        }
    }

    /// Every key with its place, in the order of the file.
    pub(crate) fn names(&self) -> Vec<(String, Range<usize>)> {
        let mut names: Vec<(String, Range<usize>)> =
            self.table.keys().map(|key| (key.get_ref().to_string(), key.span())).collect();
        names.sort_by_key(|(_, span)| span.start);
        names
    }

    /// Reports a problem at a place: what was expected there.
    pub(crate) fn report(&mut self, span: &Range<usize>, expected: impl Into<String>) {
        let Some(left) = self.untold.get().checked_sub(1) else { return };
        self.untold.set(left);
        let place = (span.start, span.end);
        let problem = match left {
            0 => Problem::at(self.file, self.content, place, THERE_IS_MORE.to_owned()),
            _ => Problem::at(self.file, self.content, place, expected.into()),
        };
        self.problems.push(problem);
    }

    /// The value of a required key. A missing key, and a value that `read` refuses, are reported.
    pub(crate) fn required<T>(
        &mut self,
        key: &str,
        expected: &str,
        read: impl Fn(&DeValue<'a>) -> Option<T>,
    ) -> Option<Field<T>> {
        if !self.table.contains_key(key) {
            let beginning = self.beginning.clone();
            self.report(&beginning, format!("a key `{key}`: {expected}"));
            return None;
        }
        self.optional(key, expected, read)
    }

    /// The value of a key, if the key is there. A value that `read` refuses is reported.
    pub(crate) fn optional<T>(
        &mut self,
        key: &str,
        expected: &str,
        read: impl Fn(&DeValue<'a>) -> Option<T>,
    ) -> Option<Field<T>> {
        let found = self.table.get(key)?;
        let span = found.span();
        let value = read(found.get_ref());
        if value.is_none() {
            self.report(&span, expected);
        }
        value.map(|value| Field { value, span })
    }

    /// The value of a key, if the key is there. A value that `read` refuses is reported, with what
    /// `read` says it expected.
    pub(crate) fn read_key<T>(
        &mut self,
        key: &str,
        read: impl Fn(&DeValue<'a>) -> Result<T, String>,
    ) -> Option<T> {
        let found = self.table.get(key)?;
        let span = found.span();
        let value = read(found.get_ref());
        value.map_err(|expected| self.report(&span, expected)).ok()
    }

    /// A problem with the value of a key, if the key is there.
    pub(crate) fn problem_at_key(&self, key: &str, expected: &str) -> Option<Problem> {
        let span = self.table.get(key)?.span();
        Some(Problem::at(self.file, self.content, (span.start, span.end), expected.to_owned()))
    }

    /// The problems, in the order of the file.
    pub(crate) fn into_problems(mut self) -> Vec<Problem> {
        self.problems.sort_by_key(|problem| (problem.line, problem.column));
        self.problems
    }

    /// How many problems have been reported so far.
    pub(crate) fn problem_count(&self) -> usize {
        self.problems.len()
    }
}

/// A text that is not blank, without blanks at its ends.
pub(crate) fn text(value: &DeValue<'_>) -> Option<String> {
    let text = value.as_str()?.trim();
    (!text.is_empty()).then(|| text.to_owned())
}

/// A whole number that is not negative.
pub(crate) fn count(value: &DeValue<'_>) -> Option<u32> {
    let integer = value.as_integer()?;
    u32::from_str_radix(integer.as_str(), integer.radix()).ok()
}

/// A number with or without a fraction.
pub(crate) fn decimal(value: &DeValue<'_>) -> Option<f64> {
    match value.as_float() {
        Some(float) => float.as_str().parse().ok(),
        None => count(value).map(f64::from),
    }
}

/// A list, each item with its place; `None` where `read` refuses an item.
pub(crate) fn list<T>(
    value: &DeValue<'_>,
    read: impl Fn(&DeValue<'_>) -> Option<T>,
) -> Option<Vec<Field<T>>> {
    let item = |item: &Spanned<DeValue<'_>>| {
        Some(Field { value: read(item.get_ref())?, span: item.span() })
    };
    value.as_array()?.iter().map(item).collect()
}
