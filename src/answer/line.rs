//! A line made of a pair, or of several over several chords, and played on a neck.
//!
//! A [`LineQuestion`] is what a player decides; a [`LineAnswer`] is the line with all that is known
//! of each of its notes, and the ways to play it. [`LinesAnswer`] is the same line in several keys.

mod answer;
mod area;
mod bar_beat;
mod chords;
mod edit;
mod ground;
mod instrument;
mod kept;
mod keys;
mod lines;
mod moment;
mod note;
mod of_kept;
mod phrase_question;
mod played;
mod question;
mod sections;
mod slurs;
mod start;
mod target;
mod through;
mod written;
mod written_phrases;

pub use answer::{LineAnswer, LinePhrase, PairPhrase};
pub use area::LineArea;
pub use bar_beat::{BarBeat, BeatPart, InBeat};
pub use chords::{AskedChords, LineChord, LineChords};
pub use edit::{LineEdit, NoteAt};
pub use ground::LineGround;
pub use keys::{InKey, KeyCycle, KeyFingering};
pub use lines::{KeyLine, LinesAnswer};
pub use note::ToldNote;
pub use phrase_question::PhraseQuestion;
pub use played::LineWay;
pub use question::{LineQuestion, Slurring};
pub use start::line_start;
pub use target::{LineTarget, Wanted};
