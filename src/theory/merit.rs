//! What counts for a pair and against it.

use std::cmp::Reverse;
use std::ops::Deref;

/// Something that counts for or against a pair.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Merit {
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

impl Merit {
    /// A word or two for it, as it stands in a list.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Merit::MajorsAWholeStepApart => "majors a step apart",
            Merit::Majors => "majors",
            Merit::OneMajor => "a major",
            Merit::OwnTriad => "chord's triad",
            Merit::WholeChord => "all tones",
            Merit::GuideTones => "3rd+7th",
            Merit::Colour => "colour",
            Merit::Drops(_) => "drops",
            Merit::Rubs(_) => "rubs",
            Merit::Diminished(_) => "diminished",
        }
    }

    /// How much it counts; negative against the pair.
    #[must_use]
    pub fn points(self) -> i32 {
        match self {
            Merit::MajorsAWholeStepApart => 8,
            Merit::Majors => 6,
            Merit::OwnTriad => 5,
            Merit::WholeChord | Merit::GuideTones | Merit::Colour => 2,
            Merit::OneMajor => 1,
            Merit::Drops(count) => -i32::from(count),
            Merit::Rubs(count) => -2 * i32::from(count),
            Merit::Diminished(count) => -5 * i32::from(count),
        }
    }
}

/// What counts for and against a pair, the weightiest first: at most one of each kind, kept in place
/// so that hundreds of pairs cost no allocation each.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Merits {
    list: [Merit; 10],
    len: usize,
}

impl Merits {
    pub(crate) const NONE: Merits = Merits { list: [Merit::OneMajor; 10], len: 0 };

    /// The merits that hold, out of all that are asked about.
    pub(crate) fn that_hold<const COUNT: usize>(asked: [(bool, Merit); COUNT]) -> Merits {
        let mut merits = Merits::NONE;
        for (_, merit) in asked.into_iter().filter(|(holds, _)| *holds) {
            merits.push(merit);
        }
        merits.list[..merits.len].sort_by_key(|merit| Reverse(merit.points().abs()));
        merits
    }

    fn push(&mut self, merit: Merit) {
        if let Some(slot) = self.list.get_mut(self.len) {
            *slot = merit;
            self.len += 1;
        }
    }
}

impl Deref for Merits {
    type Target = [Merit];

    fn deref(&self) -> &[Merit] {
        self.list.get(..self.len).unwrap_or_default()
    }
}
