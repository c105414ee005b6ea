//! The fretting hand: which finger goes where in a three-note grip, and what it costs.
//!
//! The hand is measured in millimetres, so that one rule serves a bass in first position and a
//! ukulele at the twelfth fret. This is about notes held *together*; a line has other troubles.

mod grip;
mod position;

pub use grip::{Finger, Grip};
pub use position::HandPosition;

use crate::{Fret, Neck, Place};

/// A hand by its reach.
///
/// Between two fingers the reach is measured from the wire of the lower fret to where a fingertip
/// can first stand in the space of the higher one, since a finger that reaches far does not stand
/// at its wire. No published spans of guitarists were found: 120 mm between first and fourth
/// finger is a rough estimate from finger lengths and angles of 51 adults (Chatzioglou, Pinar and
/// Govsa 2024), and what is left for fingers nearer to each other is our guess.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Fret, Hand, Neck, Place, StringNumber, Tuning};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let place = |(string, fret)| {
///     Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
/// };
/// let g = [(4, 9), (3, 7), (2, 8)].map(place);
/// let grip = Hand::default().grip(&neck, g).unwrap();
/// assert_eq!(grip.fingers().map(|finger| finger.number()), [3, 1, 2]);
/// assert_eq!(grip.position().to_string(), "VII");
/// let no_hand = [(4, 1), (3, 3), (2, 9)].map(place);
/// assert_eq!(Hand::default().grip(&neck, no_hand), None);
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Hand {
    reach_mm: f64,
}

impl Default for Hand {
    fn default() -> Hand {
        Hand { reach_mm: 120.0 }
    }
}

/// How wide two neighbouring fingers stand without stretching, at most: a third of some 90 mm, the
/// comfortable reach of curled fingers. A weak estimate: no source measures it.
const RELAXED_GAP_MM: f64 = 30.0;
/// How far into a space, past the wire before it, a fingertip has its middle: half its width.
const HALF_FINGERTIP_MM: f64 = 8.0;

// Dearer than they are wide. Millimetres, so that they can be weighed against reach; set by which
// fingering players write for the ten grips of each string set, no source.
const FIRST_FINGER_FLAT_MM: f64 = 5.0;
const OTHER_FINGER_FLAT_MM: f64 = 12.0;
const CROWDED_FRET_MM: f64 = 6.0;
const FOURTH_FINGER_MM: f64 = 4.0;

impl Hand {
    /// A hand that reaches `mm` between first and fourth finger; 40 to 200, else `None`.
    #[must_use]
    pub fn reaching_mm(mm: f64) -> Option<Hand> {
        (40.0..=200.0).contains(&mm).then_some(Hand { reach_mm: mm })
    }

    /// Its reach between first and fourth finger.
    #[must_use]
    pub const fn reach_mm(self) -> f64 {
        self.reach_mm
    }

    /// The cheapest fingers for three places held at once, in the order given; `None` where this
    /// hand cannot hold them.
    ///
    /// Every assignment is tried. A higher fret takes a higher finger. On one fret, either one
    /// finger lies flat over the strings between (first, third or fourth finger; nothing below it
    /// may have to sound lower), or two fingers crowd it: on neighbouring strings the longer one on
    /// the higher string number, farther apart the lower finger there. Between equals the lower
    /// fingers win.
    #[must_use]
    pub fn grip(self, neck: &Neck, places: [Place; 3]) -> Option<Grip> {
        let [one, two, three] = places;
        if one.string == two.string || two.string == three.string || one.string == three.string {
            return None;
        }
        let [ones, twos, threes] = places.map(|place| Finger::choices(place.fret));
        let mut best: Option<Grip> = None;
        for &one in ones {
            for &two in twos {
                for &three in threes {
                    let held = Held::new(neck, places, [one, two, three]);
                    let Some(cost_mm) = held.cost_mm(self) else {
                        continue;
                    };
                    if best.is_none_or(|best| cost_mm < best.cost_mm()) {
                        best = Some(Grip::new(places, held.fingers, cost_mm));
                    }
                }
            }
        }
        best
    }

    /// How wide two neighbouring fingers stand without stretching, at most.
    pub(crate) fn relaxed_gap_mm(self) -> f64 {
        self.reach_mm / 4.0
    }

