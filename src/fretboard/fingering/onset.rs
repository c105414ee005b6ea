//! What begins at one moment of a line, and every way for one hand to play it.

use std::collections::HashMap;
use std::rc::Rc;

use super::assign::{choose_places, have_strings_each, strained};
use super::candidates::candidates;
use super::choices::{Choices, ChoicesBuilder, Held, TooMany};
use super::cost::Cost;
use super::error::{FingeringError, Misfit};
use super::fingered_note::FingeredNote;
use super::line_note::{LineNote, Pin};
use super::query::FingeringQuery;
use crate::{Neck, Place};
use fretloom_theory::Pitch;

/// Notes that begin within this many seconds of the first of them sound together.
pub(super) const TOGETHER_S: f64 = 0.030;

/// Notes that begin together, or one note.
pub(super) struct Onset {
    pub(super) at_s: f64,
    /// Their indices in the line, in the order given.
    pub(super) notes: Vec<usize>,
    pub(super) choices: Rc<Choices>,
    /// Do they begin with the onset before, and only lack strings of their own there?
    pub(super) is_late: bool,
}

impl Onset {
    /// The choice that a fingering of the whole line takes here, if it is one.
    pub(super) fn choice_of(&self, line: &[FingeredNote]) -> Option<usize> {
        let mine: Vec<FingeredNote> =
            self.notes.iter().map(|index| line.get(*index).copied()).collect::<Option<_>>()?;
        (0..self.choices.len()).find(|choice| self.choices.notes(*choice) == mine)
    }
}

/// The notes of an onset, before its choices are known.
struct Group {
    notes: Vec<usize>,
    is_late: bool,
}

/// Groups the notes of lines by their onsets.
pub(super) struct Onsets<'a> {
    pub(super) neck: &'a Neck,
    pub(super) query: &'a FingeringQuery,
    pub(super) cost: &'a Cost,
}

