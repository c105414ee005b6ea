//! What counts for a pair and against it.

use std::cmp::Reverse;
use std::ops::Deref;

/// Something that counts for or against a pair.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Criterion {
    /// Two major triads a whole step apart: IV and V of some major key, the all-purpose pair.
    MajorsAWholeStepApart,
    /// Two major triads a half step or a tritone apart.
    Majors,
    /// One of the two is major.
    OneMajor,
    /// One of the triads is that of the chord itself.
    OwnTriad,
    /// The pair holds every note that the symbol names.
    WholeChord,
    /// The pair holds third and seventh, by which the chord is heard without an accompaniment.
    GuideTones,
    /// The pair holds three tensions or more, and no note that rubs.
    Colour,
    /// How many notes that the symbol names, apart from the root, the pair leaves out.
    Drops(u8),
    /// How many notes rub.
    Rubs(u8),
    /// How many of the triads are diminished and not the chord's own: they say less of it.
    Diminished(u8),
}

impl Criterion {
    /// A few words for it, as they stand in a list.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Criterion::MajorsAWholeStepApart => "two majors a step apart",
            Criterion::Majors => "two majors",
            Criterion::OneMajor => "one major",
            Criterion::OwnTriad => "the chord's own triad",
            Criterion::WholeChord => "all its tones",
            Criterion::GuideTones => "3rd and 7th",
            Criterion::Colour => "colour",
            Criterion::Drops(_) => "leaves out a chord tone",
            Criterion::Rubs(_) => "a rub",
            Criterion::Diminished(_) => "a diminished triad",
        }
    }

    /// How much it counts; negative against the pair.
    #[must_use]
    pub fn points(self) -> i32 {
        match self {
            Criterion::MajorsAWholeStepApart => 8,
            Criterion::Majors => 6,
            Criterion::OwnTriad => 5,
            Criterion::WholeChord | Criterion::GuideTones | Criterion::Colour => 2,
            Criterion::OneMajor => 1,
            Criterion::Drops(count) => -i32::from(count),
            Criterion::Rubs(count) => -2 * i32::from(count),
            Criterion::Diminished(count) => -5 * i32::from(count),
        }
    }
}

/// What counts for and against a pair, the weightiest first: at most one of each kind, kept in place
/// so that hundreds of pairs cost no allocation each.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Criteria {
    list: [Criterion; 10],
    len: usize,
}

impl Criteria {
    pub(crate) const NONE: Criteria = Criteria { list: [Criterion::OneMajor; 10], len: 0 };

    /// The criteria that hold, out of all that are asked about.
    pub(crate) fn that_hold<const COUNT: usize>(asked: [(bool, Criterion); COUNT]) -> Criteria {
        let mut criteria = Criteria::NONE;
        for (_, criterion) in asked.into_iter().filter(|(holds, _)| *holds) {
            criteria.push(criterion);
        }
        criteria.list[..criteria.len].sort_by_key(|criterion| Reverse(criterion.points().abs()));
        criteria
    }

    fn push(&mut self, criterion: Criterion) {
        if let Some(slot) = self.list.get_mut(self.len) {
            *slot = criterion;
            self.len += 1;
        }
    }
}

impl Deref for Criteria {
    type Target = [Criterion];

    fn deref(&self) -> &[Criterion] {
        self.list.get(..self.len).unwrap_or_default()
    }
}
