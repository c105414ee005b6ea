//! Moments of a chart, as they are typed.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::{ChartBeat, Chorus, Quarters, ReadError};

/// A bar that is heard and a beat in it, typed `5.3`; a bar alone is its first beat.
///
/// ```
/// use fretloom::answer::ChartMoment;
/// assert_eq!("5".parse::<ChartMoment>()?, "5.1".parse()?);
/// assert_eq!("5.2&".parse::<ChartMoment>()?.to_string(), "5.2&");
/// assert_eq!("5.0".parse::<ChartMoment>().unwrap_err().at(), 3);
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct ChartMoment {
    /// The bar, counted from 1 as they are heard; 0 is a pick-up.
    pub bar: u64,
    /// The beat.
    pub beat: ChartBeat,
}

impl ChartMoment {
    /// When it is in a chorus; `None` where the chorus has no such beat.
    #[must_use]
    pub fn in_chorus(self, chorus: &Chorus) -> Option<Quarters> {
        self.beat.moment_in(self.bar, chorus)
    }
}

impl FromStr for ChartMoment {
    type Err = ReadError;

    /// # Errors
    ///
    /// Where the text is neither the number of a bar nor that, a dot and a beat.
    fn from_str(text: &str) -> Result<ChartMoment, ReadError> {
        let (bar, beat) = match text.split_once('.') {
            Some((bar, beat)) => (bar, Some(beat)),
            None => (text, None),
        };
        let at = bar.chars().count() + 2;
        let wrong = |at, expected| ReadError::at_character("moment", text, at, expected);
        let digits = bar.trim();
        let is_number = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
        let number = digits.parse().ok().filter(|_| is_number);
        let beat = beat.map(str::parse::<ChartBeat>).transpose();
        Ok(ChartMoment {
            bar: number.ok_or_else(|| wrong(1, "the number of a bar, as in 5 or 5.3"))?,
            beat: beat
                .map_err(|_| wrong(at, "a beat from 1, as in 5.3 or 5.2&"))?
                .unwrap_or(ChartBeat::FIRST),
        })
    }
}

impl fmt::Display for ChartMoment {
    /// Bar and beat, a first beat too.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.bar, self.beat)
    }
}
