//! The pairs of chords as stabs: what a player who comps takes.
//!
//! A [`CompingQuestion`] is chords with their pairs, and where the hand may be; a [`CompingAnswer`] has a
//! shape for each stab. Which shapes these are is the fretboard's to find.

mod answer;
mod moments;
mod question;
mod refused;
mod written;

pub use answer::{CompedChanges, CompedStab, CompingAnswer};
pub use question::CompingQuestion;

#[cfg(test)]
mod tests;
