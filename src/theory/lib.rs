//! Notes, scales, chords and triad pairs.

mod chord;
mod chord_scale;
mod degree;
mod interval;
mod note_name;
mod pair;
mod pitch;
mod pitch_class;
mod scale;
mod scale_choice;
mod serves;
mod set_class;
mod sound;
mod spelling;
mod text;
mod triad;

pub use chord::{Assumption, Chord, ChordError, ChordProblem, ReadChord};
pub use chord_scale::ChordScale;
pub use degree::{Degree, DegreeError, Degrees};
pub use interval::Interval;
pub use note_name::{Letter, NoteError, NoteName, NoteProblem};
pub use pair::{PairKind, TriadPair};
pub use pitch::{NamedPitch, Pitch};
pub use pitch_class::{PitchClass, PitchClassSet};
pub use scale::{ParentScale, Scale, ScaleError, ScaleKind, ScaleProblem};
pub use scale_choice::{ScaleChoice, fits};
pub use serves::also_serves;
pub use set_class::{
    forte_name, interval_vector, prime_form, prime_form_rahn, transposition_symmetries,
};
pub use sound::{Merit, Reason, Sound};
pub use spelling::{Speller, Spelling};
pub use triad::{SpelledTriad, Triad, TriadError, TriadQuality};
