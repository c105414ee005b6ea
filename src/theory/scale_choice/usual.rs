//! The table of usual choices: which scales players reach for over which chord, and why.
//!
//! The first row whose condition holds gives the order. Scales of it that do not fit the whole symbol,
//! as Ionian does not fit `maj7#11`, are left out by whoever asks. Words are ASCII; a `b` or `#` before
//! a number is printed as a sign.

use crate::{Chord, Degrees, ScaleKind};

type Choice = (ScaleKind, &'static str);

struct Row {
    /// Degrees that the symbol names.
    has: Degrees,
    /// Degrees of which the symbol names at least one; empty where that is not asked.
    any: Degrees,
    choices: &'static [Choice],
}

/// The usual choices for a chord, the first one first; empty where no row holds.
pub(super) fn choices(chord: &Chord) -> &'static [Choice] {
    let holds = |row: &&Row| {
        row.has.iter().all(|degree| chord.names(*degree))
            && (row.any.is_empty() || row.any.iter().any(|degree| chord.names(*degree)))
    };
    if chord.is_alt() {
        return ALTERED;
    }
    ROWS.iter().find(holds).map_or(&[], |row| row.choices)
}

const ALTERED: &[Choice] =
    &[(ScaleKind::ALTERED, "alt asks for it: every tension altered, b9 #9 b5 and #5")];

