//! Sizes of paper.

use std::str::FromStr;

use fretloom_theory::ReadError;

/// A size of paper, upright.
///
/// # Example
///
/// ```
/// use fretloom::picture::page::Paper;
/// assert_eq!("letter".parse(), Ok(Paper::Letter));
/// assert_eq!(Paper::A4.size_mm(), (210.0, 297.0));
/// assert!("a3".parse::<Paper>().is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Paper {
    /// ISO A4: 210 by 297 mm (ISO 216).
    #[default]
    A4,
    /// US Letter: 8.5 by 11 inches.
    Letter,
}

impl Paper {
    /// Both.
    pub const ALL: [Paper; 2] = [Paper::A4, Paper::Letter];

    /// The word for it on the command line.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Paper::A4 => "a4",
            Paper::Letter => "letter",
        }
    }

    /// Width and height in millimetres.
    #[must_use]
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        }
    }
}

impl FromStr for Paper {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<Paper, ReadError> {
        let found = Paper::ALL.into_iter().find(|paper| text.eq_ignore_ascii_case(paper.word()));
        found.ok_or_else(|| ReadError::whole("paper", text, "a4 or letter"))
    }
}
