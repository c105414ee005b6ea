//! Clefs.

use fretloom_fretboard::{Instrument, Tuning};

/// A clef, and how many octaves what sounds lies from what it shows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Clef {
    pub(crate) sign: &'static str,
    pub(crate) line: u8,
    pub(crate) octaves: i8,
}

const TREBLE: Clef = Clef { sign: "G", line: 2, octaves: 0 };
const TREBLE_AN_OCTAVE_LOWER: Clef = Clef { octaves: -1, ..TREBLE };
const BASS: Clef = Clef { sign: "F", line: 4, octaves: 0 };
const BASS_AN_OCTAVE_LOWER: Clef = Clef { octaves: -1, ..BASS };

/// The lowest open string of an instrument that is read as it sounds in the treble clef: G3, the
/// lowest of a violin and a mandolin. Below it the clef an octave lower needs fewer ledger lines.
const LOWEST_IN_TREBLE: u8 = 55;
/// The same for the treble clef an octave lower: E2, the lowest of a guitar; but a guitar stays there
/// with strings below.
const LOWEST_AN_OCTAVE_LOWER: u8 = 40;

impl Clef {
    /// Guitars and banjos are written an octave higher than they sound, and so are basses; others in
    /// the clef of their range. Common practice, no source.
    pub(crate) fn of(tuning: &Tuning) -> Clef {
        let lowest = tuning.strings().map(|(_, string)| string.pitch().midi()).min();
        match (tuning.instrument(), lowest.unwrap_or(LOWEST_IN_TREBLE)) {
            (Instrument::Bass, _) => BASS_AN_OCTAVE_LOWER,
            (Instrument::Guitar | Instrument::Banjo, _) => TREBLE_AN_OCTAVE_LOWER,
            (_, LOWEST_IN_TREBLE..) => TREBLE,
            (_, LOWEST_AN_OCTAVE_LOWER..) => TREBLE_AN_OCTAVE_LOWER,
            _ => BASS,
        }
    }
}
