//! Notes, scales, chords and triad pairs.

mod chord;
mod degree;
mod interval;
mod note_name;
mod pair;
mod pitch;
mod pitch_class;
mod scale;
mod set_class;
mod text;
mod triad;

pub use chord::{Assumption, Chord, ChordError, ChordProblem, ReadChord};
pub use degree::{Degree, DegreeError, Degrees};
pub use interval::Interval;
pub use note_name::{Letter, NoteError, NoteName, NoteProblem};
pub use pair::{PairKind, TriadPair};
pub use pitch::{NamedPitch, Pitch};
pub use pitch_class::{PitchClass, PitchClassSet};
pub use scale::{ParentScale, Scale, ScaleError, ScaleKind, ScaleProblem};
pub use set_class::{
    forte_name, interval_vector, prime_form, prime_form_rahn, transposition_symmetries,
};
pub use triad::{SpelledTriad, Triad, TriadError, TriadQuality};