#[rustfmt::skip]
const ROWS: &[Row] = &[
    // Suspended.
    Row { has: Degrees::table("4 b9"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::PHRYGIAN, "the dark suspension: b9 over the fourth"),
        (ScaleKind::DORIAN_FLAT_2, "b9 with a natural 13, from the second degree of melodic minor"),
        (ScaleKind::HALF_WHOLE_DIMINISHED, "b9 and 13, symmetrical"),
        (ScaleKind::PHRYGIAN_DOMINANT, "b9 with the major third as a colour, bound for minor"),
    ]},
    Row { has: Degrees::table("4 b7"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::MIXOLYDIAN, "the usual scale of a sus chord; its third is a colour"),
        (ScaleKind::DORIAN, "the sus chord heard as a minor seventh over the fifth degree"),
    ]},
    Row { has: Degrees::EMPTY, any: Degrees::table("2 4"), choices: &[
        (ScaleKind::IONIAN, "the plain major scale holds the suspension and its resolution"),
        (ScaleKind::MIXOLYDIAN, "the suspension of a dominant"),
        (ScaleKind::DORIAN, "the suspension of a minor chord"),
    ]},
    // Diminished and half-diminished.
    Row { has: Degrees::table("b3 b5 bb7"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::WHOLE_HALF_DIMINISHED, "a whole step above every chord tone"),
        (ScaleKind::ALTERED_DOUBLE_FLAT_7, "the seventh degree of harmonic minor, where the chord leads into it"),
        (ScaleKind::LOCRIAN_DOUBLE_FLAT_7, "the seventh degree of harmonic major"),
    ]},
    Row { has: Degrees::table("b3 b5 b7"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::LOCRIAN_NATURAL_2, "with the natural 9, which does not rub; Locrian has the b9"),
        (ScaleKind::LOCRIAN, "the other side: the b9 of the minor key, where the chord is its ii"),
        (ScaleKind::LOCRIAN_NATURAL_6, "the ii of harmonic minor, with a natural 13"),
        (ScaleKind::DORIAN_FLAT_5, "natural 9 and 13"),
    ]},
    Row { has: Degrees::table("b3 b5"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::LOCRIAN_NATURAL_2, "as over a half-diminished seventh"),
        (ScaleKind::WHOLE_HALF_DIMINISHED, "a whole step above every chord tone"),
        (ScaleKind::LOCRIAN, "the vii of major"),
    ]},
    // Minor.
    Row { has: Degrees::table("b3 7"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::MELODIC_MINOR, "the sound that the symbol names: major sixth and seventh"),
        (ScaleKind::HARMONIC_MINOR, "with the b13 of the minor key"),
        (ScaleKind::LYDIAN_FLAT_3, "with a #11"),
    ]},
    Row { has: Degrees::table("b3 6"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::MELODIC_MINOR, "the tonic minor"),
        (ScaleKind::DORIAN, "with the b7, as a tonic or a ii"),
    ]},
    Row { has: Degrees::table("b3 b9"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::PHRYGIAN, "b9 over a minor seventh: the iii of major"),
        (ScaleKind::DORIAN_FLAT_2, "b9 with a natural 13"),
    ]},
    Row { has: Degrees::table("b3 b13"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::AEOLIAN, "natural minor holds the b13"),
        (ScaleKind::PHRYGIAN, "b13 with b9"),
    ]},
    Row { has: Degrees::table("b3"), any: Degrees::table("b7"), choices: &[
        (ScaleKind::DORIAN, "the usual scale of a minor seventh that is a ii or stands alone"),
        (ScaleKind::AEOLIAN, "where the chord is the vi of major or the i of minor"),
        (ScaleKind::PHRYGIAN, "where the chord is the iii of major"),
        (ScaleKind::MELODIC_MINOR, "a reading: the chord as a tonic minor with a major seventh"),
    ]},
    Row { has: Degrees::table("b3"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::DORIAN, "the usual scale of a minor chord that stands alone"),
        (ScaleKind::MELODIC_MINOR, "the tonic minor with major sixth and seventh"),
        (ScaleKind::AEOLIAN, "natural minor"),
        (ScaleKind::HARMONIC_MINOR, "natural minor with a leading note"),
        (ScaleKind::PHRYGIAN, "the iii of major"),
    ]},
    // Major with an augmented fifth.
    Row { has: Degrees::table("3 #5 7"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::LYDIAN_AUGMENTED, "#11 and #5 from the third degree of melodic minor"),
        (ScaleKind::IONIAN_SHARP_5, "with a natural 4, from harmonic minor"),
        (ScaleKind::AUGMENTED, "two augmented triads a minor third apart"),
        (ScaleKind::LYDIAN_AUGMENTED_SHARP_2, "with a #9"),
    ]},
    // Dominants, the altered ones first.
    Row { has: Degrees::table("3 b7 #5"), any: Degrees::table("b9 #9"), choices: &[
        (ScaleKind::ALTERED, "melodic minor a half step up: every tension altered"),
    ]},
    Row { has: Degrees::table("3 b7 #5"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::WHOLE_TONE, "a natural 9 between #11 and #5, no fifth"),
        (ScaleKind::ALTERED, "with altered ninths, where the chord resolves"),
    ]},
    Row { has: Degrees::table("3 b7 b5"), any: Degrees::table("b9 #9"), choices: &[
        (ScaleKind::ALTERED, "melodic minor a half step up: b5 instead of the fifth"),
        (ScaleKind::HALF_WHOLE_DIMINISHED, "with the natural 13"),
    ]},
    Row { has: Degrees::table("3 b7 b5"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::WHOLE_TONE, "no natural fifth, a natural 9"),
        (ScaleKind::ALTERED, "with altered ninths, where the chord resolves"),
        (ScaleKind::LYDIAN_DOMINANT, "the b5 as a #11, where the chord does not resolve"),
    ]},
    Row { has: Degrees::table("3 b7 b13 b9"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::PHRYGIAN_DOMINANT, "the V of harmonic minor, natural fifth and fourth"),
        (ScaleKind::ALTERED, "melodic minor a half step up, without a natural fifth"),
    ]},
    Row { has: Degrees::table("3 b7 b13 #9"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::ALTERED, "melodic minor a half step up"),
    ]},
    Row { has: Degrees::table("3 b7 b13"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::MIXOLYDIAN_FLAT_6, "b13 with a natural 9: the V of melodic minor"),
        (ScaleKind::PHRYGIAN_DOMINANT, "b13 with b9, bound for minor"),
        (ScaleKind::ALTERED, "every tension altered"),
        (ScaleKind::WHOLE_TONE, "with a #11"),
    ]},
    Row { has: Degrees::table("3 b7"), any: Degrees::table("b9 #9"), choices: &[
        (ScaleKind::HALF_WHOLE_DIMINISHED, "altered ninths with natural fifth and 13"),
        (ScaleKind::ALTERED, "altered ninths with b13; melodic minor a half step up"),
        (ScaleKind::PHRYGIAN_DOMINANT, "b9 with b13: the V of harmonic minor"),
        (ScaleKind::MIXOLYDIAN_FLAT_2, "b9 with 13, from harmonic major"),
    ]},
    Row { has: Degrees::table("3 b7 #11"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::LYDIAN_DOMINANT, "#11 with a natural fifth: a dominant that does not fall a fifth"),
        (ScaleKind::HALF_WHOLE_DIMINISHED, "#11 with altered ninths and 13"),
        (ScaleKind::WHOLE_TONE, "#11 without a natural fifth"),
        (ScaleKind::ALTERED, "where the chord resolves"),
    ]},
    Row { has: Degrees::table("3 b7"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::MIXOLYDIAN, "the V of major; its 4 rubs against the 3"),
        (ScaleKind::LYDIAN_DOMINANT, "#11 in place of the 4: a dominant that does not fall a fifth"),
        (ScaleKind::HALF_WHOLE_DIMINISHED, "altered ninths with a natural 13, bound for major"),
        (ScaleKind::ALTERED, "every tension altered, bound for minor; melodic minor a half step up"),
        (ScaleKind::PHRYGIAN_DOMINANT, "the V of harmonic minor"),
        (ScaleKind::MIXOLYDIAN_FLAT_6, "b13 with a natural 9"),
        (ScaleKind::WHOLE_TONE, "#11 and #5 with a natural 9"),
        (ScaleKind::BEBOP_DOMINANT, "both sevenths, eight notes to the bar"),
    ]},
    // Augmented triad, sixths, major.
    Row { has: Degrees::table("3 #5"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::WHOLE_TONE, "an augmented triad and its upper neighbour"),
        (ScaleKind::LYDIAN_AUGMENTED, "with a major seventh"),
        (ScaleKind::AUGMENTED, "two augmented triads a minor third apart"),
    ]},
    Row { has: Degrees::table("3 7"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::LYDIAN, "the #11 does not rub"),
        (ScaleKind::IONIAN, "the plain major scale; its 4 rubs against the 3"),
        (ScaleKind::LYDIAN_AUGMENTED, "brighter still, without the plain fifth"),
        (ScaleKind::HARMONIC_MAJOR, "the b13 of the minor key"),
    ]},
    Row { has: Degrees::table("3 #11"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::LYDIAN, "the #11 that is written"),
        (ScaleKind::LYDIAN_DOMINANT, "with a b7"),
    ]},
    Row { has: Degrees::table("3"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::IONIAN, "the plain major scale of a tonic"),
        (ScaleKind::LYDIAN, "the #11 does not rub"),
        (ScaleKind::MIXOLYDIAN, "with a b7"),
        (ScaleKind::MAJOR_PENTATONIC, "nothing that rubs; too few notes for a pair"),
    ]},
    Row { has: Degrees::EMPTY, any: Degrees::table("b7"), choices: &[
        (ScaleKind::MIXOLYDIAN, "with the major third"),
        (ScaleKind::DORIAN, "with the minor third"),
    ]},
    Row { has: Degrees::table("1"), any: Degrees::EMPTY, choices: &[
        (ScaleKind::IONIAN, "with the major third"),
        (ScaleKind::DORIAN, "with the minor third"),
        (ScaleKind::MIXOLYDIAN, "with the major third and b7"),
        (ScaleKind::AEOLIAN, "natural minor"),
    ]},
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reason_is_ascii() {
        for (_, why) in ROWS.iter().flat_map(|row| row.choices).chain(ALTERED) {
            assert!(why.is_ascii(), "{why}");
        }
    }
}
