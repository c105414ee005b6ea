//! Ladders: the shapes of two triads along the neck, by height.

use fretloom_theory::Triad;

use crate::{HandPosition, Neck, Shape, ShapeQuery, StringSet};

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
/// [where it stands](Self::next_in_position).
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

/// The ladders are computed from open pitches, outside this code; common practice, no source.
#[cfg(test)]
mod tests {
    use super::*;
    use crate::Tuning;
    use fretloom_theory::SpelledTriad;

    fn neck(tuning: &str) -> Neck {
        Neck::new(Tuning::read(tuning).unwrap())
    }

    fn ladder(first: &str, second: &str, query: &ShapeQuery) -> Ladder {
        let triads = [first, second].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
        Ladder::new(&neck("EADGBE"), triads, query)
    }

    fn on(strings: &str) -> ShapeQuery {
        ShapeQuery::default().on(strings.parse().unwrap())
    }

    fn written(ladder: &Ladder, [first, second]: [&str; 2]) -> Vec<String> {
        let rungs = ladder.rungs().iter();
        let rungs = rungs.map(|rung| {
            let name = if rung.side == Side::First { first } else { second };
            let [one, two, three] = rung.shape.frets();
            format!("{name} {one}-{two}-{three}")
        });
        rungs.collect()
    }

    #[test]
    fn ladders_of_f_and_g() {
        for (strings, rungs) in [
            (
                "3-2-1",
                "F 2-1-1, G 4-3-3, F 5-6-5, G 7-8-7, F 10-10-8, G 12-12-10, F 14-13-13, G 16-15-15",
            ),
            (
                "4-3-2",
                "G 0-0-0, F 3-2-1, G 5-4-3, F 7-5-6, G 9-7-8, F 10-10-10, G 12-12-12, F 15-14-13",
            ),
            ("5-4-3", "G 2-0-0, F 3-3-2, G 5-5-4, F 8-7-5, G 10-9-7, F 12-10-10, G 14-12-12"),
            ("6-5-4", "G 3-2-0, F 5-3-3, G 7-5-5, F 8-8-7, G 10-10-9, F 13-12-10, G 15-14-12"),
        ] {
            let climbed = written(&ladder("F", "G", &on(strings)), ["F", "G"]);
            let expected: Vec<&str> = rungs.split(", ").collect();
            assert_eq!(climbed[..expected.len()], expected, "{strings}");
        }
    }

    #[test]
    fn the_altered_ladder() {
        let climbed = written(&ladder("Eb", "C#+", &on("3-2-1")), ["Eb", "C#+"]);
        let rungs = "Eb 3-4-3, C#+ 6-6-5, Eb 8-8-6, C#+ 10-10-9, Eb 12-11-11, C#+ 14-14-13";
        let expected: Vec<&str> = rungs.split(", ").collect();
        let start = climbed.iter().position(|rung| rung == expected[0]).unwrap();
        // The same grip of C#+ lies one step lower, before the six that the page shows.
        assert_eq!(climbed[start - 1], "C#+ 2-2-1");
        assert_eq!(climbed[start..start + expected.len()], expected);
    }

    /// F and G interleave, so six moves of a rung are an octave.
    #[test]
    fn six_rungs_of_an_interleaving_pair_are_an_octave() {
        let ladder = ladder("F", "G", &on("4-3-2"));
        let rungs = ladder.rungs();
        assert!(rungs.len() > 6);
        for (low, high) in rungs.iter().zip(&rungs[6..]) {
            let octave = low.shape.going_up().map(|pitch| pitch.up(12).unwrap());
            assert_eq!(high.shape.going_up(), octave);
            assert_eq!(high.side, low.side);
        }
    }

    #[test]
    fn next_has_four_meanings() {
        let all = ladder("F", "G", &ShapeQuery::default());
        for (index, here) in all.rungs().iter().enumerate() {
            for way in [Way::Up, Way::Down] {
                let rung = |next: Option<usize>| next.map(|next| &all.rungs()[next]);
                if let Some(there) = rung(all.next_on_set(index, way)) {
                    assert_eq!(there.shape.string_set(), here.shape.string_set());
                }
                if let Some(there) = rung(all.next_of_same(index, way)) {
                    assert_eq!(there.side, here.side);
                }
                if let Some(there) = rung(all.next_in_position(index, way)) {
                    assert!(is_under(here.shape.position(), &there.shape));
                }
                let next = all.next(index, way);
                let back = next.and_then(|next| match way {
                    Way::Up => all.next(next, Way::Down),
                    Way::Down => all.next(next, Way::Up),
                });
                assert!(next.is_none() || back == Some(index));
            }
            let other = all.nearest_of_other(index).unwrap();
            assert_ne!(all.rungs()[other].side, here.side);
        }
    }

    /// G 7-8-7 and A 9-10-9 are one grip two frets apart.
    #[test]
    fn the_nearest_shape_of_the_other_triad() {
        let ladder = ladder("G", "A", &on("3-2-1"));
        let climbed = written(&ladder, ["G", "A"]);
        let g = climbed.iter().position(|rung| rung == "G 7-8-7").unwrap();
        let nearest = ladder.nearest_of_other(g).unwrap();
        assert_eq!(climbed[nearest], "A 9-10-9");
        assert_eq!(ladder.next_in_position(g, Way::Up), Some(nearest));
    }

    #[test]
    fn an_empty_ladder_leads_nowhere() {
        let empty = ladder("F", "G", &on("7-6-5"));
        assert!(empty.rungs().is_empty());
        for index in [0, 1, usize::MAX] {
            for way in [Way::Up, Way::Down] {
                assert_eq!(empty.next(index, way), None);
                assert_eq!(empty.next_on_set(index, way), None);
                assert_eq!(empty.next_of_same(index, way), None);
                assert_eq!(empty.next_in_position(index, way), None);
            }
            assert_eq!(empty.nearest_of_other(index), None);
        }
    }
}
