//! Printing chords in one house style.
//!
//! `m`, `maj7`, `dim`, `+`, `sus4`, then alterations without brackets and added naturals in
//! brackets: `Gmaj7♯11`, `Cm7♭5`, `D13♭9`, `A7(13)`. The print is made from the degrees alone, so
//! all dialects of one chord print alike.

use std::fmt;

use crate::text::with_signs;
use crate::{Chord, Degree, Degrees};

/// What `alt` says.
const ALTERED: Degrees = Degrees::table("1 3 b5 #5 b7 b9 #9");
const SEVENTHS: Degrees = Degrees::table("bb7 b7 7");
/// Thirds, and what a suspension puts in their place.
const THIRDS: Degrees = Degrees::table("b3 3 2 4");
const FIFTHS: Degrees = Degrees::table("b5 5 #5");

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

/// A chord's degrees while they are put into words; those that have been said are taken out.
struct Body<'a> {
    chord: &'a Chord,
    unsaid: Vec<Degree>,
}

impl<'a> Body<'a> {
    fn of(chord: &'a Chord) -> Body<'a> {
        Body { chord, unsaid: chord.degrees().to_vec() }
    }

    fn has(&self, degree: Degree) -> bool {
        self.chord.names(degree)
    }

    /// Takes degrees out, as said.
    fn say(&mut self, degrees: &[Degree]) {
        self.unsaid.retain(|unsaid| !degrees.contains(unsaid));
    }

    fn text(mut self) -> String {
        if self.chord.is_alt() {
            self.say(&ALTERED);
            return format!("7alt{}{}", self.tensions(), self.omissions());
        }
        if *self.chord.degrees() == [Degree::ROOT, Degree::FIFTH] {
            return "5".to_owned();
        }
        let stem = self.stem();
        let fifths = self.fifths(&stem);
        let has_number = self.has_one_of(SEVENTHS) || self.has(Degree::SIXTH);
        let tensions = if has_number { self.tensions() } else { self.added_tensions() };
        format!("{stem}{fifths}{tensions}{}", self.omissions())
    }

    fn has_one_of(&self, degrees: Degrees) -> bool {
        degrees.iter().any(|degree| self.has(*degree))
    }

    fn is_diminished(&self) -> bool {
        let only_flat_fifth = self.has(Degree::FLAT_FIFTH) && !self.has(Degree::SHARP_FIFTH);
        self.has(Degree::MINOR_THIRD)
            && only_flat_fifth
            && !self.has(Degree::MINOR_SEVENTH)
            && !self.has(Degree::SIXTH)
    }

    /// Quality, number and suspension.
    fn stem(&mut self) -> String {
        self.say(&[
            Degree::ROOT,
            Degree::SECOND,
            Degree::MINOR_THIRD,
            Degree::MAJOR_THIRD,
            Degree::FOURTH,
        ]);
        let number = self.number();
        let major = self.has(Degree::MAJOR_SEVENTH);
        let sus = match (self.has(Degree::SECOND), self.has(Degree::FOURTH)) {
            (true, true) => "sus2sus4",
            (true, false) => "sus2",
            (false, true) => "sus4",
            (false, false) => "",
        };
        if self.is_diminished() {
            self.say(&[Degree::FLAT_FIFTH]);
            let both = major && self.has(Degree::DIMINISHED_SEVENTH);
            return match (both, major) {
                (true, _) => format!("dim{number}(maj7)"),
                (false, true) => format!("dim(maj{number})"),
                (false, false) => format!("dim{number}"),
            };
        }
        let stem = match (self.has(Degree::MINOR_THIRD), major) {
            (true, true) => format!("m(maj{number})"),
            (true, false) => format!("m{number}"),
            (false, true) => format!("maj{number}{sus}"),
            (false, false) => format!("{number}{sus}"),
        };
        let augmented = stem.is_empty()
            && self.has(Degree::MAJOR_THIRD)
            && self.has(Degree::SHARP_FIFTH)
            && !self.has(Degree::FLAT_FIFTH);
        if augmented {
            self.say(&[Degree::SHARP_FIFTH]);
            return "+".to_owned();
        }
        stem
    }

    /// How far the chord goes up: 6, 6/9, 7, 9, 11 or 13, or nothing.
    fn number(&mut self) -> &'static str {
        let minor = self.has(Degree::MINOR_THIRD);
        if !self.has_one_of(SEVENTHS) {
            self.say(&[Degree::SIXTH]);
            return match (self.has(Degree::SIXTH), self.has(Degree::NINTH)) {
                (true, true) => {
                    self.say(&[Degree::NINTH]);
                    "6/9"
                }
                (true, false) => "6",
                _ => "",
            };
        }
        self.say(&[Degree::DIMINISHED_SEVENTH, Degree::MINOR_SEVENTH, Degree::MAJOR_SEVENTH]);
        let altered_ninth = self.has(Degree::FLAT_NINTH) || self.has(Degree::SHARP_NINTH);
        let ninth = altered_ninth || self.has(Degree::NINTH) || self.has(Degree::SECOND);
        let eleventh = self.has(Degree::ELEVENTH) || self.has(Degree::SHARP_ELEVENTH);
        let thirteenth = self.has(Degree::THIRTEENTH) && !self.has(Degree::FLAT_THIRTEENTH);
        let plain_eleventh = self.has(Degree::ELEVENTH) && !self.has(Degree::SHARP_ELEVENTH);
        let number = match () {
            () if thirteenth && ninth && (eleventh || !minor) => "13",
            () if plain_eleventh
                && ninth
                && (minor || self.has(Degree::MAJOR_SEVENTH))
                && !self.chord.is_sus() =>
            {
                "11"
            }
            () if self.has(Degree::NINTH) && !altered_ninth => "9",
            () => "7",
        };
        // A natural that stands beside its own alteration is not implied and is said in brackets.
        if number != "7" && !altered_ninth {
            self.say(&[Degree::NINTH]);
        }
        if (number == "11" || number == "13" && minor) && !self.has(Degree::SHARP_ELEVENTH) {
            self.say(&[Degree::ELEVENTH]);
        }
        if number == "13" {
            self.say(&[Degree::THIRTEENTH]);
        }
        number
    }

