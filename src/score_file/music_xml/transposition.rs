//! From what is written for a transposing instrument to what sounds.

use fretloom_theory::{NamedPitch, NoteName, Pitch};

/// How much higher than written an instrument sounds; negative for lower.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub(super) struct Transposition {
    semitones: i32,
    /// Letters, octaves included.
    steps: i32,
}

impl Transposition {
    /// `semitones`, octaves included, and as many letters as the score says, or as are usual.
    pub(super) fn new(semitones: i32, steps: Option<i32>) -> Transposition {
        let usual = usual_steps(semitones.rem_euclid(12)) + 7 * semitones.div_euclid(12);
        Transposition { semitones, steps: steps.unwrap_or(usual) }
    }

    pub(super) fn semitones(self) -> i32 {
        self.semitones
    }

    /// What sounds as `pitch`, by the name that belongs to what is written; by an everyday name
    /// where that would need three accidentals, or what is written has no name.
    pub(super) fn sounding(self, written: Option<NoteName>, pitch: Pitch) -> NamedPitch {
        let named = written.and_then(|written| self.name(written));
        let named = named.and_then(|name| NamedPitch::called(name, pitch));
        named.unwrap_or_else(|| NamedPitch::everyday(pitch))
    }

    /// The name of what sounds when `written` is written.
    pub(super) fn name(self, written: NoteName) -> Option<NoteName> {
        // Both remainders are below twelve.
        let letter = written.letter().up(self.steps.rem_euclid(7) as u8);
        NoteName::on_letter(letter, written.pitch_class().up(self.semitones.rem_euclid(12)))
    }
}

/// How many letters an interval of 0 to 11 semitones goes up as a rule: C, D♭, D, E♭, E, F, F♯ …
fn usual_steps(semitones: i32) -> i32 {
    match semitones {
        0 => 0,
        1 | 2 => 1,
        3 | 4 => 2,
        5 | 6 => 3,
        7 => 4,
        8 | 9 => 5,
        _ => 6,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A clarinet in B♭ sounds a major second below, one in E♭ a minor third above, a guitar an
    /// octave below what is written.
    #[test]
    fn names_move_with_their_letters() {
        for (semitones, steps, written, sounding) in [
            (-2, Some(-1), "F#", "E"),
            (-2, None, "C", "Bb"),
            (3, Some(2), "A", "C"),
            (3, None, "G#", "B"),
            (-12, Some(-7), "Eb", "Eb"),
            (-12, None, "F#", "F#"),
            (-14, None, "D", "C"),
        ] {
            let name: NoteName = written.parse().unwrap();
            let moved = Transposition::new(semitones, steps).name(name);
            assert_eq!(moved, Some(sounding.parse().unwrap()), "{written} by {semitones}");
        }
        assert_eq!(Transposition::new(1, Some(0)).name("B##".parse().unwrap()), None);
    }

    #[test]
    fn what_has_no_name_gets_an_everyday_one() {
        let pitch = Pitch::from_midi(61).unwrap();
        let none = Transposition::default();
        assert_eq!(none.sounding(None, pitch).to_string(), "D♭4");
        assert_eq!(none.sounding("C#".parse().ok(), pitch).to_string(), "C♯4");
        assert_eq!(none.sounding("C".parse().ok(), pitch).to_string(), "D♭4");
    }
}
