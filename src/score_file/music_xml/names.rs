//! Names of notes as scores have them: a step and an alteration.

use fretloom_theory::{Letter, NoteName};

/// The letter of a step, `A` to `G`.
pub(super) fn letter(step: &str) -> Option<Letter> {
    Letter::ALL.into_iter().find(|letter| NoteName::natural(*letter).to_string() == step)
}

/// The letter raised by so many semitones; `None` beyond a double accidental.
pub(super) fn altered(letter: Letter, alter: f64) -> Option<NoteName> {
    let is_named = alter.fract() == 0.0 && alter.abs() <= 2.0;
    if is_named { NoteName::new(letter, alter as i8) } else { None }
}
