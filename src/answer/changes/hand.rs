//! The shape in hand over each chord, where the hand is locked to a part of the neck.

use std::cell::RefCell;
use std::collections::HashMap;

use fretloom_fretboard::{
    Fret, Hand, Neck, Place, Region, Shape, ShapePlaces, ShapeQuery, StringNumber, VoiceMove,
    VoiceMovement,
};
use fretloom_theory::{
    ChartChoice, Chorus, PairPlaces, Plan, PlanCost, PlannedChord, SpelledTriad, Triad, TriadPair,
};

use super::question::ChangesQuestion;
use super::stretch::Stretch;
use crate::answer::pairs::NamedPair;
use crate::answer::refusal::Refusal;
use crate::answer::shapes::{NamedShape, to_a_tenth};

/// The shape in hand over a chord, and how the fingers come to it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ShapeInHand {
    /// The shape, of one of the triads of the pair.
    pub shape: NamedShape,
    /// The shape before, that of the last chord before the first one; `None` where nothing comes before.
    pub before: Option<NamedShape>,
    /// How its voices come from there.
    pub movement: Option<VoiceMovement>,
    /// How many shapes of the pair lie in that part of the neck.
    pub choices: usize,
    /// Has the player chosen it among them?
    pub is_settled: bool,
}

/// How a voice comes to a shape, with frets as they are written.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct VoiceWay {
    /// Where it comes from.
    pub from: (StringNumber, Fret),
    /// Where it goes.
    pub to: (StringNumber, Fret),
    /// How many frets it goes up the neck; towards the nut they are negative.
    pub frets: i8,
    /// How far that is along the neck, to a tenth of a millimetre.
    pub mm: f64,
}

impl ShapeInHand {
    /// The longest way that a voice goes, to a tenth of a millimetre; `None` where nothing comes before.
    #[must_use]
    pub fn moved_mm(&self) -> Option<f64> {
        self.movement.map(|movement| to_a_tenth(movement.largest_mm()))
    }

    /// How its voices come to it, that on the string with the highest number first; nothing where nothing
    /// comes before.
    #[must_use]
    pub fn ways(&self) -> Vec<VoiceWay> {
        let Some((movement, before)) = self.movement.zip(self.before) else { return Vec::new() };
        let frets = before.frets.into_iter().zip(self.shape.frets);
        let way = |(voice, (from, to)): (VoiceMove, (Fret, Fret))| VoiceWay {
            from: (voice.from().string, from),
            to: (voice.to().string, to),
            frets: voice.frets(),
            mm: to_a_tenth(voice.mm()),
        };
        movement.voices().into_iter().zip(frets).map(way).collect()
    }
}

/// The shapes of a part of a neck, for a hand.
pub(super) struct Shapes<'a> {
    neck: &'a Neck,
    hand: Hand,
    /// Does the last chord lead to the first?
    goes_round: bool,
    places: ShapePlaces<'a>,
    /// What the player holds over each chord.
    settled: Vec<Option<[Place; 3]>>,
    /// Shapes with their fingers, which take time to find.
    held: RefCell<HashMap<(Triad, [Place; 3]), Shape>>,
}

