//! Why pairs cannot be comped, in a player's words.

use std::fmt;

use fretloom_fretboard::{CompingError, CompingRelief, FretRange, StringSet};

use crate::words::counted;

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

impl NoComping {
    /// The condition that fails, and where: `bar 2, G7 (F & G): F has no close shape on strings 4-3-2`.
    #[must_use]
    pub fn fails(&self) -> String {
        let at = self.at.as_ref().map(|at| format!("{at}: ")).unwrap_or_default();
        let triad = self.triad.as_deref().unwrap_or("a triad");
        let strings = self.strings.map(|strings| format!(" on strings {strings}"));
        let strings = strings.unwrap_or_default();
        let frets = self.frets.map(|frets| format!(" at frets {}–{}", frets.first(), frets.last()));
        let place = strings.clone() + &frets.unwrap_or_default();
        match self.error {
            CompingError::NoShape { .. } => format!("{at}{triad} has no close shape{place}"),
            CompingError::NotHeld { .. } => {
                format!("{at}this hand holds no close shape of {triad}{place}")
            }
            CompingError::NoArea { frets, .. } => {
                format!("no {frets} frets side by side have a shape of every triad{strings}")
            }
            CompingError::TopVoice { semitones, .. } => {
                let steps = counted(semitones.into(), "semitone");
                format!("{at}the top voice would go further than {steps}{place}")
            }
            CompingError::NoRound { semitones, .. } => {
                let steps = counted(semitones.into(), "semitone");
                format!(
                    "from the end to the beginning the top voice would go further than \
                     {steps}{place}"
                )
            }
            other => other.to_string(),
        }
    }
}

impl fmt::Display for NoComping {
    /// What fails, and the options of the command that would help.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "cannot comp this: {}", self.fails())?;
        match self.error {
            CompingError::NoShape { .. } => f.write_str("; expected more strings or more frets"),
            CompingError::NotHeld { .. } => {
                f.write_str("; expected other strings, higher frets or a longer --reach")
            }
            CompingError::NoArea { relief, .. } | CompingError::TopVoice { relief, .. } => {
                write!(f, "; {}", Relief(relief))
            }
            CompingError::NoRound { relief, .. } => write!(f, "; {}, or --once", Relief(relief)),
            _ => Ok(()),
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
