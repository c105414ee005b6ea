//! Chains: close shapes of both triads in turn, across the strings.

mod search;

use fretloom_theory::Triad;

use super::place::ViewPlace;
use super::set::stopped_at;
use crate::{FretRange, Hand, Inversion, Neck, Rung, Shape, ShapeQuery, Side, StringSet};

/// Do the string sets of a chain share strings?
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Overlap {
    /// One string further each time: 6-5-4, 5-4-3, 4-3-2.
    Shared,
    /// Three new strings each time: 6-5-4, 3-2-1.
    Apart,
}

/// A wish for chains; by default over sets that share strings, in any inversions, over the whole
/// neck.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{ChainQuery, Hand, Neck, Tuning};
/// use fretloom_theory::SpelledTriad;
/// // In fourths all over, a symmetric pair repeats one grip diagonally.
/// let neck = Neck::new(Tuning::read("EADGCF").unwrap());
/// let pair = ["E", "A#"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let chain = &ChainQuery::default().chains(&neck, pair, Hand::default())[0];
/// assert_eq!(chain.rungs().len(), 4);
/// assert!(chain.repeats_one_grip(&neck));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct ChainQuery {
    overlap: Overlap,
    inversions: [Option<Inversion>; 2],
    frets: FretRange,
}

impl Default for ChainQuery {
    fn default() -> ChainQuery {
        ChainQuery { overlap: Overlap::Shared, inversions: [None; 2], frets: FretRange::WHOLE_NECK }
    }
}

/// What it costs that a grip differs from the one before, for each string and fret by which it
/// does. Weighed against the way of the hand: less than half a fret of a guitar. Our guess, no source.
const UNLIKE_MM: f64 = 12.0;

/// As many frets of difference is it worth that a string is open in one grip and fretted in the
/// other: more than the way that the open string saves. Our guess, no source.
const OPENED_FRETS: u32 = 4;

impl ChainQuery {
    /// How many chains are listed at most.
    pub const LONGEST_LIST: usize = 8;

    /// Over sets that overlap or do not.
    #[must_use]
    pub const fn overlapping(mut self, overlap: Overlap) -> ChainQuery {
        self.overlap = overlap;
        self
    }

    /// With this triad in this inversion only.
    #[must_use]
    pub const fn inverted(mut self, side: Side, inversion: Inversion) -> ChainQuery {
        let [first, second] = self.inversions;
        self.inversions = match side {
            Side::First => [Some(inversion), second],
            Side::Second => [first, Some(inversion)],
        };
        self
    }

    /// With all frets in `frets`; open strings are fret 0.
    #[must_use]
    pub const fn within(mut self, frets: FretRange) -> ChainQuery {
        self.frets = frets;
        self
    }

    /// The string sets that a chain goes over, towards string 1; strings in unison hold none.
    #[must_use]
    pub fn path(&self, neck: &Neck) -> Vec<StringSet> {
        let sets: Vec<StringSet> = StringSet::neighbours(neck.tuning().string_count(), 3).collect();
        let holds = |set: &StringSet| crate::laid::rising(neck, *set).is_some();
        let mut path: Vec<StringSet> = Vec::new();
        for set in sets.into_iter().rev().filter(holds) {
            let last = path.last().copied();
            if self.overlap == Overlap::Shared || last.is_none_or(|last| are_apart(last, set)) {
                path.push(set);
            }
        }
        path
    }

    /// The best chains for this hand, the cheapest first and at most
    /// [`LONGEST_LIST`](Self::LONGEST_LIST) of them: on every set of the path a shape that the
    /// hand can hold, the triads in turn, each shape higher than the one before.
    ///
    /// The cost is in millimetres: the way of the hand from position to position, in frets of their
    /// mean width below the octave; what each grip costs the fingers; and 12 mm for each string and
    /// fret by which a grip differs from the one before, where a string that is open in one of the
    /// two counts as four frets. The search is exact; of equals the lower chain comes first.
    #[must_use]
    pub fn chains(&self, neck: &Neck, pair: [Triad; 2], hand: Hand) -> Vec<Chain> {
        let stages: Vec<Vec<Rung>> =
            self.path(neck).into_iter().map(|set| self.rungs_on(neck, pair, hand, set)).collect();
        search::cheapest(neck, &stages, ChainQuery::LONGEST_LIST)
    }

