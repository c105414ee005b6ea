//! Times through a repeat.

use std::fmt;

/// Which time through a repeat, counted from 1 to 99.
///
/// As the last one it says how often something is heard.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Pass(u8);

impl Pass {
    /// The first time.
    pub const FIRST: Pass = Pass(1);
    /// The second time, which is the last one of a repeat that does not say how often.
    pub const SECOND: Pass = Pass(2);

    /// The time with this number; `None` outside 1 to 99.
    #[must_use]
    pub const fn new(number: u8) -> Option<Pass> {
        if number >= 1 && number <= 99 { Some(Pass(number)) } else { None }
    }

    /// Its number.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }

    /// The time after it; the last there is stays.
    pub(super) fn next(self) -> Pass {
        Pass::new(self.0 + 1).unwrap_or(self)
    }

    /// Reads a number without a sign.
    pub(super) fn read(text: &str) -> Option<Pass> {
        let digits = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
        digits.then(|| text.parse().ok()).flatten().and_then(Pass::new)
    }
}

impl fmt::Display for Pass {
    /// `2`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}
