//! Levels.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::ReadError;

/// How loud a track is, from 0, which is silent, to 100.
///
/// The ear hears ratios, so the samples go with its square: at 50 they are a quarter as large as at
/// 100, which is 12 dB.
///
/// # Example
///
/// ```
/// use fretloom::sound::Level;
/// let half = Level::new(50).unwrap();
/// assert_eq!(half.gain(), 0.25);
/// assert_eq!(Level::new(101), None);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Level(u8);

impl Level {
    /// Silence.
    pub const SILENT: Level = Level(0);
    /// As loud as can be.
    pub const FULL: Level = Level(100);
    /// What the line begins with: quiet, 6 dB below the loudest.
    pub const USUAL_LINE: Level = Level(70);
    /// What the drone begins with: under the line.
    pub const USUAL_DRONE: Level = Level(60);
    /// What the click begins with.
    pub const USUAL_CLICK: Level = Level(50);

    /// This level; `None` above 100.
    #[must_use]
    pub const fn new(percent: u8) -> Option<Level> {
        if percent <= Level::FULL.0 { Some(Level(percent)) } else { None }
    }

    /// From 0 to 100.
    #[must_use]
    pub const fn percent(self) -> u8 {
        self.0
    }

    /// What samples are multiplied by, from 0 to 1.
    #[must_use]
    pub fn gain(self) -> f32 {
        let part = f32::from(self.0) / 100.0;
        part * part
    }
}

impl fmt::Display for Level {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl FromStr for Level {
    type Err = ReadError;

    /// Reads a whole number.
    ///
    /// # Errors
    ///
    /// Where it is none from 0 to 100.
    fn from_str(text: &str) -> Result<Level, ReadError> {
        let read = text.trim().parse().ok().and_then(Level::new);
        read.ok_or_else(|| ReadError::whole("level", text, "a number from 0 to 100, as in 70"))
    }
}
