//! The shape in hand over each chord, where the hand is locked to a part of the neck.

use std::cell::RefCell;
use std::collections::HashMap;

use fretloom_fretboard::{Hand, Neck, Place, Shape, ShapePlaces, ShapeQuery, VoiceMovement};
use fretloom_theory::{Plan, PlannedChord, SpelledTriad};

use super::question::ChangesQuestion;
use crate::answer::pairs::NamedPair;
use crate::answer::refusal::Refusal;
use crate::answer::shapes::NamedShape;

/// The shape in hand over a chord, and how the fingers come to it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ShapeInHand {
    /// The shape, of one of the triads of the pair.
    pub shape: NamedShape,
    /// How its voices come from the shape before, those of the first chord from the last one; `None`
    /// where nothing comes before.
    pub movement: Option<VoiceMovement>,
    /// How many shapes of the pair lie in that part of the neck.
    pub choices: usize,
}

/// The shapes of a part of a neck, for a hand.
pub(super) struct Shapes<'a> {
    neck: &'a Neck,
    hand: Hand,
    /// Does the last chord lead to the first?
    goes_round: bool,
    places: ShapePlaces<'a>,
    /// Shapes with their fingers, which take time to find.
    held: RefCell<HashMap<[Place; 3], Shape>>,
}

impl<'a> Shapes<'a> {
    /// Those of the part of the neck that is asked for; `None` where none is.
    pub(super) fn of(
        neck: &'a Neck,
        question: &ChangesQuestion,
    ) -> Result<Option<Shapes<'a>>, Refusal> {
        let Some(region) = question.region else { return Ok(None) };
        region.check(neck)?;
        if let Some(strings) = region.strings().filter(|strings| strings.len() < 3) {
            return Err(Refusal::NotThreeStrings(strings));
        }
        let query = ShapeQuery::default().in_region(region).for_hand(question.hand);
        Ok(Some(Shapes {
            neck,
            hand: question.hand,
            goes_round: !question.wishes.ends,
            places: ShapePlaces::new(neck, query),
            held: RefCell::default(),
        }))
    }

    pub(super) fn places(&self) -> &ShapePlaces<'a> {
        &self.places
    }

    /// The shape in hand over the chord of a plan with this index, whose pair has this name.
    pub(super) fn in_hand(
        &self,
        plan: &Plan,
        chord: usize,
        pair: NamedPair,
    ) -> Option<ShapeInHand> {
        let planned = plan.chords().get(chord)?;
        let shape = self.shape(planned)?;
        let round = || plan.chords().last().filter(|_| self.goes_round);
        let before = match chord.checked_sub(1) {
            Some(before) => plan.chords().get(before),
            None => round(),
        };
        let before = before.and_then(|before| self.shape(before));
        Some(ShapeInHand {
            shape: NamedShape::new(self.neck, name_of(&shape, pair), &self.held(shape)),
            movement: before.map(|before| VoiceMovement::between(self.neck, &before, &shape)),
            choices: self.places.shapes(planned.pair()).len(),
        })
    }

    fn shape(&self, planned: &PlannedChord) -> Option<Shape> {
        self.places.shape(planned.pair(), planned.place()?)
    }

    fn held(&self, shape: Shape) -> Shape {
        let mut held = self.held.borrow_mut();
        *held.entry(shape.places()).or_insert_with(|| shape.held_by(self.neck, self.hand))
    }
}

/// What the triad of a shape is called in its pair. An augmented triad has three names for one sound.
fn name_of(shape: &Shape, pair: NamedPair) -> SpelledTriad {
    let [first, second] = pair.names();
    let sounds = |name: SpelledTriad| name.triad().set() == shape.triad().set();
    if sounds(first) { first } else { second }
}
