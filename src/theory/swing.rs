//! Swing.

use std::fmt;
use std::str::FromStr;

use crate::ReadError;
use crate::fraction::Fraction;

/// How two eighths are played: how long the first is beside the second, from 1:1, as they are written,
/// to 3:1.
///
/// It is how a line sounds, and nothing that is written: the eighths stay eighths.
///
/// # Example
///
/// ```
/// use fretloom_theory::Swing;
/// let swing: Swing = "2:1".parse().unwrap(); // as the first and last of a triplet
/// assert_eq!(swing.parts(), (2, 1));
/// assert!((swing.first_part() - 2.0 / 3.0).abs() < 1e-15);
/// assert_eq!("1.5:1".parse::<Swing>().unwrap().to_string(), "3:2");
/// assert!("4:1".parse::<Swing>().is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Swing {
    /// From 1 to 3.
    ratio: Fraction,
}

impl Swing {
    /// Both alike.
    pub const STRAIGHT: Swing = Swing { ratio: Fraction::whole(1) };

    /// From straight to the hardest, in the order in which a key goes round.
    pub const STEPS: [Swing; 7] = [
        Swing::STRAIGHT,
        Swing::constant(5, 4),
        Swing::constant(3, 2),
        Swing::constant(7, 4),
        Swing::constant(2, 1),
        Swing::constant(5, 2),
        Swing::constant(3, 1),
    ];

    /// The first to the second; `None` below 1:1 and above 3:1.
    #[must_use]
    pub fn new(first: u32, second: u32) -> Option<Swing> {
        let ratio = Fraction::new(u128::from(first), u128::from(second))?;
        let range = Fraction::whole(1)..=Fraction::whole(3);
        range.contains(&ratio).then_some(Swing { ratio })
    }

    const fn constant(first: u128, second: u128) -> Swing {
        match Fraction::new(first, second) {
            Some(ratio) => Swing { ratio },
            None => Swing::STRAIGHT,
        }
    }

    /// The first and the second, in lowest terms.
    #[must_use]
    pub fn parts(self) -> (u32, u32) {
        // At most three times the denominator, which was a u32 before it was reduced.
        let first = u32::try_from(self.ratio.numerator()).unwrap_or(u32::MAX);
        (first, self.ratio.denominator())
    }

    /// Which part of both the first takes: a half to three quarters.
    #[must_use]
    pub fn first_part(self) -> f64 {
        let ratio = self.ratio.to_f64();
        ratio / (ratio + 1.0)
    }
}

impl Default for Swing {
    fn default() -> Swing {
        Swing::STRAIGHT
    }
}

impl fmt::Display for Swing {
    /// `2:1`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (first, second) = self.parts();
        write!(f, "{first}:{second}")
    }
}

impl FromStr for Swing {
    type Err = ReadError;

    /// Reads `1:1`, `3:2`, `1.5:1` and their like.
    ///
    /// # Errors
    ///
    /// Where the text is not two numbers with a colon between them, of at most three decimals, and
    /// the first not once to three times the second.
    fn from_str(text: &str) -> Result<Swing, ReadError> {
        let read = text
            .trim()
            .split_once(':')
            .and_then(|(first, second)| Swing::new(thousandths(first)?, thousandths(second)?));
        let expected = "the first eighth to the second, 1:1 to 3:1, as in 2:1 or 3:2";
        read.ok_or_else(|| ReadError::whole("swing", text, expected))
    }
}

/// A number of at most three digits before its point and three after it.
fn thousandths(text: &str) -> Option<u32> {
    let (whole, decimals) = text.trim().split_once('.').unwrap_or((text.trim(), "0"));
    let digits = |text: &str| {
        let fits = (1..=3).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
        if fits { text.parse::<u32>().ok() } else { None }
    };
    let scale = 10_u32.pow(3_u32.checked_sub(u32::try_from(decimals.len()).ok()?)?);
    Some(digits(whole)? * 1_000 + digits(decimals)? * scale)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn swing_is_read_back() {
        for step in Swing::STEPS {
            assert_eq!(step.to_string().parse(), Ok(step));
        }
        for (text, printed) in [
            ("1:1", "1:1"),
            ("60:40", "3:2"),
            ("1.25:1", "5:4"),
            (" 2 : 1 ", "2:1"),
            ("1.667:1", "1667:1000"),
        ] {
            assert_eq!(text.parse::<Swing>().unwrap().to_string(), printed, "{text}");
        }
    }

    #[test]
    fn what_is_no_swing_is_refused() {
        for text in
            ["", "2", "1:2", "3.1:1", "0:0", "1:0", "-2:-1", "2:1:1", "nan:1", "2.:1", "1.0001:1"]
        {
            let said = text.parse::<Swing>().unwrap_err().to_string();
            assert!(said.contains("expected the first eighth to the second"), "{text}: {said}");
        }
    }
}
