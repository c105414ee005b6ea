//! Where the pairs of a plan lie in a region.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use fretloom_theory::{PairPlaces, PlanCost, TriadPair};

use crate::{Neck, Place, Shape, ShapeQuery, VoiceMove, VoiceMovement};

/// The shapes that a plan may use: those of both triads of a pair that a query finds. A plan within
/// them holds one for each chord, and goes to one that is near. Not all are places of a pair: none is
/// that lies an octave higher than another one, and where there are more than six, they are the lower
/// ones. So there is room for more pairs.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Neck, ShapePlaces, ShapeQuery, Tuning};
/// use fretloom_theory::{Chord, PlanChord, PlanQuery, Reading};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let query = ShapeQuery::default().on("4-3-2".parse().unwrap()).within("5-10".parse().unwrap());
/// let places = ShapePlaces::new(&neck, query);
/// let chords: Vec<Chord> = ["Dm7", "G7"].iter().map(|symbol| symbol.parse().unwrap()).collect();
/// let form = Reading::tune(&chords, None).into_iter().map(|reading| PlanChord::of(reading, 1.0));
/// let plan = PlanQuery::over(form).plans_within(&places, 1).unwrap().remove(0);
/// let dm7 = &plan.chords()[0];
/// let shape = places.shape(dm7.pair(), dm7.place().unwrap()).unwrap();
/// assert!(shape.frets().iter().all(|fret| (5..=10).contains(&fret.number())));
/// ```
#[derive(Debug)]
pub struct ShapePlaces<'a> {
    neck: &'a Neck,
    query: ShapeQuery,
    /// The shapes of each pair that was asked for. An augmented triad by another root sounds the same in
    /// the same places, but its inversions have other names.
    known: RefCell<HashMap<TriadPair, Rc<[Shape]>>>,
    /// Those that a plan tries, and where their voices lie, worked out once: a plan asks for every way
    /// between them.
    tried: RefCell<HashMap<TriadPair, Tried>>,
    /// Where shapes lie that a plan tries in any case.
    wanted: Vec<[Place; 3]>,
}

/// The shapes of a pair that a plan tries, and where they lie.
#[derive(Clone, Debug)]
struct Tried {
    shapes: Rc<[Shape]>,
    lying: Rc<[Lying]>,
}

/// Where the voices of a shape lie: along the neck in millimetres, and on which strings.
#[derive(Clone, Copy, Debug)]
struct Lying {
    mm: [f64; 3],
    strings: [u8; 3],
    /// How many frets above the tenth the highest of them is.
    above: u32,
}

/// How many shapes of a pair a plan tries.
const MOST_TRIED: usize = 6;

/// What a millimetre costs that a voice goes, in thousandths of a change: a fret in the middle of a
/// guitar's neck is a third of a change.
const A_MILLIMETRE: f64 = 12.0;

/// What a fret above the tenth costs, in thousandths of a change. Frets are narrow there, so that all
/// ways are short, and nobody plays there first.
const A_HIGH_FRET: u32 = 20;
const HIGH: u8 = 10;

/// How far it is from a string to the next, in millimetres: about that on most necks.
const A_STRING_MM: f64 = 10.0;

impl<'a> ShapePlaces<'a> {
    /// The shapes that the query finds on a neck. Fingers are not asked for.
    #[must_use]
    pub fn new(neck: &'a Neck, query: ShapeQuery) -> ShapePlaces<'a> {
        ShapePlaces {
            neck,
            query: query.without_fingers(),
            known: RefCell::default(),
            tried: RefCell::default(),
            wanted: Vec::new(),
        }
    }

    /// The same where a plan also tries the shapes that lie at these places.
    #[must_use]
    pub fn trying(self, wanted: impl IntoIterator<Item = [Place; 3]>) -> ShapePlaces<'a> {
        ShapePlaces { wanted: wanted.into_iter().collect(), tried: RefCell::default(), ..self }
    }

    /// The shapes of a pair, the lower ones first, those of both triads among one another.
    #[must_use]
    pub fn shapes(&self, pair: TriadPair) -> Rc<[Shape]> {
        let mut known = self.known.borrow_mut();
        Rc::clone(known.entry(pair).or_insert_with(|| self.found(pair)))
    }

    fn found(&self, pair: TriadPair) -> Rc<[Shape]> {
        let of = |triad| self.query.shapes(self.neck, triad);
        let mut shapes: Vec<Shape> = pair.triads().into_iter().flat_map(of).collect();
        shapes.sort_by(Shape::cmp_height);
        shapes.into()
    }

