//! Exact lengths and moments.

use std::fmt;

use crate::fraction::Fraction;

/// A length of musical time, or a moment as the length from the beginning: an exact number of
/// quarter notes, never negative.
///
/// It counts quarter notes and not beats, since what a beat is depends on the [`Meter`].
/// Tuplets in tuplets and the shortest notes are exact; nothing is ever rounded. A length has a
/// numerator of 64 bits over a denominator of 32, in lowest terms. That holds every product of
/// 64th notes with tuplets of 3, 5, 7, 9, 11 and 13 at once, for longer than any piece. Where an
/// exact result does not fit, arithmetic gives `None`; that is why there are no operators.
///
/// [`Meter`]: crate::Meter
///
/// # Example
///
/// ```
/// use fretloom_theory::Quarters;
/// let triplet_eighth = Quarters::EIGHTH.in_tuplet(3, 2).unwrap();
/// assert_eq!(triplet_eighth, Quarters::new(1, 3).unwrap());
/// assert_eq!(triplet_eighth.times(3), Some(Quarters::ONE));
/// assert_eq!(triplet_eighth.checked_sub(Quarters::ONE), None);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Quarters(Fraction);

impl Quarters {
    /// No length; the beginning.
    pub const ZERO: Quarters = Quarters(Fraction::ZERO);
    /// A quarter note.
    pub const ONE: Quarters = Quarters::whole(1);
    /// An eighth note.
    pub const EIGHTH: Quarters = match Quarters::new(1, 2) {
        Some(eighth) => eighth,
        None => Quarters::ZERO,
    };

    /// How fine [`nearest`](Self::nearest) is: parts of a quarter note. It holds 256th notes,
    /// and tuplets of 3, 5, 7 and 9 down to 64ths: 64 · 9 · 5 · 7.
    pub const GRID: u32 = 20_160;

    /// So many quarter notes.
    #[must_use]
    pub const fn whole(count: u32) -> Quarters {
        Quarters(Fraction::whole(count))
    }

    /// `numerator` parts of which a quarter note has `denominator`; `None` over zero.
    #[must_use]
    pub const fn new(numerator: u64, denominator: u32) -> Option<Quarters> {
        Quarters::of(Fraction::new(numerator as u128, denominator as u128))
    }

    /// The nearest length on a grid of [`GRID`](Self::GRID) parts of a quarter note, for numbers
    /// that are not exact themselves; `None` for a negative one, one that is none, and beyond some
    /// 900 million million quarter notes.
    #[must_use]
    pub fn nearest(quarters: f64) -> Option<Quarters> {
        let parts = (quarters * f64::from(Quarters::GRID)).round();
        // Below 2^64, so the cast keeps the number.
        let fits = (0.0..18_446_744_073_709_551_616.0).contains(&parts);
        if fits { Quarters::new(parts as u64, Quarters::GRID) } else { None }
    }

    const fn of(fraction: Option<Fraction>) -> Option<Quarters> {
        match fraction {
            Some(fraction) => Some(Quarters(fraction)),
            None => None,
        }
    }

    /// The number above, in lowest terms.
    #[must_use]
    pub const fn numerator(self) -> u64 {
        self.0.numerator()
    }

    /// The number below, in lowest terms; never zero.
    #[must_use]
    pub const fn denominator(self) -> u32 {
        self.0.denominator()
    }

    /// Is it no length at all?
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.0.is_zero()
    }

    /// Both together; `None` where that does not fit.
    #[must_use]
    pub const fn checked_add(self, other: Quarters) -> Option<Quarters> {
        Quarters::of(self.0.plus(other.0))
    }

    /// What is left without `other`; `None` where it is longer, or the difference does not fit.
    #[must_use]
    pub const fn checked_sub(self, other: Quarters) -> Option<Quarters> {
        Quarters::of(self.0.minus(other.0))
    }

    /// So many of them; `None` where that does not fit.
    #[must_use]
    pub const fn times(self, count: u32) -> Option<Quarters> {
        Quarters::of(self.0.times(Fraction::whole(count)))
    }

    /// One of `count` equal parts; `None` for no parts, or where that does not fit.
    #[must_use]
    pub const fn divided_into(self, count: u32) -> Option<Quarters> {
        Quarters::of(self.0.divided_by(Fraction::whole(count)))
    }

    /// How long it is in a tuplet of `notes` in the time of `normal`: 3 in the time of 2 for a
    /// triplet. `None` for a tuplet of no notes, or where that does not fit.
    #[must_use]
    pub const fn in_tuplet(self, notes: u32, normal: u32) -> Option<Quarters> {
        match Fraction::new(normal as u128, notes as u128) {
            Some(ratio) => Quarters::of(self.0.times(ratio)),
            None => None,
        }
    }

    /// How many times `other` goes into it, and what is left; `None` where `other` is zero, or the
    /// numbers do not fit.
    #[must_use]
    pub const fn divided_with_rest(self, other: Quarters) -> Option<(u64, Quarters)> {
        match self.0.divided_with_rest(other.0) {
            Some((count, rest)) => Some((count, Quarters(rest))),
            None => None,
        }
    }

    /// Which part of `whole` it is: a numerator over a denominator, in lowest terms; `None` of no
    /// length, or where the numbers do not fit.
    ///
    /// ```
    /// use fretloom_theory::Quarters;
    /// let dotted = Quarters::new(3, 2).unwrap();
    /// assert_eq!(Quarters::EIGHTH.part_of(dotted), Some((1, 3)));
    /// assert_eq!(dotted.part_of(Quarters::EIGHTH), Some((3, 1)));
    /// assert_eq!(dotted.part_of(Quarters::ZERO), None);
    /// ```
    #[must_use]
    pub const fn part_of(self, whole: Quarters) -> Option<(u64, u32)> {
        match self.0.divided_by(whole.0) {
            Some(part) => Some((part.numerator(), part.denominator())),
            None => None,
        }
    }

    /// The nearest binary fraction, for drawing and sound; sums of these are not exact.
    #[must_use]
    pub fn to_f64(self) -> f64 {
        self.0.to_f64()
    }
}

