//! What stays under the fingers when the tuning changes, set of strings by set of strings.
//!
//! The shapes on three strings depend on nothing but the two steps between them, and on where a
//! short string begins. Where those stay, the shapes survive, perhaps at other frets; where they
//! change, the new ones may be known from another set of the old tuning.

mod change;
mod family;

use fretloom_fretboard::{Neck, StringNumber, StringSet, Tuning};

use super::pairs::NamedPair;
use super::tunings::TuningAnswer;
use change::Change;
use family::{Family, set_of, threes};

pub use change::{SetAnswer, Survival};

/// The answer of `tunings compare A B`.
#[derive(Clone, PartialEq, Debug)]
pub struct CompareAnswer {
    /// The tuning that the player knows.
    pub a: TuningAnswer,
    /// The other one.
    pub b: TuningAnswer,
    /// Every three neighbouring strings of `a` that have partners in `b`, from the highest string
    /// number to the floor.
    pub sets: Vec<SetAnswer>,
    /// The sets of either tuning that have no partner in the other.
    pub alone: Vec<AloneAnswer>,
}

/// Three strings without a partner.
#[derive(Clone, PartialEq, Debug)]
pub struct AloneAnswer {
    /// The tuning that has them.
    pub tuning: Compared,
    /// The strings.
    pub strings: StringSet,
    /// Semitones from string to string.
    pub steps: [i32; 2],
    /// What a player should know of them, in words.
    pub why: String,
}

/// One of the two tunings that are compared.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Compared {
    /// The tuning that the player knows.
    A,
    /// The other one.
    B,
}

impl CompareAnswer {
    /// What becomes of the shapes of tuning `a` in tuning `b`, and of the ladder of a pair?
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::answer::{CompareAnswer, Survival, find_tuning};
    /// use fretloom::library::LoadedTunings;
    /// let loaded = LoadedTunings::load(None);
    /// let [a, b] =
    ///     ["guitar-standard", "guitar-drop-d"].map(|id| find_tuning(&loaded, id).unwrap());
    /// let answer = CompareAnswer::new(a, b, None);
    /// let survive: Vec<bool> =
    ///     answer.sets.iter().map(|set| set.shapes == Survival::Survive).collect();
    /// assert_eq!(survive, [false, true, true, true]); // 6-5-4 changes
    /// ```
    #[must_use]
    pub fn new(a: TuningAnswer, b: TuningAnswer, pair: Option<NamedPair>) -> CompareAnswer {
        let partners = Partners::of(&a.tuning, &b.tuning);
        let to = Neck::new(b.tuning.clone());
        CompareAnswer {
            sets: partners.sets(&a.tuning, &to, pair),
            alone: partners.alone(&a.tuning, &b.tuning),
            a,
            b,
        }
    }
}

/// Which string of one tuning corresponds to which of another.
struct Partners {
    /// How much higher the number of a string is in the second tuning.
    up: i8,
}

impl Partners {
    /// Pairs the strings of the tuning that has fewer with those that sound nearest to them. Of ways
    /// that are equally near it takes the one that keeps string 1 nearest to string 1.
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
        numbered_higher(string, self.up, b)
    }

    fn in_a(&self, string: StringNumber, a: &Tuning) -> Option<StringNumber> {
        numbered_higher(string, -self.up, a)
    }

    fn sets(&self, a: &Tuning, to: &Neck, pair: Option<NamedPair>) -> Vec<SetAnswer> {
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
            Some(AloneAnswer::new(Compared::A, strings, family, why))
        });
        let of_b = threes(b).filter(lonely_in_b).filter_map(|strings| {
            let family = Family::of(b, strings)?;
            let known = family.sets_on(a);
            let why = format!("more strings than before: {}", change::grips(&known));
            Some(AloneAnswer::new(Compared::B, strings, family, why))
        });
        of_a.chain(of_b).collect()
    }
}

impl AloneAnswer {
    fn new(
        tuning: Compared,
        strings: [StringNumber; 3],
        family: Family,
        why: String,
    ) -> AloneAnswer {
        AloneAnswer { tuning, strings: set_of(strings), steps: family.steps(), why }
    }
}

/// The string of `tuning` whose number is `up` higher.
fn numbered_higher(string: StringNumber, up: i8, tuning: &Tuning) -> Option<StringNumber> {
    let number = StringNumber::new(string.number().checked_add_signed(up)?)?;
    tuning.string(number).map(|_| number)
}

#[cfg(test)]
mod tests;
