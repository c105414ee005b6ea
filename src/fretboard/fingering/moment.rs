//! What sounds at one moment of a line, and every way for one hand to play it.

use std::collections::HashMap;
use std::ops::Range;
use std::rc::Rc;

use super::cost::Cost;
use super::touch::{Touch, touches};
use super::{FingeredNote, FingeringError, FingeringQuery, LineNote, Misfit, Pin};
use crate::{Finger, HandPosition, Neck, Place, StringNumber};
use fretloom_theory::Pitch;

/// Notes that begin within this many seconds of the first of them sound together.
pub(super) const TOGETHER_S: f64 = 0.030;

/// More ways than this to play the notes of one moment are refused: no hand is that undecided.
const MOST_STANDS: usize = 20_000;

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

/// Every way to play a moment. Ways with the same places follow one another.
pub(super) struct Stands {
    notes: usize,
    /// The touches of each way, one a note.
    touches: Vec<Touch>,
    costs: Vec<f64>,
    held: Held,
    /// How the hand comes in, by the first note; how it goes on, by the last.
    entries: Ports,
    exits: Ports,
}

/// The different touches at one end of a moment. Most moments are one note, and then there is one
/// touch for each way.
pub(super) struct Ports {
    /// By hand position.
    touches: Vec<Touch>,
    /// The stretches of `touches` with the hand in one position.
    hands: Vec<(HandPosition, Range<usize>)>,
    /// For each way, which touch.
    of: Vec<u16>,
}

impl Stands {
    pub(super) fn len(&self) -> usize {
        self.costs.len()
    }

    /// The touches of way number `index`.
    pub(super) fn touches(&self, index: usize) -> &[Touch] {
        &self.touches[index * self.notes..(index + 1) * self.notes]
    }

    /// Is this more than one hand can hold?
    pub(super) fn is_beyond_a_hand(&self) -> bool {
        self.held == Held::AsItMay
    }

    pub(super) fn cost(&self, index: usize) -> f64 {
        self.costs[index]
    }

    pub(super) fn entries(&self) -> &Ports {
        &self.entries
    }

    pub(super) fn exits(&self) -> &Ports {
        &self.exits
    }

    pub(super) fn entry(&self, index: usize) -> usize {
        usize::from(self.entries.of[index])
    }

    pub(super) fn exit(&self, index: usize) -> usize {
        usize::from(self.exits.of[index])
    }

