//! The scale kinds that have names: one table.
//!
//! Degrees are in each scale's own spelling, one letter to a degree where it has seven. A row that
//! holds anything else than degrees does not compile; the tests hold every row to the other rules.

use std::borrow::Cow;

use super::ScaleKind;
use crate::Degrees;

const MAJOR: &str = "major";
const MELODIC_MINOR: &str = "melodic minor";
const HARMONIC_MINOR: &str = "harmonic minor";
const HARMONIC_MAJOR: &str = "harmonic major";
const DOUBLE_HARMONIC: &str = "double harmonic";

/// Makes a constant of each row, and the list of all of them. A row holds the name, other names, the
/// degrees and, for a mode, its parent and which mode it is.
macro_rules! named_kinds {
    (@parent) => { None };
    (@parent $parent:ident $mode:literal) => { Some(($parent, $mode)) };
    ($($constant:ident = $name:literal, [$($also:literal),*], $degrees:literal
        $(, $parent:ident $mode:literal)?;)+) => {
        impl ScaleKind {
            $(#[doc = concat!("The kind of the ", $name, " scale.")]
            pub const $constant: ScaleKind = ScaleKind {
                name: Cow::Borrowed($name),
                also: &[$($also),*],
                degrees: Degrees::table($degrees),
                parent: named_kinds!(@parent $($parent $mode)?),
            };)+

            /// Every kind that has a name here: the seven modes each of major, melodic minor,
            /// harmonic minor and harmonic major, then the symmetric, blues, bebop, pentatonic and
            /// other scales.
            #[must_use]
            pub fn all() -> &'static [ScaleKind] {
                const ALL: &[ScaleKind] = &[$(ScaleKind::$constant),+];
                ALL
            }
        }
    };
}

