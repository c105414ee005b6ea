//! The fretting hand: which finger goes where in a three-note grip, and what it costs.
//!
//! The hand is measured in millimetres, so that one rule serves a bass in first position and a
//! ukulele at the twelfth fret. A [`Grip`] holds its notes *together*; for notes one
//! after another see [`FingeringQuery`](crate::FingeringQuery).

mod assignment;
mod ease;
mod finger;
mod grip;
mod grips;
mod position;

pub use ease::Ease;
pub use finger::Finger;
pub use grip::{Barre, Grip};
pub use position::HandPosition;

use crate::{Fret, Neck};

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

/// How far into a space, past the wire before it, a fingertip has its middle: half its width.
const HALF_FINGERTIP_MM: f64 = 8.0;

/// From this part of the reach on a stretch is wide. For the default hand that is a grip of four
/// frets in the lowest position of a guitar, which players know as wide; no source measures it.
const WIDE_PART: f64 = 0.8;

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

    /// How hard a stretch over `mm` is that this hand can take.
    #[must_use]
    pub(crate) fn ease_of(self, mm: f64) -> Ease {
        if mm >= self.reach_mm * WIDE_PART { Ease::Wide } else { Ease::Easy }
    }

    /// How far above the first finger another stands at ease in a line, at most, by how many fingers
    /// it is above. Index and middle part more easily than middle and ring (Chatzioglou, Pinar and
    /// Govsa 2024); the parts are a weak estimate, no source.
    pub(crate) fn at_ease_mm(self, steps: u8) -> f64 {
        match steps {
            0 => 0.0,
            1 => self.reach_mm * 0.38,
            2 => self.reach_mm * 0.55,
            _ => self.reach_mm * 0.75,
        }
    }

    /// How far two fingers reach whose numbers lie `steps` apart.
    fn reach_between_mm(self, steps: u8) -> f64 {
        match steps {
            1 => self.reach_mm * 0.45,
            2 => self.reach_mm * 0.75,
            _ => self.reach_mm,
        }
    }

    /// With one finger on `low`, does the finger `steps` above it get to `high`?
    pub(crate) fn reaches(self, neck: &Neck, low: Fret, high: Fret, steps: u8) -> bool {
        let nut_side = Fret::new(high.number().saturating_sub(1)).unwrap_or(low);
        let space = neck.span_mm(nut_side, high);
        let reach = neck.distance_mm(nut_side) - neck.distance_mm(low);
        reach + HALF_FINGERTIP_MM.min(space) <= self.reach_between_mm(steps)
    }
}

#[cfg(test)]
mod tests;