    /// The ranges of ways that have the same places.
    pub(super) fn by_places(&self) -> Vec<Range<usize>> {
        let places = |index: usize| self.touches(index).iter().map(|touch| touch.place);
        let mut ranges: Vec<Range<usize>> = Vec::new();
        for index in 0..self.len() {
            match ranges.last_mut() {
                Some(range) if places(range.start).eq(places(index)) => range.end = index + 1,
                _ => ranges.push(index..index + 1),
            }
        }
        ranges
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
                Some(group) if self.have_strings_each(line, &group.notes, index) => {
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
    fn have_strings_each(&self, line: &[LineNote], group: &[usize], more: usize) -> bool {
        let notes = group.iter().copied().chain([more]);
        let choices: Vec<Vec<Place>> = notes.map(|index| self.places(&line[index])).collect();
        let mut owners = [None; STRINGS];
        (0..choices.len()).all(|note| finds_a_string(&choices, note, &mut owners, &mut 0))
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
        let mut ways =
            Ways { notes: notes.len(), touches: Vec::new(), costs: Vec::new(), tried: 0 };
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
            if !ways.costs.is_empty() {
                return Ok(ways.into_stands(held));
            }
        }
        Ok(ways.into_stands(Held::AsItMay))
    }

    /// Adds every way to touch `places` at once.
    fn add_ways(&self, ways: &mut Ways, places: &[Place], held: Held) -> Result<(), TooMany> {
        ways.count()?;
        match held {
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
        let Some(next) = choices.get(chosen.len()) else {
            ways.push(chosen, cost);
            return ways.count();
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

/// How places that sound together are to be held.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Held {
    ByOneHand,
    /// Somehow: no hand could, yet the line has them (a bend, a strum, a second player).
    AsItMay,
}

/// There are more ways than anyone could want.
struct TooMany;

/// The ways to play a moment as they are found.
struct Ways {
    notes: usize,
    touches: Vec<Touch>,
    costs: Vec<f64>,
    tried: usize,
}

impl Ways {
    fn push(&mut self, touches: &[Touch], cost: f64) {
        self.touches.extend_from_slice(touches);
        self.costs.push(cost);
    }

    fn count(&mut self) -> Result<(), TooMany> {
        self.tried += 1;
        if self.tried > MOST_STANDS { Err(TooMany) } else { Ok(()) }
    }

    fn into_stands(self, held: Held) -> Stands {
        let ways = || self.touches.chunks(self.notes);
        let entries = Ports::new(ways().filter_map(|way| way.first()));
        let exits = Ports::new(ways().filter_map(|way| way.last()));
        let Ways { notes, touches, costs, .. } = self;
        Stands { notes, touches, costs, held, entries, exits }
    }
}

impl Ports {
    fn new<'a>(ends: impl Iterator<Item = &'a Touch> + Clone) -> Ports {
        let mut touches: Vec<Touch> = Vec::new();
        let mut found: HashMap<Touch, u16> = HashMap::new();
        for touch in ends.clone() {
            found.entry(*touch).or_insert_with(|| {
                touches.push(*touch);
                0
            });
        }
        touches.sort_by_key(|touch| touch.hand);
        found.extend(touches.iter().copied().zip(0..));
        let of = ends.filter_map(|touch| found.get(touch).copied()).collect();
        let mut hands: Vec<(HandPosition, Range<usize>)> = Vec::new();
        for (index, touch) in touches.iter().enumerate() {
            match hands.last_mut().filter(|(hand, _)| *hand == touch.hand) {
                Some((_, range)) => range.end = index + 1,
                None => hands.push((touch.hand, index..index + 1)),
            }
        }
        Ports { touches, hands, of }
    }

    pub(super) fn touches(&self) -> &[Touch] {
        &self.touches
    }

    /// The positions of the hand, each with the range of its touches.
    pub(super) fn hands(&self) -> &[(HandPosition, Range<usize>)] {
        &self.hands
    }
}

/// Calls `visit` with every choice of one place a note in which no string is used twice.
fn choose_places(
    choices: &[Vec<Place>],
    chosen: &mut Vec<Place>,
    visit: &mut impl FnMut(&[Place]) -> Result<(), TooMany>,
) -> Result<(), TooMany> {
    let Some(next) = choices.get(chosen.len()) else {
        return visit(chosen);
    };
    for &place in next {
        if chosen.iter().all(|other| other.string != place.string) {
            chosen.push(place);
            choose_places(choices, chosen, visit)?;
            chosen.pop();
        }
    }
    Ok(())
}

/// The first finger on the lowest fret and the others wherever they have to go.
fn strained(places: &[Place]) -> Vec<Touch> {
    let fretted = places.iter().filter(|place| !place.fret.is_open());
    let lowest = fretted.map(|place| place.fret.number()).min();
    let hand = lowest.and_then(HandPosition::new).unwrap_or(HandPosition::FIRST);
    let finger = |place: &Place| match place.fret.number().checked_sub(hand.number()) {
        None => Finger::Open,
        Some(0) => Finger::First,
        Some(1) => Finger::Second,
        Some(2) => Finger::Third,
        Some(_) => Finger::Fourth,
    };
    places.iter().map(|place| Touch { place: *place, finger: finger(place), hand }).collect()
}

const STRINGS: usize = StringNumber::HIGHEST.number() as usize;

/// Gives `note` a string, moving other notes to other strings where that helps (an augmenting path
/// of a bipartite matching). `asked` has a bit for each string already asked.
fn finds_a_string(
    choices: &[Vec<Place>],
    note: usize,
    owners: &mut [Option<usize>; STRINGS],
    asked: &mut u16,
) -> bool {
    choices[note].iter().any(|place| {
        let string = usize::from(place.string.number() - 1);
        if *asked & (1 << string) != 0 {
            return false;
        }
        *asked |= 1 << string;
        let free = match owners[string] {
            None => true,
            Some(owner) => finds_a_string(choices, owner, owners, asked),
        };
        if free {
            owners[string] = Some(note);
        }
        free
    })
}
