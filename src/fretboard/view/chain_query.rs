//! Which chains are wanted.

use fretloom_theory::TriadPair;

use super::chain::Chain;
use super::chain_search::cheapest;
use crate::strings_going_up::strings_going_up;
use crate::{FretRange, Hand, Neck, Place, Region, Rung, Shape, ShapeQuery, StringSet};
use fretloom_theory::{Inversion, WhichTriad};

/// Do the string sets of a chain share strings?
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Overlap {
    /// One string further each time: 6-5-4, 5-4-3, 4-3-2.
    Shared,
    /// Three new strings each time: 6-5-4, 3-2-1.
    Apart,
}

/// A query for chains; by default over sets that share strings, in any inversions, over the whole
/// neck.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{ChainQuery, Hand, Neck, Tuning};
/// use fretloom_theory::{SpelledTriad, TriadPair};
/// // In fourths all over, a symmetric pair repeats one grip diagonally.
/// let neck = Neck::new(Tuning::read("EADGCF").unwrap());
/// let [first, second] =
///     ["E", "A#"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let pair = TriadPair::in_order(first, second).unwrap();
/// let chain = &ChainQuery::default().chains(&neck, pair, Hand::default())[0];
/// assert_eq!(chain.rungs().len(), 4);
/// let frets = chain.rungs().iter().map(|rung| rung.shape.frets()[0].number());
/// assert!(frets.is_sorted_by(|one, next| next - one == 1));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct ChainQuery {
    overlap: Overlap,
    inversions: [Option<Inversion>; 2],
    region: Region,
    through: Option<[Place; 3]>,
}

impl Default for ChainQuery {
    fn default() -> ChainQuery {
        ChainQuery {
            overlap: Overlap::Shared,
            inversions: [None; 2],
            region: Region::WHOLE_NECK,
            through: None,
        }
    }
}

impl ChainQuery {
    /// How many chains are listed at most.
    pub(crate) const LONGEST_LIST: usize = 8;

    /// Over sets that overlap or do not.
    #[must_use]
    pub const fn overlapping(mut self, overlap: Overlap) -> ChainQuery {
        self.overlap = overlap;
        self
    }

    /// With this triad in this inversion only.
    #[must_use]
    pub const fn inverted(mut self, which: WhichTriad, inversion: Inversion) -> ChainQuery {
        let [first, second] = self.inversions;
        self.inversions = match which {
            WhichTriad::First => [Some(inversion), second],
            WhichTriad::Second => [first, Some(inversion)],
        };
        self
    }

    /// With all frets in `frets`; open strings are fret 0.
    #[must_use]
    pub const fn within(mut self, frets: FretRange) -> ChainQuery {
        self.region = self.region.within(frets);
        self
    }

    /// Over the shape at these places only, where a chain comes to their strings; in the order of
    /// [`Shape::places`].
    #[must_use]
    pub const fn through(mut self, places: [Place; 3]) -> ChainQuery {
        self.through = Some(places);
        self
    }

    /// May a chain go over this shape?
    fn goes_over(&self, shape: &Shape) -> bool {
        self.through.is_none_or(|places| {
            shape.strings() != places.map(|place| place.string) || shape.places() == places
        })
    }

    /// The string sets that a chain goes over, towards string 1; strings in unison hold none.
    #[must_use]
    pub(crate) fn path(&self, neck: &Neck) -> Vec<StringSet> {
        let sets: Vec<StringSet> = StringSet::neighbours(neck.tuning().string_count(), 3).collect();
        let holds = |set: &StringSet| strings_going_up(neck, *set).is_some();
        let mut path: Vec<StringSet> = Vec::new();
        for set in sets.into_iter().rev().filter(holds) {
            let last = path.last().copied();
            if self.overlap == Overlap::Shared || last.is_none_or(|last| are_apart(last, set)) {
                path.push(set);
            }
        }
        path
    }

    /// The best chains for this hand, the cheapest first and at most eight of them: on every set of
    /// the path a shape that the hand can hold, the triads in turn, each shape higher than the one
    /// before.
    ///
    /// The cost is in millimetres. It is the sum of
    ///
    /// - how far the hand moves from position to position, each fret counted at the mean width of
    ///   the frets below the octave,
    /// - what each grip costs the fingers,
    /// - 12 mm for each fret by which a grip differs from the one before, string for string, with both
    ///   measured from their lowest frets; a string that is open in only one of them counts as four
    ///   frets more.
    ///
    /// The search is exact; of equals the lower chain comes first.
    #[must_use]
    pub fn chains(&self, neck: &Neck, pair: TriadPair, hand: Hand) -> Vec<Chain> {
        let stages: Vec<Vec<Rung>> =
            self.path(neck).into_iter().map(|set| self.rungs_on(neck, pair, hand, set)).collect();
        cheapest(neck, &stages, ChainQuery::LONGEST_LIST)
    }

    /// The shapes of both triads on a set that the hand can hold, by height.
    fn rungs_on(&self, neck: &Neck, pair: TriadPair, hand: Hand, set: StringSet) -> Vec<Rung> {
        let query = ShapeQuery::default().in_region(self.region).on(set).for_hand(hand);
        let sides = WhichTriad::BOTH.into_iter().zip(self.inversions);
        let rungs = sides.flat_map(|(which, inversion)| {
            let query = inversion.map_or(query, |inversion| query.inverted(inversion));
            let shapes = query.shapes(neck, which.triad_of(pair)).into_iter();
            let held = shapes.filter(|shape| shape.grip().is_some() && self.goes_over(shape));
            held.map(move |shape| Rung { which, shape })
        });
        let mut rungs: Vec<Rung> = rungs.collect();
        rungs.sort_by(|one, other| one.shape.cmp_height(&other.shape));
        rungs
    }
}

fn are_apart(one: StringSet, other: StringSet) -> bool {
    !one.iter().any(|string| other.contains(string))
}

#[cfg(test)]
mod tests;
