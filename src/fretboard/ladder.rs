//! Ladders: the shapes of a pair of triads along the neck, by height.

mod climb;
mod nearness;
mod step;

use fretloom_theory::{Direction, TriadPair, WhichTriad};

use crate::{Neck, Shape, ShapeQuery, StringSet};

pub use nearness::Nearness;
pub use step::Step;

/// One shape of a ladder, with the triad it belongs to.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Rung {
    /// Whose shape it is.
    pub which: WhichTriad,
    /// The shape.
    pub shape: Shape,
}

/// The shapes of a pair of triads, ordered by height: by the sum of their pitches, then by the lowest
/// and the middle one, then by string numbers from the floor up, then the first triad before the
/// second.
///
/// Rungs are known by their index. A ladder may be empty, as the default one is, and an index that
/// is on no rung leads nowhere: each of these methods gives an `Option`.
///
/// “Next” has several meanings for a player, and each is a method: the next rung
/// [by height](Self::next), the next one [of a triad](Self::next_of), the
/// [nearest](Self::nearest) of those that are wanted. [Climbing](Self::climb) goes along a string
/// set and on to the next one where it ends, so that it has no dead end.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Ladder, Neck, ShapeQuery, Tuning};
/// use fretloom_theory::{Direction, SpelledTriad, TriadPair, WhichTriad};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let [f, g] = ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let pair = TriadPair::in_order(f, g).unwrap();
/// let ladder = Ladder::new(&neck, pair, &ShapeQuery::default().on("3-2-1".parse().unwrap()));
/// let frets = |rung: usize| ladder.rungs()[rung].shape.frets().map(|fret| fret.number());
/// assert_eq!((frets(0), frets(1)), ([2, 1, 1], [4, 3, 3]));
/// assert_eq!(ladder.next_of(0, WhichTriad::First, Direction::Up), Some(2));
/// assert_eq!(ladder.next_of(0, WhichTriad::First, Direction::Down), None);
/// ```
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Ladder {
    rungs: Vec<Rung>,
}

impl Ladder {
    /// The ladder of a pair over the shapes that `query` wants. With one string set in the
    /// query it is the ladder that players climb; with several it goes on across the neck.
    #[must_use]
    pub fn new(neck: &Neck, pair: TriadPair, query: &ShapeQuery) -> Ladder {
        let of = |which: WhichTriad| {
            let shapes = query.shapes(neck, which.triad_of(pair)).into_iter();
            shapes.map(move |shape| Rung { which, shape })
        };
        let mut rungs: Vec<Rung> = WhichTriad::BOTH.into_iter().flat_map(of).collect();
        // The sort is stable, so that the first triad stays before the second.
        rungs.sort_by(|one, other| one.shape.cmp_height(&other.shape));
        Ladder { rungs }
    }

    /// Those of its rungs that lie on some strings.
    #[must_use]
    pub fn on(&self, set: StringSet) -> Ladder {
        self.only(|rung| rung.shape.string_set() == set)
    }

    /// Those of its rungs that are wanted.
    #[must_use]
    pub fn only(&self, wanted: impl Fn(&Rung) -> bool) -> Ladder {
        let rungs = self.rungs.iter().filter(|rung| wanted(rung));
        Ladder { rungs: rungs.copied().collect() }
    }

    /// The rungs, lowest first.
    #[must_use]
    pub fn rungs(&self) -> &[Rung] {
        &self.rungs
    }

    /// The rung that lies where a shape does.
    #[must_use]
    pub fn find(&self, shape: &Shape) -> Option<usize> {
        self.rungs.iter().position(|rung| rung.shape.places() == shape.places())
    }

    /// Where going that way begins: the lowest rung going up, the highest going down.
    #[must_use]
    pub fn beginning(&self, direction: Direction) -> Option<usize> {
        let last = self.rungs.len().checked_sub(1);
        match direction {
            Direction::Up => last.and(Some(0)),
            Direction::Down => last,
        }
    }

    /// The next rung, whatever its triad and strings.
    #[must_use]
    pub fn next(&self, from: usize, direction: Direction) -> Option<usize> {
        self.next_where(from, direction, |_, _| true)
    }

    /// The next rung of a triad, which may be the same or the other one.
    #[must_use]
    pub fn next_of(&self, from: usize, which: WhichTriad, direction: Direction) -> Option<usize> {
        self.next_where(from, direction, |_, there| there.which == which)
    }

    /// The next rung on the same strings.
    fn next_on_set(&self, from: usize, direction: Direction) -> Option<usize> {
        let set = |rung: &Rung| -> StringSet { rung.shape.string_set() };
        self.next_where(from, direction, |here, there| set(here) == set(there))
    }

    /// The rung nearest to a shape, which need not be on this ladder, among those that are wanted;
    /// of equally near ones the lowest.
    ///
    /// ```
    /// use fretloom_fretboard::{Ladder, Nearness, Neck, ShapeQuery, Tuning};
    /// use fretloom_theory::{SpelledTriad, TriadPair, WhichTriad};
    /// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
    /// let [first, second] =
    ///     ["E", "F"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    /// let pair = TriadPair::in_order(first, second).unwrap();
    /// let ladder = Ladder::new(&neck, pair, &ShapeQuery::default().on("3-2-1".parse().unwrap()));
    /// let e = ladder.rungs()[2].shape; // E 4-5-4
    /// let of_f = ladder.nearest(&e, Nearness::Voices, |rung| rung.which == WhichTriad::Second);
    /// let f = ladder.rungs()[of_f.unwrap()].shape;
    /// assert_eq!(f.frets().map(|fret| fret.number()), [5, 6, 5]);
    /// ```
    #[must_use]
    pub fn nearest(
        &self,
        to: &Shape,
        by: Nearness,
        wanted: impl Fn(&Rung) -> bool,
    ) -> Option<usize> {
        let height = self.rungs.partition_point(|rung| rung.shape.cmp_height(to).is_lt());
        let rungs = self.rungs.iter().enumerate().filter(|(_, rung)| wanted(rung));
        let distance =
            |(index, rung): &(usize, &Rung)| by.distance(to, &rung.shape, height.abs_diff(*index));
        rungs.min_by_key(distance).map(|(index, _)| index)
    }

    fn next_where(
        &self,
        from: usize,
        direction: Direction,
        wanted: impl Fn(&Rung, &Rung) -> bool,
    ) -> Option<usize> {
        let here = self.rungs.get(from)?;
        let wanted = |index: &usize| self.rungs.get(*index).is_some_and(|r| wanted(here, r));
        match direction {
            Direction::Up => (from + 1..self.rungs.len()).find(wanted),
            Direction::Down => (0..from).rev().find(wanted),
        }
    }
}

#[cfg(test)]
mod tests;
