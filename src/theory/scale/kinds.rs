//! The scale kinds that have names: one table.
//!
//! Degrees are in each scale's own spelling, one letter to a degree where it has seven. To add a
//! kind, add a row; the tests hold every row to the rules.

use std::borrow::Cow;

use super::ScaleKind;
use crate::Degrees;

const fn kind(
    name: &'static str,
    also: &'static [&'static str],
    degrees: &'static str,
    parent: Option<(&'static str, u8)>,
) -> ScaleKind {
    ScaleKind { name: Cow::Borrowed(name), also, degrees: Degrees::table(degrees), parent }
}

const fn of(parent: &'static str, mode: u8) -> Option<(&'static str, u8)> {
    Some((parent, mode))
}

#[rustfmt::skip]
pub(super) const KINDS: &[ScaleKind] = &[
    kind("Ionian", &["major"], "1 2 3 4 5 6 7", of("major", 1)),
    kind("Dorian", &[], "1 2 b3 4 5 6 b7", of("major", 2)),
    kind("Phrygian", &[], "1 b2 b3 4 5 b6 b7", of("major", 3)),
    kind("Lydian", &[], "1 2 3 #4 5 6 7", of("major", 4)),
    kind("Mixolydian", &[], "1 2 3 4 5 6 b7", of("major", 5)),
    kind("Aeolian", &["natural minor", "minor"], "1 2 b3 4 5 b6 b7", of("major", 6)),
    kind("Locrian", &[], "1 b2 b3 4 b5 b6 b7", of("major", 7)),

    kind("melodic minor", &["jazz minor"], "1 2 b3 4 5 6 7", of("melodic minor", 1)),
    kind("Dorian b2", &["Phrygian natural 6"], "1 b2 b3 4 5 6 b7", of("melodic minor", 2)),
    kind("Lydian augmented", &[], "1 2 3 #4 #5 6 7", of("melodic minor", 3)),
    kind("Lydian dominant", &["Lydian b7"], "1 2 3 #4 5 6 b7", of("melodic minor", 4)),
    kind("Mixolydian b6", &["Mixolydian b13"], "1 2 3 4 5 b6 b7", of("melodic minor", 5)),
    kind("Locrian natural 2", &["Locrian natural 9"], "1 2 b3 4 b5 b6 b7", of("melodic minor", 6)),
    kind("altered", &["super Locrian", "diminished whole tone"],
         "1 b2 b3 b4 b5 b6 b7", of("melodic minor", 7)),

    kind("harmonic minor", &[], "1 2 b3 4 5 b6 7", of("harmonic minor", 1)),
    kind("Locrian natural 6", &["Locrian natural 13"],
         "1 b2 b3 4 b5 6 b7", of("harmonic minor", 2)),
    kind("Ionian #5", &["major #5", "Ionian augmented"], "1 2 3 4 #5 6 7", of("harmonic minor", 3)),
    kind("Dorian #4", &["Dorian #11"], "1 2 b3 #4 5 6 b7", of("harmonic minor", 4)),
    kind("Phrygian dominant", &["Mixolydian b9 b13"],
         "1 b2 3 4 5 b6 b7", of("harmonic minor", 5)),
    kind("Lydian #2", &["Lydian #9"], "1 #2 3 #4 5 6 7", of("harmonic minor", 6)),
    kind("altered bb7", &["ultralocrian"], "1 b2 b3 b4 b5 b6 bb7", of("harmonic minor", 7)),

    kind("harmonic major", &["Ionian b6"], "1 2 3 4 5 b6 7", of("harmonic major", 1)),
    kind("Dorian b5", &["Locrian natural 2 natural 6"],
         "1 2 b3 4 b5 6 b7", of("harmonic major", 2)),
    kind("Phrygian b4", &[], "1 b2 b3 b4 5 b6 b7", of("harmonic major", 3)),
    kind("Lydian b3", &["melodic minor #4"], "1 2 b3 #4 5 6 7", of("harmonic major", 4)),
    kind("Mixolydian b2", &["Mixolydian b9"], "1 b2 3 4 5 6 b7", of("harmonic major", 5)),
    kind("Lydian augmented #2", &["Lydian augmented #9"],
         "1 #2 3 #4 #5 6 7", of("harmonic major", 6)),
    kind("Locrian bb7", &[], "1 b2 b3 4 b5 b6 bb7", of("harmonic major", 7)),

    kind("whole tone", &[], "1 2 3 #4 #5 b7", None),
    kind("half-whole diminished", &["diminished half-whole", "octatonic half-whole", "half-whole"],
         "1 b2 #2 3 #4 5 6 b7", None),
    kind("whole-half diminished", &["diminished whole-half", "octatonic whole-half", "whole-half"],
         "1 2 b3 4 b5 b6 6 7", None),
    kind("augmented", &[], "1 #2 3 5 #5 7", None),
    kind("augmented inverse", &[], "1 b2 3 4 #5 6", None),
    kind("tritone", &[], "1 b2 3 #4 5 b7", None),
    kind("major blues", &[], "1 2 b3 3 5 6", None),
    kind("minor blues", &["blues"], "1 b3 4 b5 5 b7", None),
    kind("bebop dominant", &[], "1 2 3 4 5 6 b7 7", None),
    kind("bebop major", &[], "1 2 3 4 5 #5 6 7", None),
    kind("bebop dorian", &["bebop minor"], "1 2 b3 3 4 5 6 b7", None),
    kind("bebop melodic minor", &[], "1 2 b3 4 5 #5 6 7", None),
    kind("major pentatonic", &[], "1 2 3 5 6", None),
    kind("minor pentatonic", &[], "1 b3 4 5 b7", None),
    kind("double harmonic", &["double harmonic major"],
         "1 b2 3 4 5 b6 7", of("double harmonic", 1)),
    kind("Hungarian minor", &["double harmonic minor"],
         "1 2 b3 #4 5 b6 7", of("double harmonic", 4)),
    kind("Neapolitan major", &[], "1 b2 b3 4 5 6 7", None),
    kind("Neapolitan minor", &[], "1 b2 b3 4 5 b6 7", None),
    kind("Prometheus", &[], "1 2 3 #4 6 b7", None),
    kind("chromatic", &[], "1 b2 2 b3 3 4 b5 5 b6 6 b7 7", None),
];

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::super::simplified;
    use super::KINDS;
    use crate::PitchClass;

    #[test]
    fn every_row_begins_on_the_root_rises_and_sounds_like_no_other() {
        let mut sounds = HashSet::new();
        for kind in KINDS {
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
        for kind in KINDS {
            for name in kind.names() {
                assert!(names.insert(simplified(name)), "{name}");
            }
        }
    }

    #[test]
    fn every_mode_is_its_parent_begun_on_another_degree() {
        for kind in KINDS {
            let Some((parent, mode)) = kind.parent() else {
                continue;
            };
            let parent = super::ScaleKind::named(parent).unwrap();
            let start = parent.degrees()[usize::from(mode) - 1].over(PitchClass::C);
            assert_eq!(kind.set_over(start), parent.set_over(PitchClass::C), "{}", kind.name());
        }
        assert_eq!(KINDS.iter().filter(|kind| kind.parent().is_some()).count(), 28 + 2);
    }
}
