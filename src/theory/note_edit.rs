//! Changes of single notes of a line.

use crate::Direction;
use crate::time::Quarters;

/// A change of one note of a line, made after the line.
///
/// The note is named by when it begins, so the change stays with its place in the bar when the
/// phrase around it is made anew; where nothing begins then, it has no effect.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Direction, NoteChange, NoteEdit, Quarters};
/// let up = NoteEdit { onset: Quarters::ONE, voice: 0, change: NoteChange::PairNote(Direction::Up) };
/// assert_eq!(up.onset, Quarters::ONE);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoteEdit {
    /// When the note begins.
    pub onset: Quarters,
    /// Which of the notes that begin then, 0 for the lowest.
    pub voice: usize,
    /// What becomes of it.
    pub change: NoteChange,
}

/// What becomes of a note.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoteChange {
    /// The next note of the pair that way.
    PairNote(Direction),
    /// The next note of the scale that way.
    ScaleStep(Direction),
    /// A half step that way.
    HalfStep(Direction),
    /// It sounds on in place of what comes next, with all that begins with it.
    SoundsOn,
    /// It is accented, or is no longer.
    Accent,
    /// It is a rest.
    Silent,
}
