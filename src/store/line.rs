//! The line on which the player left off.

use serde::{Deserialize, Serialize};

/// The choices on the line screen. As in the session, every value is text as a player would type it,
/// and what is no longer valid is dropped alone.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct LineSession {
    /// What the line was made of first: `Dm7; D Dorian; F & G; neck; 4-3-2; `.
    pub made_of: Option<String>,
    /// The chords: `Dm7 | G7 | Cmaj7`.
    pub chords: Option<String>,
    /// What is chosen for each chord: `Dm7; D Dorian; F & G`.
    pub each: Vec<String>,
    /// How many bars; absent for as many as are written.
    pub bars: Option<u32>,
    /// The meter: `4/4`.
    pub meter: Option<String>,
    /// Beats a minute.
    pub tempo: Option<u32>,
    /// Is it the unbroken exercise?
    pub exercise: Option<bool>,
    /// The pattern: `1232 321 a`; absent for the usual one, as what follows.
    pub pattern: Option<String>,
    /// The rhythm: `4. 8`.
    pub rhythm: Option<String>,
    /// How groups follow, by its words: `linked up`.
    pub travel: Option<String>,
    /// On which inversion it begins: `root`; `hand` for where the hand was.
    pub start: Option<String>,
    /// The lowest note that the hand held then, as MIDI counts.
    pub near: Option<u8>,
    /// What an exercise does at a change of chord: `runs on`.
    pub at_change: Option<String>,
    /// Where it lands: `3@2.1 3@3.1`.
    pub targets: Option<String>,
    /// Its phrases, as a file has them.
    pub phrases: Option<String>,
    /// Where on the neck: `position V; 4-3-2; 1-12`.
    pub place: Option<String>,
    /// What was changed note by note: `1/2.0 pair up`.
    pub edits: Vec<String>,
    /// Which way to finger it, from 0.
    pub way: Option<u32>,
    /// Which of the twelve keys, from 0.
    pub key: Option<u32>,
    /// What stands in the marks.
    pub labels: Option<String>,
}
