//! Ladders: the shapes of two triads along the neck, by height.

mod climb;

use fretloom_theory::Triad;

use crate::{HandPosition, Neck, Shape, ShapeQuery, StringSet};

pub use climb::Step;

/// Which of the two triads of a ladder.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Side {
    /// The triad named first.
    First,
    /// The triad named second.
    Second,
}

/// Which way to go on a ladder.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Way {
    /// To higher notes.
    Up,
    /// To lower notes.
    Down,
}

/// One shape of a ladder, with the triad it belongs to.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Rung {
    /// Whose shape it is.
    pub side: Side,
    /// The shape.
    pub shape: Shape,
}

/// The shapes of two triads, ordered by height: by the sum of their pitches, then by the lowest
/// and the middle one, then by string numbers from the floor up, then the first triad before the
/// second.
///
/// Rungs are known by their index. A ladder may be empty, and an index that is on no rung leads
/// nowhere: every way on is an `Option`.
///
/// “Next” has four meanings for a player, and each is a method: along the
/// [string set](Self::next_on_set), the [same triad](Self::next_of_same), the
/// [nearest of the other](Self::nearest_of_other), under the hand
/// [where it stands](Self::next_in_position). [Climbing](Self::climb) goes along a string set and
/// on to the next one where it ends, so that it has no dead end.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Ladder, Neck, ShapeQuery, Tuning, Way};
/// use fretloom_theory::SpelledTriad;
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let [f, g] = ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let ladder = Ladder::new(&neck, [f, g], &ShapeQuery::default().on("3-2-1".parse().unwrap()));
/// let frets = |rung: usize| ladder.rungs()[rung].shape.frets().map(|fret| fret.number());
/// assert_eq!((frets(0), frets(1)), ([2, 1, 1], [4, 3, 3]));
/// assert_eq!(ladder.next_of_same(0, Way::Up), Some(2));
/// assert_eq!(ladder.next_of_same(0, Way::Down), None);
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Ladder {
    rungs: Vec<Rung>,
}

impl Ladder {
    /// The ladder of two triads over the shapes that `query` wants. With one string set in the
    /// query it is the ladder that players climb; with several it goes on across the neck.
    #[must_use]
    pub fn new(neck: &Neck, [first, second]: [Triad; 2], query: &ShapeQuery) -> Ladder {
        let of = |side, triad| {
            let shapes = query.shapes(neck, triad).into_iter();
            shapes.map(move |shape| Rung { side, shape })
        };
        let mut rungs: Vec<Rung> = of(Side::First, first).collect();
        rungs.extend(of(Side::Second, second));
        // The sort is stable, so that the first triad stays before the second.
        rungs.sort_by(|one, other| one.shape.cmp_height(&other.shape));
        Ladder { rungs }
    }

    /// Those of its rungs that lie on some strings.
    #[must_use]
    pub fn on(&self, set: StringSet) -> Ladder {
        let rungs = self.rungs.iter().filter(|rung| rung.shape.string_set() == set);
        Ladder { rungs: rungs.copied().collect() }
    }

    /// The rungs, lowest first.
    #[must_use]
    pub fn rungs(&self) -> &[Rung] {
        &self.rungs
    }

    /// The next rung, whatever its triad and strings.
    #[must_use]
    pub fn next(&self, from: usize, way: Way) -> Option<usize> {
        self.next_where(from, way, |_, _| true)
    }

    /// The next rung on the same strings.
    #[must_use]
    pub fn next_on_set(&self, from: usize, way: Way) -> Option<usize> {
        let set = |rung: &Rung| -> StringSet { rung.shape.string_set() };
        self.next_where(from, way, |here, there| set(here) == set(there))
    }

    /// The next rung of the same triad.
    #[must_use]
    pub fn next_of_same(&self, from: usize, way: Way) -> Option<usize> {
        self.next_where(from, way, |here, there| here.side == there.side)
    }

    /// The next rung that lies under the hand where it stands: open strings apart, from one fret
    /// below its position (the first finger reaching back) to four above (the fourth reaching up).
    #[must_use]
    pub fn next_in_position(&self, from: usize, way: Way) -> Option<usize> {
        self.next_where(from, way, |here, there| is_under(here.shape.position(), &there.shape))
    }

    /// The rung of the other triad whose voices are fewest semitones away in all; of equals one on
    /// the same strings, then the higher one.
    #[must_use]
    pub fn nearest_of_other(&self, from: usize) -> Option<usize> {
        let here = self.rungs.get(from)?;
        let others = self.rungs.iter().enumerate();
        let others = others.filter(|(_, there)| there.side != here.side);
        let nearest = others.min_by_key(|(index, there)| {
            let changes_strings = there.shape.string_set() != here.shape.string_set();
            let lies_below = *index < from;
            let moved = voices_moved(&here.shape, &there.shape);
            (moved, changes_strings, lies_below)
        });
        nearest.map(|(index, _)| index)
    }

    fn next_where(
        &self,
        from: usize,
        way: Way,
        wanted: impl Fn(&Rung, &Rung) -> bool,
    ) -> Option<usize> {
        let here = self.rungs.get(from)?;
        let wanted = |index: &usize| self.rungs.get(*index).is_some_and(|r| wanted(here, r));
        match way {
            Way::Up => (from + 1..self.rungs.len()).find(wanted),
            Way::Down => (0..from).rev().find(wanted),
        }
    }
}

/// Semitones that the three voices move in all, lowest to lowest and so on.
fn voices_moved(one: &Shape, other: &Shape) -> u32 {
    let voices = one.going_up().into_iter().zip(other.going_up());
    voices.map(|(here, there)| here.semitones_up_to(there).unsigned_abs()).sum()
}

fn is_under(position: HandPosition, shape: &Shape) -> bool {
    let frets = position.number() - 1..=position.number() + 4;
    shape.fretted().all(|fret| frets.contains(&fret.number()))
}

#[cfg(test)]
mod tests;
