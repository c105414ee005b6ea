//! The tune on which the player left off.

use serde::{Deserialize, Serialize};

/// The choices on the changes screen. As in the session, every value is text as a player would type
/// it, and what is no longer valid is dropped alone.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct ChangesSession {
    /// The tune with what is settled for its chords, as a file of a chart has it; absent where there
    /// is none.
    pub chart: Option<String>,
    /// Its melody, note by note; absent where none is known.
    pub melody: Option<String>,
    /// The file in which it is saved.
    pub file: Option<String>,
    /// Where the hand stays: `V 5-10 4-3-2`; absent for anywhere.
    pub area: Option<String>,
    /// What is wished of it: `guide tones, never B@5.1`; absent for nothing.
    pub wishes: Option<String>,
    /// Shapes that are held over chords: `7-7-8 on 4-3-2@5.1`.
    pub held: Vec<String>,
    /// Which of the plans, from 0.
    pub plan: Option<u32>,
    /// Which part of a bar the player was at, from 0.
    pub at: Option<u32>,
    /// What stands in the marks.
    pub labels: Option<String>,
}
