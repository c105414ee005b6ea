//! What a group asks of a rung.

use super::reach::Reach;
use super::rung::Rung;
use super::slots::Slots;
use crate::{Figures, Pitch, Sign, TriadPair, Turn, WhichTriad};

/// A group with figures, which is to be put on a rung.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Group {
    /// Which group of the phrase it is.
    pub(super) index: usize,
    pub(super) which: WhichTriad,
    pub(super) turn: Turn,
    /// At least one.
    pub(super) figures: Vec<Figures>,
}

impl Group {
    /// The groups of a phrase that have figures.
    pub(super) fn all(slots: &Slots) -> Vec<Group> {
        let mut groups: Vec<Group> = Vec::new();
        for slot in &slots.slots {
            let Sign::Figures(figures) = slot.sign else { continue };
            let Some(played) = slots.groups.get(slot.group) else { continue };
            let Some(which) = played.which else { continue };
            match groups.last_mut().filter(|last| last.index == slot.group) {
                Some(last) => last.figures.push(figures),
                None => groups.push(Group {
                    index: slot.group,
                    which,
                    turn: played.turn,
                    figures: vec![figures],
                }),
            }
        }
        groups
    }

    /// May all its notes be used on this rung?
    pub(super) fn fits(&self, rung: Rung, pair: TriadPair, reach: &Reach) -> bool {
        let mut notes = self.figures.iter().flat_map(|figures| rung.notes(pair, *figures));
        notes.all(|note| note.is_some_and(|note| reach.holds(note)))
    }

    /// The lowest note of its first figures.
    pub(super) fn first_note(&self, rung: Rung, pair: TriadPair) -> Option<Pitch> {
        rung.notes(pair, *self.figures.first()?).next().flatten()
    }

    /// The highest note of its last figures: what is heard to go on.
    pub(super) fn last_note(&self, rung: Rung, pair: TriadPair) -> Option<Pitch> {
        rung.notes(pair, *self.figures.last()?).last().flatten()
    }

    /// How its figures are written, without what stands between them.
    pub(super) fn written(&self) -> String {
        self.figures.iter().map(ToString::to_string).collect()
    }
}
