//! Over which other chords a pair can be played: common chords whose usual scale holds its six notes.
//!
//! One pair lies in many scales: F & G in C major, in C melodic minor and in the modes of both. Each of
//! them is the scale of another chord.

use crate::{Chord, Degrees, Letter, NoteName, PitchClass, PitchClassSet, ScaleKind, Speller};

/// The common chords over which `notes` can be played, apart from the chord that `speller` names
/// over. The fewer chord tones the notes leave out, the earlier a chord stands; chords with equally
/// many go up from the root of that chord.
///
/// # Example
///
/// ```
/// use fretloom_theory::{ChordScale, PitchClassSet, Speller, Spelling, other_chords};
/// let chord_scale = ChordScale::over("Cm(maj7)".parse().unwrap(), "C melodic minor".parse().unwrap());
/// let f_and_g = PitchClassSet::from_bits(0b1010_1010_0101);
/// let chords = other_chords(f_and_g, &Speller::new(chord_scale.clone(), Spelling::Plain));
/// assert!(chords.iter().any(|chord| chord.to_string() == "B7alt"));
/// ```
#[must_use]
pub fn other_chords(notes: PitchClassSet, speller: &Speller) -> Vec<Chord> {
    let chord_scale = speller.chord_scale();
    let start = chord_scale.root().pitch_class();
    let mut served: Vec<(usize, Chord)> = Vec::new();
    for up in 0..12 {
        let root = start.up(up);
        // The table is on C: the notes are moved down to it.
        let on_c = notes.transposed(-i32::from(root.number()));
        for common in COMMON.iter().filter(|common| on_c.is_subset(common.scale)) {
            let missing = common.tones.difference(on_c).len();
            served.push((missing, common.chord.moved_to(speller.everyday_name(root))));
        }
    }
    served.retain(|(_, chord)| Some(chord) != chord_scale.chord());
    served.sort_by_key(|(missing, _)| *missing);
    served.into_iter().map(|(_, chord)| chord).collect()
}

/// A common chord on C, with its notes and those of the scale that it calls for.
struct Common {
    chord: Chord,
    tones: PitchClassSet,
    scale: PitchClassSet,
}

#[rustfmt::skip]
const COMMON: &[Common] = &[
    common(on_c("1 3 5 7"), &ScaleKind::IONIAN),
    common(on_c("1 3 5 7 #11"), &ScaleKind::LYDIAN),
    common(on_c("1 b3 5 b7"), &ScaleKind::DORIAN),
    common(on_c("1 3 5 b7"), &ScaleKind::MIXOLYDIAN),
    common(on_c("1 4 5 b7"), &ScaleKind::MIXOLYDIAN),
    common(on_c("1 b3 b5 b7"), &ScaleKind::LOCRIAN_NATURAL_2),
    common(on_c("1 b3 5 7"), &ScaleKind::MELODIC_MINOR),
    common(on_c("1 4 5 b7 b9"), &ScaleKind::DORIAN_FLAT_2),
    common(on_c("1 3 #5 7"), &ScaleKind::LYDIAN_AUGMENTED),
    common(on_c("1 3 5 b7 #11"), &ScaleKind::LYDIAN_DOMINANT),
    common(on_c("1 3 5 b7 b13"), &ScaleKind::MIXOLYDIAN_FLAT_6),
    common(on_c("1 3 b5 #5 b7 b9 #9").written_alt(), &ScaleKind::ALTERED),
    common(on_c("1 3 5 b7 b9 b13"), &ScaleKind::PHRYGIAN_DOMINANT),
    common(on_c("1 3 5 b7 b9 13"), &ScaleKind::HALF_WHOLE_DIMINISHED),
    common(on_c("1 b3 b5 bb7"), &ScaleKind::WHOLE_HALF_DIMINISHED),
    common(on_c("1 3 #5 b7"), &ScaleKind::WHOLE_TONE),
];

const fn on_c(degrees: &str) -> Chord {
    Chord::new(NoteName::natural(Letter::C), Degrees::table(degrees))
}

const fn common(chord: Chord, kind: &ScaleKind) -> Common {
    let tones = chord.set();
    Common { chord, tones, scale: kind.set_over(PitchClass::C) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{ChordScale, Spelling};

    /// F & G goes over a chord of each of the seven modes of C melodic minor.
    #[test]
    fn a_pair_of_melodic_minor_serves_a_chord_of_each_mode() {
        let chord_scale =
            ChordScale::over("Cm(maj7)".parse().unwrap(), "C melodic minor".parse().unwrap());
        let notes = PitchClassSet::from_bits(0b1010_1010_0101);
        let served: Vec<String> =
            other_chords(notes, &Speller::new(chord_scale.clone(), Spelling::Plain))
                .iter()
                .map(|chord| format!("{chord:#}"))
                .collect();
        for chord in ["D7sus4b9", "Ebmaj7#5", "F7#11", "G7b13", "Am7b5", "B7alt"] {
            assert!(served.iter().any(|name| name == chord), "{chord}: {served:?}");
        }
        assert!(!served.contains(&"Cm(maj7)".to_owned()));
    }

    #[test]
    fn every_common_chord_lies_in_its_scale() {
        for common in COMMON {
            assert!(crate::fits(&common.chord, common.scale), "{}", common.chord);
        }
    }

    #[test]
    fn common_chords_are_those_that_their_symbols_name() {
        let symbols = "Cmaj7 Cmaj7#11 Cm7 C7 C7sus4 Cm7b5 Cm(maj7) C7sus4b9 Cmaj7#5 C7#11 C7b13 \
                       C7alt C7b9b13 C13b9 Cdim7 C7#5";
        let symbols: Vec<Chord> =
            symbols.split_whitespace().map(|symbol| symbol.parse().unwrap()).collect();
        let common: Vec<Chord> = COMMON.iter().map(|common| common.chord.clone()).collect();
        assert_eq!(common, symbols);
    }
}
