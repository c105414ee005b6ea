//! Every way for one hand to play what begins at one moment: a note, or several at once.

use std::collections::HashMap;
use std::rc::Rc;

use super::broken_chord::BrokenBy;
use super::candidates::{candidates, positions};
use super::choices::{Choices, ChoicesBuilder};
use super::cost::Cost;
use super::fingered_note::FingeredNote;
use super::line_note::{LineNote, Pin};
use super::place_sets::PlaceSets;
use super::query::FingeringQuery;
use super::strings_each::have_strings_each;
use crate::{Finger, HandPosition, Neck, Place};
use fretloom_theory::Pitch;

/// Notes that begin together, in the order in which they joined.
type Notes = Vec<(Pitch, Pin)>;

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

    /// The places of a note that the query and the pin leave.
    fn places(&self, (pitch, pin): (Pitch, Pin)) -> Vec<Place> {
        let places = self.neck.places_of(pitch);
        places
            .filter(|place| pin.allows(*place) && self.query.region().contains(self.neck, *place))
            .collect()
    }

    /// Every way to play one note.
    pub(super) fn candidates(&self, note: (Pitch, Pin)) -> impl Iterator<Item = FingeredNote> {
        let places = self.places(note).into_iter();
        places.flat_map(|place| candidates(self.neck, self.query, place))
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

    fn of_one(&self, note: (Pitch, Pin)) -> Choices {
        let mut found = ChoicesBuilder::of_size(1);
        for note in self.candidates(note) {
            found.push(&[note], self.cost.of(note));
        }
        found.build()
    }

    fn of_several(&mut self, notes: &[(Pitch, Pin)]) -> Choices {
        let mut found = ChoicesBuilder::of_size(notes.len());
        let sets = self.sets(notes);
        for places in sets.iter() {
            self.each_hold(places, |held, grip_mm| {
                found.push(held, self.cost.of_chord(held, grip_mm));
            });
        }
        found.build()
    }

    /// Where a hand may hold these, each note with one of its places; none where no hand does.
    fn sets(&mut self, notes: &[(Pitch, Pin)]) -> Rc<PlaceSets> {
        if let Some(sets) = self.sets.get(notes) {
            return Rc::clone(sets);
        }
        let sets = Rc::new(match notes.split_last() {
            None => PlaceSets::of_one(&[]),
            Some((only, [])) => PlaceSets::of_one(&self.places(*only)),
            Some((more, before)) => {
                let (before, places) = (self.sets(before), self.places(*more));
                before.with(&places, |places| self.is_held(places))
            }
        });
        make_room(&mut self.sets);
        self.sets.insert(notes.to_vec(), Rc::clone(&sets));
        sets
    }

    /// Does the hand hold these places in a position that is asked for?
    fn is_held(&self, places: &[Place]) -> bool {
        let mut is_held = false;
        self.query.hand().each_assignment(self.neck, places, &mut |fingers, _| {
            is_held = self.positions_of(places, fingers).next().is_some();
            !is_held
        });
        is_held
    }

    /// Calls `visit` with every way for the hand to hold these places in a position that is asked
    /// for, and with what the grip costs in millimetres.
    fn each_hold(&self, places: &[Place], mut visit: impl FnMut(&[FingeredNote], f64)) {
        self.query.hand().each_assignment(self.neck, places, &mut |fingers, grip_mm| {
            let held = |position| {
                let notes = places.iter().zip(fingers);
                let notes = notes.map(|(place, finger)| (*place, *finger));
                let note = |(place, finger)| FingeredNote { place, finger, position };
                notes.map(note).collect::<Vec<_>>()
            };
            self.positions_of(places, fingers).for_each(|at| visit(&held(at), grip_mm));
            true
        });
    }

    /// Where the hand may stand with these fingers, of the positions that are asked for. Open
    /// strings alone leave it where it likes.
    fn positions_of(
        &self,
        places: &[Place],
        fingers: &[Finger],
    ) -> impl Iterator<Item = HandPosition> {
        let holding = HandPosition::holding(self.neck, places, fingers);
        let anywhere = holding.is_none().then(|| positions(self.neck)).into_iter().flatten();
        holding.into_iter().chain(anywhere).filter(|at| self.query.allows_position(*at))
    }
}

fn read(line: &[LineNote], notes: &[usize]) -> Notes {
    notes.iter().map(|index| (line[*index].pitch(), line[*index].pin())).collect()
}

fn make_room<T>(known: &mut HashMap<Notes, T>) {
    if known.len() >= MOST_KNOWN {
        known.clear();
    }
}
