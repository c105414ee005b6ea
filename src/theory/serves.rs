//! What else a pair serves: common chords whose usual scale holds its six notes.
//!
//! One pair lies in many scales (F & G in C major, in C melodic minor, in C Mixolydian …) and so
//! serves many chords; the note it leaves out is then another one, or the same note bent.

use std::sync::LazyLock;

use crate::{Chord, NoteName, PitchClass, PitchClassSet, ScaleKind, Speller};

/// Common chords with the scale that each calls for.
const COMMON: &[(&str, &str)] = &[
    ("maj7", "Ionian"),
    ("maj7#11", "Lydian"),
    ("m7", "Dorian"),
    ("7", "Mixolydian"),
    ("7sus4", "Mixolydian"),
    ("m7b5", "Locrian natural 2"),
    ("m(maj7)", "melodic minor"),
    ("7sus4b9", "Dorian b2"),
    ("maj7#5", "Lydian augmented"),
    ("7#11", "Lydian dominant"),
    ("7b13", "Mixolydian b6"),
    ("7alt", "altered"),
    ("7b9b13", "Phrygian dominant"),
    ("13b9", "half-whole diminished"),
    ("dim7", "whole-half diminished"),
    ("7#5", "whole tone"),
];

/// The common chords that six notes serve besides the chord of the moment: those of whose tones
/// the notes leave out least first, then going up from the moment's root.
///
/// # Example
///
/// ```
/// use fretloom_theory::{ChordScale, PitchClassSet, Speller, Spelling, also_serves};
/// let ground = ChordScale::over("Cm(maj7)".parse().unwrap(), "C melodic minor".parse().unwrap());
/// let f_and_g = PitchClassSet::from_bits(0b1010_1010_0101);
/// let chords = also_serves(f_and_g, &Speller::new(ground.clone(), Spelling::Plain));
/// assert!(chords.iter().any(|chord| chord.to_string() == "B7alt"));
/// ```
#[must_use]
pub fn also_serves(notes: PitchClassSet, speller: &Speller) -> Vec<Chord> {
    let ground = speller.ground();
    let start = ground.root().pitch_class();
    let mut served: Vec<(usize, Chord)> = Vec::new();
    for up in 0..12 {
        let root = start.up(up);
        // The other way round: the notes go down to the scales on C.
        let on_c = notes.transposed(-i32::from(root.number()));
        for common in common().iter().filter(|common| on_c.is_subset(common.scale)) {
            let missing = common.tones.difference(on_c).len();
            served.push((missing, common.chord.moved_to(everyday_name(root, speller))));
        }
    }
    served.retain(|(_, chord)| Some(chord) != ground.chord());
    served.sort_by_key(|(missing, _)| *missing);
    served.into_iter().map(|(_, chord)| chord).collect()
}

/// A common chord on C, with its notes and those of its scale.
struct Common {
    chord: Chord,
    tones: PitchClassSet,
    scale: PitchClassSet,
}

/// The common chords on C; worked out once.
fn common() -> &'static [Common] {
    static ON_C: LazyLock<Vec<Common>> = LazyLock::new(|| {
        let on_c = |(suffix, scale): &(&str, &str)| {
            let chord: Chord = format!("C{suffix}").parse().ok()?;
            let scale = ScaleKind::named(scale)?.set_over(PitchClass::C);
            Some(Common { tones: chord.set(), chord, scale })
        };
        COMMON.iter().filter_map(on_c).collect()
    });
    &ON_C
}

fn everyday_name(root: PitchClass, speller: &Speller) -> NoteName {
    let name = speller.note(root);
    if name.is_everyday() { name } else { NoteName::everyday(root).next().unwrap_or(name) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{ChordScale, Spelling};

    /// F & G serves all seven chords of C melodic minor, one for each mode.
    #[test]
    fn a_pair_of_melodic_minor_serves_a_chord_of_each_mode() {
        let ground =
            ChordScale::over("Cm(maj7)".parse().unwrap(), "C melodic minor".parse().unwrap());
        let notes = PitchClassSet::from_bits(0b1010_1010_0101);
        let served: Vec<String> =
            also_serves(notes, &Speller::new(ground.clone(), Spelling::Plain))
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
        for (suffix, scale) in COMMON {
            let chord: Chord = format!("C{suffix}").parse().unwrap();
            let kind = ScaleKind::named(scale).unwrap();
            assert!(crate::fits(&chord, kind.set_over(PitchClass::C)), "{chord} {scale}");
        }
    }
}