impl Onsets<'_> {
    /// The onsets of `line` in the order of time.
    pub(super) fn of(&self, line: &[LineNote]) -> Result<Vec<Onset>, FingeringError> {
        self.check(line)?;
        let mut known: HashMap<Vec<(Pitch, Pin)>, Rc<Choices>> = HashMap::new();
        let mut onsets = Vec::new();
        for Group { notes, is_late } in self.groups(line) {
            let key: Vec<_> = notes.iter().map(|i| (line[*i].pitch(), line[*i].pin())).collect();
            let choices = match known.get(&key) {
                Some(choices) => Rc::clone(choices),
                None => {
                    let choices = Rc::new(self.choices(line, &notes)?);
                    known.insert(key, Rc::clone(&choices));
                    choices
                }
            };
            onsets.push(Onset { at_s: line[notes[0]].onset_s(), notes, choices, is_late });
        }
        Ok(onsets)
    }

    /// Is there a place for every note? The error names all that have none.
    fn check(&self, line: &[LineNote]) -> Result<(), FingeringError> {
        let mut known: HashMap<(Pitch, Pin), Option<Misfit>> = HashMap::new();
        let misfits: Vec<(usize, Misfit)> = line
            .iter()
            .enumerate()
            .filter_map(|(index, note)| {
                let misfit =
                    known.entry((note.pitch(), note.pin())).or_insert_with(|| self.misfit(note));
                Some((index, (*misfit)?))
            })
            .collect();
        if misfits.is_empty() { Ok(()) } else { Err(FingeringError::Misfits(misfits)) }
    }

    fn misfit(&self, note: &LineNote) -> Option<Misfit> {
        if self.neck.places_of(note.pitch()).next().is_none() {
            return Some(Misfit::NotOnTheNeck);
        }
        if !self.neck.places_of(note.pitch()).any(|place| note.pin().allows(place)) {
            return Some(Misfit::NotWherePinned);
        }
        self.candidates(note).next().is_none().then_some(Misfit::NotWhereAsked)
    }

    /// The notes by their onsets. Where no choice of strings gives each note its own, those that are
    /// left over come after the others.
    fn groups(&self, line: &[LineNote]) -> Vec<Group> {
        let mut order: Vec<usize> = (0..line.len()).collect();
        order.sort_by(|a, b| line[*a].onset_s().total_cmp(&line[*b].onset_s()));
        let mut groups: Vec<Group> = Vec::new();
        let mut begun_s = f64::NEG_INFINITY;
        for index in order {
            let joins = line[index].onset_s() - begun_s <= TOGETHER_S;
            match groups.last_mut().filter(|_| joins) {
                Some(group) if self.has_a_string_left(line, &group.notes, index) => {
                    group.notes.push(index);
                }
                Some(_) => groups.push(Group { notes: vec![index], is_late: true }),
                None => {
                    begun_s = line[index].onset_s();
                    groups.push(Group { notes: vec![index], is_late: false });
                }
            }
        }
        groups.iter_mut().for_each(|group| group.notes.sort_unstable());
        groups
    }

    /// Can `group` and one note more have a string each?
    fn has_a_string_left(&self, line: &[LineNote], group: &[usize], more: usize) -> bool {
        let notes = group.iter().copied().chain([more]);
        let choices: Vec<Vec<Place>> = notes.map(|index| self.places(&line[index])).collect();
        have_strings_each(&choices)
    }

    /// The places of a note that the query and the pin leave.
    fn places(&self, note: &LineNote) -> Vec<Place> {
        let pin = note.pin();
        let places = self.neck.places_of(note.pitch());
        places
            .filter(|place| pin.allows(*place) && self.query.region().contains(self.neck, *place))
            .collect()
    }

    fn candidates(&self, note: &LineNote) -> impl Iterator<Item = FingeredNote> {
        let places = self.places(note).into_iter();
        places.flat_map(|place| candidates(self.neck, self.query, place))
    }

    /// Every way to play these notes at once.
    fn choices(&self, line: &[LineNote], notes: &[usize]) -> Result<Choices, FingeringError> {
        let mut found = ChoicesBuilder::of_size(notes.len());
        if let [only] = notes {
            for note in self.candidates(&line[*only]) {
                found.push(&[note], self.cost.of(note));
            }
            return Ok(found.build(Held::ByOneHand));
        }
        let places: Vec<Vec<Place>> =
            notes.iter().map(|index| self.places(&line[*index])).collect();
        let crowded = |_| FingeringError::Crowded { notes: notes.to_vec() };
        for held in [Held::ByOneHand, Held::ByNoHand] {
            let visit = &mut |places: &[Place]| self.add_choices(&mut found, places, held);
            choose_places(&places, &mut Vec::new(), visit).map_err(crowded)?;
            if !found.is_empty() {
                return Ok(found.build(held));
            }
        }
        Ok(found.build(Held::ByNoHand))
    }

    /// Adds every way to play `places` at once, where there is one for each note.
    fn add_choices(
        &self,
        found: &mut ChoicesBuilder,
        places: &[Place],
        held: Held,
    ) -> Result<(), TooMany> {
        found.count_step()?;
        match held {
            _ if found.size() != places.len() => Ok(()),
            Held::ByOneHand => {
                let notes: Vec<Vec<FingeredNote>> = places
                    .iter()
                    .map(|place| candidates(self.neck, self.query, *place).collect())
                    .collect();
                self.choose_fingers(found, &notes, &mut Vec::new(), 0.0)
            }
            Held::ByNoHand => {
                let notes = strained(places);
                let cost = notes.iter().map(|note| self.cost.of(*note)).sum();
                found.push(&notes, cost);
                Ok(())
            }
        }
    }

    /// Adds every choice of one candidate a note that one hand can hold.
    fn choose_fingers(
        &self,
        found: &mut ChoicesBuilder,
        candidates: &[Vec<FingeredNote>],
        chosen: &mut Vec<FingeredNote>,
        cost: f64,
    ) -> Result<(), TooMany> {
        found.count_step()?;
        let Some(next) = candidates.get(chosen.len()) else {
            found.push(chosen, cost);
            return Ok(());
        };
        for &note in next {
            let mut sum = Some(cost + self.cost.of(note));
            for other in chosen.iter() {
                let together =
                    Cost::together(*other, note).filter(|_| other.position == note.position);
                sum = sum.zip(together).map(|(sum, together)| sum + together);
            }
            if let Some(sum) = sum {
                chosen.push(note);
                self.choose_fingers(found, candidates, chosen, sum)?;
                chosen.pop();
            }
        }
        Ok(())
    }
}
