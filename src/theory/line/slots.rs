//! When the signs of a pattern come, in a rhythm.

use super::error::LineError;
use super::limits::LONGEST;
use super::phrase::{Begin, Ending, Phrase};
use crate::time::Quarters;
use crate::{PatternGroup, Sign, Turn, ValueKind, WhichTriad};

/// Where pattern and rhythm are.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Phase {
    /// How many signs have been played.
    pub(super) signs: usize,
    /// How many values of the rhythm have gone by.
    pub(super) values: usize,
    /// When the next value begins.
    pub(super) at: Quarters,
    /// Whose turn it was last; `None` before the first group.
    pub(super) last: Option<WhichTriad>,
}

/// One sign with its time.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Slot {
    pub(super) onset: Quarters,
    pub(super) end: Quarters,
    pub(super) sign: Sign,
    pub(super) accent: bool,
    /// Which group of the phrase, counted from 0.
    pub(super) group: usize,
}

/// A group of the phrase.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Played {
    /// Whose group it is; `None` for one without figures.
    pub(super) which: Option<WhichTriad>,
    pub(super) turn: Turn,
}

/// What a phrase plays, with times, and where pattern and rhythm are after it.
pub(super) struct Slots {
    /// Those that are played, then those that tell what would follow.
    pub(super) slots: Vec<Slot>,
    /// How many of them are played.
    pub(super) played: usize,
    pub(super) groups: Vec<Played>,
    pub(super) after: Phase,
}

impl Slots {
    /// The signs that begin before `until`. Where the last of them leads to a note that follows,
    /// the signs up to that note come after them.
    pub(super) fn of(
        phrase: &Phrase,
        before: Option<Phase>,
        until: Quarters,
    ) -> Result<Slots, LineError> {
        let fresh = Phase { signs: 0, values: 0, at: phrase.from, last: None };
        let phase = match phrase.begin {
            Begin::Again => fresh,
            Begin::RunsOn => before.unwrap_or(fresh),
        };
        let mut reader = SlotReader { phrase, phase, slots: Vec::new(), groups: Vec::new() };
        reader.read(|reader| reader.phase.at < until)?;
        let (after, played) = (reader.phase, reader.slots.len());
        if phrase.ending == Ending::WholeGroup && !reader.is_between_groups() {
            reader.drop_last_group();
        } else {
            reader.read(SlotReader::leads_on)?;
        }
        let played = played.min(reader.slots.len());
        Ok(Slots { slots: reader.slots, played, groups: reader.groups, after })
    }
}

struct SlotReader<'a> {
    phrase: &'a Phrase,
    phase: Phase,
    slots: Vec<Slot>,
    groups: Vec<Played>,
}

impl<'a> SlotReader<'a> {
    fn read(&mut self, wants_more: impl Fn(&SlotReader<'a>) -> bool) -> Result<(), LineError> {
        let phrase = self.phrase;
        for value in phrase.rhythm.values().skip(self.phase.values) {
            if !wants_more(self) {
                break;
            }
            let end = self.phase.at.checked_add(value.length).ok_or(LineError::Inexact)?;
            if value.kind != ValueKind::Rest {
                self.take_sign(end, value.kind == ValueKind::Accent);
            }
            if self.slots.len() > LONGEST {
                return Err(LineError::TooLong);
            }
            self.phase.values += 1;
            self.phase.at = end;
        }
        Ok(())
    }

    fn take_sign(&mut self, end: Quarters, accent: bool) {
        let Some(at) = sign_at(self.phrase, self.phase.signs) else { return };
        if at.is_first {
            self.begin_group(at.group);
        } else if self.groups.is_empty() {
            // The last phrase was in the middle of this group.
            let which = self.phase.last.filter(|_| at.group.has_figures());
            self.groups.push(Played { which, turn: Turn::Same });
        }
        let group = self.groups.len() - 1;
        let onset = self.phase.at;
        let accent = accent || at.accent;
        self.slots.push(Slot { onset, end, sign: at.sign, accent, group });
        self.phase.signs += 1;
    }

    fn begin_group(&mut self, group: &PatternGroup) {
        let which = group.has_figures().then(|| match (self.phase.last, group.turn()) {
            (None, _) => self.phrase.first,
            (Some(last), Turn::Same) => last,
            (Some(last), Turn::Other) => last.other(),
        });
        self.phase.last = which.or(self.phase.last);
        self.groups.push(Played { which, turn: group.turn() });
    }

    /// Does the last sign lead to a note that has not come?
    fn leads_on(&self) -> bool {
        let last = self.slots.iter().rev().find_map(|slot| match slot.sign {
            Sign::HalfStepBelow | Sign::HalfStepAbove | Sign::ScaleStep => Some(true),
            Sign::Figures(_) | Sign::FirstNote => Some(false),
            Sign::Rest | Sign::Hold => None,
        });
        last.unwrap_or(false)
    }

    fn is_between_groups(&self) -> bool {
        sign_at(self.phrase, self.phase.signs).is_none_or(|at| at.is_first)
    }

    /// Leaves the last group out, unless it is the only one.
    fn drop_last_group(&mut self) {
        if let Some(last) = self.groups.len().checked_sub(1).filter(|last| *last > 0) {
            self.slots.retain(|slot| slot.group != last);
            self.groups.truncate(last);
        }
    }
}

/// A sign of a pattern that goes round and round.
struct SignAt<'a> {
    group: &'a PatternGroup,
    is_first: bool,
    sign: Sign,
    accent: bool,
}

fn sign_at(phrase: &Phrase, count: usize) -> Option<SignAt<'_>> {
    let mut left = count % phrase.pattern.length();
    for group in phrase.pattern.groups() {
        if let Some(sign) = group.signs().get(left) {
            let is_first = left == 0;
            return Some(SignAt { group, is_first, sign: sign.sign, accent: sign.accent });
        }
        left -= group.signs().len();
    }
    None
}
