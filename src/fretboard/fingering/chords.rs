//! Every way for one hand to play what begins at one moment: a note, or several at once.

use std::collections::HashMap;
use std::rc::Rc;

use super::broken_chord::BrokenBy;
use super::candidates::{candidates, positions};
use super::choices::{Choices, ChoicesBuilder};
use super::cost::Cost;
use super::fingered_note::FingeredNote;
use super::line_note::{LineNote, Pin};
use super::note_area::NoteArea;
use super::place_sets::PlaceSets;
use super::query::FingeringQuery;
use super::strings_each::have_strings_each;
use crate::{Finger, HandPosition, Neck, Place};
use fretloom_theory::Pitch;

/// A note, and all that is asked of its place.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Wanted {
    pitch: Pitch,
    pin: Pin,
    area: NoteArea,
}

impl Wanted {
    pub(super) const fn of(note: &LineNote) -> Wanted {
        Wanted { pitch: note.pitch(), pin: note.pin(), area: note.area() }
    }
}

/// Notes that begin together, in the order in which they joined.
type Notes = Vec<Wanted>;

/// How many chords are remembered at once; a line that has more looks for some of them again.
const MOST_KNOWN: usize = 4096;

/// The chords of a line. What is found once is remembered.
pub(super) struct Chords<'a> {
    neck: &'a Neck,
    query: &'a FingeringQuery,
    cost: &'a Cost,
    sets: HashMap<Notes, Rc<PlaceSets>>,
    choices: HashMap<Notes, Rc<Choices>>,
}

impl<'a> Chords<'a> {
    pub(super) fn new(neck: &'a Neck, query: &'a FingeringQuery, cost: &'a Cost) -> Chords<'a> {
        Chords { neck, query, cost, sets: HashMap::new(), choices: HashMap::new() }
    }

    /// The places of a note that the query and the note itself leave.
    fn places(&self, Wanted { pitch, pin, area }: Wanted) -> Vec<Place> {
        let places = self.neck.places_of(pitch);
        let is_left = |place: &Place| {
            pin.allows(*place)
                && area.allows(self.neck, *place)
                && self.query.region().contains(self.neck, *place)
        };
        places.filter(is_left).collect()
    }

    /// Every way to play one note.
    pub(super) fn candidates(&self, note: Wanted) -> impl Iterator<Item = FingeredNote> {
        let places = self.places(note).into_iter();
        let ways = places.flat_map(|place| candidates(self.neck, self.query, place));
        ways.filter(move |way| note.area.allows_position(way.position))
    }

    /// Why no hand plays all of these at once, if none does.
    pub(super) fn broken_by(&mut self, line: &[LineNote], notes: &[usize]) -> Option<BrokenBy> {
        let notes = read(line, notes);
        if !self.sets(&notes).is_empty() {
            return None;
        }
        let places: Vec<Vec<Place>> = notes.iter().map(|note| self.places(*note)).collect();
        Some(if have_strings_each(&places) { BrokenBy::Hand } else { BrokenBy::Strings })
    }

    /// Every way to play these at once.
    pub(super) fn choices(&mut self, line: &[LineNote], notes: &[usize]) -> Rc<Choices> {
        let notes = read(line, notes);
        if let Some(choices) = self.choices.get(&notes) {
            return Rc::clone(choices);
        }
        let choices = Rc::new(match notes.as_slice() {
            [only] => self.of_one(*only),
            _ => self.of_several(&notes),
        });
        make_room(&mut self.choices);
        self.choices.insert(notes, Rc::clone(&choices));
        choices
    }

    fn of_one(&self, note: Wanted) -> Choices {
        let mut found = ChoicesBuilder::of_size(1);
        for note in self.candidates(note) {
            found.push(&[note], self.cost.of(note));
        }
        found.build()
    }

    fn of_several(&mut self, notes: &[Wanted]) -> Choices {
        let mut found = ChoicesBuilder::of_size(notes.len());
        let sets = self.sets(notes);
        for places in sets.iter() {
            self.each_hold(notes, places, |held, grip_mm| {
                found.push(held, self.cost.of_chord(held, grip_mm));
            });
        }
        found.build()
    }

    /// Where a hand may hold these, each note with one of its places; none where no hand does.
    fn sets(&mut self, notes: &[Wanted]) -> Rc<PlaceSets> {
        if let Some(sets) = self.sets.get(notes) {
            return Rc::clone(sets);
        }
        let sets = Rc::new(match notes.split_last() {
            None => PlaceSets::of_one(&[]),
            Some((only, [])) => PlaceSets::of_one(&self.places(*only)),
            Some((more, before)) => {
                let (before, places) = (self.sets(before), self.places(*more));
                before.with(&places, |places| self.is_held(notes, places))
            }
        });
        make_room(&mut self.sets);
        self.sets.insert(notes.to_vec(), Rc::clone(&sets));
        sets
    }

    /// Does the hand hold these places in a position that is asked for?
    fn is_held(&self, notes: &[Wanted], places: &[Place]) -> bool {
        let mut is_held = false;
        self.query.hand().each_assignment(self.neck, places, &mut |fingers, _| {
            is_held = self.positions_of(notes, places, fingers).next().is_some();
            !is_held
        });
        is_held
    }

    /// Calls `visit` with every way for the hand to hold these places in a position that is asked
    /// for, and with what the grip costs in millimetres.
    fn each_hold(
        &self,
        notes: &[Wanted],
        places: &[Place],
        mut visit: impl FnMut(&[FingeredNote], f64),
    ) {
        self.query.hand().each_assignment(self.neck, places, &mut |fingers, grip_mm| {
            let held = |position| {
                let held = places.iter().zip(fingers);
                let held = held.map(|(place, finger)| (*place, *finger));
                let note = |(place, finger)| FingeredNote { place, finger, position };
                held.map(note).collect::<Vec<_>>()
            };
            self.positions_of(notes, places, fingers).for_each(|at| visit(&held(at), grip_mm));
            true
        });
    }

    /// Where the hand may stand with these fingers, of the positions that are asked for. Open
    /// strings alone leave it where it likes.
    fn positions_of(
        &self,
        notes: &[Wanted],
        places: &[Place],
        fingers: &[Finger],
    ) -> impl Iterator<Item = HandPosition> {
        let holding = HandPosition::holding(self.neck, places, fingers);
        let anywhere = holding.is_none().then(|| positions(self.neck)).into_iter().flatten();
        let is_wanted = |at: &HandPosition| {
            let by_notes = notes.iter().all(|note| note.area.allows_position(*at));
            by_notes && self.query.allows_position(*at)
        };
        holding.into_iter().chain(anywhere).filter(is_wanted)
    }
}

fn read(line: &[LineNote], notes: &[usize]) -> Notes {
    notes.iter().map(|index| Wanted::of(&line[*index])).collect()
}

fn make_room<T>(known: &mut HashMap<Notes, T>) {
    if known.len() >= MOST_KNOWN {
        known.clear();
    }
}
