//! Comping: pairs as stabs of chords in one part of the neck.
//!
//! A [`CompingQuery`] is told the pairs of a form, and finds a [`Comping`]: a shape for each stab, such
//! that a hand holds it, all lie in one area, and the top voice goes by steps that a listener hears
//! as a melody. The search is exact: of all ways that do this it gives the one whose cost is least.

mod chord;
mod cost;
mod error;
mod laid;
mod made;
mod query;
mod search;
mod stage;

pub use chord::CompedChord;
pub use error::{CompingError, CompingRelief};
pub use made::{Comping, Stab};
pub use query::CompingQuery;

#[cfg(test)]
mod tests;
