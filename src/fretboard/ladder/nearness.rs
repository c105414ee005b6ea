//! How far one shape is from another.

use crate::Shape;

/// What the distance between two shapes is measured in. There is one search for the nearest shape,
/// [`Ladder::nearest`](crate::Ladder::nearest), and several things that a player may want to stay near to.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Nearness {
    /// How far the hand is away along the neck: the difference of the sums of their fret numbers.
    /// An open string is fret 0.
    Frets,
    /// How much higher or lower it sounds as a whole: the difference of the sums of their pitches.
    Height,
    /// How far the voices move: their semitones in all, lowest to lowest and so on; of equals the
    /// frets that the three fingers move in all, in the order of the places.
    Voices,
    /// How many rungs of the ladder away it is.
    Rungs,
}

impl Nearness {
    /// How far one shape is from another on the same ladder, where they lie `rungs` apart.
    pub(super) fn distance(self, one: &Shape, other: &Shape, rungs: usize) -> (u32, u32) {
        match self {
            Nearness::Frets => (sum_of_frets(one).abs_diff(sum_of_frets(other)), 0),
            Nearness::Height => (sum_of_pitches(one).abs_diff(sum_of_pitches(other)), 0),
            Nearness::Voices => (semitones_moved(one, other), frets_moved(one, other)),
            Nearness::Rungs => (rungs as u32, 0),
        }
    }
}

fn sum_of_frets(shape: &Shape) -> u32 {
    shape.frets().map(|fret| u32::from(fret.number())).iter().sum()
}

fn sum_of_pitches(shape: &Shape) -> u32 {
    shape.pitches().map(|pitch| u32::from(pitch.midi())).iter().sum()
}

/// Semitones that the three voices move in all, lowest to lowest and so on.
fn semitones_moved(one: &Shape, other: &Shape) -> u32 {
    let voices = one.going_up().into_iter().zip(other.going_up());
    voices.map(|(here, there)| here.semitones_up_to(there).unsigned_abs()).sum()
}

/// Frets that the three fingers move in all, in the order of the places.
fn frets_moved(one: &Shape, other: &Shape) -> u32 {
    let fingers = one.frets().into_iter().zip(other.frets());
    fingers.map(|(here, there)| u32::from(here.number().abs_diff(there.number()))).sum()
}
