//! A shape as the hand held it.

use fretloom_fretboard::{Finger, Neck, Place, ShapeQuery};
use fretloom_theory::{Inversion, Pitch, SpelledTriad, TriadQuality};

use crate::answer::line::InKey;
use crate::answer::refusal::Refusal;
use crate::store::KeptShape;

/// A shape as the hand held it.
#[derive(Clone, PartialEq, Debug)]
pub struct HeldShape {
    /// The triad.
    pub triad: SpelledTriad,
    /// Its notes, from the highest string number to the lowest.
    pub notes: Vec<HeldNote>,
}

/// A note of a shape.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct HeldNote {
    /// Where it is held.
    pub place: Place,
    /// What sounds.
    pub pitch: Pitch,
    /// With which finger; `None` where no hand holds it at once.
    pub finger: Option<Finger>,
}

/// As near as another instrument may have it, in octaves.
const OCTAVES: [i8; 7] = [0, -1, 1, -2, 2, -3, 3];

impl HeldShape {
    pub(super) fn of(kept: &KeptShape, neck: &Neck) -> Result<HeldShape, Refusal> {
        let fingers = kept.fingers().iter().copied().map(Some).chain(std::iter::repeat(None));
        let note = |(place, finger): (&Place, Option<Finger>)| {
            Some(HeldNote { place: *place, pitch: neck.pitch_at(*place)?, finger })
        };
        let notes = kept.places().iter().zip(fingers).map(note).collect::<Option<_>>();
        let notes = notes.ok_or(Refusal::ShapeNotThere)?;
        Ok(HeldShape { triad: kept.triad().parse()?, notes })
    }

    /// Which member sounds lowest, and whether that is a matter of names alone.
    #[must_use]
    pub fn inversion(&self) -> Option<(Inversion, bool)> {
        let lowest = self.notes.iter().map(|note| note.pitch).min()?;
        let (index, _) = self.triad.member(lowest.pitch_class())?;
        let by_name_only = self.triad.quality() == TriadQuality::Augmented;
        let inversion = match index {
            0 => Inversion::Root,
            1 => Inversion::First,
            _ => Inversion::Second,
        };
        Some((inversion, by_name_only))
    }

    /// The same on another neck: with the same pitches, or these some octaves away, or else in the same
    /// inversion.
    pub(super) fn on(self, home: &Neck, neck: &Neck) -> Result<(HeldShape, InKey), Refusal> {
        if home.tuning() == neck.tuning() {
            return Ok((self, InKey::Here));
        }
        let shapes = ShapeQuery::default().shapes(neck, self.triad.triad());
        let going_up = |pitches: &mut Vec<Pitch>| pitches.sort_unstable();
        let mut wanted: Vec<Pitch> = self.notes.iter().map(|note| note.pitch).collect();
        going_up(&mut wanted);
        let found = OCTAVES.into_iter().find_map(|octaves| {
            let up = 12 * i32::from(octaves);
            let pitches: Vec<Pitch> = wanted.iter().map(|at| at.up(up)).collect::<Option<_>>()?;
            let shape = shapes.iter().find(|shape| shape.going_up().as_slice() == pitches)?;
            Some((shape, if octaves == 0 { InKey::Here } else { InKey::Octaves(octaves) }))
        });
        let alike = || {
            let inversion = self.inversion().map(|(inversion, _)| inversion);
            let same = shapes.iter().find(|shape| Some(shape.inversion()) == inversion);
            Some((same.or(shapes.first())?, InKey::MadeAnew))
        };
        let (shape, how) = found.or_else(alike).ok_or(Refusal::ShapeNotThere)?;
        let fingers = shape.fingers().map_or([None; 3], |fingers| fingers.map(Some));
        let notes = shape.places().into_iter().zip(shape.pitches()).zip(fingers);
        let notes = notes.map(|((place, pitch), finger)| HeldNote { place, pitch, finger });
        Ok((HeldShape { triad: self.triad, notes: notes.collect() }, how))
    }
}
