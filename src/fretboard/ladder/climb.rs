//! Climbing without a dead end: where a string set ends, the next one goes on.

use fretloom_theory::Direction;

use super::step::Step;
use super::{Ladder, Rung};
use crate::StringSet;

impl Ladder {
    /// The next rung for a player who climbs: along the string set as long as it goes on, and then
    /// on the next set.
    ///
    /// Going up, the sets follow one another by their highest shapes, going down by their lowest.
    /// Where the strings rise in order, the next set going up is the next one towards string 1;
    /// elsewhere what sounds decides. The step leads to the next shape of the new set by height.
    /// Climbing on from any rung leads to the highest shape of all, going down to the lowest.
    ///
    /// ```
    /// use fretloom_fretboard::{Ladder, Neck, ShapeQuery, Tuning};
    /// use fretloom_theory::{Direction, SpelledTriad, TriadPair};
    /// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
    /// let [f, g] = ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    /// let pair = TriadPair::in_order(f, g).unwrap();
    /// let query = ShapeQuery::default().within("0-12".parse().unwrap());
    /// let ladder = Ladder::new(&neck, pair, &query);
    /// let mut rung = 0;
    /// let mut sets = Vec::new();
    /// while let Some(step) = ladder.climb(rung, Direction::Up) {
    ///     sets.extend(step.changed_to.map(|set| set.to_string()));
    ///     rung = step.rung;
    /// }
    /// assert_eq!(sets, ["5-4-3", "4-3-2", "3-2-1"]);
    /// assert_eq!(rung, ladder.rungs().len() - 1);
    /// ```
    #[must_use]
    pub fn climb(&self, from: usize, direction: Direction) -> Option<Step> {
        if let Some(rung) = self.next_on_set(from, direction) {
            return Some(Step { rung, changed_to: None });
        }
        let set = self.set_after(from, direction)?;
        let rung = self.next_where(from, direction, |_, there| set_of(there) == set)?;
        Some(Step { rung, changed_to: Some(set) })
    }

    /// The set after the one whose last rung is `end`: going that way, the first rung after `end`
    /// that is the last of its set has its strings.
    fn set_after(&self, end: usize, direction: Direction) -> Option<StringSet> {
        self.rungs.get(end)?;
        let is_last = |index: &usize| self.next_on_set(*index, direction).is_none();
        let beyond = match direction {
            Direction::Up => (end + 1..self.rungs.len()).find(is_last),
            Direction::Down => (0..end).rev().find(is_last),
        };
        self.rungs.get(beyond?).map(set_of)
    }
}

fn set_of(rung: &Rung) -> StringSet {
    rung.shape.string_set()
}
