//! Chords as a kind with degrees.

use fretloom_theory::{Chord, Degree};

/// The kinds of chords, and what each holds. Of two that say a chord as simply the first is taken. Eleventh and thirteenth chords are as the format counts them, all thirds below included.
#[rustfmt::skip]
const KINDS: [(&str, &str); 25] = [
    ("dominant",           "1 3 5 b7"),
    ("major-seventh",      "1 3 5 7"),
    ("minor-seventh",      "1 b3 5 b7"),
    ("major-minor",        "1 b3 5 7"),
    ("major",              "1 3 5"),
    ("minor",              "1 b3 5"),
    ("augmented",          "1 3 #5"),
    ("diminished",         "1 b3 b5"),
    ("diminished-seventh", "1 b3 b5 bb7"),
    ("augmented-seventh",  "1 3 #5 b7"),
    ("half-diminished",    "1 b3 b5 b7"),
    ("major-sixth",        "1 3 5 6"),
    ("minor-sixth",        "1 b3 5 6"),
    ("dominant-ninth",     "1 3 5 b7 9"),
    ("major-ninth",        "1 3 5 7 9"),
    ("minor-ninth",        "1 b3 5 b7 9"),
    ("dominant-11th",      "1 3 5 b7 9 11"),
    ("major-11th",         "1 3 5 7 9 11"),
    ("minor-11th",         "1 b3 5 b7 9 11"),
    ("dominant-13th",      "1 3 5 b7 9 11 13"),
    ("major-13th",         "1 3 5 7 9 11 13"),
    ("minor-13th",         "1 b3 5 b7 9 11 13"),
    ("suspended-second",   "1 2 5"),
    ("suspended-fourth",   "1 4 5"),
    ("power",              "1 5"),
];

/// A chord as a kind with degrees that are added to it, altered in it or taken from it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct KindOfChord {
    pub(super) name: &'static str,
    pub(super) degrees: Vec<KindDegree>,
}

/// A degree that the kind does not have as the chord has it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct KindDegree {
    /// `add`, `alter`, `subtract`
    pub(super) change: &'static str,
    pub(super) number: u8,
    /// Half steps: for what is altered from what the kind has, else from what a dominant chord has.
    pub(super) alter: i8,
}

impl KindOfChord {
    pub(super) fn of(chord: &Chord) -> KindOfChord {
        let said = KINDS.iter().map(|(name, degrees)| {
            let kind: Vec<Degree> =
                degrees.split(' ').filter_map(|degree| degree.parse().ok()).collect();
            KindOfChord { name, degrees: differences(&kind, chord.degrees()) }
        });
        let shortest = said.min_by_key(KindOfChord::cost);
        // There is at least one kind.
        shortest.unwrap_or(KindOfChord { name: "other", degrees: Vec::new() })
    }

    /// How hard it is to read. Programs do not agree what an added seventh is, a minor or a major one.
    fn cost(&self) -> usize {
        let is_seventh = |degree: &&KindDegree| degree.change == "add" && degree.number == 7;
        self.degrees.len() + 2 * self.degrees.iter().filter(is_seventh).count()
    }
}

/// What makes the chord of the kind.
fn differences(kind: &[Degree], chord: &[Degree]) -> Vec<KindDegree> {
    let lacking = kind.iter().filter(|degree| !chord.contains(degree));
    let mut more: Vec<Degree> =
        chord.iter().copied().filter(|degree| !kind.contains(degree)).collect();
    let mut degrees = Vec::new();
    for lacked in lacking {
        let altered = more.iter().position(|degree| degree.number() == lacked.number());
        degrees.push(match altered {
            Some(index) => {
                let degree = more.remove(index);
                let alter = degree.alteration() - lacked.alteration();
                KindDegree { change: "alter", number: lacked.number(), alter }
            }
            None => KindDegree { change: "subtract", number: lacked.number(), alter: 0 },
        });
    }
    degrees.extend(more.into_iter().map(|degree| {
        // The seventh of a dominant chord is minor.
        let usual = if degree.number() == 7 { -1 } else { 0 };
        let (number, alter) = (degree.number(), degree.alteration() - usual);
        KindDegree { change: "add", number, alter }
    }));
    degrees
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(symbol: &str) -> String {
        let kind = KindOfChord::of(&symbol.parse().unwrap());
        let degrees = kind
            .degrees
            .iter()
            .map(|degree| format!(" {} {} {:+}", degree.change, degree.number, degree.alter));
        format!("{}{}", kind.name, degrees.collect::<String>())
    }

    /// By the definitions of the format: `add` counts from a dominant chord, `alter` from the kind.
    #[test]
    fn chords_are_a_kind_with_degrees() {
        for (symbol, kind) in [
            ("C", "major"),
            ("Cm7b5", "half-diminished"),
            ("C7b9", "dominant add 9 -1"),
            ("Cmaj7#11", "major-seventh add 11 +1"),
            ("C7sus4", "dominant subtract 3 +0 add 4 +0"),
            ("Cm(maj7)", "major-minor"),
            ("C6/9", "major-sixth add 9 +0"),
            ("C13", "dominant-ninth add 13 +0"),
            ("Cm11", "minor-11th"),
            ("C7alt", "augmented-seventh add 5 -1 add 9 -1 add 9 +1"),
            ("Cmaj7#5", "major-seventh alter 5 +1"),
            ("C5", "power"),
            ("C7b13", "dominant add 13 -1"),
            ("Cdim(maj7)", "major-minor alter 5 -1"),
        ] {
            assert_eq!(told(symbol), kind, "{symbol}");
        }
    }
}
