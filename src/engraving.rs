//! Music set for print: a staff of notes with tablature below it, bar by bar, line by line.
//!
//! What is written in a bar (values, ties, tuplets, beams, accidentals) `score_file::notation` has
//! worked out; here every sign gets its place on a page, in millimetres. Nothing lies on anything else:
//! what stands above or below a staff keeps clear of what is there already. Lines end between bars.

mod accidentals;
mod bar_columns;
mod beam;
mod chord;
mod clef;
mod engraver;
mod line;
mod look;
mod music;
mod set_piece;
mod spacing;
mod staff;
mod tab;
mod tie;
mod tuplet;

pub use engraver::{EngravedLine, engrave};
pub use look::{Answers, BarWords, EngravingLook, NoteGroup};
