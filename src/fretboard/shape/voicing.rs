//! Close and open voicings.

use std::fmt;

use fretloom_theory::TriadQuality;

use super::inversion::Inversion;

/// How far the three notes lie apart.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Voicing {
    /// All within an octave.
    Close,
    /// Spread: the middle note of the close triad sounds an octave higher.
    Open,
}

impl Voicing {
    /// Both, close first.
    pub const ALL: [Voicing; 2] = [Voicing::Close, Voicing::Open];

    /// The word for it: `close`, `open`.
    #[must_use]
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Voicing::Close => "close",
            Voicing::Open => "open",
        }
    }

    /// Semitones of the three notes above the lowest, going up.
    #[must_use]
    pub(crate) const fn semitones(self, quality: TriadQuality, inversion: Inversion) -> [i32; 3] {
        let [_, second, third] = quality.semitones();
        let (middle, top) = match inversion {
            Inversion::Root => (second, third),
            Inversion::First => (third - second, 12 - second),
            Inversion::Second => (12 - third, 12 - third + second),
        };
        match self {
            Voicing::Close => [0, middle, top],
            Voicing::Open => [0, top, middle + 12],
        }
    }
}

impl fmt::Display for Voicing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_open_voicing_lifts_the_middle_note() {
        let (major, first) = (TriadQuality::Major, Inversion::First);
        assert_eq!(Voicing::Close.semitones(major, first), [0, 3, 8]);
        assert_eq!(Voicing::Open.semitones(major, first), [0, 8, 15]);
    }
}
