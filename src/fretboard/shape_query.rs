//! Which shapes are wanted.

mod find;

use crate::{FretRange, Hand, Inversion, Neck, Shape, StringSet, Voicing};

/// The sets of three strings to look on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum StringSets {
    /// Every three neighbouring strings.
    Neighbours,
    /// Every three strings, skipped ones between them or not.
    Every,
    /// This one. A set of other than three strings, or beyond the neck, holds no shape.
    Only(StringSet),
}

/// May strings sound open?
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum OpenStrings {
    Allowed,
    Avoided,
}

/// Are fingers wanted?
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Fingers {
    Easiest,
    None,
}

/// A wish for shapes; by default the close ones on every three neighbouring strings, over the
/// whole neck, open strings allowed, nothing dropped for being hard.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Neck, ShapeQuery, Tuning};
/// use fretloom_theory::SpelledTriad;
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let f = "F".parse::<SpelledTriad>().unwrap().triad();
/// let query = ShapeQuery::default().on("3-2-1".parse().unwrap()).within("1-9".parse().unwrap());
/// assert_eq!(query.shapes(&neck, f).len(), 2); // 2-1-1 and 5-6-5
/// assert_eq!(query.up_to_mm(30.0).shapes(&neck, f).len(), 1);
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ShapeQuery {
    voicing: Option<Voicing>,
    sets: StringSets,
    inversion: Option<Inversion>,
    frets: FretRange,
    widest_mm: f64,
    open_strings: OpenStrings,
    hand: Hand,
    fingers: Fingers,
}

impl Default for ShapeQuery {
    fn default() -> ShapeQuery {
        ShapeQuery {
            voicing: Some(Voicing::Close),
            sets: StringSets::Neighbours,
            inversion: None,
            frets: FretRange::WHOLE_NECK,
            widest_mm: f64::INFINITY,
            open_strings: OpenStrings::Allowed,
            hand: Hand::default(),
            fingers: Fingers::Easiest,
        }
    }
}

impl ShapeQuery {
    /// This voicing only.
    #[must_use]
    pub const fn voiced(mut self, voicing: Voicing) -> ShapeQuery {
        self.voicing = Some(voicing);
        self
    }

    /// Close and open ones.
    #[must_use]
    pub const fn of_both_voicings(mut self) -> ShapeQuery {
        self.voicing = None;
        self
    }

    /// On this string set only.
    #[must_use]
    pub const fn on(mut self, set: StringSet) -> ShapeQuery {
        self.sets = StringSets::Only(set);
        self
    }

    /// Also on sets that skip strings.
    #[must_use]
    pub const fn skipping_strings(mut self) -> ShapeQuery {
        self.sets = StringSets::Every;
        self
    }

    /// This inversion only; an augmented triad's by name.
    #[must_use]
    pub const fn inverted(mut self, inversion: Inversion) -> ShapeQuery {
        self.inversion = Some(inversion);
        self
    }

    /// With all its frets in `frets`; open strings are fret 0.
    #[must_use]
    pub const fn within(mut self, frets: FretRange) -> ShapeQuery {
        self.frets = frets;
        self
    }

    /// Stretching over at most `mm` from fretted fret to fretted fret.
    #[must_use]
    pub const fn up_to_mm(mut self, mm: f64) -> ShapeQuery {
        self.widest_mm = mm;
        self
    }

    /// Without open strings.
    #[must_use]
    pub const fn without_open_strings(mut self) -> ShapeQuery {
        self.open_strings = OpenStrings::Avoided;
        self
    }

    /// Fingered by this hand. It drops nothing: what the hand cannot hold has no fingers.
    #[must_use]
    pub const fn for_hand(mut self, hand: Hand) -> ShapeQuery {
        self.hand = hand;
        self
    }

    /// Without fingers, for a search that asks for none or takes its own: finding a shape is quick,
    /// and trying every finger on it is not. No shape then has a [grip](Shape::grip).
    #[must_use]
    pub const fn without_fingers(mut self) -> ShapeQuery {
        self.fingers = Fingers::None;
        self
    }

    /// Where it looks.
    #[must_use]
    pub const fn sets(&self) -> StringSets {
        self.sets
    }

    /// The sets of three strings of `neck` where it looks, from the floor up.
    pub fn sets_on(&self, neck: &Neck) -> impl Iterator<Item = StringSet> + use<> {
        let strings = neck.tuning().string_count();
        let sets = self.sets;
        StringSet::every(strings, 3).filter(move |set| match sets {
            StringSets::Neighbours => set.is_unbroken(),
            StringSets::Every => true,
            StringSets::Only(only) => *set == only,
        })
    }

    /// A shape that was found, with the fingers that are wanted.
    fn fingered(&self, neck: &Neck, shape: Shape) -> Shape {
        match self.fingers {
            Fingers::Easiest => shape.held_by(neck, self.hand),
            Fingers::None => shape.stretched_by(self.hand),
        }
    }

    fn wants_voicing(&self, voicing: Voicing) -> bool {
        self.voicing.is_none_or(|wanted| wanted == voicing)
    }

    fn wants_inversion(&self, inversion: Inversion) -> bool {
        self.inversion.is_none_or(|wanted| wanted == inversion)
    }

    /// Does a shape of the right voicing, inversion and strings fit the rest of the wish?
    fn wants(&self, neck: &Neck, shape: &Shape) -> bool {
        let open_allowed = self.open_strings == OpenStrings::Allowed;
        // A range of frets is of those that are written: a capo's fret for what it holds open.
        let in_range = |place| self.frets.contains(neck.fret_number(place));
        shape.stretch_mm() <= self.widest_mm
            && shape.places().into_iter().all(in_range)
            && (open_allowed || shape.frets().iter().all(|fret| !fret.is_open()))
    }
}

#[cfg(test)]
mod tests;
