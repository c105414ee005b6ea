//! The ways between the places of two pairs.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use super::places::PairPlaces;
use super::weights::PlanCost;
use crate::TriadPair;

/// The ways between the places of pairs, those of each two pairs asked for once.
pub(super) struct Ways<'a> {
    places: &'a dyn PairPlaces,
    known: RefCell<HashMap<[TriadPair; 2], Rc<PlacedWays>>>,
}

/// The ways from each place of a pair to each of another.
pub(super) struct PlacedWays {
    before: usize,
    costs: Vec<PlanCost>,
}

impl<'a> Ways<'a> {
    pub(super) fn among(places: &'a dyn PairPlaces) -> Ways<'a> {
        Ways { places, known: RefCell::default() }
    }

    pub(super) fn between(&self, [from, to]: [TriadPair; 2]) -> Rc<PlacedWays> {
        let mut known = self.known.borrow_mut();
        let found =
            || PlacedWays { before: self.places.count(from), costs: self.places.ways(from, to) };
        Rc::clone(known.entry([from, to]).or_insert_with(|| Rc::new(found())))
    }
}

/// From one pair to another: the change, and the ways between their places.
pub(super) struct Couple {
    pub(super) step: PlanCost,
    pub(super) ways: Option<Rc<PlacedWays>>,
}

impl Couple {
    pub(super) fn cost(&self, from: Option<usize>, to: Option<usize>) -> PlanCost {
        let placed = self.ways.as_ref().zip(from.zip(to));
        let way = placed.map(|(ways, (from, to))| ways.costs[to * ways.before + from]);
        self.step + way.unwrap_or_default()
    }
}
