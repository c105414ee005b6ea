//! Shapes: a triad on three strings.
//!
//! Everything here is derived from open pitches; no grip is stored. Inversion and height are
//! judged by what *sounds*, never by string numbers.

mod voicing;

use std::cmp::Ordering;

use fretloom_theory::{Inversion, Pitch, Triad, TriadQuality};

use crate::{
    Barre, Ease, Finger, Fret, Grip, Hand, HandPosition, Neck, Place, StringNumber, StringSet,
};

pub use voicing::Voicing;

/// One way to put a triad on three strings of a neck, one note a string.
///
/// Lists run from the highest string number to the lowest, as grips are written. The strings,
/// ordered by the pitch they sound open, carry the members in rising order.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Neck, ShapeQuery, Tuning};
/// use fretloom_theory::SpelledTriad;
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let g: SpelledTriad = "G".parse().unwrap();
/// let query = ShapeQuery::default().on("4-3-2".parse().unwrap());
/// let shapes = query.shapes(&neck, g.triad());
/// let shape = shapes.iter().find(|s| s.frets().map(|f| f.number()) == [9, 7, 8]).unwrap();
/// assert_eq!(shape.inversion().to_string(), "first");
/// assert_eq!(shape.fingers().unwrap().map(|finger| finger.number()), [3, 1, 2]);
/// assert_eq!(format!("{:.1}", shape.stretch_mm()), "47.2");
/// assert_eq!(shape.position().number(), 7);
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Shape {
    triad: Triad,
    inversion: Inversion,
    voicing: Voicing,
    places: [Place; 3],
    pitches: [Pitch; 3],
    stretch_mm: f64,
    position: HandPosition,
    grip: Option<Grip>,
    ease: Ease,
}

impl Shape {
    /// The triad that sounds.
    #[must_use]
    pub const fn triad(&self) -> Triad {
        self.triad
    }

    /// Which member sounds lowest.
    #[must_use]
    pub const fn inversion(&self) -> Inversion {
        self.inversion
    }

    /// Is the inversion a matter of names, because the triad is augmented and sounds alike in all
    /// three?
    #[must_use]
    pub fn by_name_only(&self) -> bool {
        self.triad.quality() == TriadQuality::Augmented
    }

    /// Close or open.
    #[must_use]
    pub const fn voicing(&self) -> Voicing {
        self.voicing
    }

    /// Where it lies.
    #[must_use]
    pub const fn places(&self) -> [Place; 3] {
        self.places
    }

    /// Its strings, highest number first.
    #[must_use]
    pub fn strings(&self) -> [StringNumber; 3] {
        self.places.map(|place| place.string)
    }

    /// Its strings as a set.
    #[must_use]
    pub fn string_set(&self) -> StringSet {
        let [one, two, three] = self.strings();
        StringSet::only(one).with(two).with(three)
    }

    /// Its frets, in the order of the places.
    #[must_use]
    pub fn frets(&self) -> [Fret; 3] {
        self.places.map(|place| place.fret)
    }

    /// What sounds, in the order of the places; not always falling or rising.
    #[must_use]
    pub const fn pitches(&self) -> [Pitch; 3] {
        self.pitches
    }

    /// What sounds, from the lowest up.
    #[must_use]
    pub fn going_up(&self) -> [Pitch; 3] {
        let mut pitches = self.pitches;
        pitches.sort_unstable();
        pitches
    }

    /// Millimetres between its lowest and its highest *fretted* fret; 0 where fewer than two notes
    /// are fretted.
    #[must_use]
    pub const fn stretch_mm(&self) -> f64 {
        self.stretch_mm
    }

    /// Fingers in the order of the places; `None` where no hand could hold it at once.
    #[must_use]
    pub fn fingers(&self) -> Option<[Finger; 3]> {
        self.grip.map(Grip::fingers)
    }

    /// Fingers with what they cost; `None` where no hand could hold it at once.
    #[must_use]
    pub const fn grip(&self) -> Option<Grip> {
        self.grip
    }

    /// The same shape with other fingers; those of other places change nothing.
    #[must_use]
    pub fn gripped(mut self, grip: Grip) -> Shape {
        if grip.places() == self.places {
            self.grip = Some(grip);
        }
        self
    }

