//! Moments of a line, as they are typed: a bar and a beat.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::{Quarters, ReadError};

/// A beat of a bar, `5.1`; with `&` half a beat later, `2.4&`; with another part of a beat that much
/// later, `2.4+1/3`.
///
/// ```
/// use fretloom::answer::{BarBeat, InBeat};
/// let moment: BarBeat = "2.4&".parse()?;
/// assert_eq!((moment.bar, moment.beat, moment.place), (2, 4, InBeat::And));
/// assert_eq!("2.4+1/3".parse::<BarBeat>()?.to_string(), "2.4+1/3");
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct BarBeat {
    /// The bar, as bars are counted: from 1, and 0 for a pick-up.
    pub bar: u64,
    /// The beat, from 1.
    pub beat: u32,
    /// On the beat, or after it?
    pub place: InBeat,
}

/// On a beat or off it. The beat is a whole; a part is written in one way.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum InBeat {
    /// On it.
    On,
    /// Half a beat after it.
    And,
    /// Another part of a beat after it, in lowest terms.
    Part(BeatPart),
}

/// A part of a beat other than a half: more than nothing and less than all of it, in lowest terms.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct BeatPart {
    above: u32,
    below: u32,
}

impl InBeat {
    /// So many parts of so many; `None` for a whole beat and more.
    #[must_use]
    pub fn part(above: u32, below: u32) -> Option<InBeat> {
        if above >= below {
            return None;
        }
        // In lowest terms.
        let (above, below) = Quarters::new(u64::from(above), below)
            .map(|part| (part.numerator(), part.denominator()))?;
        Some(match (u32::try_from(above).ok()?, below) {
            (0, _) => InBeat::On,
            (1, 2) => InBeat::And,
            (above, below) => InBeat::Part(BeatPart { above, below }),
        })
    }

    /// How long after a beat of this length it is; `None` where that is no exact length.
    #[must_use]
    pub fn after(self, beat: Quarters) -> Option<Quarters> {
        match self {
            InBeat::On => Some(Quarters::ZERO),
            InBeat::And => beat.divided_into(2),
            InBeat::Part(BeatPart { above, below }) => beat.times(above)?.divided_into(below),
        }
    }
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
        let (beat, place) = match (beat.trim().strip_suffix('&'), beat.split_once('+')) {
            (Some(beat), _) => (beat, InBeat::And),
            (None, None) => (beat.trim(), InBeat::On),
            (None, Some((beat, part))) => {
                let part_at = beat_at + beat.chars().count() + 1;
                let expected = "a part of a beat, as in 5.1+1/3";
                (beat.trim(), read_part(part).ok_or_else(|| wrong(part_at, expected))?)
            }
        };
        let beat = beat.parse().ok().filter(|beat| *beat > 0);
        let beat = beat.ok_or_else(|| wrong(beat_at, "a beat from 1, as in 5.1 or 5.2&"))?;
        Ok(BarBeat { bar, beat, place })
    }
}

/// `1/3`
fn read_part(text: &str) -> Option<InBeat> {
    let (above, below) = text.split_once('/')?;
    InBeat::part(above.trim().parse().ok()?, below.trim().parse().ok()?)
}

impl fmt::Display for BarBeat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.bar, self.beat)?;
        match self.place {
            InBeat::On => Ok(()),
            InBeat::And => f.write_str("&"),
            InBeat::Part(BeatPart { above, below }) => write!(f, "+{above}/{below}"),
        }
    }
}
