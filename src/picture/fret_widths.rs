//! How wide the frets of a drawn neck are.

use std::str::FromStr;

use fretloom_theory::ReadError;

/// How wide the cells of the frets are drawn.
///
/// # Example
///
/// ```
/// use fretloom::picture::FretWidths;
/// assert_eq!("true".parse(), Ok(FretWidths::True));
/// let error = "wide".parse::<FretWidths>().unwrap_err();
/// assert_eq!(error.expected(), "even or true");
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum FretWidths {
    /// All the same.
    #[default]
    Even,
    /// As on the instrument: twelve frets up a cell is half as wide.
    True,
}

impl FretWidths {
    /// Both, in the order in which a key goes through them.
    pub const ALL: [FretWidths; 2] = [FretWidths::Even, FretWidths::True];

    /// The word for it, in settings and on the command line.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            FretWidths::Even => "even",
            FretWidths::True => "true",
        }
    }
}

impl FromStr for FretWidths {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<FretWidths, ReadError> {
        let found = FretWidths::ALL.into_iter().find(|widths| widths.word() == text);
        found.ok_or_else(|| ReadError::whole("width of frets", text, "even or true"))
    }
}
