//! The six notes of a pair, two on a string.

use fretloom_theory::{Pitch, TriadPair};

use super::place::ViewPlace;
use crate::passage::Passage;
use crate::runs::runs;
use crate::{FretRange, Hand, HandPosition, Neck, Place, Region, StringSet};
use fretloom_theory::WhichTriad;

/// A query for the six notes of a pair, going up, two on each of three neighbouring strings; by
/// default on every three, from every note, over the whole neck.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Hand, Neck, Tuning, TwoAStringQuery};
/// use fretloom_theory::{SpelledTriad, TriadPair};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let [first, second] =
///     ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let pair = TriadPair::in_order(first, second).unwrap();
/// let query = TwoAStringQuery::default().on("4-3-2".parse().unwrap());
/// let run = &query.within("3-9".parse().unwrap()).runs(&neck, pair, Hand::default())[0];
/// let frets = run.places().iter().map(|place| place.place.fret.number()).collect::<Vec<_>>();
/// assert_eq!(frets, [5, 7, 4, 5, 3, 6]); // G A B C D F
/// ```
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct TwoAStringQuery {
    region: Region,
    near: Option<HandPosition>,
}

impl TwoAStringQuery {
    /// On these three neighbouring strings only; other sets hold none.
    #[must_use]
    pub const fn on(mut self, set: StringSet) -> TwoAStringQuery {
        self.region = self.region.on(set);
        self
    }

    /// With all frets in `frets`; open strings are fret 0.
    #[must_use]
    pub const fn within(mut self, frets: FretRange) -> TwoAStringQuery {
        self.region = self.region.within(frets);
        self
    }

    /// Nearest to this position first.
    #[must_use]
    pub const fn near(mut self, position: HandPosition) -> TwoAStringQuery {
        self.near = Some(position);
        self
    }

    /// The strings that it is limited to, if it is.
    #[must_use]
    pub const fn set(&self) -> Option<StringSet> {
        self.region.strings()
    }

    /// The wanted runs, for this hand: string set by string set from the floor up, on each from
    /// the lowest start; near a position the nearest first.
    #[must_use]
    pub fn runs(&self, neck: &Neck, pair: TriadPair, hand: Hand) -> Vec<TwoAString> {
        let sets = StringSet::neighbours(neck.tuning().string_count(), 3);
        let sets = sets.filter(|set| self.set().is_none_or(|wanted| wanted == *set));
        let runs = sets.flat_map(|set| runs(neck, set, pair.set(), 2));
        let is_within = |(place, _): &(Place, Pitch)| self.region.contains(neck, *place);
        let within = runs.filter(|notes: &Vec<(Place, Pitch)>| notes.iter().all(is_within));
        let mut runs: Vec<TwoAString> =
            within.map(|notes| TwoAString::of(neck, pair, hand, &notes)).collect();
        if let Some(near) = self.near {
            runs.sort_by_key(|run| run.frets_from(near));
        }
        runs
    }
}

/// The six notes of a pair, going up, two on each of three strings.
#[derive(Clone, PartialEq, Debug)]
pub struct TwoAString {
    notes: Vec<(Place, Pitch, WhichTriad)>,
    passage: Passage,
}

impl TwoAString {
    fn of(neck: &Neck, pair: TriadPair, hand: Hand, notes: &[(Place, Pitch)]) -> TwoAString {
        let which =
            |pitch: Pitch| WhichTriad::with(pair, pitch.pitch_class()).unwrap_or(WhichTriad::First);
        TwoAString {
            notes: notes.iter().map(|(place, pitch)| (*place, *pitch, which(*pitch))).collect(),
            passage: Passage::new(neck, hand, notes),
        }
    }

    /// Where the hand stands one after another; empty where the two notes of a string are beyond
    /// the hand.
    #[must_use]
    pub fn positions(&self) -> Vec<HandPosition> {
        self.passage.positions()
    }

    /// Where the hand stands first; without fingers, the lowest fretted fret.
    #[must_use]
    pub(crate) fn position(&self) -> HandPosition {
        self.passage.position()
    }

    /// How many frets the hand is away from a position, at most.
    fn frets_from(&self, position: HandPosition) -> u8 {
        let away = |there: HandPosition| there.number().abs_diff(position.number());
        let farthest = self.positions().into_iter().map(away).max();
        farthest.unwrap_or_else(|| away(self.position()))
    }

    /// Its places with fingers, numbered in the order of playing.
    #[must_use]
    pub fn places(&self) -> Vec<ViewPlace> {
        let fingers = self.passage.fingers().unwrap_or_default();
        let number = |(index, note): (usize, &(Place, Pitch, WhichTriad))| ViewPlace {
            finger: fingers.get(index).copied(),
            order: index + 1,
            ..ViewPlace::plain(*note)
        };
        self.notes.iter().enumerate().map(number).collect()
    }
}
