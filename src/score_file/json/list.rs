//! Lists whose entries are still text.

use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, SeqAccess, Visitor};
use serde_json::value::RawValue;

use crate::score_file::limits::MOST_NOTES;

/// A list whose entries are still text; of a longer one than may be one entry more than may be.
pub(super) struct RawList<'a>(pub(super) Vec<&'a RawValue>);

impl<'de: 'a, 'a> Deserialize<'de> for RawList<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_seq(ListVisitor)
    }
}

struct ListVisitor;

impl<'de> Visitor<'de> for ListVisitor {
    type Value = RawList<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list of notes")
    }

    /// Keeps one entry more than there may be, and reads past the rest.
    fn visit_seq<A: SeqAccess<'de>>(self, mut from: A) -> Result<Self::Value, A::Error> {
        let mut entries = Vec::new();
        while let Some(entry) = from.next_element::<&RawValue>()? {
            if entries.len() <= MOST_NOTES {
                entries.push(entry);
            }
        }
        Ok(RawList(entries))
    }
}
