//! Writing musical values to JSON: everything prints its ASCII form.

use std::fmt::Display;

use serde::Serializer;

/// One value, as `{:#}` prints it.
pub(super) fn one<T: Display, S: Serializer>(value: &T, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(&format_args!("{value:#}"))
}

/// A list of values.
pub(super) fn list<L, T: Display, S: Serializer>(list: &L, serializer: S) -> Result<S::Ok, S::Error>
where
    for<'a> &'a L: IntoIterator<Item = &'a T>,
{
    serializer.collect_seq(list.into_iter().map(|value| format!("{value:#}")))
}
