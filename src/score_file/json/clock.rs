//! In what the times of a file are counted.

use super::list::RawList;

/// In what the times of a file are counted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Clock {
    Seconds,
    /// Quarter notes, as in a line that the program has printed.
    Beats,
}

impl Clock {
    /// That of the first note.
    pub(super) fn of(notes: &RawList<'_>) -> Clock {
        let first = notes.0.first().map(|raw| raw.get());
        let fields = first.and_then(|raw| serde_json::from_str::<serde_json::Value>(raw).ok());
        let is_beats =
            fields.is_some_and(|note| note.get("onset").is_some() && note.get("onset_s").is_none());
        if is_beats { Clock::Beats } else { Clock::Seconds }
    }
}
