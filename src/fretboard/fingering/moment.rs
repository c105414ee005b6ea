//! What sounds at one moment of a line, and every way for one hand to play it.

use std::collections::HashMap;
use std::rc::Rc;

use super::cost::Cost;
use super::stands::{Held, Stands, TooMany, Ways};
use super::strings::{choose_places, have_strings_each, strained};
use super::touch::{Touch, touches};
use super::{FingeredNote, FingeringError, FingeringQuery, LineNote, Misfit, Pin};
use crate::{Neck, Place};
use fretloom_theory::Pitch;

/// Notes that begin within this many seconds of the first of them sound together.
pub(super) const TOGETHER_S: f64 = 0.030;

/// Notes that sound together, or one note.
pub(super) struct Moment {
    pub(super) onset_s: f64,
    /// Their indices in the line, in the order given.
    pub(super) notes: Vec<usize>,
    pub(super) stands: Rc<Stands>,
    /// Do they begin with the moment before, and only lack strings of their own there?
    pub(super) is_late: bool,
}

impl Moment {
    /// The way to play this moment that a fingering of the whole line takes, if there is such a way.
    pub(super) fn way_of(&self, notes: &[FingeredNote]) -> Option<usize> {
        let mine: Vec<&FingeredNote> =
            self.notes.iter().map(|index| notes.get(*index)).collect::<Option<_>>()?;
        let is_it = |touch: &Touch, note: &FingeredNote| {
            (touch.place, touch.finger, touch.hand) == (note.place, note.finger, note.position)
        };
        (0..self.stands.len()).find(|way| {
            let touches = self.stands.touches(*way);
            touches.iter().zip(&mine).all(|(touch, note)| is_it(touch, note))
        })
    }
}

/// The notes of a moment to be.
struct Group {
    notes: Vec<usize>,
    is_late: bool,
}

/// Puts the notes of a line into moments, by time.
pub(super) struct Moments<'a> {
    pub(super) neck: &'a Neck,
    pub(super) query: &'a FingeringQuery,
    pub(super) cost: &'a Cost,
}

impl Moments<'_> {
    /// The moments of `line` in the order of time.
    pub(super) fn of(&self, line: &[LineNote]) -> Result<Vec<Moment>, FingeringError> {
        self.check(line)?;
        let mut known: HashMap<Vec<(Pitch, Pin)>, Rc<Stands>> = HashMap::new();
        let mut moments = Vec::new();
        for Group { notes, is_late } in self.groups(line) {
            let key: Vec<_> = notes.iter().map(|i| (line[*i].pitch(), line[*i].pin())).collect();
            let stands = match known.get(&key) {
                Some(stands) => Rc::clone(stands),
                None => {
                    let stands = Rc::new(self.stands(line, &notes)?);
                    known.insert(key, Rc::clone(&stands));
                    stands
                }
            };
            moments.push(Moment { onset_s: line[notes[0]].onset_s(), notes, stands, is_late });
        }
        Ok(moments)
    }

    /// Is there a place for every note? All that have none are told at once.
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
        self.touches(note).next().is_none().then_some(Misfit::NotWhereAsked)
    }

    /// The notes by the moments they begin at. Where no choice of strings gives each note its own,
    /// those that are left over come after the others.
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
            .filter(|place| pin.allows(*place) && self.query.allows_place(self.neck, *place))
            .collect()
    }

    fn touches(&self, note: &LineNote) -> impl Iterator<Item = Touch> {
        let places = self.places(note).into_iter();
        places.flat_map(|place| touches(self.neck, self.query, place))
    }

    /// Every way to play these notes at once.
    fn stands(&self, line: &[LineNote], notes: &[usize]) -> Result<Stands, FingeringError> {
        let mut ways = Ways::of(notes.len());
        if let [only] = notes {
            for touch in self.touches(&line[*only]) {
                ways.push(&[touch], self.cost.of(touch));
            }
            return Ok(ways.into_stands(Held::ByOneHand));
        }
        let choices: Vec<Vec<Place>> =
            notes.iter().map(|index| self.places(&line[*index])).collect();
        let crowded = |_| FingeringError::Crowded { notes: notes.to_vec() };
        for held in [Held::ByOneHand, Held::AsItMay] {
            let visit = &mut |places: &[Place]| self.add_ways(&mut ways, places, held);
            choose_places(&choices, &mut Vec::new(), visit).map_err(crowded)?;
            if !ways.is_empty() {
                return Ok(ways.into_stands(held));
            }
        }
        Ok(ways.into_stands(Held::AsItMay))
    }

    /// Adds every way to touch `places` at once, where there is one for each note.
    fn add_ways(&self, ways: &mut Ways, places: &[Place], held: Held) -> Result<(), TooMany> {
        ways.count()?;
        match held {
            _ if !ways.are_of(places.len()) => Ok(()),
            Held::ByOneHand => {
                let choices: Vec<Vec<Touch>> = places
                    .iter()
                    .map(|place| touches(self.neck, self.query, *place).collect())
                    .collect();
                self.choose_touches(ways, &choices, &mut Vec::new(), 0.0)
            }
            Held::AsItMay => {
                let touches = strained(places);
                let cost = touches.iter().map(|touch| self.cost.of(*touch)).sum();
                ways.push(&touches, cost);
                Ok(())
            }
        }
    }

    fn choose_touches(
        &self,
        ways: &mut Ways,
        choices: &[Vec<Touch>],
        chosen: &mut Vec<Touch>,
        cost: f64,
    ) -> Result<(), TooMany> {
        ways.count()?;
        let Some(next) = choices.get(chosen.len()) else {
            ways.push(chosen, cost);
            return Ok(());
        };
        for &touch in next {
            let mut sum = Some(cost + self.cost.of(touch));
            for other in chosen.iter() {
                let together = Cost::together(*other, touch).filter(|_| other.hand == touch.hand);
                sum = sum.zip(together).map(|(sum, together)| sum + together);
            }
            if let Some(sum) = sum {
                chosen.push(touch);
                self.choose_touches(ways, choices, chosen, sum)?;
                chosen.pop();
            }
        }
        Ok(())
    }
}
