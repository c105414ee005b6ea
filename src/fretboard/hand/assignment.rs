//! Fingers for places that are held at once: which a hand has, and what they cost.
//!
//! What is pressed is taken in the order of a hand: from the lowest fret up, and at one fret from
//! the highest string number down. In that order fingers never go back: a higher fret takes a higher
//! finger, and at one fret the same finger lies flat or the next ones rise towards string 1. So
//! there are few assignments, however many strings there are.

use std::cmp::Reverse;

use super::Hand;
use crate::{Finger, Fret, Neck, Place};

/// How wide two neighbouring fingers stand without stretching, at most: a third of some 90 mm, the
/// comfortable reach of curled fingers. A weak estimate: no source measures it.
const RELAXED_GAP_MM: f64 = 30.0;

// What a grip costs besides the reach between its fingers, in millimetres, so that both can be
// added. Set by which fingering players write for the ten grips of each string set, no source.

/// The first finger lies flat over several strings.
const FIRST_FINGER_FLAT_MM: f64 = 5.0;
/// Another finger does.
const OTHER_FINGER_FLAT_MM: f64 = 12.0;
/// Two fingers stand on one fret.
const CROWDED_FRET_MM: f64 = 6.0;
/// The fourth finger, the weakest, takes part.
const FOURTH_FINGER_MM: f64 = 4.0;

/// How many strings side by side a flat third or fourth finger lies over, at most: common practice,
/// no source. A flat first finger lies over all there are; a second does not lie flat.
const MOST_UNDER_THIRD_OR_FOURTH: u8 = 3;

impl Hand {
    /// Calls `visit` with every assignment of fingers with which this hand holds all of `places` at
    /// once and with its cost in millimetres, until it says `false`. The fingers are in the order of
    /// the places, the lower ones first. There is none where two places are on one string.
    pub(crate) fn each_assignment(
        self,
        neck: &Neck,
        places: &[Place],
        visit: &mut impl FnMut(&[Finger], f64) -> bool,
    ) {
        if have_strings_of_their_own(places) {
            Search::new(neck, self, places).go_on(0, visit);
        }
    }
}

fn have_strings_of_their_own(places: &[Place]) -> bool {
    let is_free =
        |(at, place): (usize, &Place)| places[..at].iter().all(|it| it.string != place.string);
    places.iter().enumerate().all(is_free)
}

/// The search for assignments: one place after another gets a finger, in the order of a hand.
struct Search<'a> {
    neck: &'a Neck,
    hand: Hand,
    places: &'a [Place],
    /// Indices of the places that are pressed, in the order of a hand.
    pressed: Vec<usize>,
    /// By place; those that have none yet are open.
    fingers: Vec<Finger>,
}

impl<'a> Search<'a> {
    fn new(neck: &'a Neck, hand: Hand, places: &'a [Place]) -> Search<'a> {
        let is_pressed = |index: &usize| !places[*index].fret.is_open();
        let mut pressed: Vec<usize> = (0..places.len()).filter(is_pressed).collect();
        pressed.sort_by_key(|index| (places[*index].fret, Reverse(places[*index].string)));
        Search { neck, hand, places, pressed, fingers: vec![Finger::Open; places.len()] }
    }

    /// Gives a finger to the pressed place number `at` and to those after it; `false` to stop.
    fn go_on(&mut self, at: usize, visit: &mut impl FnMut(&[Finger], f64) -> bool) -> bool {
        let Some(&index) = self.pressed.get(at) else {
            return visit(&self.fingers, self.cost_mm());
        };
        for &finger in Finger::choices(self.places[index].fret) {
            if self.may_take(at, finger) {
                self.fingers[index] = finger;
                if !self.go_on(at + 1, visit) {
                    return false;
                }
            }
        }
        true
    }

    /// May the pressed place number `at` be taken with `finger` beside those before it?
    fn may_take(&self, at: usize, finger: Finger) -> bool {
        let here = self.places[self.pressed[at]];
        self.pressed[..at].iter().all(|&index| {
            let (low, with) = (self.places[index], self.fingers[index]);
            match low.fret == here.fret {
                true if with == finger => self.may_lie_flat(finger, low, here),
                true => with < finger,
                false => with < finger && self.reaches((low, with), (here, finger)),
            }
        })
    }

    fn reaches(&self, low: (Place, Finger), high: (Place, Finger)) -> bool {
        self.hand.reaches(self.neck, low.0.fret, high.0.fret, high.1.steps_above(low.1))
    }

    /// May a finger lie flat from `one` to `other`, and does nothing that must sound lower lie under
    /// it?
    fn may_lie_flat(&self, finger: Finger, one: Place, other: Place) -> bool {
        let across = one.string.number().abs_diff(other.string.number());
        let is_able = match finger {
            Finger::First => true,
            Finger::Third | Finger::Fourth => across < MOST_UNDER_THIRD_OR_FOURTH,
            Finger::Second | Finger::Open => false,
        };
        let strings = one.string.min(other.string)..=one.string.max(other.string);
        let mut under = self.places.iter().filter(|place| strings.contains(&place.string));
        is_able && under.all(|place| place.fret >= one.fret)
    }

    fn cost_mm(&self) -> f64 {
        let held = |index: &usize| (self.places[*index], self.fingers[*index]);
        let mut cost = if self.fingers.contains(&Finger::Fourth) { FOURTH_FINGER_MM } else { 0.0 };
        let mut flat = Finger::Open;
        for two in self.pressed.windows(2) {
            let (low, high) = (held(&two[0]), held(&two[1]));
            if low.1 != high.1 {
                cost += step_mm(self.neck, low, high);
            } else if flat != low.1 {
                flat = low.1;
                cost += flat_mm(flat);
            }
        }
        cost
    }
}

fn flat_mm(finger: Finger) -> f64 {
    if finger == Finger::First { FIRST_FINGER_FLAT_MM } else { OTHER_FINGER_FLAT_MM }
}

/// What two fingers next to each other in the grip cost beyond standing at ease.
fn step_mm(neck: &Neck, low: (Place, Finger), high: (Place, Finger)) -> f64 {
    if low.0.fret == high.0.fret { CROWDED_FRET_MM } else { one_a_fret_mm(neck, low, high) }
}

/// What two fingers on a lower and a higher fret cost beyond standing at ease: one a fret, as far
/// as the frets are no wider than fingers stand.
fn one_a_fret_mm(neck: &Neck, low: (Place, Finger), high: (Place, Finger)) -> f64 {
    let fingers = high.1.steps_above(low.1);
    let one_a_fret = Fret::new(low.0.fret.number() + fingers).unwrap_or(Fret::HIGHEST);
    let at_ease = neck.span_mm(low.0.fret, one_a_fret);
    let at_ease = at_ease.min(f64::from(fingers) * RELAXED_GAP_MM);
    (neck.span_mm(low.0.fret, high.0.fret) - at_ease).abs()
}
