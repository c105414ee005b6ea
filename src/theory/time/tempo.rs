//! Tempi.

use std::fmt;
use std::ops::RangeInclusive;

use crate::fraction::Fraction;

/// A tempo: an exact number of quarter notes a minute, above zero.
///
/// It counts quarter notes whatever the beat is, as MIDI and MusicXML do.
///
/// # Example
///
/// ```
/// use fretloom_theory::Tempo;
/// assert_eq!(Tempo::USUAL.quarter_s(), 0.5);
/// assert_eq!(Tempo::of_quarter_us(500_000), Some(Tempo::USUAL));
/// assert_eq!(Tempo::nearest(86.7).unwrap().to_string(), "86.7");
/// assert_eq!(Tempo::new(0, 1), None);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Tempo {
    a_minute: Fraction,
}

impl Tempo {
    /// 120 quarter notes a minute, which holds until something else is said.
    pub const USUAL: Tempo = Tempo { a_minute: Fraction::whole(120) };

    /// The slowest and the fastest that a player may ask for, in quarter notes a minute.
    pub const ASKED: RangeInclusive<f64> = 10.0..=500.0;

    /// How many decimals [`nearest`](Self::nearest) keeps.
    const DECIMALS: u32 = 9;

    /// `numerator` over `denominator` quarter notes a minute; `None` where either is zero.
    #[must_use]
    pub fn new(numerator: u64, denominator: u32) -> Option<Tempo> {
        let a_minute = Fraction::new(u128::from(numerator), u128::from(denominator))?;
        (!a_minute.is_zero()).then_some(Tempo { a_minute })
    }

    /// The tempo whose quarter note lasts so many microseconds, as MIDI has it; `None` for zero.
    #[must_use]
    pub fn of_quarter_us(microseconds: u32) -> Option<Tempo> {
        Tempo::new(60_000_000, microseconds)
    }

    /// The tempo written as this number of quarter notes a minute, to nine decimals; `None` for
    /// what is not above zero then, or beyond 2^64.
    #[must_use]
    pub fn nearest(a_minute: f64) -> Option<Tempo> {
        let parts_of = |decimals: u32| {
            let denominator = 10u32.pow(decimals);
            let parts = a_minute * f64::from(denominator);
            // Below 2^64, so that the cast keeps the number.
            (0.0..18_446_744_073_709_551_616.0).contains(&parts).then_some((parts, denominator))
        };
        let written: Vec<(f64, u32)> = (0..=Tempo::DECIMALS).filter_map(parts_of).collect();
        let whole = written.iter().find(|(parts, _)| parts.fract() == 0.0);
        let (parts, denominator) = whole.or(written.last())?;
        Tempo::new(parts.round() as u64, *denominator)
    }

    /// Quarter notes a minute.
    #[must_use]
    pub fn a_minute(self) -> f64 {
        self.a_minute.to_f64()
    }

    /// How long a quarter note is, in seconds.
    #[must_use]
    pub fn quarter_s(self) -> f64 {
        60.0 * f64::from(self.a_minute.denominator()) / self.a_minute.numerator() as f64
    }
}

impl fmt::Display for Tempo {
    /// Quarter notes a minute: `120`, `86.7`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.a_minute().fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A quarter note at 86.7 lasts 60/86.7 s.
    #[test]
    fn decimals_are_kept() {
        for (number, numerator, denominator) in
            [(120.0, 120, 1), (86.7, 867, 10), (2.3, 23, 10), (66.666_667, 66_666_667, 1_000_000)]
        {
            let tempo = Tempo::new(numerator, denominator).unwrap();
            assert_eq!(Tempo::nearest(number), Some(tempo));
            assert_eq!(tempo.a_minute(), number);
            assert!((tempo.quarter_s() * number - 60.0).abs() < 1e-13, "{number}");
        }
        assert_eq!(Tempo::of_quarter_us(428_571).unwrap().quarter_s(), 0.428_571);
    }

    #[test]
    fn what_is_no_tempo_is_none() {
        for number in [0.0, -1.0, 1e-10, 1e20, f64::NAN, f64::INFINITY] {
            assert_eq!(Tempo::nearest(number), None, "{number}");
        }
        assert_eq!(Tempo::of_quarter_us(0), None);
    }
}
