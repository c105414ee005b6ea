//! Where on the neck a line is played.

use std::collections::{BTreeMap, BTreeSet};

use fretloom_fretboard::{
    Finger, FingeringQuery, FretRange, Hand, HandPosition, Neck, NoteArea, Place, Region,
    StringSet, View, ViewPlace,
};
use fretloom_theory::{Pitch, Reach, Role, TriadPair};

use crate::answer::refusal::Refusal;
use crate::answer::views::ViewQuestion;

/// Where on the neck a line is to be played: a region, or what a view of it shows.
///
/// Under a view the notes of a pair lie where the view shows them. Free notes, which no view shows,
/// lie under the same hand, or on the same strings.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LineArea {
    /// The view; none for all of the region.
    pub view: Option<ViewQuestion>,
    /// The region, of which nothing else is used under a view either.
    pub region: Region,
    /// Whose hand it is.
    pub hand: Hand,
}

impl LineArea {
    /// The whole neck, for an average hand.
    #[must_use]
    pub fn whole_neck() -> LineArea {
        LineArea { view: None, region: Region::WHOLE_NECK, hand: Hand::default() }
    }

    /// What it is on this neck, for these pairs.
    pub(super) fn on(&self, neck: &Neck, pairs: &[TriadPair]) -> Result<Area, Refusal> {
        self.region.check(neck)?;
        let Some(question) = &self.view else { return Ok(self.region_on(neck)) };
        let mut seen: Vec<ViewPlace> = Vec::new();
        for pair in pairs {
            let places = question.places(neck, *pair)?;
            seen.extend(places.into_iter().filter(|at| self.region.contains(neck, at.place)));
        }
        Ok(self.view_on(neck, question.view(), &seen))
    }

    fn region_on(&self, neck: &Neck) -> Area {
        let inside: Vec<(Place, Pitch)> =
            neck.places().filter(|(place, _)| self.region.contains(neck, *place)).collect();
        let all: BTreeSet<Pitch> = inside.iter().map(|(_, pitch)| *pitch).collect();
        let around = Around { region: self.region, position: None };
        let middle = middle(neck, inside.iter().copied());
        let (places, hand) = (BTreeMap::new(), self.hand);
        Area { pair: all.clone(), free: all, places, around, hand, middle }
    }

    fn view_on(&self, neck: &Neck, view: &View, seen: &[ViewPlace]) -> Area {
        let mut places: BTreeMap<Pitch, Vec<Place>> = BTreeMap::new();
        for at in seen {
            let there = places.entry(at.pitch).or_default();
            if !there.contains(&at.place) {
                there.push(at.place);
            }
        }
        let around = self.around(neck, view, seen);
        let free = neck.places().filter(|(place, _)| around.holds(neck, *place));
        Area {
            pair: places.keys().copied().collect(),
            free: free.map(|(_, pitch)| pitch).collect(),
            places,
            around,
            hand: self.hand,
            middle: middle(neck, seen.iter().map(|at| (at.place, at.pitch))),
        }
    }

    /// The part of the neck in which the hand is meanwhile.
    fn around(&self, neck: &Neck, view: &View, seen: &[ViewPlace]) -> Around {
        let frets = || seen.iter().map(|at| neck.fret_number(at.place));
        let has_open = seen.iter().any(|at| at.place.fret.is_open());
        let strings = StringSet::of(seen.iter().map(|at| at.place.string));
        let between =
            frets().min().zip(frets().max()).and_then(|(low, high)| FretRange::new(low, high));
        let region = match view {
            View::Position(_) if has_open => self.region,
            View::Position(_) => self.region.without_open_strings(),
            View::Set(set) => self.region.on(set.set()),
            View::Across(_) | View::Two(_) => {
                let on = strings.map_or(self.region, |strings| self.region.on(strings));
                between.map_or(on, |between| on.within(between))
            }
        };
        let position = match view {
            View::Position(view) => Some(view.position()),
            View::Set(_) | View::Across(_) | View::Two(_) => None,
        };
        Around { region, position }
    }
}

