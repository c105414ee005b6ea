//! Musical values in ASCII, and words without signs.

use std::fmt::Display;

use serde::{Serialize, Serializer};

use crate::glyphs::to_ascii;

/// A value as `{:#}` prints it.
pub(super) struct Ascii<T>(pub(super) T);

impl<T: Display> Serialize for Ascii<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&format_args!("{:#}", self.0))
    }
}

/// A list of values, each as `{:#}` prints it.
pub(super) fn list<T: Display>(values: impl IntoIterator<Item = T>) -> Vec<Ascii<T>> {
    values.into_iter().map(Ascii).collect()
}

/// Words with ASCII in place of their signs.
pub(super) struct Words<'a>(pub(super) &'a str);

impl Serialize for Words<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&to_ascii(self.0))
    }
}