    /// The shape as a hand takes it: with its easiest fingers, or with none and
    /// [beyond](Ease::Beyond) the hand, where it has none. For a shape that was found
    /// [without fingers](crate::ShapeQuery::without_fingers).
    ///
    /// ```
    /// use fretloom_fretboard::{Hand, Neck, ShapeQuery, Tuning};
    /// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
    /// let g = "G".parse::<fretloom_theory::SpelledTriad>().unwrap().triad();
    /// let bare = ShapeQuery::default().without_fingers().shapes(&neck, g)[0];
    /// assert!(bare.grip().is_none());
    /// assert!(bare.held_by(&neck, Hand::default()).grip().is_some());
    /// ```
    #[must_use]
    pub fn held_by(mut self, neck: &Neck, hand: Hand) -> Shape {
        self.grip = hand.grip(neck, self.places);
        self.ease = if self.grip.is_some() { hand.ease_of(self.stretch_mm) } else { Ease::Beyond };
        self
    }

    /// The shape without fingers, as hard for a hand as its stretch is.
    pub(crate) fn stretched_by(mut self, hand: Hand) -> Shape {
        self.ease = hand.ease_of(self.stretch_mm);
        self
    }

    /// The finger that lies flat, if one does.
    #[must_use]
    pub fn barre(&self) -> Option<Barre> {
        self.grip.and_then(Grip::barre)
    }

    /// How hard it is for the hand of the query: by its stretch, and beyond where it has no
    /// fingers. Where no fingers were asked for, by the stretch alone.
    #[must_use]
    pub const fn ease(&self) -> Ease {
        self.ease
    }

    /// Where the hand stands, never behind a capo over all strings; where no hand could hold it,
    /// the lowest fretted fret.
    #[must_use]
    pub fn position(&self) -> HandPosition {
        self.grip.map_or(self.position, Grip::position)
    }

    /// Its frets that are not open.
    pub(crate) fn fretted(&self) -> impl Iterator<Item = Fret> + use<> {
        self.frets().into_iter().filter(|fret| !fret.is_open())
    }

    /// Orders by height: by the sum of the pitches, then the lowest, the middle one, and last by
    /// string numbers (the floor first), so that no two places of one triad are equal.
    #[must_use]
    pub(crate) fn cmp_height(&self, other: &Shape) -> Ordering {
        let key = |shape: &Shape| {
            let pitches = shape.going_up();
            let sum: i32 = pitches.iter().map(|pitch| i32::from(pitch.midi())).sum();
            (sum, pitches, shape.strings())
        };
        key(self).cmp(&key(other))
    }

    /// A shape at three places, highest string number first; the caller answers for the music.
    pub(crate) fn at(neck: &Neck, meaning: Meaning, notes: [(Place, Pitch); 3]) -> Shape {
        let places = notes.map(|(place, _)| place);
        let pitches = notes.map(|(_, pitch)| pitch);
        let Meaning { triad, inversion, voicing } = meaning;
        let fretted = places.into_iter().map(|place| place.fret).filter(|fret| !fret.is_open());
        let position = HandPosition::with_finger(neck, 1, fretted.min().unwrap_or(Fret::OPEN));
        let (stretch_mm, grip, ease) = (stretch_mm(neck, places), None, Ease::Easy);
        Shape { triad, inversion, voicing, places, pitches, stretch_mm, position, grip, ease }
    }
}

/// Millimetres between the lowest and the highest fretted fret.
fn stretch_mm(neck: &Neck, places: [Place; 3]) -> f64 {
    let fretted = || places.into_iter().map(|place| place.fret).filter(|fret| !fret.is_open());
    match (fretted().min(), fretted().max()) {
        (Some(low), Some(high)) => neck.span_mm(low, high),
        _ => 0.0,
    }
}

/// What three notes mean, apart from where they lie.
#[derive(Clone, Copy)]
pub(crate) struct Meaning {
    pub(crate) triad: Triad,
    pub(crate) inversion: Inversion,
    pub(crate) voicing: Voicing,
}
