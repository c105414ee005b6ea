//! The keys of a TOML file, taken one by one, each with its place in the text.
//!
//! The spanned table is read by hand rather than through `derive`: a derived reader stops at the
//! first mistake, and cannot say where an unknown key stands.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::Problem;
use super::recover::recover;
use crate::words::nearest;

/// The keys of one file, and what has been found wrong with them so far.
pub(crate) struct Fields<'a> {
    file: &'a str,
    content: &'a str,
    table: DeTable<'a>,
    problems: Vec<Problem>,
}

/// A value with its place.
pub(crate) struct Field<T> {
    pub(crate) value: T,
    pub(crate) span: Range<usize>,
}

impl<'a> Fields<'a> {
    /// The keys of a file; `Err` where it is not TOML. Only the first such mistake is told: what a
    /// parser finds after it is mostly an echo.
    pub(crate) fn read(file: &'a str, content: &'a str) -> Result<Fields<'a>, Problem> {
        match DeTable::parse(content) {
            Ok(table) => {
                Ok(Fields { file, content, table: table.into_inner(), problems: Vec::new() })
            }
            Err(error) => {
                let span = error.span().unwrap_or_default();
                let expected = format!("TOML ({})", error.message());
                Err(Problem::at(file, content, (span.start, span.end), expected))
            }
        }
    }

    /// The keys of a file of which each broken line costs that line only. `sound` is where the
    /// text without those lines is kept.
    pub(crate) fn salvage(file: &'a str, content: &'a str, sound: &'a mut String) -> Fields<'a> {
        let (text, broken) = recover(content);
        *sound = text;
        // What was salvaged is valid, or empty.
        let table = DeTable::parse(sound).map(Spanned::into_inner).unwrap_or_default();
        let mut fields = Fields { file, content, table, problems: Vec::new() };
        for line in broken {
            fields.report(&line.span, format!("TOML ({})", line.message));
        }
        fields
    }

    /// Reports every key that is none of `known`, with the nearest that is.
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

    /// Reports what was expected at a place.
    pub(crate) fn report(&mut self, span: &Range<usize>, expected: impl Into<String>) {
        let place = (span.start, span.end);
        let problem = Problem::at(self.file, self.content, place, expected.into());
        self.problems.push(problem);
    }

    /// The value of a key that must be there, as `read` understands it; else reported.
    pub(crate) fn required<T>(
        &mut self,
        key: &str,
        expected: &str,
        read: impl Fn(&DeValue<'a>) -> Option<T>,
    ) -> Option<Field<T>> {
        if !self.table.contains_key(key) {
            self.report(&(0..0), format!("a key `{key}`: {expected}"));
            return None;
        }
        self.optional(key, expected, read)
    }

    /// The value of a key, if it is there; reported where `read` does not understand it.
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

    /// The value of a key, if it is there, as `read` understands it; else reported with what
    /// `read` says that it expected.
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

    /// What has been found wrong.
    pub(crate) fn into_problems(mut self) -> Vec<Problem> {
        self.problems.sort_by_key(|problem| (problem.line, problem.column));
        self.problems
    }

    /// How many problems have been reported so far.
    pub(crate) fn problem_count(&self) -> usize {
        self.problems.len()
    }
}

/// A piece of text that is not blank.
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

/// A list whose items `read` understands, each with its place.
pub(crate) fn list<T>(
    value: &DeValue<'_>,
    read: impl Fn(&DeValue<'_>) -> Option<T>,
) -> Option<Vec<Field<T>>> {
    let item = |item: &Spanned<DeValue<'_>>| {
        Some(Field { value: read(item.get_ref())?, span: item.span() })
    };
    value.as_array()?.iter().map(item).collect()
}
