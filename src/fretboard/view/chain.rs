//! Chains: close shapes of both triads in turn, across the strings.

use super::place::ViewPlace;
use crate::{Neck, Rung, Shape};

/// What each fret costs by which a grip differs from the one before. The hand's way along the neck
/// costs about twice as much for a fret. Our guess, no source.
const UNLIKE_MM: f64 = 12.0;

/// A string that is open in one grip and fretted in the other counts as so many frets of
/// difference. That is more than the open string saves on the hand's way. Our guess, no source.
const OPENED_FRETS: u32 = 4;

/// Close shapes of both triads in turn, each on other strings than the one before and higher.
#[derive(Clone, PartialEq, Debug)]
pub struct Chain {
    rungs: Vec<Rung>,
    cost_mm: f64,
}

impl Chain {
    /// These shapes, which cost so much.
    pub(super) fn of(rungs: Vec<Rung>, cost_mm: f64) -> Chain {
        Chain { rungs, cost_mm }
    }

    /// Its shapes in the order of playing.
    #[must_use]
    pub fn rungs(&self) -> &[Rung] {
        &self.rungs
    }

    /// What it costs, as [`ChainQuery::chains`](crate::ChainQuery::chains) counts it.
    #[cfg(test)]
    pub(crate) const fn cost_mm(&self) -> f64 {
        self.cost_mm
    }

    /// Its places with fingers, numbered by shapes; a place of two shapes belongs to the first.
    #[must_use]
    pub fn places(&self) -> Vec<ViewPlace> {
        let mut places: Vec<ViewPlace> = Vec::new();
        for (index, rung) in self.rungs.iter().enumerate() {
            let notes = rung.shape.places().into_iter().zip(rung.shape.pitches());
            for (number, (place, pitch)) in notes.enumerate() {
                let finger = rung.shape.fingers().and_then(|f| f.get(number).copied());
                let plain = ViewPlace::plain((place, pitch, rung.which));
                if !places.iter().any(|seen| seen.place == place) {
                    places.push(ViewPlace { finger, order: index + 1, ..plain });
                }
            }
        }
        places
    }
}

/// What a shape costs by itself.
pub(super) fn held_mm(shape: &Shape) -> f64 {
    shape.grip().map_or(0.0, |grip| grip.cost_mm())
}

/// What it costs to climb from one rung to the next; `None` where that is no higher or of the same
/// triad.
pub(super) fn climb_mm(neck: &Neck, last: &Rung, next: &Rung) -> Option<f64> {
    let climbs = last.shape.cmp_height(&next.shape).is_lt() && last.which != next.which;
    climbs.then(|| step_mm(neck, &last.shape, &next.shape))
}

/// What it costs to go from one shape to the next. Each fret of the way costs the same: by its true
/// width every chain would be cheapest at the end of the neck, where frets are narrowest.
pub(super) fn step_mm(neck: &Neck, one: &Shape, next: &Shape) -> f64 {
    let frets = one.position().number().abs_diff(next.position().number());
    f64::from(frets) * mean_fret_mm(neck) + f64::from(unlike(neck, one, next)) * UNLIKE_MM
}

/// The mean width of a fret below the octave, a twelfth of half the string.
fn mean_fret_mm(neck: &Neck) -> f64 {
    neck.tuning().scale_mm() / 24.0
}

/// By how many frets two grips differ in all, string for string, wherever on the neck each of them
/// lies.
pub(super) fn unlike(neck: &Neck, one: &Shape, next: &Shape) -> u32 {
    let frets = relative(neck, one).into_iter().zip(relative(neck, next));
    let moved: u32 = frets.map(|(one, next)| u32::from(one.abs_diff(next))).sum();
    let open = one.frets().into_iter().zip(next.frets());
    let opened = open.filter(|(one, next)| one.is_open() != next.is_open()).count();
    moved + opened as u32 * OPENED_FRETS
}

/// The frets of a grip above its lowest one; an open string is stopped where it begins.
fn relative(neck: &Neck, shape: &Shape) -> [u8; 3] {
    let frets = shape.places().map(|place| neck.stopped_at(place).number());
    let lowest = frets.into_iter().min().unwrap_or_default();
    frets.map(|fret| fret - lowest)
}
