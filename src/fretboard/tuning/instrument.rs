//! Kinds of instruments.

use std::fmt;

/// What kind of instrument: decides inlays and what is proposed, never what is possible.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::Instrument;
/// assert_eq!(Instrument::from_word("Ukulele"), Instrument::Ukulele);
/// assert_eq!(Instrument::from_word("cuatro").word(), "cuatro");
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Instrument {
    /// With any number of strings, baritone and tenor included.
    Guitar,
    /// The bass guitar.
    Bass,
    /// Soprano to baritone.
    Ukulele,
    /// And its larger relatives.
    Mandolin,
    /// Four or five strings.
    Banjo,
    /// Any other, by its name.
    Other(String),
}

impl Instrument {
    /// The instrument of that name, whatever its case; a word that is not known names another.
    #[must_use]
    pub fn from_word(word: &str) -> Instrument {
        let known = [
            Instrument::Guitar,
            Instrument::Bass,
            Instrument::Ukulele,
            Instrument::Mandolin,
            Instrument::Banjo,
        ];
        let word = word.trim();
        known
            .into_iter()
            .find(|instrument| instrument.word().eq_ignore_ascii_case(word))
            .unwrap_or_else(|| Instrument::Other(word.to_owned()))
    }

    /// Its name.
    #[must_use]
    pub fn word(&self) -> &str {
        match self {
            Instrument::Guitar => "guitar",
            Instrument::Bass => "bass",
            Instrument::Ukulele => "ukulele",
            Instrument::Mandolin => "mandolin",
            Instrument::Banjo => "banjo",
            Instrument::Other(word) => word,
        }
    }
}

impl fmt::Display for Instrument {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}
