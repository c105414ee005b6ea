//! Meters.

use std::fmt;
use std::str::FromStr;

use super::quarters::Quarters;
use crate::ReadError;

/// A meter: how many notes of which kind fill a bar.
///
/// The [unit](Self::unit) is the note that the lower number names; the [beat](Self::beat) is what
/// a foot taps. They differ where the upper number is a multiple of three above three and the
/// lower one 8 or more: in 6/8, 9/8 and 12/8 a beat is three eighths.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Meter, Quarters};
/// let meter: Meter = "6/8".parse().unwrap();
/// assert_eq!(meter.bar(), Quarters::whole(3));
/// assert_eq!(meter.beat(), Quarters::new(3, 2).unwrap());
/// assert_eq!(meter.beats(), 2);
/// assert!("6/7".parse::<Meter>().is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Meter {
    /// At least 1.
    units: u8,
    /// 1, 2, 4 … 128.
    kind: u8,
}

impl Meter {
    /// Four quarters a bar.
    pub const COMMON: Meter = Meter { units: 4, kind: 4 };

    /// `units` notes a bar, each the `kind`th part of a whole note; `None` without a unit, and
    /// where `kind` is not 1, 2, 4, 8, 16, 32, 64 or 128.
    #[must_use]
    pub const fn new(units: u8, kind: u8) -> Option<Meter> {
        if units == 0 || !kind.is_power_of_two() {
            return None;
        }
        Some(Meter { units, kind })
    }

    /// The upper number.
    #[must_use]
    pub const fn units(self) -> u8 {
        self.units
    }

    /// The lower number.
    #[must_use]
    pub const fn kind(self) -> u8 {
        self.kind
    }

    /// The note that the lower number names.
    #[must_use]
    pub const fn unit(self) -> Quarters {
        self.length_of(1)
    }

    /// A whole bar.
    #[must_use]
    pub const fn bar(self) -> Quarters {
        self.length_of(self.units)
    }

    /// What a foot taps.
    #[must_use]
    pub const fn beat(self) -> Quarters {
        self.length_of(self.units_in_a_beat())
    }

    /// How many beats a bar has.
    #[must_use]
    pub const fn beats(self) -> u8 {
        self.units / self.units_in_a_beat()
    }

    const fn units_in_a_beat(self) -> u8 {
        let is_compound = self.units > 3 && self.units.is_multiple_of(3) && self.kind >= 8;
        if is_compound { 3 } else { 1 }
    }

    const fn length_of(self, units: u8) -> Quarters {
        // The kind is at least 1, so there is such a length.
        match Quarters::new(4 * units as u64, self.kind as u32) {
            Some(length) => length,
            None => Quarters::ONE,
        }
    }
}

impl fmt::Display for Meter {
    /// `3/4`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.units, self.kind)
    }
}

impl FromStr for Meter {
    type Err = ReadError;

    /// Reads `4/4`, `6/8` and their like.
    ///
    /// # Errors
    ///
    /// Where the text is not two numbers with a slash between them, the upper one 1 to 255 and the
    /// lower one 1, 2, 4, 8, 16, 32, 64 or 128.
    fn from_str(text: &str) -> Result<Meter, ReadError> {
        let meter = text.trim().split_once('/').and_then(|(units, kind)| {
            Meter::new(units.trim().parse().ok()?, kind.trim().parse().ok()?)
        });
        meter.ok_or_else(|| ReadError::whole("meter", text, "one as in 4/4 or 6/8"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quarters(numerator: u64, denominator: u32) -> Quarters {
        Quarters::new(numerator, denominator).unwrap()
    }

    /// Simple and compound meters as textbooks have them.
    #[test]
    fn beats_are_what_a_foot_taps() {
        for (text, bar, beat, beats) in [
            ("4/4", quarters(4, 1), quarters(1, 1), 4),
            ("2/2", quarters(4, 1), quarters(2, 1), 2),
            ("3/4", quarters(3, 1), quarters(1, 1), 3),
            ("3/8", quarters(3, 2), quarters(1, 2), 3),
            ("6/4", quarters(6, 1), quarters(1, 1), 6),
            ("6/8", quarters(3, 1), quarters(3, 2), 2),
            ("9/8", quarters(9, 2), quarters(3, 2), 3),
            ("12/8", quarters(6, 1), quarters(3, 2), 4),
            ("7/8", quarters(7, 2), quarters(1, 2), 7),
            ("12/16", quarters(3, 1), quarters(3, 4), 4),
            ("255/128", quarters(255, 32), quarters(3, 32), 85),
        ] {
            let meter: Meter = text.parse().unwrap();
            assert_eq!((meter.bar(), meter.beat(), meter.beats()), (bar, beat, beats), "{text}");
            assert_eq!(meter.to_string(), text);
            assert_eq!(meter.beat().times(u32::from(beats)), Some(bar), "{text}");
        }
    }

    #[test]
    fn what_is_no_meter_is_refused() {
        for text in ["", "4", "0/4", "4/0", "4/3", "256/4", "4/256", "-3/4", "3/4/5", "C"] {
            let said = text.parse::<Meter>().unwrap_err().to_string();
            assert!(said.contains("expected one as in 4/4 or 6/8"), "{said}");
        }
    }
}
