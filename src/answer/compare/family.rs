//! Families of string sets that have the same grips.

use fretloom_fretboard::{StringNumber, StringSet, Tuning};

/// What decides the shapes on three strings.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Family {
    /// Semitones from each open string to the next one nearer the floor.
    steps: [i32; 2],
    /// The frets where the strings begin.
    starts: [u8; 3],
}

impl Family {
    /// The family of three strings, from the highest number to the lowest.
    pub(super) fn of(tuning: &Tuning, strings: [StringNumber; 3]) -> Option<Family> {
        let [one, two, three] = strings.map(|string| tuning.string(string));
        let (one, two, three) = (one?, two?, three?);
        let steps = [(one, two), (two, three)];
        Some(Family {
            steps: steps.map(|(from, to)| from.pitch().semitones_up_to(to.pitch())),
            starts: [one, two, three].map(|open| open.starts_at().number()),
        })
    }

    pub(super) const fn steps(self) -> [i32; 2] {
        self.steps
    }

    /// Do the strings begin where those of the other begin?
    pub(super) fn starts_like(self, other: Family) -> bool {
        self.starts == other.starts
    }

    /// Two strings of one pitch hold no close triad together.
    pub(super) fn holds_triads(self) -> bool {
        let [first, second] = self.steps;
        first != 0 && second != 0 && first + second != 0
    }

    /// The sets of neighbouring strings of `tuning` that belong to it.
    pub(super) fn sets_on(self, tuning: &Tuning) -> Vec<StringSet> {
        let of_it = threes(tuning).filter(|strings| Family::of(tuning, *strings) == Some(self));
        of_it.map(set_of).collect()
    }
}

/// Every three neighbouring strings, from the highest number to the floor.
pub(super) fn threes(tuning: &Tuning) -> impl Iterator<Item = [StringNumber; 3]> + use<> {
    let sets: Vec<StringSet> = StringSet::neighbours(tuning.string_count(), 3).collect();
    sets.into_iter().rev().filter_map(StringSet::three)
}

/// Three strings as a set.
pub(super) fn set_of([one, two, three]: [StringNumber; 3]) -> StringSet {
    StringSet::only(one).with(two).with(three)
}
