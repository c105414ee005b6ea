//! The ladder of a pair.

use fretloom_fretboard::{Ladder, Neck, Rung, ShapeQuery, StringSet};
use fretloom_theory::Direction;
use fretloom_theory::WhichTriad;

use super::pairs::NamedPair;
use super::refusal::Refusal;
use super::shapes::{NamedShape, on_strings};
use super::tunings::TuningAnswer;

/// The answer of `ladder TRIAD TRIAD`.
#[derive(Clone, PartialEq, Debug)]
pub struct LadderAnswer {
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The pair.
    pub pair: NamedPair,
    /// The strings that it climbs.
    pub strings: ClimbedStrings,
    /// The shapes of both triads in the order of climbing, lowest first.
    pub rungs: Vec<NamedShape>,
    /// How many more shapes the end of the neck cuts off.
    pub cut_off: usize,
}

/// The strings that a ladder climbs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ClimbedStrings {
    /// One set.
    One(StringSet),
    /// One set after another; none where no shape fits.
    Across(Vec<StringSet>),
}

impl LadderAnswer {
    /// How do these two triads climb this string set?
    ///
    /// # Errors
    ///
    /// Where the set is not three strings of the neck.
    pub fn new(
        neck: &Neck,
        tuning: TuningAnswer,
        pair: NamedPair,
        strings: StringSet,
        query: &ShapeQuery,
    ) -> Result<LadderAnswer, Refusal> {
        let query = on_strings(neck, Some(strings), *query)?;
        let ladder = Ladder::new(neck, pair.pair(), &query);
        Ok(LadderAnswer {
            tuning,
            pair,
            strings: ClimbedStrings::One(strings),
            rungs: named(neck, pair, ladder.rungs()),
            cut_off: cut_off(neck, pair, &query),
        })
    }

    /// How do these two triads climb the whole neck, from one set of neighbouring strings on to
    /// the next? It begins on the lowest shape of `from`, and without it on the lowest of all.
    ///
    /// # Errors
    ///
    /// Where `from` is not three strings side by side.
    pub fn across_sets(
        neck: &Neck,
        tuning: TuningAnswer,
        pair: NamedPair,
        from: Option<StringSet>,
        query: &ShapeQuery,
    ) -> Result<LadderAnswer, Refusal> {
        on_strings(neck, from, *query)?;
        from.map_or(Ok(()), Refusal::unless_side_by_side)?;
        let rungs = climbed(&Ladder::new(neck, pair.pair(), query), from);
        let mut sets: Vec<StringSet> = rungs.iter().map(|rung| rung.shape.string_set()).collect();
        sets.dedup();
        Ok(LadderAnswer {
            tuning,
            pair,
            strings: ClimbedStrings::Across(sets),
            rungs: named(neck, pair, &rungs),
            cut_off: cut_off(neck, pair, query),
        })
    }
}

impl NamedShape {
    /// The shape of one of two triads under the name of that triad.
    #[must_use]
    pub fn of_rung(neck: &Neck, pair: NamedPair, rung: &Rung) -> NamedShape {
        let [first, second] = pair.names();
        let triad = match rung.which {
            WhichTriad::First => first,
            WhichTriad::Second => second,
        };
        NamedShape::new(neck, triad, &rung.shape)
    }
}

fn named(neck: &Neck, pair: NamedPair, rungs: &[Rung]) -> Vec<NamedShape> {
    rungs.iter().map(|rung| NamedShape::of_rung(neck, pair, rung)).collect()
}

/// The rungs of a climb, from the lowest one on `from` or of all to where it ends.
fn climbed(ladder: &Ladder, from: Option<StringSet>) -> Vec<Rung> {
    let begins = |rung: &Rung| from.is_none_or(|set| rung.shape.string_set() == set);
    let first = ladder.rungs().iter().position(begins);
    let next = |rung: &usize| ladder.climb(*rung, Direction::Up).map(|step| step.rung);
    let path = std::iter::successors(first, next);
    path.filter_map(|rung| ladder.rungs().get(rung).copied()).collect()
}

/// How many wanted shapes of either triad the end of the neck cuts off.
fn cut_off(neck: &Neck, pair: NamedPair, query: &ShapeQuery) -> usize {
    pair.pair().triads().map(|triad| query.cut_off(neck, triad)).into_iter().sum()
}
