//! Musical values in ASCII.

use std::fmt::Display;

use serde::{Serialize, Serializer};

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
