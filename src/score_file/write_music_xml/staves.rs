//! Which staves there are.

use crate::score_file::written_score::WrittenScore;

/// The staves of a part.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Staves {
    /// One staff of notes.
    Notes,
    /// A staff of notes, and tablature below.
    NotesAndTab,
}

/// One of the staves.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Staff {
    /// The first.
    Notes,
    /// The second.
    Tab,
}

impl Staves {
    /// Tablature is written where every note has a place, and there is one.
    pub(super) fn of(written: &WrittenScore) -> Staves {
        let mut places = written.played().map(|(_, beside)| beside.place).peekable();
        if places.peek().is_some() && places.all(|place| place.is_some()) {
            Staves::NotesAndTab
        } else {
            Staves::Notes
        }
    }

    pub(super) const fn all(self) -> &'static [Staff] {
        match self {
            Staves::Notes => &[Staff::Notes],
            Staves::NotesAndTab => &[Staff::Notes, Staff::Tab],
        }
    }
}

impl Staff {
    pub(super) const fn number(self) -> usize {
        match self {
            Staff::Notes => 1,
            Staff::Tab => 2,
        }
    }
}
