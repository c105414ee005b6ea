//! Moments of a line, as they are typed: a bar and a beat.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::ReadError;

/// A beat of a bar, `5.1`; with `&` half a beat later, `2.4&`.
///
/// ```
/// use fretloom::answer::{BarBeat, InBeat};
/// let moment: BarBeat = "2.4&".parse()?;
/// assert_eq!((moment.bar, moment.beat, moment.place), (2, 4, InBeat::And));
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct BarBeat {
    /// The bar, as bars are counted: from 1, and 0 for a pick-up.
    pub bar: u64,
    /// The beat, from 1.
    pub beat: u32,
    /// On the beat, or half a beat after it?
    pub place: InBeat,
}

/// On a beat or off it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum InBeat {
    /// On it.
    On,
    /// Half a beat after it.
    And,
}

impl FromStr for BarBeat {
    type Err = ReadError;

    /// # Errors
    ///
    /// Where the text is not a bar, a dot and a beat.
    fn from_str(text: &str) -> Result<BarBeat, ReadError> {
        let wrong = |before: usize, expected: &'static str| {
            ReadError::at_character("moment", text, before + 1, expected)
        };
        let length = text.chars().count();
        let (bar, beat) =
            text.split_once('.').ok_or_else(|| wrong(length, "a dot and the beat, as in 5.1"))?;
        let beat_at = bar.chars().count() + 1;
        let bar = bar.trim().parse().map_err(|_| wrong(0, "the number of a bar"))?;
        let (beat, place) = match beat.trim().strip_suffix('&') {
            Some(beat) => (beat, InBeat::And),
            None => (beat.trim(), InBeat::On),
        };
        let beat = beat.parse().ok().filter(|beat| *beat > 0);
        let beat = beat.ok_or_else(|| wrong(beat_at, "a beat from 1, as in 5.1 or 5.2&"))?;
        Ok(BarBeat { bar, beat, place })
    }
}

impl fmt::Display for BarBeat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let and = match self.place {
            InBeat::On => "",
            InBeat::And => "&",
        };
        write!(f, "{}.{}{and}", self.bar, self.beat)
    }
}
