//! Why pairs cannot be comped, in a player's words.

use std::fmt;

use fretloom_fretboard::{CompingError, CompingRelief, FretRange, StringSet};

/// The condition that fails, where, and what would help.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NoComping {
    /// What fails.
    pub error: CompingError,
    /// The bar and the chord at which it does; none where it is no chord's fault.
    pub at: Option<String>,
    /// The triad that has no place, by its name.
    pub triad: Option<String>,
    /// The strings, where not all may be used.
    pub strings: Option<StringSet>,
    /// The frets, where they are said.
    pub frets: Option<FretRange>,
}

impl fmt::Display for NoComping {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("cannot comp this: ")?;
        if let Some(at) = &self.at {
            write!(f, "{at}: ")?;
        }
        let triad = self.triad.as_deref().unwrap_or("a triad");
        let strings = self.strings.map(|strings| format!(" on strings {strings}"));
        let strings = strings.unwrap_or_default();
        let frets = self.frets.map(|frets| format!(" at frets {frets}")).unwrap_or_default();
        match self.error {
            CompingError::NoShape { .. } => write!(
                f,
                "{triad} has no close shape{strings}{frets}; expected more strings or more frets"
            ),
            CompingError::NotHeld { .. } => write!(
                f,
                "this hand holds no close shape of {triad}{strings}{frets}; expected other strings, \
                 higher frets or a longer --reach-mm"
            ),
            CompingError::NoArea { frets, relief } => write!(
                f,
                "no {frets} frets side by side have a shape of every triad{strings}; {}",
                Relief(relief)
            ),
            CompingError::TopVoice { semitones, relief, .. } => write!(
                f,
                "the top voice does not come there in steps of {} at most{strings}{frets}; {}",
                semitones_in_words(semitones),
                Relief(relief)
            ),
            CompingError::NoRound { semitones, relief } => write!(
                f,
                "the top voice does not come from the end to the beginning in steps of {} at \
                 most{strings}{frets}; {}, or --once",
                semitones_in_words(semitones),
                Relief(relief)
            ),
            _ => write!(f, "{}", self.error),
        }
    }
}

/// What would help, as it is typed.
struct Relief(CompingRelief);

impl fmt::Display for Relief {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let CompingRelief { semitones, frets } = self.0;
        let frets = frets.map(|frets| format!("--area {frets}"));
        let top = semitones.map(|semitones| format!("--top {semitones}"));
        match (frets, top) {
            (Some(one), Some(other)) => write!(f, "expected {one} or {other}"),
            (Some(one), None) | (None, Some(one)) => write!(f, "expected {one}"),
            (None, None) => f.write_str("expected more strings or more frets"),
        }
    }
}

/// `1 semitone`, `3 semitones`
fn semitones_in_words(count: u8) -> String {
    if count == 1 { "1 semitone".to_owned() } else { format!("{count} semitones") }
}
