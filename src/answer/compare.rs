//! What stays under the fingers when the tuning changes, set of strings by set of strings.
//!
//! The shapes on three strings depend on nothing but the two steps between them, and on where a
//! short string begins. Where those stay, the shapes survive, perhaps at other frets; where they
//! change, the new ones may be known from another set of the old tuning.

mod change;
mod family;

use fretloom_fretboard::{Neck, StringNumber, StringSet, Tuning};
use fretloom_theory::SpelledTriad;
use serde::Serialize;

use super::{Refusal, TuningAnswer, find_tuning};
use crate::library::LoadedTunings;
use change::Change;
use family::Family;

/// The answer of `tunings compare A B`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct CompareAnswer {
    /// Every three neighbouring strings of `a` that have partners in `b`, from the highest string
    /// number to the floor.
    pub sets: Vec<SetAnswer>,
    /// The sets of either tuning that have no partner in the other.
    pub alone: Vec<AloneAnswer>,
    /// The tuning that the player knows.
    pub a: TuningAnswer,
    /// The other one.
    pub b: TuningAnswer,
}

/// Three strings of one tuning and their partners in the other.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct SetAnswer {
    /// The strings in the first tuning, highest number first.
    pub a: [u8; 3],
    /// The strings in the second.
    pub b: [u8; 3],
    /// Have the close shapes the same form on both?
    pub shapes_survive: bool,
    /// Where they have not: are the frets of the close shapes the same nevertheless, with strings
    /// an octave apart that turn one inversion into another?
    pub only_inversions_change: bool,
    /// Why, in words.
    pub why: String,
    /// Semitones from string to string in the first tuning, in the order of its strings.
    pub a_steps: [i32; 2],
    /// The same in the second.
    pub b_steps: [i32; 2],
    /// Where shapes change: the sets of the first tuning that have the grips of this one.
    pub grips_of: Vec<[u8; 3]>,
    /// What becomes of the ladder of a pair, in words.
    #[serde(serialize_with = "ascii_words")]
    pub ladder: String,
}

/// Three strings without a partner.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct AloneAnswer {
    /// `a` or `b`: the tuning that has them.
    pub tuning: &'static str,
    /// The strings, highest number first.
    pub strings: [u8; 3],
    /// Semitones from string to string.
    pub steps: [i32; 2],
    /// What is to be known of them, in words.
    pub why: String,
}

fn ascii_words<S: serde::Serializer>(words: &str, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(&crate::glyphs::to_ascii(words))
}

impl CompareAnswer {
    /// What becomes of the shapes of tuning `a` in tuning `b`, and of the ladder of a pair? Either
    /// tuning is an id, a name, or strings typed by hand.
    ///
    /// # Errors
    ///
    /// Where a tuning is neither known nor readable, or the triads share a note.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::CompareAnswer;
    /// use fretloom::library::LoadedTunings;
    /// let loaded = LoadedTunings::load(None);
    /// let answer = CompareAnswer::new(&loaded, "guitar-standard", "guitar-drop-d", None).unwrap();
    /// let survive: Vec<bool> = answer.sets.iter().map(|set| set.shapes_survive).collect();
    /// assert_eq!(survive, [false, true, true, true]); // 6-5-4 changes
    /// ```
    pub fn new(
        loaded: &LoadedTunings,
        a: &str,
        b: &str,
        pair: Option<[SpelledTriad; 2]>,
    ) -> Result<CompareAnswer, Refusal> {
        if let Some(triads) = pair
            && !triads[0].triad().set().is_disjoint(triads[1].triad().set())
        {
            return Err(Refusal::shared_notes(triads));
        }
        let ((a, a_answer), (b, b_answer)) = (find_tuning(loaded, a)?, find_tuning(loaded, b)?);
        let partners = Partners::of(&a, &b);
        let to = Neck::new(b);
        Ok(CompareAnswer {
            sets: partners.sets(&a, &to, pair),
            alone: partners.alone(&a, to.tuning()),
            a: a_answer,
            b: b_answer,
        })
    }
}

/// Which string of one tuning stands for which of another: those whose numbers differ by `up`.
struct Partners {
    up: i8,
}

impl Partners {
    /// Puts the strings of the tuning with fewer beside those that sound nearest to them; of ways
    /// that are equally near, the one that keeps string 1 nearest to string 1.
    fn of(a: &Tuning, b: &Tuning) -> Partners {
        let surplus = b.string_count() as i8 - a.string_count() as i8;
        let ways = surplus.min(0)..=surplus.max(0);
        let apart = |up: &i8| -> (u32, u8) {
            let partners = Partners { up: *up };
            let strings = a.strings().filter_map(|(number, open)| {
                let other = b.string(partners.in_b(number, b)?)?;
                Some(open.pitch().semitones_up_to(other.pitch()).unsigned_abs())
            });
            (strings.sum(), up.unsigned_abs())
        };
        Partners { up: ways.min_by_key(apart).unwrap_or_default() }
    }

    fn in_b(&self, string: StringNumber, b: &Tuning) -> Option<StringNumber> {
        beside(string, self.up, b)
    }

    fn in_a(&self, string: StringNumber, a: &Tuning) -> Option<StringNumber> {
        beside(string, -self.up, a)
    }

    fn sets(&self, a: &Tuning, to: &Neck, pair: Option<[SpelledTriad; 2]>) -> Vec<SetAnswer> {
        let partner = |strings: [StringNumber; 3]| {
            let [one, two, three] = strings.map(|string| self.in_b(string, to.tuning()));
            let change = Change::new(a, to, strings, [one?, two?, three?])?;
            Some(change.answer(pair))
        };
        threes(a).filter_map(partner).collect()
    }

    fn alone(&self, a: &Tuning, b: &Tuning) -> Vec<AloneAnswer> {
        let lonely_in_a = |strings: &[StringNumber; 3]| {
            strings.iter().any(|string| self.in_b(*string, b).is_none())
        };
        let lonely_in_b = |strings: &[StringNumber; 3]| {
            strings.iter().any(|string| self.in_a(*string, a).is_none())
        };
        let of_a = threes(a).filter(lonely_in_a).filter_map(|strings| {
            let family = Family::of(a, strings)?;
            let why = "no partner in the other tuning".to_owned();
            Some(AloneAnswer::new("a", strings, family, why))
        });
        let of_b = threes(b).filter(lonely_in_b).filter_map(|strings| {
            let family = Family::of(b, strings)?;
            let known = family.sets_on(a);
            let why = format!("more strings than before: {}", change::grips(&known));
            Some(AloneAnswer::new("b", strings, family, why))
        });
        of_a.chain(of_b).collect()
    }
}

impl AloneAnswer {
    fn new(tuning: &'static str, strings: [StringNumber; 3], family: Family, why: String) -> Self {
        AloneAnswer {
            tuning,
            strings: strings.map(StringNumber::number),
            steps: family.steps(),
            why,
        }
    }
}

/// The string of `tuning` whose number is `up` higher.
fn beside(string: StringNumber, up: i8, tuning: &Tuning) -> Option<StringNumber> {
    let number = StringNumber::new(string.number().checked_add_signed(up)?)?;
    tuning.string(number).map(|_| number)
}

/// Every three neighbouring strings, from the highest number to the floor.
fn threes(tuning: &Tuning) -> impl Iterator<Item = [StringNumber; 3]> + use<> {
    let sets: Vec<StringSet> = StringSet::neighbours(tuning.string_count(), 3).collect();
    sets.into_iter().rev().filter_map(StringSet::three)
}

#[cfg(test)]
mod tests;
