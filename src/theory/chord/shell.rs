//! Shells: the few notes by which a chord is known.

use crate::{Chord, Degree, Degrees};

/// What a shell has above the root, the first of which the chord names all: a suspension goes before a
/// third, a fifth is there only where it is what the chord is called by.
const SHELLS: &[Degrees] = &[
    // A suspension.
    Degrees::table("4 b7"),
    Degrees::table("4 7"),
    Degrees::table("4 6"),
    Degrees::table("4 5"),
    Degrees::table("4"),
    Degrees::table("2 b7"),
    Degrees::table("2 7"),
    Degrees::table("2 6"),
    Degrees::table("2 5"),
    Degrees::table("2"),
    // A fifth that is not perfect and belongs to the name.
    Degrees::table("b3 b5 b7"),
    Degrees::table("b3 b5 bb7"),
    Degrees::table("b3 b5 7"),
    Degrees::table("3 #5 7"),
    // Third and seventh, or third and sixth.
    Degrees::table("3 7"),
    Degrees::table("3 b7"),
    Degrees::table("b3 7"),
    Degrees::table("b3 b7"),
    Degrees::table("3 6"),
    Degrees::table("b3 6"),
    // Triads.
    Degrees::table("3 5"),
    Degrees::table("b3 5"),
    Degrees::table("b3 b5"),
    Degrees::table("3 #5"),
    Degrees::table("3 b5"),
    Degrees::table("b3 #5"),
    // What is left where the symbol takes something away.
    Degrees::table("3"),
    Degrees::table("b3"),
    Degrees::table("5 7"),
    Degrees::table("5 b7"),
    Degrees::table("5 6"),
    Degrees::table("5"),
    Degrees::table("7"),
    Degrees::table("b7"),
];

impl Chord {
    /// Its shell, the root first: what is sounded under a line so that the chord is heard and does not
    /// cover it. Third and seventh as the symbol has them, the fourth of a suspension, the sixth of a
    /// sixth chord, all of a triad; a fifth else only where the chord is known by it, as a
    /// half-diminished one is.
    ///
    /// ```
    /// use fretloom_theory::Chord;
    /// let shell = |symbol: &str| -> Vec<String> {
    ///     let chord: Chord = symbol.parse().unwrap();
    ///     chord.shell().iter().map(|degree| format!("{degree:#}")).collect()
    /// };
    /// assert_eq!(shell("G13"), ["1", "3", "b7"]);
    /// assert_eq!(shell("Bm7b5"), ["1", "b3", "b5", "b7"]);
    /// assert_eq!(shell("F6/9"), ["1", "3", "6"]);
    /// ```
    #[must_use]
    pub fn shell(&self) -> Vec<Degree> {
        let named = |shell: &&Degrees| shell.iter().all(|degree| self.names(*degree));
        let above = SHELLS.iter().find(named).map_or(&[][..], |shell| &shell[..]);
        [&[Degree::ROOT], above].concat()
    }
}

#[cfg(test)]
mod tests {
    use crate::Chord;

    fn shell(symbol: &str) -> String {
        let chord: Chord = symbol.parse().unwrap();
        let degrees: Vec<String> = chord.shell().iter().map(|d| format!("{d:#}")).collect();
        degrees.join(" ")
    }

    /// By hand, kind by kind: common practice, no source.
    #[test]
    fn each_kind_of_chord_has_its_shell() {
        for (symbols, expected) in [
            ("Cmaj7 Cmaj9 Cmaj7#11 Cmaj13 Cmaj7b5", "1 3 7"),
            ("C7 C9 C13 C7b9 C7#9 C7#11 C7b5 C7#5 C13b9 C7b13 Calt C7alt C9#5", "1 3 b7"),
            ("Cm7 Cm9 Cm11 Cm13 Cm7#5", "1 b3 b7"),
            ("Cm(maj7) Cm(maj9)", "1 b3 7"),
            ("Cm7b5 Cm9b5 Cm11b5", "1 b3 b5 b7"),
            ("Cdim7", "1 b3 b5 bb7"),
            ("Cdim(maj7)", "1 b3 b5 7"),
            ("C7sus4 C9sus4 C13sus4 C7sus4b9 C11sus4", "1 4 b7"),
            ("C7sus2", "1 2 b7"),
            ("C6 C6/9", "1 3 6"),
            ("Cm6 Cm6/9", "1 b3 6"),
            ("Cmaj7#5 Cmaj9#5", "1 3 #5 7"),
            ("C Cadd9", "1 3 5"),
            ("Cm Cmadd9", "1 b3 5"),
            ("Cdim", "1 b3 b5"),
            ("C+", "1 3 #5"),
            ("Csus4", "1 4 5"),
            ("Csus2", "1 2 5"),
            ("C5", "1 5"),
            ("C7no3", "1 5 b7"),
            ("C7no5", "1 3 b7"),
        ] {
            for symbol in symbols.split(' ') {
                assert_eq!(shell(symbol), expected, "{symbol}");
            }
        }
    }

    /// A perfect fifth never sounds where the chord does not have one, nor any note that it does not
    /// have.
    #[test]
    fn a_shell_is_made_of_what_the_symbol_names() {
        for symbol in ["C7b5", "C7#5", "Cm7b5", "C+", "Cdim7", "Calt", "Cmaj7#5", "C7sus4", "Cm6"] {
            let chord: Chord = symbol.parse().unwrap();
            assert!(
                chord.shell().iter().all(|degree| chord.degrees().contains(degree)),
                "{symbol}"
            );
        }
    }
}