impl<'a> Shapes<'a> {
    /// Those of the part of the neck that is asked for; `None` where none is.
    pub(super) fn of(
        neck: &'a Neck,
        question: &ChangesQuestion,
        chorus: &Chorus,
        stretches: &[Stretch],
    ) -> Result<Option<Shapes<'a>>, Refusal> {
        let Some(region) = question.region else { return Ok(None) };
        region.check(neck)?;
        if let Some(strings) = region.strings().filter(|strings| strings.len() < 3) {
            return Err(Refusal::NotThreeStrings(strings));
        }
        let places = ShapePlaces::new(neck, query(region, question.hand));
        let settled = settled(question, chorus, stretches, &places);
        let places = places.trying(settled.iter().copied().flatten());
        Ok(Some(Shapes {
            settled,
            neck,
            hand: question.hand,
            goes_round: !question.wishes.ends,
            places,
            held: RefCell::default(),
        }))
    }

    /// The shape in hand over each chord of a plan, whose pairs have these names.
    pub(super) fn in_hand(&self, plan: &Plan, pairs: &[NamedPair]) -> Vec<Option<ShapeInHand>> {
        let named = |(planned, pair): (&PlannedChord, &NamedPair)| {
            let shape = self.held(self.shape(planned)?);
            Some(NamedShape::new(self.neck, name_of(&shape, *pair), &shape))
        };
        let shapes: Vec<Option<NamedShape>> = plan.chords().iter().zip(pairs).map(named).collect();
        let last = shapes.last().copied().flatten().filter(|_| self.goes_round);
        let come = |(index, planned): (usize, &PlannedChord)| {
            let shape = shapes.get(index).copied().flatten()?;
            let before = match index.checked_sub(1) {
                Some(before) => shapes.get(before).copied().flatten(),
                None => last,
            };
            let way =
                |before: NamedShape| VoiceMovement::between(self.neck, &before.shape, &shape.shape);
            let choices = self.places.shapes(planned.pair()).len();
            let is_settled = self.settled.get(index).is_some_and(Option::is_some);
            Some(ShapeInHand { shape, before, movement: before.map(way), choices, is_settled })
        };
        plan.chords().iter().enumerate().map(come).collect()
    }

    fn shape(&self, planned: &PlannedChord) -> Option<Shape> {
        self.places.shape(planned.pair(), planned.place()?)
    }

    fn held(&self, shape: Shape) -> Shape {
        let mut held = self.held.borrow_mut();
        let key = (shape.triad(), shape.places());
        *held.entry(key).or_insert_with(|| shape.held_by(self.neck, self.hand))
    }
}

impl PairPlaces for Shapes<'_> {
    fn count(&self, pair: TriadPair) -> usize {
        self.places.count(pair)
    }

    fn allows(&self, chord: usize, pair: TriadPair, place: usize) -> bool {
        let settled = self.settled.get(chord).copied().flatten();
        let shape = || self.places.shape(pair, place).map(|shape| shape.places());
        settled.is_none() || settled == shape()
    }

    fn way(&self, from: (TriadPair, usize), to: (TriadPair, usize)) -> PlanCost {
        self.places.way(from, to)
    }

    fn ways(&self, from: TriadPair, to: TriadPair) -> Vec<PlanCost> {
        self.places.ways(from, to)
    }
}

/// The shapes of a pair that a hand locked to a part of the neck may hold, the lower ones first.
#[must_use]
pub fn shapes_in_region(neck: &Neck, region: Region, hand: Hand, pair: TriadPair) -> Vec<Shape> {
    ShapePlaces::new(neck, query(region, hand)).shapes(pair).to_vec()
}

fn query(region: Region, hand: Hand) -> ShapeQuery {
    ShapeQuery::default().in_region(region).for_hand(hand)
}

/// What is held over each chord: a shape of the pair that is settled for it, in that part of the neck.
fn settled(
    question: &ChangesQuestion,
    chorus: &Chorus,
    stretches: &[Stretch],
    places: &ShapePlaces<'_>,
) -> Vec<Option<[Place; 3]>> {
    let mut settled = vec![None; stretches.len()];
    for held in &question.held {
        let Some(moment) = held.moment.in_chorus(chorus) else { continue };
        let Ok(index) = stretches.binary_search_by_key(&moment, |stretch| stretch.from) else {
            continue;
        };
        let pair = stretches[index].settled.as_ref().and_then(ChartChoice::triad_pair);
        let is_there = pair.is_some_and(|pair| {
            places.shapes(pair).iter().any(|shape| shape.places() == held.places)
        });
        if is_there {
            settled[index] = Some(held.places);
        }
    }
    settled
}

/// What the triad of a shape is called in its pair. An augmented triad has three names for one sound.
fn name_of(shape: &Shape, pair: NamedPair) -> SpelledTriad {
    let [first, second] = pair.names();
    let sounds = |name: SpelledTriad| name.triad().set() == shape.triad().set();
    if sounds(first) { first } else { second }
}
