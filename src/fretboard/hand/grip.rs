//! Three fingers at work.

use std::fmt;

use crate::{Finger, Fret, HandPosition, Neck, Place, StringSet};

/// A finger that lies flat over several strings.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Barre {
    /// Which finger.
    pub finger: Finger,
    /// On which fret.
    pub fret: Fret,
    /// The strings that it makes sound; others may lie under it.
    pub strings: StringSet,
}

impl fmt::Display for Barre {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} finger lies flat over strings {}", self.finger.word(), self.strings)
    }
}

/// Fingers for three places held at once.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Grip {
    places: [Place; 3],
    fingers: [Finger; 3],
    cost_mm: f64,
    position: HandPosition,
}

impl Grip {
    pub(super) fn new(neck: &Neck, places: [Place; 3], fingers: [Finger; 3], cost_mm: f64) -> Grip {
        let position = HandPosition::holding(neck, &places, &fingers);
        let position = position.unwrap_or(HandPosition::lowest_on(neck));
        Grip { places, fingers, cost_mm, position }
    }

    /// The places that are held, in the order in which they were asked for.
    #[must_use]
    pub const fn places(self) -> [Place; 3] {
        self.places
    }

    /// The fingers, in the order of the places that were asked for.
    #[must_use]
    pub const fn fingers(self) -> [Finger; 3] {
        self.fingers
    }

    /// What it costs, in millimetres: how far the fingers leave the position in which they stand at
    /// ease, and what a flat finger, two on one fret and the fourth one add. One finger a fret costs
    /// 0.
    #[must_use]
    pub(crate) const fn cost_mm(self) -> f64 {
        self.cost_mm
    }

    /// Where the hand stands.
    #[must_use]
    pub const fn position(self) -> HandPosition {
        self.position
    }

    /// The finger that lies flat, if one does; of three places no more than one finger can.
    #[must_use]
    pub fn barre(self) -> Option<Barre> {
        let pressed = self.going_up();
        let flat = pressed.windows(2).find_map(|two| match two {
            [(place, one), (_, other)] if one == other => Some((place.fret, *one)),
            _ => None,
        });
        let (fret, finger) = flat?;
        let mut under = pressed.iter().filter(|(_, with)| *with == finger);
        let first = StringSet::only(under.next()?.0.string);
        let strings = under.fold(first, |set, (place, _)| set.with(place.string));
        Some(Barre { finger, fret, strings })
    }

    /// Why a hand would take it, in words: what lies flat, what stands crowded or apart, and
    /// whether the little finger is needed. Of all grips of the same places no two read alike.
    #[must_use]
    pub fn reason(self) -> String {
        let pressed = self.going_up();
        match pressed.as_slice() {
            [] => return "all strings open".to_owned(),
            [(_, finger)] => return format!("{} finger alone", finger.word()),
            _ => {}
        }
        let mut said: Vec<String> = self.barre().iter().map(ToString::to_string).collect();
        said.extend(steps(&pressed, self.position));
        let with_fourth = self.fingers.contains(&Finger::Fourth);
        let fourth = if with_fourth { "with the little finger" } else { "no little finger" };
        said.push(fourth.to_owned());
        said.join(", ")
    }

    /// What is pressed, from the lowest fret and finger up.
    fn going_up(self) -> Vec<(Place, Finger)> {
        let held = self.places.into_iter().zip(self.fingers);
        let mut pressed: Vec<_> = held.filter(|(place, _)| !place.fret.is_open()).collect();
        pressed.sort_by_key(|(place, finger)| (place.fret, *finger));
        pressed
    }
}

/// How each finger stands to the one below it; one sentence where all stand one a fret.
fn steps(pressed: &[(Place, Finger)], position: HandPosition) -> Vec<String> {
    let moves = || pressed.windows(2).filter_map(|two| <&[_; 2]>::try_from(two).ok());
    let moves = || moves().filter(|[low, high]| low.1 != high.1);
    let odd: Vec<String> = moves().filter_map(|[low, high]| odd_step(*low, *high)).collect();
    if odd.is_empty() && moves().next().is_some() {
        return vec![format!("one finger a fret in position {position}")];
    }
    odd
}

/// What two fingers do that do not stand one a fret.
fn odd_step(low: (Place, Finger), high: (Place, Finger)) -> Option<String> {
    let frets = high.0.fret.number() - low.0.fret.number();
    let two = format!("{} and {} finger", low.1.word(), high.1.word());
    match frets.cmp(&high.1.steps_above(low.1)) {
        _ if frets == 0 => Some(format!("{two} beside each other on fret {}", low.0.fret)),
        std::cmp::Ordering::Equal => None,
        std::cmp::Ordering::Greater => Some(format!("{two} stretch over {frets} frets")),
        std::cmp::Ordering::Less => Some(format!("{two} close together")),
    }
}
