//! What a part of a score is called.

use fretloom_fretboard::Instrument;

/// `Guitar`
pub(super) fn part_name(instrument: &Instrument) -> String {
    let mut letters = instrument.word().chars();
    let first = letters.next().map(|letter| letter.to_uppercase().collect::<String>());
    first.unwrap_or_default() + letters.as_str()
}
