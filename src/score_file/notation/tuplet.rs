//! Tuplets.

use fretloom_theory::Quarters;

use super::value::{SHORTEST, Value};

/// So many notes in the time of so many.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Tuplet {
    pub(crate) actual: u32,
    pub(crate) normal: u32,
    /// The value that both count; `None` where that is none.
    pub(crate) unit: Option<Value>,
}

impl Tuplet {
    /// The tuplet of a stretch in which notes begin and end at these moments; `None` where no
    /// numbers say it.
    pub(crate) fn of(from: Quarters, to: Quarters, moments: &[Quarters]) -> Option<Tuplet> {
        let whole = to.checked_sub(from)?;
        let actual = moments.iter().try_fold(1, |count, moment| {
            let (_, parts) = moment.checked_sub(from)?.part_of(whole)?;
            common_multiple(count, parts)
        })?;
        if !is_plain(whole) {
            return Tuplet::unbracketed(moments, from);
        }
        // A stretch of 3/2 is three units of a half.
        let odd = u32::try_from(whole.numerator() >> whole.numerator().trailing_zeros()).ok()?;
        let mut normal = odd;
        while normal.checked_mul(2)? <= actual {
            normal *= 2;
        }
        let mut tuplet = Tuplet { actual, normal, unit: None };
        // Nothing is longer than a whole note.
        while whole.divided_into(tuplet.normal)? > Quarters::whole(4) {
            (tuplet.actual, tuplet.normal) =
                (tuplet.actual.checked_mul(2)?, tuplet.normal.checked_mul(2)?);
        }
        let unit = whole.divided_into(tuplet.normal).and_then(Value::of);
        Some(Tuplet { unit, ..tuplet })
    }

    /// Where the stretch itself has no value: so many in the time of the next power of two.
    fn unbracketed(moments: &[Quarters], from: Quarters) -> Option<Tuplet> {
        let odd = |length: Quarters| length.denominator() >> length.denominator().trailing_zeros();
        let actual = moments
            .iter()
            .try_fold(1, |count, moment| common_multiple(count, odd(moment.checked_sub(from)?)))?;
        Some(Tuplet { actual, normal: 1 << actual.checked_ilog2()?, unit: None })
    }

    /// What a length looks like in it.
    pub(crate) fn looks(self, length: Quarters) -> Option<Quarters> {
        length.in_tuplet(self.normal, self.actual)
    }

    /// How long it is what looks like this.
    pub(crate) fn lasts(self, look: Quarters) -> Option<Quarters> {
        look.in_tuplet(self.actual, self.normal)
    }
}

/// Can values that are no tuplet make it up?
pub(crate) fn is_plain(length: Quarters) -> bool {
    SHORTEST.is_multiple_of(length.denominator())
}

fn common_multiple(one: u32, other: u32) -> Option<u32> {
    (one / common_divisor(one, other)).checked_mul(other)
}

fn common_divisor(one: u32, other: u32) -> u32 {
    if other == 0 { one } else { common_divisor(other, one % other) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(whole: (u64, u32), inner: &[(u64, u32)]) -> (u32, u32, &'static str) {
        let quarters = |(above, below): &(u64, u32)| Quarters::new(*above, *below).unwrap();
        let moments: Vec<Quarters> = inner.iter().map(quarters).collect();
        let tuplet = Tuplet::of(Quarters::ZERO, quarters(&whole), &moments).unwrap();
        (tuplet.actual, tuplet.normal, tuplet.unit.map_or("none", Value::name))
    }

    /// As any textbook of notation has them.
    #[test]
    fn tuplets_have_their_usual_numbers() {
        assert_eq!(told((1, 1), &[(1, 3), (2, 3)]), (3, 2, "eighth"));
        assert_eq!(told((2, 1), &[(2, 3), (4, 3)]), (3, 2, "quarter"));
        assert_eq!(told((1, 2), &[(1, 6)]), (3, 2, "16th"));
        assert_eq!(told((1, 1), &[(1, 5)]), (5, 4, "16th"));
        assert_eq!(told((1, 1), &[(1, 7)]), (7, 4, "16th"));
        assert_eq!(told((1, 1), &[(1, 6)]), (6, 4, "16th"));
        assert_eq!(told((3, 2), &[(3, 10)]), (5, 3, "eighth"));
        assert_eq!(told((1, 3), &[(1, 6)]), (3, 2, "none"));
    }
}
