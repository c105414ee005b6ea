//! Lengths in a score, exact wherever that can be.

use fretloom_theory::{NamedPitch, Note, Quarters};

/// How many decimals a number of a score may have and be exact.
const DECIMALS: i32 = 6;

/// Stands for what is longer than any part may be.
const ENDLESS: Quarters = Quarters::whole(u32::MAX);

/// `duration` divisions, of which a quarter note has `divisions`: exact for numbers of at most six
/// decimals, else on the grid of [`Quarters::nearest`].
pub(super) fn quarters(duration: f64, divisions: f64) -> Quarters {
    exact(duration, divisions).unwrap_or_else(|| nearest(duration / divisions))
}

/// Both together, on the grid where the exact sum does not fit.
pub(super) fn sum(one: Quarters, other: Quarters) -> Quarters {
    one.checked_add(other).unwrap_or_else(|| nearest(one.to_f64() + other.to_f64()))
}

/// What is left, nothing where `other` is longer; on the grid where the exact rest does not fit.
pub(super) fn rest(one: Quarters, other: Quarters) -> Quarters {
    one.checked_sub(other).unwrap_or_else(|| nearest((one.to_f64() - other.to_f64()).max(0.0)))
}

/// A note from one moment to another, on the grid where its exact duration does not fit.
pub(super) fn note(from: Quarters, to: Quarters, pitch: NamedPitch) -> Option<Note> {
    let [near, far] = [from, to].map(|moment| nearest(moment.to_f64()));
    Note::between(from, to, pitch).or_else(|| Note::between(near, far, pitch))
}

fn nearest(quarters: f64) -> Quarters {
    Quarters::nearest(quarters).unwrap_or(ENDLESS)
}

fn exact(duration: f64, divisions: f64) -> Option<Quarters> {
    // Up to 2^53 every whole number is exact.
    let whole = |number: f64| number.fract() == 0.0 && (0.0..=9e15).contains(&number);
    (0..=DECIMALS).find_map(|decimals| {
        let [above, below] = [duration, divisions].map(|number| number * 10f64.powi(decimals));
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
        assert_eq!(quarters(2.0, 6.0), third(1));
        assert_eq!(quarters(0.5, 1.5), third(1));
        assert_eq!(quarters(0.1, 0.3), third(1));
        assert_eq!(quarters(1e-9, 3e-9), third(1));
        assert_eq!(quarters(10_080.0, 30_240.0), third(1));
        assert_eq!(quarters(1e300, 1.0), ENDLESS);
    }

    /// 1/4294967291 and 1/4294967279 have no sum that fits: it is nearly nothing.
    #[test]
    fn what_does_not_fit_is_rounded() {
        let [one, other] = [4_294_967_291, 4_294_967_279].map(|n| Quarters::new(1, n).unwrap());
        assert_eq!(sum(one, other), Quarters::ZERO);
        assert_eq!(sum(sum(third(1), one), other), third(1));
        assert_eq!(rest(third(2), third(1)), third(1));
        assert_eq!(rest(third(1), third(2)), Quarters::ZERO);
    }
}
