//! Chords that cannot sound at once.

/// Notes that begin together and are played one after another, since no hand plays them at once.
///
/// What can be held together is: in the order of the line, each note joins those before it while
/// one hand holds them all, and the others come next.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BrokenChord {
    /// Which notes sound together, one group after another: their indices in the line.
    pub groups: Vec<Vec<usize>>,
    /// Why they do not sound at once.
    pub by: BrokenBy,
}

/// Why a chord does not sound at once.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum BrokenBy {
    /// There is no string for each of its notes.
    Strings,
    /// There are strings, but no hand holds the notes there.
    Hand,
}
