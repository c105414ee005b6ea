//! Which notes need an accidental.

use std::collections::HashMap;

use fretloom_theory::{KeySignature, NamedPitch, NoteName};

/// The accidentals of a bar so far.
pub(crate) struct Accidentals {
    key: KeySignature,
    /// What holds for a letter in an octave, by its natural.
    held: HashMap<(String, i8), i8>,
}

impl Accidentals {
    /// At the beginning of a bar in that key.
    pub(crate) fn of_bar(key: KeySignature) -> Accidentals {
        Accidentals { key, held: HashMap::new() }
    }

    /// The accidental that a note needs, if any, in semitones up from -2 to 2; it holds from there on.
    pub(crate) fn sign(&mut self, pitch: NamedPitch) -> Option<i8> {
        let name = pitch.name();
        let place = (NoteName::natural(name.letter()).to_string(), pitch.octave());
        let held =
            self.held.get(&place).map_or(self.key.signs(name), |held| *held == name.accidental());
        if held {
            return None;
        }
        self.held.insert(place, name.accidental());
        Some(name.accidental())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_accidental_holds_in_its_octave_until_the_bar_ends() {
        let mut of_bar = Accidentals::of_bar(KeySignature::major(-2).unwrap());
        let notes = ["Bb3", "B3", "B3", "Bb3", "Bb4", "F#4", "F#5", "F4", "Ebb4", "E4", "G##4"];
        let signs = notes.map(|note| of_bar.sign(note.parse().unwrap()));
        let expected = [None, Some(0), None, Some(-1), None, Some(1), Some(1), Some(0), Some(-2)];
        assert_eq!(signs[..9], expected);
        assert_eq!(signs[9..], [Some(0), Some(2)]);
    }
}
