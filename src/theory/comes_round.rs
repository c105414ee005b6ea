//! When a pattern comes round with the bar.

use crate::fraction::Fraction;
use crate::pattern::Pattern;
use crate::rhythm::Rhythm;
use crate::time::Meter;

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
        // with the bar. Of p and q = p/q in lowest terms, p times the denominator is the first that
        // both go into.
        let (period, notes) = (pattern.period() as u64, rhythm.notes_a_round() as u64);
        let periods = Fraction::new(period.into(), notes.into())?.denominator();
        let values = period.checked_mul(periods.into())?;
        let together = rhythm.round()?.times(u32::try_from(values / notes).ok()?)?;
        let (_, bars) = meter.bar().part_of(together)?;
        let all = meter.bar().times(bars)?;
        let (cycles, _) = all.divided_with_rest(together)?;
        let times = cycles.checked_mul(values)? / pattern.length() as u64;
        Some(ComesRound { bars: bars.into(), times })
    }
}