named_kinds! {
    IONIAN = "Ionian", ["major"], "1 2 3 4 5 6 7", MAJOR 1;
    DORIAN = "Dorian", [], "1 2 b3 4 5 6 b7", MAJOR 2;
    PHRYGIAN = "Phrygian", [], "1 b2 b3 4 5 b6 b7", MAJOR 3;
    LYDIAN = "Lydian", [], "1 2 3 #4 5 6 7", MAJOR 4;
    MIXOLYDIAN = "Mixolydian", [], "1 2 3 4 5 6 b7", MAJOR 5;
    AEOLIAN = "Aeolian", ["natural minor", "minor"], "1 2 b3 4 5 b6 b7", MAJOR 6;
    LOCRIAN = "Locrian", [], "1 b2 b3 4 b5 b6 b7", MAJOR 7;

    MELODIC_MINOR = "melodic minor", ["jazz minor"], "1 2 b3 4 5 6 7", MELODIC_MINOR 1;
    DORIAN_FLAT_2 = "Dorian b2", ["Phrygian natural 6"], "1 b2 b3 4 5 6 b7", MELODIC_MINOR 2;
    LYDIAN_AUGMENTED = "Lydian augmented", [], "1 2 3 #4 #5 6 7", MELODIC_MINOR 3;
    LYDIAN_DOMINANT = "Lydian dominant", ["Lydian b7"], "1 2 3 #4 5 6 b7", MELODIC_MINOR 4;
    MIXOLYDIAN_FLAT_6 = "Mixolydian b6", ["Mixolydian b13"], "1 2 3 4 5 b6 b7", MELODIC_MINOR 5;
    LOCRIAN_NATURAL_2 = "Locrian natural 2", ["Locrian natural 9"],
        "1 2 b3 4 b5 b6 b7", MELODIC_MINOR 6;
    ALTERED = "altered", ["super Locrian", "diminished whole tone"],
        "1 b2 b3 b4 b5 b6 b7", MELODIC_MINOR 7;

    HARMONIC_MINOR = "harmonic minor", [], "1 2 b3 4 5 b6 7", HARMONIC_MINOR 1;
    LOCRIAN_NATURAL_6 = "Locrian natural 6", ["Locrian natural 13"],
        "1 b2 b3 4 b5 6 b7", HARMONIC_MINOR 2;
    IONIAN_SHARP_5 = "Ionian #5", ["major #5", "Ionian augmented"],
        "1 2 3 4 #5 6 7", HARMONIC_MINOR 3;
    DORIAN_SHARP_4 = "Dorian #4", ["Dorian #11"], "1 2 b3 #4 5 6 b7", HARMONIC_MINOR 4;
    PHRYGIAN_DOMINANT = "Phrygian dominant", ["Mixolydian b9 b13"],
        "1 b2 3 4 5 b6 b7", HARMONIC_MINOR 5;
    LYDIAN_SHARP_2 = "Lydian #2", ["Lydian #9"], "1 #2 3 #4 5 6 7", HARMONIC_MINOR 6;
    ALTERED_DOUBLE_FLAT_7 = "altered bb7", ["ultralocrian"],
        "1 b2 b3 b4 b5 b6 bb7", HARMONIC_MINOR 7;

    HARMONIC_MAJOR = "harmonic major", ["Ionian b6"], "1 2 3 4 5 b6 7", HARMONIC_MAJOR 1;
    DORIAN_FLAT_5 = "Dorian b5", ["Locrian natural 2 natural 6"],
        "1 2 b3 4 b5 6 b7", HARMONIC_MAJOR 2;
    PHRYGIAN_FLAT_4 = "Phrygian b4", [], "1 b2 b3 b4 5 b6 b7", HARMONIC_MAJOR 3;
    LYDIAN_FLAT_3 = "Lydian b3", ["melodic minor #4"], "1 2 b3 #4 5 6 7", HARMONIC_MAJOR 4;
    MIXOLYDIAN_FLAT_2 = "Mixolydian b2", ["Mixolydian b9"], "1 b2 3 4 5 6 b7", HARMONIC_MAJOR 5;
    LYDIAN_AUGMENTED_SHARP_2 = "Lydian augmented #2", ["Lydian augmented #9"],
        "1 #2 3 #4 #5 6 7", HARMONIC_MAJOR 6;
    LOCRIAN_DOUBLE_FLAT_7 = "Locrian bb7", [], "1 b2 b3 4 b5 b6 bb7", HARMONIC_MAJOR 7;

    WHOLE_TONE = "whole tone", [], "1 2 3 #4 #5 b7";
    HALF_WHOLE_DIMINISHED = "half-whole diminished",
        ["diminished half-whole", "octatonic half-whole", "half-whole"],
        "1 b2 #2 3 #4 5 6 b7";
    WHOLE_HALF_DIMINISHED = "whole-half diminished",
        ["diminished whole-half", "octatonic whole-half", "whole-half"],
        "1 2 b3 4 b5 b6 6 7";
    AUGMENTED = "augmented", [], "1 #2 3 5 #5 7";
    AUGMENTED_INVERSE = "augmented inverse", [], "1 b2 3 4 #5 6";
    TRITONE = "tritone", [], "1 b2 3 #4 5 b7";
    MAJOR_BLUES = "major blues", [], "1 2 b3 3 5 6";
    MINOR_BLUES = "minor blues", ["blues"], "1 b3 4 b5 5 b7";
    BEBOP_DOMINANT = "bebop dominant", [], "1 2 3 4 5 6 b7 7";
    BEBOP_MAJOR = "bebop major", [], "1 2 3 4 5 #5 6 7";
    BEBOP_DORIAN = "bebop dorian", ["bebop minor"], "1 2 b3 3 4 5 6 b7";
    BEBOP_MELODIC_MINOR = "bebop melodic minor", [], "1 2 b3 4 5 #5 6 7";
    MAJOR_PENTATONIC = "major pentatonic", [], "1 2 3 5 6";
    MINOR_PENTATONIC = "minor pentatonic", [], "1 b3 4 5 b7";
    DOUBLE_HARMONIC = "double harmonic", ["double harmonic major"],
        "1 b2 3 4 5 b6 7", DOUBLE_HARMONIC 1;
    HUNGARIAN_MINOR = "Hungarian minor", ["double harmonic minor"],
        "1 2 b3 #4 5 b6 7", DOUBLE_HARMONIC 4;
    NEAPOLITAN_MAJOR = "Neapolitan major", [], "1 b2 b3 4 5 6 7";
    NEAPOLITAN_MINOR = "Neapolitan minor", [], "1 b2 b3 4 5 b6 7";
    PROMETHEUS = "Prometheus", [], "1 2 3 #4 6 b7";
    CHROMATIC = "chromatic", [], "1 b2 2 b3 3 4 b5 5 b6 6 b7 7";
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use crate::scale_kind::simplified;
    use crate::{PitchClass, ScaleKind};

    #[test]
    fn every_row_begins_on_the_root_rises_and_sounds_like_no_other() {
        let mut sounds = HashSet::new();
        for kind in ScaleKind::all() {
            let semitones: Vec<u8> = kind.degrees().iter().map(|d| d.semitones()).collect();
            assert_eq!(semitones.first(), Some(&0), "{}", kind.name());
            assert!(semitones.is_sorted_by(|a, b| a < b), "{}", kind.name());
            assert!(sounds.insert(kind.set_over(PitchClass::C)), "{} sounds twice", kind.name());
            let numbers: Vec<u8> = kind.degrees().iter().map(|d| d.number()).collect();
            if numbers.len() == 7 {
                assert_eq!(numbers, [1, 2, 3, 4, 5, 6, 7], "{}", kind.name());
            }
        }
    }

    #[test]
    fn no_two_kinds_share_a_name() {
        let mut names = HashSet::new();
        for kind in ScaleKind::all() {
            for name in kind.names() {
                assert!(names.insert(simplified(name)), "{name}");
            }
        }
    }

    #[test]
    fn every_mode_is_its_parent_begun_on_another_degree() {
        for kind in ScaleKind::all() {
            let Some((parent, mode)) = kind.parent() else {
                continue;
            };
            let parent = ScaleKind::named(parent).unwrap();
            let start = parent.degrees()[usize::from(mode) - 1].over(PitchClass::C);
            assert_eq!(kind.set_over(start), parent.set_over(PitchClass::C), "{}", kind.name());
        }
        assert_eq!(ScaleKind::all().iter().filter(|kind| kind.parent().is_some()).count(), 28 + 2);
    }
}