/// The part of the neck in which the hand is while it plays there.
#[derive(Clone, Copy, Debug)]
struct Around {
    region: Region,
    position: Option<HandPosition>,
}

impl Around {
    fn holds(&self, neck: &Neck, place: Place) -> bool {
        let is_under = |position: HandPosition| {
            let (fret, first) = (place.fret.number(), position.number());
            let last = first.saturating_add(Finger::Fourth.number());
            place.fret.is_open() || (first.saturating_sub(1)..=last).contains(&fret)
        };
        self.region.contains(neck, place) && self.position.is_none_or(is_under)
    }

    fn query(&self, hand: Hand) -> FingeringQuery {
        let query = FingeringQuery::default().for_hand(hand).in_region(self.region);
        self.position.map_or(query, |position| query.in_positions(position, position))
    }
}

/// What may be used of a neck.
#[derive(Debug)]
pub(super) struct Area {
    pair: BTreeSet<Pitch>,
    free: BTreeSet<Pitch>,
    /// Where a view shows the notes of pairs; empty without a view.
    places: BTreeMap<Pitch, Vec<Place>>,
    around: Around,
    hand: Hand,
    middle: Option<Pitch>,
}

/// Up to which fret lines begin unasked: above it the neck repeats itself an octave higher.
const LOWER_NECK: u8 = 12;

/// The note in the middle of those that lie in the lower part of the neck, or of all.
fn middle<'a>(
    neck: &Neck,
    places: impl Iterator<Item = (Place, Pitch)> + Clone + 'a,
) -> Option<Pitch> {
    let lowest = neck.begins_at().number();
    let is_low = |place: Place| neck.fret_number(place).number() <= lowest + LOWER_NECK;
    let low: BTreeSet<Pitch> =
        places.clone().filter(|(place, _)| is_low(*place)).map(|(_, pitch)| pitch).collect();
    let all = || places.map(|(_, pitch)| pitch).collect();
    let pitches = if low.is_empty() { all() } else { low };
    pitches.iter().nth(pitches.len() / 2).copied()
}

impl Area {
    pub(super) fn reach(&self) -> Reach {
        Reach::new(self.pair.iter().copied(), self.free.iter().copied())
    }

    /// The question for fingers of a line that lies there.
    pub(super) fn query(&self) -> FingeringQuery {
        self.around.query(self.hand)
    }

    /// Near which note a line begins, where nobody says where.
    pub(super) const fn middle(&self) -> Option<Pitch> {
        self.middle
    }

    /// The lowest note that may be one of a pair.
    pub(super) fn lowest(&self) -> Option<Pitch> {
        self.pair.first().copied()
    }

    /// May a note be there?
    pub(super) fn holds(&self, pitch: Pitch, role: Role) -> bool {
        match role {
            Role::Triad(_) => self.pair.contains(&pitch),
            Role::Free => self.holds_free(pitch),
        }
    }

    /// May a free note be there?
    pub(super) fn holds_free(&self, pitch: Pitch) -> bool {
        self.pair.contains(&pitch) || self.free.contains(&pitch)
    }

    /// Where a note may lie.
    pub(super) fn places_of(&self, neck: &Neck, pitch: Pitch, role: Role) -> Vec<Place> {
        let shown = match role {
            Role::Triad(_) => self.places.get(&pitch),
            Role::Free => None,
        };
        match shown {
            Some(places) => places.clone(),
            None => {
                let region = self.around.region;
                neck.places_of(pitch).filter(|place| region.contains(neck, *place)).collect()
            }
        }
    }

    /// In which part of the neck a note is played: on the strings on which the view shows it, at the
    /// one fret that each of them has it at.
    pub(super) fn of_note(&self, pitch: Pitch, role: Role) -> NoteArea {
        let shown = match role {
            Role::Triad(_) => self.places.get(&pitch),
            Role::Free => None,
        };
        let Around { region, position } = self.around;
        let strings = shown.and_then(|places| StringSet::of(places.iter().map(|at| at.string)));
        let area = NoteArea::of(strings.map_or(region, |strings| region.on(strings)));
        position.map_or(area, |position| area.in_position(position))
    }
}
