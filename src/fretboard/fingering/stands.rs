//! Every way for one hand to play what sounds at one moment.

use std::collections::HashMap;
use std::ops::Range;

use super::touch::Touch;
use crate::HandPosition;

/// So many steps are taken to find the ways to play one moment; more, and it is refused: no hand is
/// that undecided.
const MOST_TRIES: usize = 50_000;

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

/// How places that sound together are to be held.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Held {
    ByOneHand,
    /// Somehow: no hand could, yet the line has them (a bend, a strum, a second player).
    AsItMay,
}

/// There are more ways than anyone could want.
pub(super) struct TooMany;

/// The ways to play a moment as they are found.
pub(super) struct Ways {
    notes: usize,
    touches: Vec<Touch>,
    costs: Vec<f64>,
    tried: usize,
}

impl Ways {
    /// No way yet to play so many notes.
    pub(super) fn of(notes: usize) -> Ways {
        Ways { notes, touches: Vec::new(), costs: Vec::new(), tried: 0 }
    }

    /// Are they ways to play so many notes?
    pub(super) fn are_of(&self, notes: usize) -> bool {
        self.notes == notes
    }

    pub(super) fn is_empty(&self) -> bool {
        self.costs.is_empty()
    }

    pub(super) fn push(&mut self, touches: &[Touch], cost: f64) {
        self.touches.extend_from_slice(touches);
        self.costs.push(cost);
    }

    pub(super) fn count(&mut self) -> Result<(), TooMany> {
        self.tried += 1;
        if self.tried > MOST_TRIES { Err(TooMany) } else { Ok(()) }
    }

    pub(super) fn into_stands(self, held: Held) -> Stands {
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
