//! One way to finger three places that are held at once, on trial.

use super::{CROWDED_FRET_MM, FIRST_FINGER_FLAT_MM, FOURTH_FINGER_MM, OTHER_FINGER_FLAT_MM};
use super::{Finger, Hand, one_a_fret_mm};
use crate::{Neck, Place};

/// One assignment of fingers on trial.
pub(super) struct Held<'a> {
    neck: &'a Neck,
    places: [Place; 3],
    fingers: [Finger; 3],
}

impl<'a> Held<'a> {
    pub(super) fn new(neck: &'a Neck, places: [Place; 3], fingers: [Finger; 3]) -> Held<'a> {
        Held { neck, places, fingers }
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
            low.1 < high.1 && hand.holds(self.neck, low, high)
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
    if one.0.string.is_beside(other.0.string) {
        ceiling.1.length_mm() > floor.1.length_mm()
    } else {
        ceiling.1 < floor.1
    }
}

/// What two fingers next to each other in the grip cost beyond standing at ease.
fn step_mm(neck: &Neck, low: (Place, Finger), high: (Place, Finger)) -> f64 {
    if low.0.fret == high.0.fret { CROWDED_FRET_MM } else { one_a_fret_mm(neck, low, high) }
}
