//! Fingers, and three of them at work.

use crate::{Fret, HandPosition, Place};

/// A finger of the fretting hand, or none for an open string.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Finger {
    /// No finger: the string sounds open. Written 0.
    Open,
    /// The index finger.
    First,
    /// The middle finger.
    Second,
    /// The ring finger.
    Third,
    /// The little finger.
    Fourth,
}

impl Finger {
    /// Its number as guitarists write it: 1 to 4, and 0 for an open string.
    #[must_use]
    pub const fn number(self) -> u8 {
        self as u8
    }

    /// Who may play on `fret`.
    pub(super) const fn choices(fret: Fret) -> &'static [Finger] {
        if fret.is_open() {
            &[Finger::Open]
        } else {
            &[Finger::First, Finger::Second, Finger::Third, Finger::Fourth]
        }
    }

    /// How many fingers further it lies than `lower`.
    pub(super) const fn steps_above(self, lower: Finger) -> u8 {
        self.number().saturating_sub(lower.number())
    }

    /// Mean length in mm (Chatzioglou, Pinar and Govsa 2024, 51 adults).
    pub(crate) const fn length_mm(self) -> f64 {
        match self {
            Finger::Open => 0.0,
            Finger::First => 63.9,
            Finger::Second => 70.7,
            Finger::Third => 65.5,
            Finger::Fourth => 53.3,
        }
    }
}

/// Fingers for three places held at once.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Grip {
    fingers: [Finger; 3],
    cost_mm: f64,
    position: HandPosition,
}

impl Grip {
    pub(super) fn new(places: [Place; 3], fingers: [Finger; 3], cost_mm: f64) -> Grip {
        let pressed = places.into_iter().zip(fingers);
        let lowest =
            pressed.filter(|(place, _)| !place.fret.is_open()).min_by_key(|(_, finger)| *finger);
        let position = lowest.map_or(HandPosition::FIRST, |(place, finger)| {
            HandPosition::with_finger(finger.number(), place.fret)
        });
        Grip { fingers, cost_mm, position }
    }

    /// The fingers, in the order of the places that were asked for.
    #[must_use]
    pub const fn fingers(self) -> [Finger; 3] {
        self.fingers
    }

    /// Millimetres by which the fingers leave their ease, with flat, crowded and little fingers
    /// charged in the same coin; 0 for one finger a fret.
    #[must_use]
    pub const fn cost_mm(self) -> f64 {
        self.cost_mm
    }

    /// Where the hand stands.
    #[must_use]
    pub const fn position(self) -> HandPosition {
        self.position
    }
}
