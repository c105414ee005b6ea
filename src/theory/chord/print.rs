//! Printing chords in one house style.
//!
//! `m`, `maj7`, `dim`, `+`, `sus4`, then alterations without brackets and added naturals in
//! brackets: `Gmaj7♯11`, `Cm7♭5`, `D13♭9`, `A7(13)`. The print is made from the degrees alone, so
//! all dialects of one chord print alike.

use std::fmt;

use super::{Chord, Degree};
use crate::text::with_signs;

impl fmt::Display for Chord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.root().fmt(f)?;
        let body = Body::of(self).text();
        if f.alternate() { f.write_str(&body) } else { f.write_str(&with_signs(&body)) }?;
        match self.bass() {
            Some(bass) => {
                f.write_str("/")?;
                bass.fmt(f)
            }
            None => Ok(()),
        }
    }
}

/// A chord's degrees while they are being put into words; what has been said is crossed out.
struct Body<'a> {
    chord: &'a Chord,
    unsaid: Vec<Degree>,
}

impl<'a> Body<'a> {
    fn of(chord: &'a Chord) -> Body<'a> {
        Body { chord, unsaid: chord.degrees().to_vec() }
    }

    fn has(&self, degree: &str) -> bool {
        self.chord.names(degree)
    }

    /// Crosses out degrees.
    fn say(&mut self, degrees: &[&str]) {
        self.unsaid.retain(|unsaid| !degrees.contains(&format!("{unsaid:#}").as_str()));
    }

    fn text(mut self) -> String {
        if self.chord.is_alt() {
            self.say(&["1", "3", "b5", "#5", "b7", "b9", "#9"]);
            return format!("7alt{}{}", self.tensions(true), self.omissions());
        }
        if self.chord.degrees().iter().map(ToString::to_string).eq(["1", "5"]) {
            return "5".to_owned();
        }
        let stem = self.stem();
        let fifths = self.fifths(&stem);
        let tensions = self.tensions(self.seventh().is_some() || self.has("6"));
        format!("{stem}{fifths}{tensions}{}", self.omissions())
    }

    fn seventh(&self) -> Option<&'static str> {
        ["bb7", "b7", "7"].into_iter().find(|seventh| self.has(seventh))
    }

    fn is_diminished(&self) -> bool {
        let only_flat_fifth = self.has("b5") && !self.has("#5");
        self.has("b3") && only_flat_fifth && !self.has("b7") && !self.has("6")
    }

    /// Quality, number and suspension.
    fn stem(&mut self) -> String {
        self.say(&["1", "2", "b3", "3", "4"]);
        let number = self.number();
        let major = self.has("7");
        let sus = match (self.has("2"), self.has("4")) {
            (true, true) => "sus2sus4",
            (true, false) => "sus2",
            (false, true) => "sus4",
            (false, false) => "",
        };
        if self.is_diminished() {
            self.say(&["b5"]);
            let both = major && self.has("bb7");
            return match (both, major) {
                (true, _) => format!("dim{number}(maj7)"),
                (false, true) => format!("dim(maj{number})"),
                (false, false) => format!("dim{number}"),
            };
        }
        let stem = match (self.has("b3"), major) {
            (true, true) => format!("m(maj{number})"),
            (true, false) => format!("m{number}"),
            (false, true) => format!("maj{number}{sus}"),
            (false, false) => format!("{number}{sus}"),
        };
        let augmented = stem.is_empty() && self.has("3") && self.has("#5") && !self.has("b5");
        if augmented {
            self.say(&["#5"]);
            return "+".to_owned();
        }
        stem
    }

    /// How far the chord goes up: 6, 6/9, 7, 9, 11 or 13, or nothing.
    fn number(&mut self) -> &'static str {
        let minor = self.has("b3");
        if self.seventh().is_none() {
            self.say(&["6"]);
            return match (self.has("6"), self.has("9")) {
                (true, true) => {
                    self.say(&["9"]);
                    "6/9"
                }
                (true, false) => "6",
                _ => "",
            };
        }
        self.say(&["bb7", "b7", "7"]);
        let altered_ninth = self.has("b9") || self.has("#9");
        let ninth = altered_ninth || self.has("9") || self.has("2");
        let eleventh = self.has("11") || self.has("#11");
        let thirteenth = self.has("13") && !self.has("b13");
        let plain_eleventh = self.has("11") && !self.has("#11");
        let number = match () {
            () if thirteenth && ninth && (eleventh || !minor) => "13",
            () if plain_eleventh && ninth && (minor || self.has("7")) && !self.chord.is_sus() => {
                "11"
            }
            () if self.has("9") && !altered_ninth => "9",
            () => "7",
        };
        // A natural that stands beside its own alteration is not implied and is said in brackets.
        if number != "7" && !altered_ninth {
            self.say(&["9"]);
        }
        if (number == "11" || number == "13" && minor) && !self.has("#11") {
            self.say(&["11"]);
        }
        if number == "13" {
            self.say(&["13"]);
        }
        number
    }

    fn fifths(&mut self, stem: &str) -> String {
        let mut text = String::new();
        for fifth in ["b5", "#5"] {
            if self.unsaid.iter().any(|unsaid| format!("{unsaid:#}") == fifth) {
                text.push_str(fifth);
                self.say(&[fifth]);
            }
        }
        self.say(&["5"]);
        // Right after the root a flat would belong to it.
        if stem.is_empty() && !text.is_empty() { format!("({text})") } else { text }
    }

    /// Alterations as they are and naturals in brackets; without a number, everything as `add`.
    fn tensions(&mut self, numbered: bool) -> String {
        let unsaid = std::mem::take(&mut self.unsaid);
        let (altered, natural): (Vec<Degree>, Vec<Degree>) =
            unsaid.into_iter().partition(|degree| degree.alteration() != 0);
        let joined = |degrees: &[Degree], before: &str, between: &str| {
            let words: Vec<String> =
                degrees.iter().map(|degree| format!("{before}{degree:#}")).collect();
            words.join(between)
        };
        match (numbered, natural.is_empty()) {
            (true, true) => joined(&altered, "", ""),
            (true, false) => {
                format!("{}({})", joined(&altered, "", ""), joined(&natural, "", ","))
            }
            (false, _) => {
                format!("{}{}", joined(&natural, "add", ""), joined(&altered, "add", ""))
            }
        }
    }

    fn omissions(&self) -> String {
        let no_third = !["b3", "3", "2", "4"].iter().any(|third| self.has(third));
        let no_fifth = !["b5", "5", "#5"].iter().any(|fifth| self.has(fifth));
        let text = |missing: bool, word: &str| {
            if missing { word.to_owned() } else { String::new() }
        };
        text(no_third, "no3") + &text(no_fifth, "no5")
    }
}