    /// The shape that is a place of a pair.
    #[must_use]
    pub fn shape(&self, pair: TriadPair, place: usize) -> Option<Shape> {
        self.tried(pair).shapes.get(place).copied()
    }

    /// The shape of a pair to which the voices of another go the shortest way: the longest of their
    /// ways counts, along the neck and across it, then all of them together, then the lower shape.
    #[must_use]
    pub fn nearest(&self, from: &Shape, pair: TriadPair) -> Option<Shape> {
        let way = |to: &Shape| {
            let movement = VoiceMovement::between(self.neck, from, to);
            (longest_way(&movement), movement.total_mm())
        };
        let shapes = self.shapes(pair);
        let ways = shapes.iter().map(|shape| (shape, way(shape)));
        let nearest = ways.min_by(|(_, one), (_, other)| {
            one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1))
        });
        nearest.map(|(shape, _)| *shape)
    }

    /// The shapes of a pair that a plan tries, in their order.
    fn tried(&self, pair: TriadPair) -> Tried {
        let mut tried = self.tried.borrow_mut();
        let found = || {
            let all = self.shapes(pair);
            let is_low = |shape: &&Shape| !all.iter().any(|lower| is_octave_above(shape, lower));
            let low = all.iter().filter(is_low).take(MOST_TRIED);
            let low: Vec<[Place; 3]> = low.map(Shape::places).collect();
            let is_tried = |shape: &&Shape| {
                low.contains(&shape.places()) || self.wanted.contains(&shape.places())
            };
            let shapes: Rc<[Shape]> = all.iter().filter(is_tried).copied().collect();
            let lying = shapes.iter().map(|shape| Lying::of(self.neck, shape)).collect();
            Tried { shapes, lying }
        };
        tried.entry(pair).or_insert_with(found).clone()
    }

    /// How the voices go from a place of one pair to a place of another.
    #[must_use]
    pub fn movement(
        &self,
        from: (TriadPair, usize),
        to: (TriadPair, usize),
    ) -> Option<VoiceMovement> {
        let [from, to] = [from, to].map(|(pair, place)| self.shape(pair, place));
        Some(VoiceMovement::between(self.neck, &from?, &to?))
    }
}

impl PairPlaces for ShapePlaces<'_> {
    fn count(&self, pair: TriadPair) -> usize {
        self.tried(pair).shapes.len()
    }

    fn way(&self, from: (TriadPair, usize), to: (TriadPair, usize)) -> PlanCost {
        let [from, to] = [from, to].map(|(pair, place)| self.tried(pair).lying.get(place).copied());
        from.zip(to).map(|(from, to)| from.cost_to(to)).unwrap_or_default()
    }

    fn ways(&self, from: TriadPair, to: TriadPair) -> Vec<PlanCost> {
        let [before, here] = [from, to].map(|pair| self.tried(pair).lying);
        here.iter().flat_map(|to| before.iter().map(|from| from.cost_to(*to))).collect()
    }
}

impl Lying {
    fn of(neck: &Neck, shape: &Shape) -> Lying {
        let places = shape.places();
        let highest = shape.frets().into_iter().max();
        let above = highest.map_or(0, |fret| fret.number().saturating_sub(HIGH));
        Lying {
            mm: places.map(|place| neck.distance_mm(neck.fret_number(place))),
            strings: places.map(|place| place.string.number()),
            above: above.into(),
        }
    }

    /// What it costs a plan to go from here to there.
    fn cost_to(self, to: Lying) -> PlanCost {
        let way = |voice: usize| {
            let strings = self.strings[voice].abs_diff(to.strings[voice]);
            (to.mm[voice] - self.mm[voice]).abs() + f64::from(strings) * A_STRING_MM
        };
        let mm = way(0).max(way(1)).max(way(2));
        PlanCost::thousandths((mm * A_MILLIMETRE).round() as u32 + A_HIGH_FRET * to.above)
    }
}

/// Are these the grips of another shape, twelve frets up?
fn is_octave_above(shape: &Shape, lower: &Shape) -> bool {
    let places = lower.places().into_iter().zip(shape.places());
    let mut up = places.map(|(lower, place)| {
        lower.string == place.string && lower.fret.number() + 12 == place.fret.number()
    });
    up.all(|is_up| is_up)
}

/// The longest way of a voice along and across the neck.
fn longest_way(movement: &VoiceMovement) -> f64 {
    let way = |voice: VoiceMove| voice.mm() + f64::from(voice.strings()) * A_STRING_MM;
    movement.voices().map(way).into_iter().fold(0.0, f64::max)
}
