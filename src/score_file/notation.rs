//! What is written of a score: values, ties, tuplets, beams, accidentals, slurs, clefs.
//!
//! Which signs a bar holds is worked out here, for files and for print; neither knows the other.

mod accidentals;
mod bar_pieces;
mod beams;
mod beats;
mod clef;
mod made;
mod piece;
mod slurs;
mod tuplet;
mod value;
mod voices;

pub(crate) use accidentals::Accidentals;
pub(crate) use bar_pieces::of_voice;
pub(crate) use beams::{Beam, of_bar};
pub(crate) use beats::Beats;
pub(crate) use clef::Clef;
pub(crate) use made::{NotatedBar, Notation};
pub(crate) use piece::Piece;
pub(crate) use slurs::{Slurs, slurs_of};
pub(crate) use voices::{Struck, Voices};
