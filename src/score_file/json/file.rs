//! The file as a whole.

use serde::Deserialize;
use serde_json::value::RawValue;

use super::list::RawList;

/// The file, its parts still text, so that each can be found again.
#[derive(Deserialize)]
pub(super) struct File<'a> {
    #[serde(borrow)]
    pub(super) notes: RawList<'a>,
    #[serde(borrow)]
    pub(super) chords: Option<&'a RawValue>,
    #[serde(borrow)]
    pub(super) tempo: Option<&'a RawValue>,
    #[serde(borrow)]
    pub(super) meter: Option<&'a RawValue>,
    #[serde(borrow)]
    pub(super) bars_s: Option<&'a RawValue>,
    #[serde(borrow)]
    pub(super) bars: Option<&'a RawValue>,
    #[serde(borrow)]
    pub(super) phrases: Option<&'a RawValue>,
    #[serde(borrow)]
    pub(super) scales: Option<&'a RawValue>,
}

/// Where a part of a text begins in it.
pub(super) fn offset_in(text: &str, raw: &RawValue) -> usize {
    raw.get().as_ptr().addr().wrapping_sub(text.as_ptr().addr())
}
