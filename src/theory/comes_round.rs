//! When a pattern comes round with the bar.

use crate::pattern::Pattern;
use crate::rhythm::Rhythm;
use crate::time::{Meter, Quarters};

/// When a pattern in a rhythm begins again on the first beat of a bar, with the same triad.
///
/// ```
/// use fretloom_theory::{ComesRound, Meter, Pattern, Rhythm};
/// let five: Pattern = "132 32".parse().unwrap();
/// let round = ComesRound::of(&five, &Rhythm::eighths(), Meter::COMMON).unwrap();
/// assert_eq!((round.bars, round.times), (5, 8));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct ComesRound {
    /// After how many bars.
    pub bars: u64,
    /// How many times the pattern has been played then.
    pub times: u64,
}

impl ComesRound {
    /// `None` where the numbers do not fit: after more bars than anybody plays.
    #[must_use]
    pub fn of(pattern: &Pattern, rhythm: &Rhythm, meter: Meter) -> Option<ComesRound> {
        // Rounds of the rhythm until pattern and rhythm begin together, then bars until both do
        // with the bar.
        let (period, notes) = (pattern.period() as u64, rhythm.notes_a_round() as u64);
        let values = least_common_multiple(period, notes)?;
        let together = rhythm.round()?.times(u32::try_from(values / notes).ok()?)?;
        let bars = bars_until(together, meter.bar())?;
        let all = meter.bar().times(u32::try_from(bars).ok()?)?;
        let (cycles, _) = all.divided_with_rest(together)?;
        let times = cycles.checked_mul(values)? / pattern.length() as u64;
        Some(ComesRound { bars, times })
    }
}

/// How many bars are a whole number of these lengths.
fn bars_until(length: Quarters, bar: Quarters) -> Option<u64> {
    // length = a/b and bar = c/d: the least n with n·c/d a multiple of a/b, so n·c·b of a·d.
    let above = length.numerator().checked_mul(u64::from(bar.denominator()))?;
    let below = bar.numerator().checked_mul(u64::from(length.denominator()))?;
    Some(above / greatest_common_divisor(above, below))
}

fn least_common_multiple(one: u64, other: u64) -> Option<u64> {
    (one / greatest_common_divisor(one, other)).checked_mul(other)
}

/// Of numbers that are not both zero.
fn greatest_common_divisor(one: u64, other: u64) -> u64 {
    if other == 0 { one.max(1) } else { greatest_common_divisor(other, one % other) }
}