    fn fifths(&mut self, stem: &str) -> String {
        let mut text = String::new();
        for fifth in [Degree::FLAT_FIFTH, Degree::SHARP_FIFTH] {
            if self.unsaid.contains(&fifth) {
                text += &format!("{fifth:#}");
                self.say(&[fifth]);
            }
        }
        self.say(&[Degree::FIFTH]);
        // Right after the root a flat would belong to it.
        if stem.is_empty() && !text.is_empty() { format!("({text})") } else { text }
    }

    /// Tensions after a number: alterations as they are, then naturals in brackets.
    fn tensions(&mut self) -> String {
        let (altered, natural) = self.unsaid_tensions();
        let altered: String = altered.iter().map(|degree| format!("{degree:#}")).collect();
        let natural: Vec<String> = natural.iter().map(|degree| format!("{degree:#}")).collect();
        if natural.is_empty() { altered } else { format!("{altered}({})", natural.join(",")) }
    }

    /// Tensions without a number, each as `add`: naturals, then alterations.
    fn added_tensions(&mut self) -> String {
        let (altered, natural) = self.unsaid_tensions();
        natural.iter().chain(&altered).map(|degree| format!("add{degree:#}")).collect()
    }

    /// What is left to say: altered degrees and natural ones.
    fn unsaid_tensions(&mut self) -> (Vec<Degree>, Vec<Degree>) {
        std::mem::take(&mut self.unsaid).into_iter().partition(|degree| degree.alteration() != 0)
    }

    fn omissions(&self) -> String {
        let no_third = !self.has_one_of(THIRDS);
        let no_fifth = !self.has_one_of(FIFTHS);
        let text = |missing: bool, word: &str| {
            if missing { word.to_owned() } else { String::new() }
        };
        text(no_third, "no3") + &text(no_fifth, "no5")
    }
}
