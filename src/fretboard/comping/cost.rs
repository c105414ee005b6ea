//! What a way from stab to stab costs.
//!
//! Counted in frets and not in millimetres: in these every way is cheapest at the end of the neck,
//! where frets are narrow and nobody comps. All numbers are weak estimates, no source.

use fretloom_theory::Pitch;

use crate::{Ease, Neck, Place, Shape};

/// What a shape costs that a hand takes near the end of its reach.
const WIDE: u32 = 3;
/// The lowest note from which on close triads sound clear: E3. Common practice, no source.
const CLEAR: u8 = 52;
/// The fret, counted from the beginning of the neck, above which each one costs.
const LOWER_NECK: u8 = 12;
/// What an open string costs, which rings on when the hand lifts to damp. Common practice, no source.
const OPEN: u32 = 2;
/// What it costs to strike the same shape once more. A step of two frets with a whole grip costs
/// less, so that the triads of a pair take turns.
const AGAIN: u32 = 9;

/// What a shape costs by itself.
pub(super) fn own(neck: &Neck, shape: &Shape) -> u32 {
    let wide = if shape.ease() == Ease::Easy { 0 } else { WIDE };
    let [lowest, ..] = shape.going_up();
    let muddy = u32::from(CLEAR.saturating_sub(lowest.midi()));
    let highest = shape.frets().map(|fret| fret.number()).into_iter().max().unwrap_or(0);
    let low_end = neck.begins_at().number() + LOWER_NECK;
    let open = shape.frets().into_iter().filter(|fret| fret.is_open()).count() as u32;
    wide + muddy + OPEN * open + u32::from(highest.saturating_sub(low_end))
}

/// What it costs to go from one shape to another; `None` where the top voice would go further than
/// so many semitones.
pub(super) fn step(from: &Shape, to: &Shape, top: u8) -> Option<u32> {
    let semitones = top_of(from).semitones_up_to(top_of(to)).unsigned_abs();
    if semitones > u32::from(top) {
        return None;
    }
    if from.places() == to.places() {
        return Some(AGAIN);
    }
    let voices = from.places().into_iter().zip(to.places());
    Some(semitones + voices.map(|(from, to)| way(from, to)).sum::<u32>())
}

fn top_of(shape: &Shape) -> Pitch {
    let [_, _, top] = shape.going_up();
    top
}

/// The frets and strings that a voice goes; an open string takes no finger there.
fn way(from: Place, to: Place) -> u32 {
    let strings = from.string.number().abs_diff(to.string.number());
    let is_held = !from.fret.is_open() && !to.fret.is_open();
    let frets = if is_held { from.fret.number().abs_diff(to.fret.number()) } else { 0 };
    u32::from(strings) + u32::from(frets)
}
