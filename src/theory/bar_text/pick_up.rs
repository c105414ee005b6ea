//! Pick-ups.

use std::fmt;
use std::str::FromStr;

use crate::{Meter, Quarters, ReadError};

/// A first bar that is shorter than its meter: so many beats, `2` or `1/2`.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PickUp {
    /// At least 1.
    numerator: u8,
    /// At least 1.
    denominator: u8,
}

impl PickUp {
    /// So many parts of a beat of which it has `denominator`; `None` where one of them is 0.
    #[must_use]
    pub const fn new(numerator: u8, denominator: u8) -> Option<PickUp> {
        if numerator == 0 || denominator == 0 {
            return None;
        }
        Some(PickUp { numerator, denominator })
    }

    /// How long it is; `None` where it is not shorter than a bar.
    #[must_use]
    pub fn length(self, meter: Meter) -> Option<Quarters> {
        let beats = meter.beat().times(u32::from(self.numerator))?;
        let length = beats.divided_into(u32::from(self.denominator))?;
        (length < meter.bar()).then_some(length)
    }

    /// Reads `2` or `1/2`.
    pub(super) fn read(text: &str) -> Option<PickUp> {
        let (numerator, denominator) = text.split_once('/').unwrap_or((text, "1"));
        let number = |text: &str| {
            let digits = text.bytes().all(|byte| byte.is_ascii_digit());
            digits.then(|| text.parse().ok()).flatten()
        };
        PickUp::new(number(numerator)?, number(denominator)?)
    }
}

impl FromStr for PickUp {
    type Err = ReadError;

    /// Reads `2` or `1/2`.
    ///
    /// # Errors
    ///
    /// Where it is no number of beats from 1/255 to 255.
    fn from_str(text: &str) -> Result<PickUp, ReadError> {
        let expected = "a number of beats, as in 1 or 1/2";
        PickUp::read(text.trim()).ok_or_else(|| ReadError::whole("pick-up", text, expected))
    }
}

impl fmt::Display for PickUp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.denominator {
            1 => self.numerator.fmt(f),
            denominator => write!(f, "{}/{denominator}", self.numerator),
        }
    }
}
