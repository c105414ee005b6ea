//! Exact fractions, zero or more.

use std::cmp::Ordering;

/// A fraction in lowest terms: a numerator of 64 bits over a denominator of 32.
///
/// No fixed size holds every sum, so arithmetic gives `None` where the exact result does not fit.
/// It never rounds. Between the operands and the result everything fits 128 bits.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(crate) struct Fraction {
    numerator: u64,
    denominator: u32,
}

impl Fraction {
    pub(crate) const ZERO: Fraction = Fraction::whole(0);

    pub(crate) const fn whole(number: u32) -> Fraction {
        Fraction { numerator: number as u64, denominator: 1 }
    }

    /// `None` over zero, and where lowest terms do not fit.
    pub(crate) const fn new(numerator: u128, denominator: u128) -> Option<Fraction> {
        if denominator == 0 {
            return None;
        }
        let common = common_divisor(numerator, denominator);
        let (numerator, denominator) = (numerator / common, denominator / common);
        if numerator > u64::MAX as u128 || denominator > u32::MAX as u128 {
            return None;
        }
        Some(Fraction { numerator: numerator as u64, denominator: denominator as u32 })
    }

    pub(crate) const fn numerator(self) -> u64 {
        self.numerator
    }

    pub(crate) const fn denominator(self) -> u32 {
        self.denominator
    }

    pub(crate) const fn is_zero(self) -> bool {
        self.numerator == 0
    }

    pub(crate) const fn plus(self, other: Fraction) -> Option<Fraction> {
        let (one, two, denominator) = self.over_common(other);
        Fraction::new(one + two, denominator)
    }

    /// `None` also where the result would be negative.
    pub(crate) const fn minus(self, other: Fraction) -> Option<Fraction> {
        let (one, two, denominator) = self.over_common(other);
        if one < two { None } else { Fraction::new(one - two, denominator) }
    }

    pub(crate) const fn times(self, other: Fraction) -> Option<Fraction> {
        let numerator = self.numerator as u128 * other.numerator as u128;
        Fraction::new(numerator, self.denominator as u128 * other.denominator as u128)
    }

    /// `None` also over zero.
    pub(crate) const fn divided_by(self, other: Fraction) -> Option<Fraction> {
        let numerator = self.numerator as u128 * other.denominator as u128;
        Fraction::new(numerator, self.denominator as u128 * other.numerator as u128)
    }

    /// How many times `other` goes into it, and what is left; `None` over zero.
    pub(crate) const fn divided_with_rest(self, other: Fraction) -> Option<(u64, Fraction)> {
        let (one, two, denominator) = self.over_common(other);
        if two == 0 || one / two > u64::MAX as u128 {
            return None;
        }
        match Fraction::new(one % two, denominator) {
            Some(rest) => Some(((one / two) as u64, rest)),
            None => None,
        }
    }

    /// The nearest number with a binary fraction.
    pub(crate) fn to_f64(self) -> f64 {
        self.numerator as f64 / f64::from(self.denominator)
    }

    /// Both numerators over one denominator, which is below 2^64; the numerators are below 2^96.
    const fn over_common(self, other: Fraction) -> (u128, u128, u128) {
        let (one, two) = (self.denominator as u128, other.denominator as u128);
        let common = common_divisor(one, two);
        let numerators =
            (self.numerator as u128 * (two / common), other.numerator as u128 * (one / common));
        (numerators.0, numerators.1, one / common * two)
    }
}

impl Ord for Fraction {
    fn cmp(&self, other: &Fraction) -> Ordering {
        let one = u128::from(self.numerator) * u128::from(other.denominator);
        one.cmp(&(u128::from(other.numerator) * u128::from(self.denominator)))
    }
}

impl PartialOrd for Fraction {
    fn partial_cmp(&self, other: &Fraction) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// The greatest common divisor; at least 1 unless both are zero.
const fn common_divisor(mut one: u128, mut two: u128) -> u128 {
    while two != 0 {
        (one, two) = (two, one % two);
    }
    one
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fraction(numerator: u128, denominator: u128) -> Fraction {
        Fraction::new(numerator, denominator).unwrap()
    }

    #[test]
    fn lowest_terms_are_found() {
        assert_eq!(fraction(6, 4), fraction(3, 2));
        assert_eq!(fraction(0, 7), Fraction::ZERO);
        assert_eq!(Fraction::new(1, 0), None);
    }

    #[test]
    fn what_does_not_fit_is_none() {
        let most = fraction(u128::from(u64::MAX), 1);
        assert_eq!(most.plus(Fraction::whole(1)), None);
        assert_eq!(most.plus(Fraction::ZERO), Some(most));
        let finest = fraction(1, u128::from(u32::MAX));
        assert_eq!(finest.plus(fraction(1, 2)), None);
        assert_eq!(finest.times(finest), None);
        assert_eq!(Fraction::ZERO.minus(finest), None);
        assert_eq!(most.divided_by(finest), None);
        assert_eq!(most.divided_with_rest(finest), None);
        assert_eq!(most.divided_by(Fraction::ZERO), None);
        assert_eq!(most.divided_with_rest(Fraction::ZERO), None);
    }

    /// By hand: 7/3 = 4 · 1/2 + 1/3.
    #[test]
    fn division_leaves_a_rest() {
        let seven_thirds = fraction(7, 3);
        assert_eq!(seven_thirds.divided_with_rest(fraction(1, 2)), Some((4, fraction(1, 3))));
        assert_eq!(seven_thirds.divided_by(fraction(1, 2)), Some(fraction(14, 3)));
    }
}
