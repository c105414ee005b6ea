//! Fingering a line: string, fret and finger for each of its notes.
//!
//! The notes of a line are grouped by their *onsets*. Each onset has its *choices*: every way for
//! one hand to play what begins there. A *path* takes one choice at each onset, and the cheapest
//! path is the fingering. [`cost`](self) says what a note costs where it is, and what it costs to go
//! from one note to the next in the time there is. A choice holds the position of the hand, so the
//! search looks further than from note to note. It is exact, and takes time and memory in
//! proportion to the line. Notes that begin together are held as a [`Grip`](crate::Grip) is, by the
//! same rules of one hand; what no hand holds at once is played one after another, as a
//! [`BrokenChord`].

mod alternatives;
mod best;
mod boxes;
mod broken_chord;
mod candidates;
mod cheapest;
mod choices;
mod chords;
mod condition;
mod cost;
mod error;
mod fingered_line;
mod fingered_note;
mod hurry;
mod line_note;
mod note_area;
mod onset;
mod place_sets;
mod query;
mod search;
mod strings_each;
mod taste;

pub use alternatives::Alternatives;
pub use broken_chord::{BrokenBy, BrokenChord};
pub use condition::FingeringCondition;
pub use error::{FingeringError, Misfit};
pub use fingered_line::Fingering;
pub use fingered_note::FingeredNote;
pub use line_note::{LineNote, Pin};
pub use note_area::NoteArea;
pub use query::FingeringQuery;
pub use taste::Taste;

#[cfg(test)]
mod tests;
