//! Notes one after another: which finger takes which, and where the hand shifts.

use super::{FIRST_FINGER_FLAT_MM, FOURTH_FINGER_MM, OTHER_FINGER_FLAT_MM, one_a_fret_mm};
use crate::{Finger, Fret, Hand, HandPosition, Neck, Place};

/// Fingers for notes that are played one after another.
///
/// All notes in a row on one string are taken from where the hand stands; from one string to the
/// next it may shift.
#[derive(Clone, PartialEq, Debug)]
pub struct Run {
    fingers: Vec<Finger>,
    positions: Vec<HandPosition>,
    stretch_mm: f64,
    cost_mm: f64,
}

/// One finger on two frets in a row hops; dearer than it is far. Our guess, no source.
const HOP_MM: f64 = 12.0;

impl Run {
    /// The fingers, in the order of the notes.
    #[must_use]
    pub fn fingers(&self) -> &[Finger] {
        &self.fingers
    }

    /// Where the hand stands at the beginning.
    #[must_use]
    pub fn position(&self) -> HandPosition {
        self.positions.first().copied().unwrap_or(HandPosition::FIRST)
    }

    /// Where the hand stands one after another; a hand that stays has one position.
    #[must_use]
    pub fn positions(&self) -> &[HandPosition] {
        &self.positions
    }

    /// The widest stretch that the hand makes from where it stands, in millimetres from fret to
    /// fret. Between two shifts it is a stretch, over a shift it is none.
    #[must_use]
    pub const fn stretch_mm(&self) -> f64 {
        self.stretch_mm
    }

    /// Millimetres that the hand travels and the fingers leave their ease, with rolled, hopping
    /// and little fingers charged in the same coin.
    #[must_use]
    pub const fn cost_mm(&self) -> f64 {
        self.cost_mm
    }
}

impl Hand {
    /// The cheapest fingers for places played one after another; `None` where the notes in a row on
    /// some string are beyond its reach.
    ///
    /// On one string a higher fret takes a higher finger. From string to string the hand may shift,
    /// which costs its way; a finger that goes to the same fret of another string rolls, one that
    /// goes to another fret hops. The search is exact.
    ///
    /// ```
    /// use fretloom_fretboard::{Fret, Hand, Neck, Place, StringNumber, Tuning};
    /// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
    /// let place = |(string, fret)| {
    ///     Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
    /// };
    /// let notes = [(3, 5), (3, 7), (2, 5), (2, 8)].map(place);
    /// let run = Hand::default().run(&neck, &notes).unwrap();
    /// let fingers: Vec<u8> = run.fingers().iter().map(|finger| finger.number()).collect();
    /// assert_eq!(fingers, [1, 3, 1, 4]);
    /// ```
    #[must_use]
    pub fn run(self, neck: &Neck, places: &[Place]) -> Option<Run> {
        let mut so_far = vec![Played::default()];
        for group in places.chunk_by(|one, next| one.string == next.string) {
            let ways = self.ways(neck, group);
            so_far = if ways.iter().all(|way| way.position.is_none()) {
                let open = |played: Played| ways.first().map(|way| played.then(neck, way));
                so_far.into_iter().filter_map(open).collect()
            } else {
                let best =
                    |way: &Played| cheapest(so_far.iter().map(|p| p.clone().then(neck, way)));
                ways.iter().filter_map(best).collect()
            };
        }
        let best = cheapest(so_far.into_iter())?;
        let stretch_mm = widest(neck, places);
        let Played { fingers, positions, cost_mm, .. } = best;
        Some(Run { fingers, positions, stretch_mm, cost_mm })
    }

    /// Every way to take notes in a row on one string.
    fn ways(self, neck: &Neck, group: &[Place]) -> Vec<Played> {
        let mut ways: Vec<Vec<Finger>> = vec![Vec::new()];
        for (index, place) in group.iter().enumerate() {
            let before = group.get(..index).unwrap_or_default();
            let longer = |way: Vec<Finger>| {
                Finger::choices(place.fret).iter().filter_map(move |finger| {
                    let next = (*place, *finger);
                    let taken = before.iter().copied().zip(way.iter().copied());
                    let fits = taken.into_iter().all(|one| self.follows(neck, one, next));
                    fits.then(|| [way.as_slice(), &[*finger]].concat())
                })
            };
            ways = ways.into_iter().flat_map(longer).collect();
        }
        ways.into_iter().map(|fingers| Played::alone(neck, group, fingers)).collect()
    }

