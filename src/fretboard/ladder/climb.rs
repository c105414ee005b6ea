//! Climbing without a dead end: where a string set ends, the next one goes on.

use super::step::Step;
use super::{Direction, Ladder, Rung};
use crate::StringSet;

impl Ladder {
    /// The next rung for a player who climbs: along the string set as long as it goes on, and then
    /// on the next set.
    ///
    /// Sets follow one another by their last rung that way: going up, the next set is the one
    /// whose highest shape is the first to lie above the highest of this one. That is the next set
    /// towards string 1 wherever strings rise in order, and by what sounds where they do not. On
    /// the new set the nearest rung by height comes next, which lies lower on the neck. Climbing
    /// on from any rung leads to the highest shape of all, going down to the lowest.
    ///
    /// ```
    /// use fretloom_fretboard::{Ladder, Neck, ShapeQuery, Tuning, Direction};
    /// use fretloom_theory::{SpelledTriad, TriadPair};
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

    /// The set that ends next beyond the end of a set, which is at `end`: going that way, the first
    /// rung that is the last of its set.
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
