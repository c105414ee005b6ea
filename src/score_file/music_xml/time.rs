//! Moments and lengths of a score.

use fretloom_theory::{NamedPitch, Note, Quarters};

/// A moment or a length in quarter notes: exact, and on the grid of [`Quarters::nearest`] where a sum
/// does not fit.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) struct Time(Quarters);

/// How many decimals a number of a score may have and be exact.
const DECIMALS: i32 = 6;

/// Stands for what is longer than any part may be.
const ENDLESS: Quarters = Quarters::whole(u32::MAX);

impl Time {
    /// The beginning; no length.
    pub(super) const ZERO: Time = Time(Quarters::ZERO);

    /// `count` divisions, of which a quarter note has `divisions`: exact for numbers of at most six
    /// decimals, else on the grid of [`Quarters::nearest`].
    pub(super) fn of(count: f64, divisions: f64) -> Time {
        Time(exact(count, divisions).unwrap_or_else(|| nearest(count / divisions)))
    }

    /// So many quarter notes.
    pub(super) fn at(quarters: Quarters) -> Time {
        Time(quarters)
    }

    /// In quarter notes.
    pub(super) fn quarters(self) -> Quarters {
        self.0
    }

    /// In quarter notes, rounded.
    pub(super) fn to_f64(self) -> f64 {
        self.0.to_f64()
    }

    /// Both together, on the grid where the exact sum does not fit.
    pub(super) fn plus(self, other: Time) -> Time {
        let exact = self.0.checked_add(other.0);
        Time(exact.unwrap_or_else(|| nearest(self.to_f64() + other.to_f64())))
    }

    /// What is left, nothing where `other` is longer; on the grid where the exact rest does not fit.
    pub(super) fn minus(self, other: Time) -> Time {
        let exact = self.0.checked_sub(other.0);
        Time(exact.unwrap_or_else(|| nearest((self.to_f64() - other.to_f64()).max(0.0))))
    }
}

/// A note that is exact, on the grid where its end does not fit.
pub(super) fn note(from: Time, duration: Time, pitch: NamedPitch) -> Option<Note> {
    let [near, long] = [from, duration].map(|time| nearest(time.to_f64()));
    let exact = Note::new(from.0, duration.0, pitch);
    exact.or_else(|| Note::new(near, long, pitch))
}

fn nearest(quarters: f64) -> Quarters {
    Quarters::nearest(quarters).unwrap_or(ENDLESS)
}

fn exact(count: f64, divisions: f64) -> Option<Quarters> {
    // Up to 2^53 every whole number is exact.
    let whole = |number: f64| number.fract() == 0.0 && (0.0..=9e15).contains(&number);
    (0..=DECIMALS).find_map(|decimals| {
        let [above, below] = [count, divisions].map(|number| number * 10f64.powi(decimals));
        let below = u32::try_from(Some(below as u64).filter(|_| whole(below))?).ok()?;
        if whole(above) { Quarters::new(above as u64, below) } else { None }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn third(numerator: u64) -> Quarters {
        Quarters::new(numerator, 3).unwrap()
    }

    #[test]
    fn divisions_are_exact() {
        for (count, divisions) in
            [(2.0, 6.0), (0.5, 1.5), (0.1, 0.3), (1e-9, 3e-9), (10_080.0, 30_240.0)]
        {
            assert_eq!(Time::of(count, divisions), Time(third(1)));
        }
        assert_eq!(Time::of(1e300, 1.0), Time(ENDLESS));
    }

    /// 1/4294967291 and 1/4294967279 have no sum that fits: it is nearly nothing.
    #[test]
    fn what_does_not_fit_is_rounded() {
        let [one, other] = [4_294_967_291.0, 4_294_967_279.0].map(|n| Time::of(1.0, n));
        let [a_third, two_thirds] = [1.0, 2.0].map(|n| Time::of(n, 3.0));
        assert_eq!(one.plus(other), Time::ZERO);
        assert_eq!(a_third.plus(one).plus(other), Time(third(1)));
        assert_eq!(two_thirds.minus(a_third), Time(third(1)));
        assert_eq!(a_third.minus(two_thirds), Time::ZERO);
    }

    /// Ten tenths are one; floats lose a bit on the way.
    #[test]
    fn sums_are_exact() {
        let sum = (0..10).fold(Time::ZERO, |sum, _| sum.plus(Time::of(1.0, 10.0)));
        assert_eq!((sum.quarters(), sum), (Quarters::ONE, Time::of(1.0, 1.0)));
    }
}