    /// Can two notes of one string be taken by these fingers without a shift?
    fn follows(self, neck: &Neck, one: (Place, Finger), next: (Place, Finger)) -> bool {
        let (low, high) = if one.0.fret <= next.0.fret { (one, next) } else { (next, one) };
        if low.0.fret.is_open() {
            return true;
        }
        if low.0.fret == high.0.fret {
            return low.1 == high.1;
        }
        low.1 < high.1 && self.holds(neck, low, high)
    }
}

/// What has been played so far.
#[derive(Clone, Default)]
struct Played {
    fingers: Vec<Finger>,
    positions: Vec<HandPosition>,
    /// Where the hand is; nowhere before its first fretted note.
    position: Option<HandPosition>,
    /// The first and the last fretted note.
    ends: Option<[(Place, Finger); 2]>,
    cost_mm: f64,
}

impl Played {
    fn alone(neck: &Neck, group: &[Place], fingers: Vec<Finger>) -> Played {
        let taken = group.iter().copied().zip(fingers.iter().copied());
        let pressed: Vec<_> = taken.filter(|(place, _)| !place.fret.is_open()).collect();
        let mut going_up = pressed.clone();
        going_up.sort_by_key(|(place, _)| place.fret);
        let steps = going_up.windows(2).map(|two| match two {
            [low, high] if low.0.fret < high.0.fret => one_a_fret_mm(neck, *low, *high),
            _ => 0.0,
        });
        let fourths = pressed.iter().filter(|(_, finger)| *finger == Finger::Fourth).count();
        let cost_mm = steps.sum::<f64>() + fourths as f64 * FOURTH_FINGER_MM;
        let lowest = going_up.first();
        let position = lowest.map(|(p, finger)| HandPosition::with_finger(finger.number(), p.fret));
        let ends = pressed.first().copied().zip(pressed.last().copied());
        let ends = ends.map(|(first, last)| [first, last]);
        Played { fingers, positions: position.into_iter().collect(), position, ends, cost_mm }
    }

    /// This, and on another string `next`.
    fn then(mut self, neck: &Neck, next: &Played) -> Played {
        self.cost_mm += next.cost_mm;
        self.fingers.extend(&next.fingers);
        let Some(to) = next.position else {
            return self;
        };
        if let Some(from) = self.position {
            self.cost_mm += shift_mm(neck, from, to);
        }
        if let (Some([_, last]), Some([first, _])) = (self.ends, next.ends) {
            self.cost_mm += crossing_mm(last, first);
        }
        if self.position != Some(to) {
            self.positions.push(to);
        }
        Played { position: next.position, ends: next.ends, ..self }
    }
}

/// Millimetres between two positions of the hand.
pub(crate) fn shift_mm(neck: &Neck, from: HandPosition, to: HandPosition) -> f64 {
    let fret = |position: HandPosition| Fret::new(position.number()).unwrap_or(Fret::HIGHEST);
    neck.span_mm(fret(from), fret(to))
}

/// What it costs to go on with the same finger on another string.
fn crossing_mm(last: (Place, Finger), first: (Place, Finger)) -> f64 {
    match (last.1 == first.1, last.0.fret == first.0.fret) {
        (false, _) => 0.0,
        (true, false) => HOP_MM,
        (true, true) if last.1 == Finger::First => FIRST_FINGER_FLAT_MM,
        (true, true) => OTHER_FINGER_FLAT_MM,
    }
}

fn cheapest(ways: impl Iterator<Item = Played>) -> Option<Played> {
    ways.reduce(|best, next| if next.cost_mm < best.cost_mm { next } else { best })
}

/// The widest stretch of notes in a row on one string.
pub(crate) fn widest(neck: &Neck, places: &[Place]) -> f64 {
    let groups = places.chunk_by(|one, next| one.string == next.string);
    let spans = groups.filter_map(|group| {
        let fretted = || group.iter().map(|place| place.fret).filter(|fret| !fret.is_open());
        Some(neck.span_mm(fretted().min()?, fretted().max()?))
    });
    spans.fold(0.0, f64::max)
}