impl Default for Quarters {
    /// No length.
    fn default() -> Quarters {
        Quarters::ZERO
    }
}

impl fmt::Display for Quarters {
    /// `3`, `1/3`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.denominator() {
            1 => write!(f, "{}", self.numerator()),
            denominator => write!(f, "{}/{denominator}", self.numerator()),
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn quarters(numerator: u64, denominator: u32) -> Quarters {
        Quarters::new(numerator, denominator).unwrap()
    }

    /// A 64th is 1/16 of a quarter; each tuplet of n in the time of the power of two below divides
    /// by n and multiplies by it.
    #[test]
    fn tuplets_in_tuplets_are_exact() {
        let sixty_fourth = quarters(1, 16);
        let one = sixty_fourth.in_tuplet(3, 2).and_then(|note| note.in_tuplet(5, 4));
        let one = one.and_then(|note| note.in_tuplet(7, 4)).unwrap();
        // By hand: 1/16 · 2/3 · 4/5 · 4/7 = 32/1680 = 2/105.
        assert_eq!(one, quarters(2, 105));
        assert_eq!(one.times(105), Some(Quarters::whole(2)));
        let all = [3, 5, 7, 9, 11, 13].into_iter().try_fold(sixty_fourth, |note, count| {
            let part = note.divided_into(count)?;
            (part.times(count)? == note).then_some(part)
        });
        assert_eq!(all, Some(quarters(1, 16 * 135_135)));
    }

    #[test]
    fn lengths_print_as_fractions() {
        for (length, text) in
            [(quarters(6, 4), "3/2"), (quarters(8, 4), "2"), (Quarters::ZERO, "0")]
        {
            assert_eq!(length.to_string(), text);
        }
    }

    #[test]
    fn the_nearest_of_what_is_no_length_is_none() {
        for number in [-1.0, f64::NAN, f64::INFINITY, 1e15] {
            assert_eq!(Quarters::nearest(number), None, "{number}");
        }
        assert_eq!(Quarters::nearest(1.0 / 3.0), Some(quarters(1, 3)));
        assert_eq!(Quarters::nearest(0.5714285714), Some(quarters(4, 7)));
        assert_eq!(Quarters::nearest(-0.0), Some(Quarters::ZERO));
        assert_eq!(Quarters::EIGHTH, quarters(1, 2));
    }

    /// Any lengths, those at the bounds among them.
    fn lengths() -> impl Strategy<Value = Quarters> {
        let numerator = prop_oneof![0..1_000u64, Just(u64::MAX), any::<u64>()];
        let denominator = prop_oneof![1..100u32, Just(u32::MAX), 1..=u32::MAX];
        (numerator, denominator).prop_map(|(above, below)| quarters(above, below))
    }

    proptest! {
        #[test]
        fn sums_are_exact_or_none(one in lengths(), other in lengths()) {
            prop_assert_eq!(one.checked_add(other), other.checked_add(one));
            if let Some(sum) = one.checked_add(other) {
                prop_assert!(sum >= one && sum >= other);
                prop_assert_eq!(sum.checked_sub(one), Some(other));
            }
        }

        #[test]
        fn sums_in_any_order_agree(one in lengths(), two in lengths(), three in lengths()) {
            let left = one.checked_add(two).and_then(|sum| sum.checked_add(three));
            let right = two.checked_add(three).and_then(|sum| one.checked_add(sum));
            if let (Some(left), Some(right)) = (left, right) {
                prop_assert_eq!(left, right);
            }
        }

        #[test]
        fn the_longer_less_the_shorter_is_never_negative(one in lengths(), other in lengths()) {
            if one < other {
                prop_assert_eq!(one.checked_sub(other), None);
            } else if let Some(rest) = one.checked_sub(other) {
                prop_assert_eq!(other.checked_add(rest), Some(one));
            }
        }

        #[test]
        fn order_is_that_of_the_numbers(
            one in (0..5_000u64, 1..500u32),
            two in (0..5_000u64, 1..500u32),
        ) {
            let (a, b) = (quarters(one.0, one.1), quarters(two.0, two.1));
            let crossed = (one.0 * u64::from(two.1)).cmp(&(two.0 * u64::from(one.1)));
            prop_assert_eq!(a.cmp(&b), crossed);
            prop_assert_eq!(a == b, crossed.is_eq());
        }

        #[test]
        fn division_multiplies_back(length in lengths(), by in lengths()) {
            if let Some((count, rest)) = length.divided_with_rest(by) {
                prop_assert!(rest < by);
                if let Some(most) = u32::try_from(count).ok().and_then(|count| by.times(count)) {
                    prop_assert_eq!(most.checked_add(rest), Some(length));
                }
            }
        }

        #[test]
        fn what_lies_on_the_grid_is_its_own_nearest(parts in 0..=1u64 << 45) {
            let length = quarters(parts, Quarters::GRID);
            prop_assert_eq!(Quarters::nearest(length.to_f64()), Some(length));
        }
    }
}
