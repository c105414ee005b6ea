//! How the player heard music last.

use serde::{Deserialize, Serialize};

/// How music was heard last. As in the session, every value is text or a number as a player would
/// give it, and what is no longer valid is dropped alone.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct SoundSession {
    /// How two eighths are played: `2:1`.
    pub swing: Option<String>,
    /// Which beats are struck: `off`, `2-and-4`, `every-beat`.
    pub click: Option<String>,
    /// Is a bar counted before it begins?
    pub count_in: Option<bool>,
    /// Is it played again and again?
    pub again: Option<bool>,
    /// How loud the line is, from 0 to 100.
    pub line_level: Option<u8>,
    /// How loud the drone is.
    pub drone_level: Option<u8>,
    /// How loud the click is.
    pub click_level: Option<u8>,
    /// What is silent: `line`, `drone`, `click`; absent for what usually is.
    pub silent: Option<Vec<String>>,
}