    /// The shapes of both triads on a set that the hand can hold, by height.
    fn rungs_on(&self, neck: &Neck, pair: [Triad; 2], hand: Hand, set: StringSet) -> Vec<Rung> {
        let query = ShapeQuery::default().on(set).within(self.frets).for_hand(hand);
        let sides = [Side::First, Side::Second].into_iter().zip(pair).zip(self.inversions);
        let rungs = sides.flat_map(|((side, triad), inversion)| {
            let query = inversion.map_or(query, |inversion| query.inverted(inversion));
            let held = query.shapes(neck, triad).into_iter().filter(|s| s.grip().is_some());
            held.map(move |shape| Rung { side, shape })
        });
        let mut rungs: Vec<Rung> = rungs.collect();
        rungs.sort_by(|one, other| one.shape.cmp_height(&other.shape));
        rungs
    }
}

fn are_apart(one: StringSet, other: StringSet) -> bool {
    !one.iter().any(|string| other.contains(string))
}

/// Close shapes of both triads in turn, each on other strings than the one before and higher.
#[derive(Clone, PartialEq, Debug)]
pub struct Chain {
    rungs: Vec<Rung>,
    cost_mm: f64,
}

impl Chain {
    /// Its shapes in the order of playing.
    #[must_use]
    pub fn rungs(&self) -> &[Rung] {
        &self.rungs
    }

    /// What it costs, as [`ChainQuery::chains`] counts it.
    #[must_use]
    pub const fn cost_mm(&self) -> f64 {
        self.cost_mm
    }

    /// Is every grip the same one, moved over strings and along the neck?
    #[must_use]
    pub fn repeats_one_grip(&self, neck: &Neck) -> bool {
        let mut moves = self.rungs.windows(2).map(|two| match two {
            [one, next] => unlike(neck, &one.shape, &next.shape),
            _ => 0,
        });
        moves.all(|frets| frets == 0)
    }

    /// Its places with fingers, numbered by shapes; a place of two shapes belongs to the first.
    #[must_use]
    pub fn places(&self) -> Vec<ViewPlace> {
        let mut places: Vec<ViewPlace> = Vec::new();
        for (index, rung) in self.rungs.iter().enumerate() {
            let notes = rung.shape.places().into_iter().zip(rung.shape.pitches());
            for (number, (place, pitch)) in notes.enumerate() {
                let finger = rung.shape.fingers().and_then(|f| f.get(number).copied());
                let plain = ViewPlace::plain((place, pitch, rung.side));
                if !places.iter().any(|seen| seen.place == place) {
                    places.push(ViewPlace { finger, order: index + 1, ..plain });
                }
            }
        }
        places
    }
}

/// What a shape costs by itself.
fn held_mm(shape: &Shape) -> f64 {
    shape.grip().map_or(0.0, |grip| grip.cost_mm())
}

/// What it costs to go from one shape to the next. A fret of the way counts the same everywhere,
/// or every chain would be the cheapest where frets are narrowest, at the end of the neck.
fn step_mm(neck: &Neck, one: &Shape, next: &Shape) -> f64 {
    let frets = one.position().number().abs_diff(next.position().number());
    let way = f64::from(frets) * mean_fret_mm(neck);
    way + f64::from(unlike(neck, one, next)) * UNLIKE_MM
}

/// The mean width of a fret below the octave, a twelfth of half the string.
fn mean_fret_mm(neck: &Neck) -> f64 {
    neck.tuning().scale_mm() / 24.0
}

/// By how many frets two grips differ in all, string for string, wherever each of them lies. An
/// open string that is fretted in the other grip changes the whole fingering.
fn unlike(neck: &Neck, one: &Shape, next: &Shape) -> u32 {
    let frets = relative(neck, one).into_iter().zip(relative(neck, next));
    let moved: u32 = frets.map(|(one, next)| u32::from(one.abs_diff(next))).sum();
    let open = one.frets().into_iter().zip(next.frets());
    let opened = open.filter(|(one, next)| one.is_open() != next.is_open()).count();
    moved + opened as u32 * OPENED_FRETS
}

/// The frets of a grip above its lowest one; an open string is stopped where it begins.
fn relative(neck: &Neck, shape: &Shape) -> [u8; 3] {
    let frets = shape.places().map(|place| stopped_at(neck, place).number());
    let lowest = frets.into_iter().min().unwrap_or_default();
    frets.map(|fret| fret - lowest)
}

#[cfg(test)]
mod tests;
