//! What counts for a pair and against it.

use std::cmp::Reverse;
use std::ops::Deref;

use super::Sound;
use crate::{ChordScale, Triad, TriadQuality};

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
    /// One of the triads is the bottom of the chord itself, with a colour beside it.
    OwnTriad,
    /// Every note that the symbol names, in two handfuls.
    WholeChord,
    /// Third and seventh, so that the line tells the chord by itself.
    GuideTones,
    /// Three tensions or more, none of which rubs.
    Colour,
    /// Notes other than the root that the symbol names and the pair leaves out; how many.
    Drops(u8),
    /// Notes that rub; how many.
    Rubs(u8),
    /// Diminished triads that are not the chord's own: they say less; how many.
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
pub(super) struct Merits {
    list: [Merit; 10],
    len: usize,
}

impl Merits {
    pub(super) const NONE: Merits = Merits { list: [Merit::OneMajor; 10], len: 0 };

    pub(super) fn of(sound: &Sound, ground: &ChordScale) -> Merits {
        let (pair, set) = (sound.pair(), sound.pair().set());
        let own = ground.own_triad();
        let is_own = |triad: Triad| own == Some(triad.set());
        let of_quality = |quality: TriadQuality| {
            pair.triads().into_iter().filter(move |triad| triad.quality() == quality)
        };
        let majors = of_quality(TriadQuality::Major).count();
        let diminished = of_quality(TriadQuality::Diminished).filter(|t| !is_own(*t)).count() as u8;
        let apart = pair.first().root().semitones_up_to(pair.second().root());
        let whole_step = matches!(apart, 2 | 10);
        let colours = ground.colours().intersection(set).len();
        let dropped = ground.missed().difference(set).len() as u8;
        let rubs = sound.rubs().len() as u8;
        let mut merits = Merits::NONE;
        for (holds, merit) in [
            (majors == 2 && whole_step, Merit::MajorsAWholeStepApart),
            (majors == 2 && !whole_step, Merit::Majors),
            (majors == 1, Merit::OneMajor),
            (pair.triads().into_iter().any(is_own), Merit::OwnTriad),
            (ground.chord().is_some() && sound.drops_named().is_empty(), Merit::WholeChord),
            (sound.states_third() && sound.states_seventh(), Merit::GuideTones),
            (colours >= 3 && rubs == 0, Merit::Colour),
            (dropped > 0, Merit::Drops(dropped)),
            (rubs > 0, Merit::Rubs(rubs)),
            (diminished > 0, Merit::Diminished(diminished)),
        ] {
            if holds {
                merits.push(merit);
            }
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
