//! Where a note is played.

use serde::Serialize;

use crate::answer::FingeredAnswer;

/// A place with its finger, as it stands in the notes of several answers.
#[derive(Serialize)]
pub(super) struct AtPlace {
    string: u8,
    fret: u8,
    /// 0 for an open string.
    finger: u8,
    position: u8,
}

impl AtPlace {
    pub(super) fn new(fingered: &FingeredAnswer) -> AtPlace {
        AtPlace {
            string: fingered.place.string.number(),
            fret: fingered.fret.number(),
            finger: fingered.finger.number(),
            position: fingered.position.number(),
        }
    }
}
