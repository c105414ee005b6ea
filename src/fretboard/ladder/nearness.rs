//! Which rung is nearest to a shape.

use super::{Ladder, Rung};
use crate::Shape;

/// What the distance between two shapes is measured in. There is one search for the nearest shape,
/// [`Ladder::nearest`], and several things that a player may want to stay near to.
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

impl Ladder {
    /// The rung nearest to a shape, which need not be on this ladder, among those that are wanted;
    /// of equally near ones the lowest.
    ///
    /// ```
    /// use fretloom_fretboard::{Ladder, Nearness, Neck, ShapeQuery, Side, Tuning};
    /// use fretloom_theory::SpelledTriad;
    /// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
    /// let pair = ["E", "F"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
    /// let ladder = Ladder::new(&neck, pair, &ShapeQuery::default().on("3-2-1".parse().unwrap()));
    /// let e = ladder.rungs()[2].shape; // E 4-5-4
    /// let of_f = ladder.nearest(&e, Nearness::Voices, |rung| rung.side == Side::Second);
    /// let f = ladder.rungs()[of_f.unwrap()].shape;
    /// assert_eq!(f.frets().map(|fret| fret.number()), [5, 6, 5]);
    /// ```
    #[must_use]
    pub fn nearest(
        &self,
        to: &Shape,
        by: Nearness,
        wanted: impl Fn(&Rung) -> bool,
    ) -> Option<usize> {
        let rungs = self.rungs.iter().enumerate().filter(|(_, rung)| wanted(rung));
        let height = self.rungs.partition_point(|rung| rung.shape.cmp_height(to).is_lt());
        let far = |index: usize, there: &Shape| match by {
            Nearness::Frets => (sum_of_frets(to).abs_diff(sum_of_frets(there)), 0),
            Nearness::Height => (sum_of_pitches(to).abs_diff(sum_of_pitches(there)), 0),
            Nearness::Voices => (semitones_moved(to, there), frets_moved(to, there)),
            Nearness::Rungs => (height.abs_diff(index) as u32, 0),
        };
        rungs.min_by_key(|(index, rung)| far(*index, &rung.shape)).map(|(index, _)| index)
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
