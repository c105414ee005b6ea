//! Strings and frets.

mod fret;
mod place;
mod read_error;
mod string_set;

pub use fret::{Fret, FretRange};
pub use place::{Place, StringNumber};
pub use read_error::ReadError;
pub use string_set::StringSet;
