//! Notes, scales, chords and triad pairs.

mod interval;
mod note_name;
mod pitch;
mod pitch_class;
mod triad;

pub use interval::Interval;
pub use note_name::{Letter, NoteError, NoteName, NoteProblem};
pub use pitch::{NamedPitch, Pitch};
pub use pitch_class::{PitchClass, PitchClassSet};
pub use triad::{SpelledTriad, Triad, TriadError, TriadQuality};