    /// The reach between first and fourth finger that is no stretch yet.
    #[must_use]
    pub fn comfortable_mm(self) -> f64 {
        self.reach_mm * 0.75
    }

    /// With the first finger on `low`, does the finger `steps` above it get to `high`?
    pub(crate) fn reaches(self, neck: &Neck, low: Fret, high: Fret, steps: u8) -> bool {
        let nut_side = Fret::new(high.number().saturating_sub(1)).unwrap_or(low);
        let space = neck.span_mm(nut_side, high);
        let reach = neck.distance_mm(nut_side) - neck.distance_mm(low);
        reach + HALF_FINGERTIP_MM.min(space) <= self.reach_between_mm(steps)
    }

    /// How far two fingers reach whose numbers lie `steps` apart.
    fn reach_between_mm(self, steps: u8) -> f64 {
        match steps {
            1 => self.reach_mm * 0.45,
            2 => self.reach_mm * 0.75,
            _ => self.reach_mm,
        }
    }
}

/// One assignment of fingers on trial.
struct Held<'a> {
    neck: &'a Neck,
    places: [Place; 3],
    fingers: [Finger; 3],
}

impl<'a> Held<'a> {
    fn new(neck: &'a Neck, places: [Place; 3], fingers: [Finger; 3]) -> Held<'a> {
        Held { neck, places, fingers }
    }

    /// What it costs, or that it cannot be done.
    fn cost_mm(&self, hand: Hand) -> Option<f64> {
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
                [low, high] if low.1 != high.1 => self.step_mm(*low, *high),
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
            low.1 < high.1 && self.reaches(hand, low, high)
        } else if low.1 == high.1 {
            self.may_lie_flat(low.1, low.0, high.0)
        } else {
            in_order(low, high)
        };
        possible.then_some(())
    }

    fn reaches(&self, hand: Hand, low: (Place, Finger), high: (Place, Finger)) -> bool {
        let (low_fret, high_fret) = (low.0.fret, high.0.fret);
        let nut_side = Fret::new(high_fret.number() - 1).unwrap_or(low_fret);
        let space = self.neck.span_mm(nut_side, high_fret);
        let reach = self.neck.span_mm(low_fret, nut_side) + HALF_FINGERTIP_MM.min(space);
        reach <= hand.reach_between_mm(high.1.steps_above(low.1))
    }

    /// Does nothing that must sound lie under a finger flat from `one` to `other`?
    fn may_lie_flat(&self, finger: Finger, one: Place, other: Place) -> bool {
        let strings = one.string.min(other.string)..=one.string.max(other.string);
        let mut under = self.places.iter().filter(|p| strings.contains(&p.string));
        finger != Finger::Second && under.all(|place| place.fret >= one.fret)
    }

