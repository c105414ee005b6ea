//! Strings and frets.

mod fret;
mod hand;
mod neck;
mod place;
mod read_error;
mod shape;
mod string_set;
mod tuning;

pub use fret::{Fret, FretRange};
pub use hand::{Finger, Grip, Hand, HandPosition};
pub use neck::{Inlay, Neck};
pub use place::{Place, StringNumber};
pub use read_error::ReadError;
pub use shape::{Inversion, Shape, ShapeQuery, StringSets, Voicing};
pub use string_set::StringSet;
pub use tuning::{Instrument, OpenString, Tuning, TuningError};
