//! Notes in the order in which they are played, each with the end that its string lets it have.

use fretloom_theory::Quarters;

use super::event::TabEvent;
use super::of_strings::OfStrings;

/// A note with its place in time.
#[derive(Clone, Copy, Debug)]
pub(super) struct Timed<'a> {
    /// Its index among the notes as they were given.
    pub(super) index: usize,
    pub(super) event: &'a TabEvent,
    /// Among those of its onset: below zero before it, above zero after it.
    pub(super) place: i64,
    /// When it ends.
    pub(super) end: Quarters,
}

impl Timed<'_> {
    fn when(&self) -> (Quarters, i64) {
        (self.event.onset, self.place)
    }

    /// Does it begin together with another?
    pub(super) fn is_with(&self, other: &Timed<'_>) -> bool {
        self.when() == other.when()
    }

    /// Is it a grace note?
    pub(super) fn is_grace(&self) -> bool {
        self.place < 0
    }

    /// How long it goes on sounding after its onset, if it does.
    pub(super) fn sounds_until(&self) -> Option<Quarters> {
        (!self.is_grace() && self.end > self.event.onset).then_some(self.end)
    }
}

/// The notes in the order in which they are played. Of those that begin at once on one string each
/// has a place of its own: a string sounds one note at a time.
pub(super) fn in_order<'a>(events: &'a [TabEvent]) -> Vec<Timed<'a>> {
    let timed = |(index, event): (usize, &'a TabEvent)| {
        let end = event.onset.checked_add(event.duration).unwrap_or(event.onset);
        Timed { index, event, place: event.attack.place(), end }
    };
    let mut notes: Vec<Timed<'a>> = events.iter().enumerate().map(timed).collect();
    notes.sort_by_key(|note| (note.when(), note.event.string));
    for together in notes.chunk_by_mut(|one, next| one.event.onset == next.event.onset) {
        part_on_strings(together);
    }
    notes.sort_by_key(|note| (note.when(), note.event.string));
    notes
}

/// Gives those on one string places of their own.
fn part_on_strings(together: &mut [Timed<'_>]) {
    let mut next_place: OfStrings<i64> = OfStrings::default();
    for note in together {
        let free = next_place.at(note.event.string);
        note.place = free.map_or(note.place, |free| note.place.max(*free));
        next_place.put(note.event.string, note.place.saturating_add(1));
    }
}

/// Ends each note where the next one on its string begins.
pub(super) fn end_on_strings(notes: &mut [Timed<'_>]) {
    let mut next_onset: OfStrings<Quarters> = OfStrings::default();
    for note in notes.iter_mut().rev() {
        if let Some(next) = next_onset.at(note.event.string) {
            note.end = note.end.min(*next);
        }
        next_onset.put(note.event.string, note.event.onset);
    }
}
