//! Moments and lengths of a score, counted twice.

use fretloom_theory::{NamedPitch, Note, Quarters};

/// A moment or a length in quarter notes, counted twice: exactly, and in floats.
///
/// The exact count is what a score says. The floats, summed as the durations come in the file, are
/// what its seconds are made of: fingering takes a gap of half a second for a pause, and the last
/// bit decides. So a score keeps the fingerings that it has always had.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Time {
    exact: Quarters,
    summed: f64,
}

/// How many decimals a number of a score may have and be exact.
const DECIMALS: i32 = 6;

/// Stands for what is longer than any part may be.
const ENDLESS: Quarters = Quarters::whole(u32::MAX);

impl Time {
    /// The beginning; no length.
    pub(super) const ZERO: Time = Time { exact: Quarters::ZERO, summed: 0.0 };

    /// `count` divisions, of which a quarter note has `divisions`: exact for numbers of at most six
    /// decimals, else on the grid of [`Quarters::nearest`].
    pub(super) fn of(count: f64, divisions: f64) -> Time {
        let summed = count / divisions;
        Time { exact: exact(count, divisions).unwrap_or_else(|| nearest(summed)), summed }
    }

    /// The exact count.
    pub(super) fn exact(self) -> Quarters {
        self.exact
    }

    /// The count in floats.
    pub(super) fn summed(self) -> f64 {
        self.summed
    }

    /// Both together, on the grid where the exact sum does not fit.
    pub(super) fn plus(self, other: Time) -> Time {
        let exact = self.exact.checked_add(other.exact);
        let on_grid = || nearest(self.exact.to_f64() + other.exact.to_f64());
        Time { exact: exact.unwrap_or_else(on_grid), summed: self.summed + other.summed }
    }

    /// What is left, exactly nothing where `other` is longer; on the grid where the exact rest does
    /// not fit.
    pub(super) fn minus(self, other: Time) -> Time {
        let exact = self.exact.checked_sub(other.exact);
        let on_grid = || nearest((self.exact.to_f64() - other.exact.to_f64()).max(0.0));
        Time { exact: exact.unwrap_or_else(on_grid), summed: self.summed - other.summed }
    }

    /// The later one by either count.
    pub(super) fn max(self, other: Time) -> Time {
        Time { exact: self.exact.max(other.exact), summed: self.summed.max(other.summed) }
    }
}

/// A note that is exact, on the grid where its end does not fit.
pub(super) fn note(from: Time, duration: Time, pitch: NamedPitch) -> Option<Note> {
    let [near, long] = [from, duration].map(|time| nearest(time.exact.to_f64()));
    let exact = Note::new(from.exact, duration.exact, pitch);
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
            let time = Time::of(count, divisions);
            assert_eq!((time.exact(), time.summed()), (third(1), count / divisions));
        }
        assert_eq!(Time::of(1e300, 1.0).exact(), ENDLESS);
    }

    /// 1/4294967291 and 1/4294967279 have no sum that fits: it is nearly nothing.
    #[test]
    fn what_does_not_fit_is_rounded() {
        let [one, other] = [4_294_967_291.0, 4_294_967_279.0].map(|n| Time::of(1.0, n));
        let [a_third, two_thirds] = [1.0, 2.0].map(|n| Time::of(n, 3.0));
        assert_eq!(one.plus(other).exact(), Quarters::ZERO);
        assert_eq!(a_third.plus(one).plus(other).exact(), third(1));
        assert_eq!(two_thirds.minus(a_third).exact(), third(1));
        assert_eq!(a_third.minus(two_thirds).exact(), Quarters::ZERO);
    }

    /// Ten tenths are one; floats lose a bit on the way.
    #[test]
    fn both_counts_are_kept() {
        let sum = (0..10).fold(Time::ZERO, |sum, _| sum.plus(Time::of(1.0, 10.0)));
        assert_eq!((sum.exact(), sum.summed()), (Quarters::ONE, 0.999_999_999_999_999_9));
        let later = sum.max(Time::of(1.0, 1.0));
        assert_eq!((later.exact(), later.summed()), (Quarters::ONE, 1.0));
    }
}
