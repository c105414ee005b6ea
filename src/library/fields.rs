//! The keys of a TOML file, read one by one, each with its place in the text.
//!
//! The table is read by hand and not through `derive`: a derived reader stops at the first mistake,
//! and cannot say where an unknown key stands.

use std::ops::Range;

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
}

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
            Ok(table) => Ok(Fields::of(file, content, table.into_inner(), 0..0)),
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
        let mut fields = Fields::of(file, content, table, 0..0);
        for line in broken {
            fields.report(&line.span, format!("TOML ({})", line.message));
        }
        fields
    }

    fn of(
        file: &'a str,
        content: &'a str,
        table: DeTable<'a>,
        beginning: Range<usize>,
    ) -> Fields<'a> {
        Fields { file, content, table, beginning, problems: Vec::new() }
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
            DeValue::Table(table) => {
                Some(Fields::of(self.file, self.content, table, place.clone()))
            }
            _ => {
                self.report(&span, expected);
                None
            }
        }
    }

    /// Adds the problems of a section.
    pub(crate) fn add_problems_of(&mut self, section: Fields<'_>) {
        self.problems.extend(section.problems);
    }

    /// Reports every key that is not one of `known`, with the known key that is nearest to it.
    pub(crate) fn report_unknown(&mut self, known: &[&str]) {
        let unknown = self.table.keys().filter_map(|key| {
            let name: &str = key.get_ref();
            if known.contains(&name) {
                return None;
            }
            let expected = match nearest(name, known.iter().copied()) {
                Some(near) => format!("`{near}`, perhaps; this key is not used"),
                None => format!("one of {}; this key is not used", known.join(", ")),
            };
            let span = key.span();
            let place = (span.start, span.end);
            Some(Problem::at(self.file, self.content, place, expected))
        });
        let unknown: Vec<Problem> = unknown.collect();
        self.problems.extend(unknown);
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
        let place = (span.start, span.end);
        let problem = Problem::at(self.file, self.content, place, expected.into());
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