    /// What two fingers next to each other in the grip cost beyond standing at ease: one a fret,
    /// as far as the frets are no wider than fingers stand.
    fn step_mm(&self, low: (Place, Finger), high: (Place, Finger)) -> f64 {
        if low.0.fret == high.0.fret {
            return CROWDED_FRET_MM;
        }
        let fingers = high.1.steps_above(low.1);
        let one_a_fret = low.0.fret.number() + fingers;
        let one_a_fret = Fret::new(one_a_fret).unwrap_or(Fret::HIGHEST);
        let at_ease = self.neck.span_mm(low.0.fret, one_a_fret);
        let at_ease = at_ease.min(f64::from(fingers) * RELAXED_GAP_MM);
        (self.neck.span_mm(low.0.fret, high.0.fret) - at_ease).abs()
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{StringNumber, Tuning};

    fn neck(tuning: &str) -> Neck {
        Neck::new(Tuning::read(tuning).unwrap())
    }

    /// The grip of `frets` on the strings from `highest` down, side by side.
    fn grip(neck: &Neck, highest: u8, frets: [u8; 3]) -> Option<Grip> {
        let mut string = highest;
        let places = frets.map(|fret| {
            let number = StringNumber::new(string).unwrap();
            string -= 1;
            Place::new(number, Fret::new(fret).unwrap())
        });
        Hand::default().grip(neck, places)
    }

    fn fingers(highest: u8, frets: [u8; 3]) -> Option<[u8; 3]> {
        let grip = grip(&neck("EADGBE"), highest, frets)?;
        Some(grip.fingers().map(Finger::number))
    }

    /// Common practice, no source: the everyday fingerings of the close triads.
    #[test]
    fn everyday_grips_get_their_everyday_fingers() {
        for (highest, frets, expected) in [
            (4, [9, 7, 8], [3, 1, 2]),
            (4, [10, 9, 8], [3, 2, 1]),
            (4, [5, 5, 5], [1, 1, 1]),
            (4, [10, 8, 8], [3, 1, 1]),
            (4, [10, 8, 7], [4, 2, 1]),
            (4, [5, 5, 4], [2, 3, 1]),
            (3, [5, 6, 5], [1, 2, 1]),
            (3, [9, 8, 8], [2, 1, 1]),
            (3, [10, 10, 8], [3, 4, 1]),
            (3, [12, 13, 11], [2, 3, 1]),
            (3, [11, 13, 11], [1, 3, 1]),
            (4, [13, 11, 13], [3, 1, 4]),
            (6, [8, 7, 5], [4, 3, 1]),
            (6, [2, 3, 1], [2, 3, 1]),
            (5, [3, 2, 0], [2, 1, 0]),
            (3, [0, 1, 0], [0, 1, 0]),
            (3, [0, 0, 0], [0, 0, 0]),
        ] {
            assert_eq!(fingers(highest, frets), Some(expected), "{highest}: {frets:?}");
        }
    }

    /// Five frets fit a hand at the fifth fret, six do not at the first; on a bass even five at the
    /// first are out of reach. Common practice, no source.
    #[test]
    fn what_no_hand_can_hold_gets_no_fingers() {
        assert!(fingers(6, [5, 3, 1]).is_some());
        assert!(fingers(6, [6, 3, 1]).is_none());
        assert!(fingers(6, [10, 7, 5]).is_some());
        let bass = neck("EADG");
        assert!(grip(&bass, 4, [4, 2, 1]).is_some());
        assert!(grip(&bass, 4, [5, 3, 1]).is_none());
        assert!(grip(&neck("GCEA"), 4, [7, 4, 1]).is_some());
    }

    #[test]
    fn a_flat_finger_covers_nothing_that_sounds_lower() {
        let neck = neck("EADGBE");
        for frets in [[5, 0, 5], [5, 3, 5]] {
            let [one, _, other] = grip(&neck, 4, frets).unwrap().fingers();
            assert_ne!(one, other, "{frets:?}");
        }
    }

    #[test]
    fn two_notes_on_one_string_are_no_grip() {
        let place = Place::new(StringNumber::FIRST, Fret::OPEN);
        assert_eq!(Hand::default().grip(&neck("EADG"), [place; 3]), None);
    }

    /// Laws over every grip of five frets on three neighbouring strings.
    #[test]
    fn every_grip_keeps_the_order_of_fingers_and_frets() {
        let neck = neck("EADGBE");
        for code in 0u8..216 {
            let frets = [code / 36, code / 6 % 6, code % 6].map(|up| up + 5);
            let Some(grip) = grip(&neck, 4, frets) else {
                continue;
            };
            let fingers = grip.fingers();
            for (one, other) in [(0, 1), (0, 2), (1, 2)] {
                if frets[one] < frets[other] {
                    assert!(fingers[one] < fingers[other], "{frets:?}: {fingers:?}");
                }
                if frets[one] > frets[other] {
                    assert!(fingers[one] > fingers[other], "{frets:?}: {fingers:?}");
                }
            }
            assert!(grip.cost_mm() >= 0.0);
        }
    }

    #[test]
    fn a_hand_has_a_size() {
        assert_eq!(Hand::reaching_mm(39.0), None);
        assert_eq!(Hand::reaching_mm(f64::NAN), None);
        let small = Hand::reaching_mm(60.0).unwrap();
        let places = [(4, 5), (3, 3), (2, 1)].map(|(string, fret)| {
            Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
        });
        assert_eq!(small.grip(&neck("EADGBE"), places), None);
    }
}
