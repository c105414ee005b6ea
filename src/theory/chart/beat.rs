//! Beats of a bar.

use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

use crate::fraction::Fraction;
use crate::{BarLabel, Chorus, Meter, Quarters, ReadError};

/// A beat of a bar, counted from 1, or a part of a beat after one: `2`, `2&`, `2+1/3`.
///
/// ```
/// use fretloom_theory::{ChartBeat, Meter, Quarters};
/// let meter: Meter = "6/8".parse()?;
/// let beat = ChartBeat::at(Quarters::new(3, 2).unwrap(), meter).unwrap();
/// assert_eq!(beat.to_string(), "2");
/// assert_eq!(ChartBeat::at(Quarters::new(4, 3).unwrap(), Meter::COMMON).unwrap().to_string(), "2+1/3");
/// assert_eq!("2&".parse::<ChartBeat>()?.to_f64(), 2.5);
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct ChartBeat {
    /// How many beats lie before it.
    before: Fraction,
}

impl ChartBeat {
    /// The beginning of a bar.
    pub const FIRST: ChartBeat = ChartBeat { before: Fraction::ZERO };

    /// How fine numbers with decimals are read.
    const DECIMALS: u32 = 1_000_000;

    /// The highest number of a beat: a bar has at most 255.
    const HIGHEST: f64 = 256.0;

    /// The beat that is so long after the beginning of a whole bar of this meter; `None` where that is
    /// no exact number of beats.
    #[must_use]
    pub fn at(after: Quarters, meter: Meter) -> Option<ChartBeat> {
        let beat = meter.beat();
        let quotient = |length: Quarters| {
            Fraction::new(u128::from(length.numerator()), u128::from(length.denominator()))
        };
        Some(ChartBeat { before: quotient(after)?.divided_by(quotient(beat)?)? })
    }

    /// The beat with this number, as `2.5` is half a beat after the second, to six decimals; `None` below 1
    /// and above 256.
    #[must_use]
    pub fn nearest(number: f64) -> Option<ChartBeat> {
        let before = number - 1.0;
        if !(0.0..ChartBeat::HIGHEST).contains(&before) {
            return None;
        }
        // Small enough to keep the number.
        let parts = (before * f64::from(ChartBeat::DECIMALS)).round() as u128;
        Fraction::new(parts, u128::from(ChartBeat::DECIMALS)).map(|before| ChartBeat { before })
    }

    /// Its number, the nearest there is.
    #[must_use]
    pub fn to_f64(self) -> f64 {
        let number = self.before.plus(Fraction::whole(1));
        number.map_or(f64::INFINITY, Fraction::to_f64)
    }

    /// Its number, where it is a whole one.
    #[must_use]
    pub fn whole(self) -> Option<u64> {
        (self.before.denominator() == 1).then(|| self.before.numerator().saturating_add(1))
    }

    /// Its moment in the bar of a chorus that has this number, 0 in a pick-up; `None` where there is no
    /// such beat.
    #[must_use]
    pub fn moment_in(self, bar: u64, chorus: &Chorus) -> Option<Quarters> {
        let first = match chorus.bars.bar(0)?.label {
            BarLabel::Number(number) => number,
            BarLabel::Text(_) => 1,
        };
        let index = bar.checked_sub(first)?;
        if index >= u64::try_from(chorus.heard.len()).unwrap_or(u64::MAX) {
            return None;
        }
        let bar = chorus.bars.bar(index)?;
        let into = self.after(bar.meter)?.checked_sub(bar.missing)?;
        (into < bar.length).then(|| bar.from.checked_add(into)).flatten()
    }

    /// How long after the beginning of a whole bar it is.
    fn after(self, meter: Meter) -> Option<Quarters> {
        let beats = u32::try_from(self.before.numerator()).ok()?;
        meter.beat().times(beats)?.divided_into(self.before.denominator())
    }
}

impl PartialOrd for ChartBeat {
    fn partial_cmp(&self, other: &ChartBeat) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for ChartBeat {
    fn cmp(&self, other: &ChartBeat) -> Ordering {
        self.before.cmp(&other.before)
    }
}

impl fmt::Display for ChartBeat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (above, below) = (self.before.numerator(), u64::from(self.before.denominator()));
        write!(f, "{}", (above / below).saturating_add(1))?;
        match (above % below, below) {
            (0, _) => Ok(()),
            (1, 2) => f.write_str("&"),
            (part, below) => write!(f, "+{part}/{below}"),
        }
    }
}

impl FromStr for ChartBeat {
    type Err = ReadError;

    /// # Errors
    ///
    /// Where it is no number from 1 to 256, with or without a part of a beat after it.
    fn from_str(text: &str) -> Result<ChartBeat, ReadError> {
        read(text.trim())
            .ok_or_else(|| ReadError::whole("beat", text, "a beat from 1, as in 2, 2& or 2+1/3"))
    }
}

fn read(text: &str) -> Option<ChartBeat> {
    let (beat, part) = match (text.strip_suffix('&'), text.split_once('+')) {
        (Some(beat), _) => (beat, Fraction::new(1, 2)?),
        (None, Some((beat, part))) => (beat, read_part(part)?),
        (None, None) => (text, Fraction::ZERO),
    };
    let beat: u32 = digits(beat)?;
    let whole = beat.checked_sub(1).filter(|_| f64::from(beat) <= ChartBeat::HIGHEST)?;
    Some(ChartBeat { before: Fraction::whole(whole).plus(part)? })
}

/// `1/3`: less than a beat.
fn read_part(text: &str) -> Option<Fraction> {
    let (above, below) = text.split_once('/')?;
    let (above, below): (u32, u32) = (digits(above)?, digits(below)?);
    (above < below).then(|| Fraction::new(u128::from(above), u128::from(below))).flatten()
}

fn digits(text: &str) -> Option<u32> {
    let text = text.trim();
    text.bytes().all(|byte| byte.is_ascii_digit()).then(|| text.parse().ok()).flatten()
}
