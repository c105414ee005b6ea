//! An assignment of fingers to three places that are held at once: whether a hand can hold it, and
//! what it costs.

use super::Hand;
use crate::{Finger, Fret, Neck, Place};

/// How wide two neighbouring fingers stand without stretching, at most: a third of some 90 mm, the
/// comfortable reach of curled fingers. A weak estimate: no source measures it.
const RELAXED_GAP_MM: f64 = 30.0;

// What a grip costs besides the reach between its fingers, in millimetres, so that both can be
// added. Set by which fingering players write for the ten grips of each string set, no source.

/// The first finger lies flat over two strings or three.
const FIRST_FINGER_FLAT_MM: f64 = 5.0;
/// Another finger does.
const OTHER_FINGER_FLAT_MM: f64 = 12.0;
/// Two fingers stand on one fret.
const CROWDED_FRET_MM: f64 = 6.0;
/// The fourth finger, the weakest, takes part.
const FOURTH_FINGER_MM: f64 = 4.0;

/// An assignment of fingers to three places.
pub(super) struct Assignment<'a> {
    neck: &'a Neck,
    places: [Place; 3],
    fingers: [Finger; 3],
}

impl<'a> Assignment<'a> {
    pub(super) fn new(neck: &'a Neck, places: [Place; 3], fingers: [Finger; 3]) -> Assignment<'a> {
        Assignment { neck, places, fingers }
    }

    /// What it costs, or that it cannot be done.
    pub(super) fn cost_mm(&self, hand: Hand) -> Option<f64> {
        let held = self.going_up();
        let open = held.partition_point(|(place, _)| place.fret.is_open());
        let pressed = held.get(open..)?;
        let mut flat = [false; 5];
        for (index, &low) in pressed.iter().enumerate() {
            for &high in pressed.iter().skip(index + 1) {
                self.check(hand, low, high)?;
                if low.1 == high.1 {
                    flat[usize::from(low.1.number())] = true;
                }
            }
        }
        let flats = flat.iter().zip(0u8..).filter(|(flat, _)| **flat);
        let flats: f64 = flats.map(|(_, finger)| flat_mm(finger)).sum();
        let fourth = self.fingers.contains(&Finger::Fourth);
        let steps: f64 = pressed
            .windows(2)
            .map(|two| match two {
                [low, high] if low.1 != high.1 => step_mm(self.neck, *low, *high),
                _ => 0.0,
            })
            .sum();
        Some(flats + steps + if fourth { FOURTH_FINGER_MM } else { 0.0 })
    }

    /// The places with their fingers: open strings, then from the lowest fret and finger up.
    fn going_up(&self) -> [(Place, Finger); 3] {
        let [one, two, three] = self.places;
        let [first, second, third] = self.fingers;
        let mut held = [(one, first), (two, second), (three, third)];
        held.sort_by_key(|(place, finger)| (place.fret, *finger));
        held
    }

    /// Can these two be held together? The first stands on the lower fret, or the same.
    fn check(&self, hand: Hand, low: (Place, Finger), high: (Place, Finger)) -> Option<()> {
        let possible = if low.0.fret < high.0.fret {
            low.1 < high.1 && holds(self.neck, hand, low, high)
        } else if low.1 == high.1 {
            self.may_lie_flat(low.1, low.0, high.0)
        } else {
            in_order(low, high)
        };
        possible.then_some(())
    }

    /// Does nothing that must sound lie under a finger flat from `one` to `other`?
    fn may_lie_flat(&self, finger: Finger, one: Place, other: Place) -> bool {
        let strings = one.string.min(other.string)..=one.string.max(other.string);
        let mut under = self.places.iter().filter(|p| strings.contains(&p.string));
        finger != Finger::Second && under.all(|place| place.fret >= one.fret)
    }
}

fn flat_mm(finger: u8) -> f64 {
    if finger == Finger::First.number() { FIRST_FINGER_FLAT_MM } else { OTHER_FINGER_FLAT_MM }
}

/// On one fret, do two fingers lie in the order that hands have?
fn in_order(one: (Place, Finger), other: (Place, Finger)) -> bool {
    let (ceiling, floor) = if one.0.string > other.0.string { (one, other) } else { (other, one) };
    if one.0.string.is_next_to(other.0.string) {
        ceiling.1.length_mm() > floor.1.length_mm()
    } else {
        ceiling.1 < floor.1
    }
}

/// What two fingers next to each other in the grip cost beyond standing at ease.
fn step_mm(neck: &Neck, low: (Place, Finger), high: (Place, Finger)) -> f64 {
    if low.0.fret == high.0.fret { CROWDED_FRET_MM } else { one_a_fret_mm(neck, low, high) }
}

/// Do two fingers stand on two frets at once? The first is the lower fret.
fn holds(neck: &Neck, hand: Hand, low: (Place, Finger), high: (Place, Finger)) -> bool {
    hand.reaches(neck, low.0.fret, high.0.fret, high.1.steps_above(low.1))
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
