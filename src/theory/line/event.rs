//! What sounds in a phrase, before it is known where all of it leads.

use super::approach::Leading;
use super::group::Group;
use super::note::Role;
use super::rung::Rung;
use super::slots::{Slot, Slots};
use crate::time::Quarters;
use crate::{Pitch, Sign, TriadPair};

/// What begins at one moment.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Event {
    pub(super) onset: Quarters,
    pub(super) end: Quarters,
    pub(super) sound: Sound,
    pub(super) role: Role,
    pub(super) accent: bool,
    pub(super) group: usize,
}

#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) enum Sound {
    /// Pitches that sound together, from the lowest up.
    Pitches(Vec<Pitch>),
    /// A note that leads to what follows.
    Leads(Leading),
}

/// The events of a phrase.
pub(super) struct Events {
    pub(super) events: Vec<Event>,
    /// How many of them are played; the others tell what would follow.
    pub(super) played: usize,
    /// Until when what sounded before the phrase is held into it.
    pub(super) held_before: Option<Quarters>,
}

impl Events {
    /// What the slots sound like, each of the groups on its rung.
    pub(super) fn of(slots: &Slots, groups: &[Group], rungs: &[Rung], pair: TriadPair) -> Events {
        let mut all = Events { events: Vec::new(), played: 0, held_before: None };
        let mut on_rungs = groups.iter().zip(rungs).peekable();
        for (index, slot) in slots.slots.iter().enumerate() {
            while on_rungs.peek().is_some_and(|(group, _)| group.index < slot.group) {
                on_rungs.next();
            }
            let rung = on_rungs.peek().map(|(_, rung)| **rung);
            all.add(slot, rung, pair);
            if index < slots.played {
                all.played = all.events.len();
            }
        }
        all
    }

    fn add(&mut self, slot: &Slot, rung: Option<Rung>, pair: TriadPair) {
        match slot.sign {
            Sign::Rest => {}
            Sign::Hold => match self.events.last_mut() {
                Some(last) => last.end = slot.end,
                None => self.held_before = Some(slot.end),
            },
            Sign::Figures(figures) => {
                if let Some(rung) = rung {
                    let pitches = rung.notes(pair, figures).flatten().collect();
                    self.push(slot, Sound::Pitches(pitches), Role::Triad(rung.which));
                }
            }
            Sign::FirstNote => self.add_first_note(slot),
            Sign::HalfStepBelow => self.lead(slot, Leading::HalfStepBelow),
            Sign::HalfStepAbove => self.lead(slot, Leading::HalfStepAbove),
            Sign::ScaleStep => self.lead(slot, Leading::ScaleStep),
        }
    }

    /// The first note of a triad again.
    fn add_first_note(&mut self, slot: &Slot) {
        let first = self.events.iter().find_map(|event| match &event.sound {
            Sound::Pitches(pitches) => Some((*pitches.first()?, event.role)),
            Sound::Leads(_) => None,
        });
        if let Some((pitch, role)) = first {
            self.push(slot, Sound::Pitches(vec![pitch]), role);
        }
    }

    fn lead(&mut self, slot: &Slot, leading: Leading) {
        self.push(slot, Sound::Leads(leading), Role::Free);
    }

    fn push(&mut self, slot: &Slot, sound: Sound, role: Role) {
        let Slot { onset, end, accent, group, .. } = *slot;
        self.events.push(Event { onset, end, sound, role, accent, group });
    }

    /// What is heard to go on at each played event: its highest note; `None` where it leads on.
    pub(super) fn heard(&self) -> Vec<Option<Pitch>> {
        let played = self.events.iter().take(self.played);
        played.map(|event| event.sound.highest()).collect()
    }
}

impl Sound {
    pub(super) fn highest(&self) -> Option<Pitch> {
        match self {
            Sound::Pitches(pitches) => pitches.last().copied(),
            Sound::Leads(_) => None,
        }
    }
}
