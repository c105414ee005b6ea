//! The table of usual choices: which scales players reach for over which chord, and why.
//!
//! The first row whose condition holds gives the order; scales of it that do not fit the whole
//! symbol (`maj7#11` has no Ionian) drop out by themselves. Words are ASCII; a `b` or `#` before a
//! number is printed as a sign.

use crate::Chord;

type Choice = (&'static str, &'static str);

struct Row {
    /// Degrees that the symbol names.
    has: &'static [&'static str],
    /// Of these it names at least one, unless there are none.
    any: &'static [&'static str],
    choices: &'static [Choice],
}

/// The usual choices for a chord, the first one first; empty for chords without a habit.
pub(super) fn choices(chord: &Chord) -> &'static [Choice] {
    let holds = |row: &&Row| {
        row.has.iter().all(|degree| chord.names(degree))
            && (row.any.is_empty() || row.any.iter().any(|degree| chord.names(degree)))
    };
    if chord.is_alt() {
        return ALTERED;
    }
    ROWS.iter().find(holds).map_or(&[], |row| row.choices)
}

const ALTERED: &[Choice] =
    &[("altered", "alt asks for it: every tension altered, b9 #9 b5 and #5")];

#[rustfmt::skip]
const ROWS: &[Row] = &[
    // Suspended.
    Row { has: &["4", "b9"], any: &[], choices: &[
        ("Phrygian", "the dark suspension: b9 over the fourth"),
        ("Dorian b2", "b9 with a natural 13, from the second degree of melodic minor"),
        ("half-whole diminished", "b9 and 13, symmetrical"),
        ("Phrygian dominant", "b9 with the major third as a colour, bound for minor"),
    ]},
    Row { has: &["4", "b7"], any: &[], choices: &[
        ("Mixolydian", "the usual scale of a sus chord; its third is a colour"),
        ("Dorian", "the sus chord heard as a minor seventh over the fifth degree"),
    ]},
    Row { has: &[], any: &["2", "4"], choices: &[
        ("Ionian", "the plain major scale holds the suspension and its resolution"),
        ("Mixolydian", "the suspension of a dominant"),
        ("Dorian", "the suspension of a minor chord"),
    ]},
    // Diminished and half-diminished.
    Row { has: &["b3", "b5", "bb7"], any: &[], choices: &[
        ("whole-half diminished", "a whole step above every chord tone"),
        ("altered bb7", "the seventh degree of harmonic minor, where the chord leads into it"),
        ("Locrian bb7", "the seventh degree of harmonic major"),
    ]},
    Row { has: &["b3", "b5", "b7"], any: &[], choices: &[
        ("Locrian natural 2", "one side of a fork: the natural 9, which does not rub"),
        ("Locrian", "the other side: the b9 of the minor key, where the chord is its ii"),
        ("Locrian natural 6", "the ii of harmonic minor, with a natural 13"),
        ("Dorian b5", "natural 9 and 13"),
    ]},
    Row { has: &["b3", "b5"], any: &[], choices: &[
        ("Locrian natural 2", "as over a half-diminished seventh"),
        ("whole-half diminished", "a whole step above every chord tone"),
        ("Locrian", "the vii of major"),
    ]},
    // Minor.
    Row { has: &["b3", "7"], any: &[], choices: &[
        ("melodic minor", "the sound that the symbol names: major sixth and seventh"),
        ("harmonic minor", "with the b13 of the minor key"),
        ("Lydian b3", "with a #11"),
    ]},
    Row { has: &["b3", "6"], any: &[], choices: &[
        ("melodic minor", "the tonic minor"),
        ("Dorian", "with the b7, as a tonic or a ii"),
    ]},
    Row { has: &["b3", "b9"], any: &[], choices: &[
        ("Phrygian", "b9 over a minor seventh: the iii of major"),
        ("Dorian b2", "b9 with a natural 13"),
    ]},
    Row { has: &["b3", "b13"], any: &[], choices: &[
        ("Aeolian", "natural minor holds the b13"),
        ("Phrygian", "b13 with b9"),
    ]},
    Row { has: &["b3"], any: &["b7"], choices: &[
        ("Dorian", "the usual scale of a minor seventh that is a ii or stands alone"),
        ("Aeolian", "where the chord is the vi of major or the i of minor"),
        ("Phrygian", "where the chord is the iii of major"),
        ("melodic minor", "a reading: the chord as a tonic minor with a major seventh"),
    ]},
    Row { has: &["b3"], any: &[], choices: &[
        ("Dorian", "the usual scale of a minor chord that stands alone"),
        ("melodic minor", "the tonic minor with major sixth and seventh"),
        ("Aeolian", "natural minor"),
        ("harmonic minor", "natural minor with a leading note"),
        ("Phrygian", "the iii of major"),
    ]},
    // Major with an augmented fifth.
    Row { has: &["3", "#5", "7"], any: &[], choices: &[
        ("Lydian augmented", "#11 and #5 from the third degree of melodic minor"),
        ("Ionian #5", "with a natural 4, from harmonic minor"),
        ("augmented", "two augmented triads a minor third apart"),
        ("Lydian augmented #2", "with a #9"),
    ]},
    // Dominants, the altered ones first.
    Row { has: &["3", "b7", "#5"], any: &["b9", "#9"], choices: &[
        ("altered", "melodic minor a half step up: every tension altered"),
    ]},
    Row { has: &["3", "b7", "#5"], any: &[], choices: &[
        ("whole tone", "a natural 9 between #11 and #5, no fifth"),
        ("altered", "with altered ninths, where the chord resolves"),
    ]},
    Row { has: &["3", "b7", "b5"], any: &["b9", "#9"], choices: &[
        ("altered", "melodic minor a half step up: b5 instead of the fifth"),
        ("half-whole diminished", "with the natural 13"),
    ]},
    Row { has: &["3", "b7", "b5"], any: &[], choices: &[
        ("whole tone", "no natural fifth, a natural 9"),
        ("altered", "with altered ninths, where the chord resolves"),
        ("Lydian dominant", "the b5 as a #11, where the chord does not resolve"),
    ]},
    Row { has: &["3", "b7", "b13", "b9"], any: &[], choices: &[
        ("Phrygian dominant", "the V of harmonic minor, natural fifth and fourth"),
        ("altered", "melodic minor a half step up, without a natural fifth"),
    ]},
    Row { has: &["3", "b7", "b13", "#9"], any: &[], choices: &[
        ("altered", "melodic minor a half step up"),
    ]},
    Row { has: &["3", "b7", "b13"], any: &[], choices: &[
        ("Mixolydian b6", "b13 with a natural 9: the V of melodic minor"),
        ("Phrygian dominant", "b13 with b9, bound for minor"),
        ("altered", "every tension altered"),
        ("whole tone", "with a #11"),
    ]},
    Row { has: &["3", "b7"], any: &["b9", "#9"], choices: &[
        ("half-whole diminished", "altered ninths with natural fifth and 13"),
        ("altered", "altered ninths with b13; melodic minor a half step up"),
        ("Phrygian dominant", "b9 with b13: the V of harmonic minor"),
        ("Mixolydian b2", "b9 with 13, from harmonic major"),
    ]},
    Row { has: &["3", "b7", "#11"], any: &[], choices: &[
        ("Lydian dominant", "#11 with a natural fifth: a dominant that does not fall a fifth"),
        ("half-whole diminished", "#11 with altered ninths and 13"),
        ("whole tone", "#11 without a natural fifth"),
        ("altered", "where the chord resolves"),
    ]},
    Row { has: &["3", "b7"], any: &[], choices: &[
        ("Mixolydian", "the V of major; its 4 rubs against the 3"),
        ("Lydian dominant", "#11 in place of the 4: a dominant that does not fall a fifth"),
        ("half-whole diminished", "altered ninths with a natural 13, bound for major"),
        ("altered", "every tension altered, bound for minor; melodic minor a half step up"),
        ("Phrygian dominant", "the V of harmonic minor"),
        ("Mixolydian b6", "b13 with a natural 9"),
        ("whole tone", "#11 and #5 with a natural 9"),
        ("bebop dominant", "both sevenths, eight notes to the bar"),
    ]},
    // Augmented triad, sixths, major.
    Row { has: &["3", "#5"], any: &[], choices: &[
        ("whole tone", "an augmented triad and its upper neighbour"),
        ("Lydian augmented", "with a major seventh"),
        ("augmented", "two augmented triads a minor third apart"),
    ]},
    Row { has: &["3", "7"], any: &[], choices: &[
        ("Lydian", "the #11 does not rub"),
        ("Ionian", "the plain major scale; its 4 rubs against the 3"),
        ("Lydian augmented", "brighter still, without the plain fifth"),
        ("harmonic major", "the b13 of the minor key"),
    ]},
    Row { has: &["3", "#11"], any: &[], choices: &[
        ("Lydian", "the #11 that is written"),
        ("Lydian dominant", "with a b7"),
    ]},
    Row { has: &["3"], any: &[], choices: &[
        ("Ionian", "the plain major scale of a tonic"),
        ("Lydian", "the #11 does not rub"),
        ("Mixolydian", "with a b7"),
        ("major pentatonic", "nothing that rubs; too few notes for a pair"),
    ]},
    Row { has: &[], any: &["b7"], choices: &[
        ("Mixolydian", "with the major third"),
        ("Dorian", "with the minor third"),
    ]},
    Row { has: &["1"], any: &[], choices: &[
        ("Ionian", "with the major third"),
        ("Dorian", "with the minor third"),
        ("Mixolydian", "with the major third and b7"),
        ("Aeolian", "natural minor"),
    ]},
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ScaleKind;

    #[test]
    fn every_choice_names_a_scale_and_every_condition_a_degree() {
        for row in ROWS {
            for (name, why) in row.choices {
                assert!(ScaleKind::named(name).is_some(), "{name}");
                assert!(why.is_ascii(), "{why}");
            }
            for degree in row.has.iter().chain(row.any) {
                assert!(degree.parse::<crate::Degree>().is_ok(), "{degree}");
            }
        }
    }
}
