//! Keys: a tonic, major or minor.

use std::fmt;
use std::str::FromStr;

use crate::{Interval, NoteName, ReadError};

/// A key: a tonic, major or minor.
///
/// ```
/// use fretloom_theory::Key;
/// assert_eq!(Key::minor("D".parse().unwrap()).to_string(), "D minor");
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Key {
    tonic: NoteName,
    minor: bool,
}

impl Key {
    /// The major key of `tonic`.
    #[must_use]
    pub const fn major(tonic: NoteName) -> Key {
        Key { tonic, minor: false }
    }

    /// The minor key of `tonic`.
    #[must_use]
    pub const fn minor(tonic: NoteName) -> Key {
        Key { tonic, minor: true }
    }

    /// Its tonic.
    #[must_use]
    pub const fn tonic(self) -> NoteName {
        self.tonic
    }

    /// Is it minor?
    pub(crate) const fn is_minor(self) -> bool {
        self.minor
    }

    /// The tonic whose V stands on `dominant`.
    pub(crate) fn fifth_below(dominant: NoteName) -> NoteName {
        moved(dominant, Interval::PERFECT_FOURTH)
    }

    /// The root of the V of `tonic`.
    pub(crate) fn fifth_above(tonic: NoteName) -> NoteName {
        moved(tonic, Interval::PERFECT_FIFTH)
    }
}

/// The note an interval above, by its everyday name where the letter would not do.
fn moved(from: NoteName, interval: Interval) -> NoteName {
    let class = from.pitch_class().up(i32::from(interval.semitones()));
    from.up(interval)
        .filter(|name| name.is_everyday())
        .or_else(|| NoteName::everyday(class).next())
        .unwrap_or(from)
}

impl fmt::Display for Key {
    /// `C` for a major key, `C minor` for a minor one.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.tonic.fmt(f)?;
        if self.minor { f.write_str(" minor") } else { Ok(()) }
    }
}

impl FromStr for Key {
    type Err = ReadError;

    /// Reads `Bb`, `Bb major`, `D minor`, `Dm` or `D-`, in either case: the first letter is the
    /// tonic, so that `bb` is B flat.
    ///
    /// # Errors
    ///
    /// Where the text does not begin with a note, or goes on with anything else than a mode.
    fn from_str(text: &str) -> Result<Key, ReadError> {
        let error = || ReadError::whole("key", text, "a tonic, as in Bb or D minor");
        let mut signs = text.trim().chars();
        let letter = signs.next().ok_or_else(error)?.to_ascii_uppercase();
        let upper = format!("{letter}{}", signs.as_str());
        let (tonic, mode) = NoteName::read_prefix(&upper).map_err(|_| error())?;
        match mode.trim().to_ascii_lowercase().as_str() {
            // A capital M is major, a small one minor.
            "" | "major" | "maj" => Ok(Key::major(tonic)),
            "m" if mode.trim() == "M" => Ok(Key::major(tonic)),
            "m" | "minor" | "min" | "-" => Ok(Key::minor(tonic)),
            _ => Err(error()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_read_as_players_type_them() {
        for (typed, key) in [
            ("C", "C"),
            ("c", "C"),
            ("Bb", "B♭"),
            ("bb", "B♭"),
            ("b", "B"),
            ("bb minor", "B♭ minor"),
            ("c minor", "C minor"),
            ("C-", "C minor"),
            ("C Minor", "C minor"),
            ("F#m", "F♯ minor"),
            ("Eb Major", "E♭"),
            ("CM", "C"),
            (" d min ", "D minor"),
        ] {
            assert_eq!(typed.parse::<Key>().unwrap().to_string(), key, "{typed}");
        }
        for typed in ["", " ", "H", "C7", "minor", "C minor minor", "-"] {
            assert!(typed.parse::<Key>().is_err(), "{typed}");
        }
    }
}
