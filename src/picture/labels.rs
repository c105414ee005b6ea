//! What stands in the marks of a drawn neck.

use std::str::FromStr;

use fretloom_theory::ReadError;

/// What stands in the marks of a drawn neck: one thing at a time.
///
/// # Example
///
/// ```
/// use fretloom::picture::Labels;
/// assert_eq!("degree".parse(), Ok(Labels::Degree));
/// assert!("degrees".parse::<Labels>().is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Labels {
    /// The note's name.
    #[default]
    Note,
    /// What it is over the chord.
    Degree,
    /// What it is over the root of its triad.
    Member,
    /// The finger that takes it, 0 for an open string; the note's name where none is told.
    Finger,
    /// When it is played in a view, from 1; the note's name where there is no order.
    Order,
}

impl Labels {
    /// All of them, in the order in which a key goes through them.
    pub const ALL: [Labels; 5] =
        [Labels::Note, Labels::Degree, Labels::Member, Labels::Finger, Labels::Order];

    /// The word for it, on the command line and on the screen.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Labels::Note => "note",
            Labels::Degree => "degree",
            Labels::Member => "member",
            Labels::Finger => "finger",
            Labels::Order => "order",
        }
    }
}

impl FromStr for Labels {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<Labels, ReadError> {
        Labels::ALL
            .into_iter()
            .find(|labels| labels.word() == text)
            .ok_or_else(|| ReadError::whole("label", text, "note, degree, member, finger or order"))
    }
}
