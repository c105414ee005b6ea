//! The patterns that there are.

use fretloom_fretboard::{Picking, StringNumber};
use fretloom_theory::{Bars, ComesRound, Meter, Pattern, Quarters, Rhythm, Sign, Stroke};

use crate::library::{LoadedPatterns, NamedPattern};

/// The answer of `patterns`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PatternsAnswer {
    /// Every pattern, built-in ones first.
    pub patterns: Vec<PatternAnswer>,
}

/// A pattern, played in eighths in 4/4.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PatternAnswer {
    /// The pattern with its names.
    pub pattern: NamedPattern,
    /// When it comes round; `None` after more bars than anybody plays.
    pub comes_round: Option<ComesRound>,
    /// How each sign is struck the first time, from the first beat of a bar on: down on the beat
    /// and up off it. `None` where nothing is struck.
    pub strokes: Vec<Option<Stroke>>,
}

impl PatternsAnswer {
    /// Which patterns are there?
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::PatternsAnswer;
    /// use fretloom::library::LoadedPatterns;
    /// let answer = PatternsAnswer::new(&LoadedPatterns::load(None));
    /// let threes = answer.patterns.iter().find(|one| one.pattern.id == "threes-up").unwrap();
    /// assert_eq!(threes.comes_round.unwrap().bars, 3);
    /// ```
    #[must_use]
    pub fn new(loaded: &LoadedPatterns) -> PatternsAnswer {
        PatternsAnswer { patterns: loaded.patterns().iter().map(PatternAnswer::of).collect() }
    }
}

impl PatternAnswer {
    fn of(pattern: &NamedPattern) -> PatternAnswer {
        let comes_round = ComesRound::of(&pattern.figures, &Rhythm::eighths(), Meter::COMMON);
        PatternAnswer {
            pattern: pattern.clone(),
            comes_round,
            strokes: strokes_in_eighths(&pattern.figures),
        }
    }
}

fn strokes_in_eighths(pattern: &Pattern) -> Vec<Option<Stroke>> {
    let signs = pattern.groups().iter().flat_map(|group| group.signs());
    let onsets = (0..).map_while(|eighths| Quarters::EIGHTH.times(eighths));
    let signs: Vec<(Quarters, bool)> = onsets.zip(signs.map(|sign| is_struck(sign.sign))).collect();
    let struck = signs.iter().filter(|(_, is_struck)| *is_struck);
    // Picked with the beat, all strings are alike.
    let notes: Vec<_> = struck.map(|(onset, _)| (*onset, StringNumber::FIRST)).collect();
    let mut strokes = Picking::WithTheBeat.strokes(&Bars::of(Meter::COMMON), &notes).into_iter();
    signs.iter().map(|(_, is_struck)| if *is_struck { strokes.next() } else { None }).collect()
}

fn is_struck(sign: Sign) -> bool {
    match sign {
        Sign::Rest | Sign::Hold => false,
        Sign::Figures(_)
        | Sign::HalfStepBelow
        | Sign::HalfStepAbove
        | Sign::ScaleStep
        | Sign::FirstNote => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: in eighths every second sign lies off the beat.
    #[test]
    fn a_stroke_goes_down_on_the_beat_and_up_off_it_also_after_rests() {
        for (figures, expected) in [
            ("123 321", "dududu"),
            ("1232 321 a", "dudududu"),
            ("-123 32", "-ududu"),
            ("1__2 _3", "d--u-u"),
            (">1(23)", "du"),
        ] {
            let strokes = strokes_in_eighths(&figures.parse().unwrap());
            let letters = strokes.iter().map(|stroke| match stroke {
                Some(Stroke::Down) => 'd',
                Some(Stroke::Up) => 'u',
                None => '-',
            });
            assert_eq!(letters.collect::<String>(), expected, "{figures}");
        }
    }

    /// From published tables of groups against a bar of eighths; a bar of 4/4 holds eight.
    #[test]
    fn built_in_patterns_come_round_when_teachers_say() {
        let answer = PatternsAnswer::new(&LoadedPatterns::load(None));
        for (id, bars) in [
            ("threes-up", 3),
            ("three-and-two", 5),
            ("six-and-back", 3),
            ("four-and-three", 7),
            ("with-approach", 1),
            ("fours-up", 1),
        ] {
            let found = answer.patterns.iter().find(|one| one.pattern.id == id).unwrap();
            assert_eq!(found.comes_round.unwrap().bars, bars, "{id}");
        }
    }
}
