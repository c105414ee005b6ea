//! Which shapes are wanted.

mod find;

use crate::{FretRange, Hand, Neck, Region, Shape, StringSet, Voicing};
use fretloom_theory::Inversion;

/// May the three strings of a shape leave others out between them?
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Skipping {
    Allowed,
    Avoided,
}

/// Are fingers wanted?
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Fingers {
    Easiest,
    None,
}

/// A query for shapes; by default the close ones on every three neighbouring strings, over the
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
    voicings: &'static [Voicing],
    region: Region,
    skipping: Skipping,
    inversion: Option<Inversion>,
    widest_mm: f64,
    hand: Hand,
    fingers: Fingers,
}

impl Default for ShapeQuery {
    fn default() -> ShapeQuery {
        ShapeQuery {
            voicings: &[Voicing::Close],
            region: Region::WHOLE_NECK,
            skipping: Skipping::Avoided,
            inversion: None,
            widest_mm: f64::INFINITY,
            hand: Hand::default(),
            fingers: Fingers::Easiest,
        }
    }
}

impl ShapeQuery {
    /// This voicing only.
    #[must_use]
    pub const fn voiced(mut self, voicing: Voicing) -> ShapeQuery {
        self.voicings = match voicing {
            Voicing::Close => &[Voicing::Close],
            Voicing::Open => &[Voicing::Open],
            Voicing::Wide => &[Voicing::Wide],
        };
        self
    }

    /// Close and open ones.
    #[must_use]
    pub const fn of_both_voicings(mut self) -> ShapeQuery {
        self.voicings = &[Voicing::Close, Voicing::Open];
        self
    }

    /// Close, open and wide ones.
    #[must_use]
    pub const fn of_all_voicings(mut self) -> ShapeQuery {
        self.voicings = &Voicing::ALL;
        self
    }

    /// In this region only: with all three places in it, on a set of three strings that lie next to
    /// one another among its own.
    #[must_use]
    pub const fn in_region(mut self, region: Region) -> ShapeQuery {
        self.region = region;
        self
    }

    /// On these strings only, which need not lie side by side.
    #[must_use]
    pub const fn on(mut self, strings: StringSet) -> ShapeQuery {
        self.region = self.region.on(strings);
        self
    }

    /// Also on sets that leave strings out between them.
    #[must_use]
    pub const fn skipping_strings(mut self) -> ShapeQuery {
        self.skipping = Skipping::Allowed;
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
        self.region = self.region.within(frets);
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
        self.region = self.region.without_open_strings();
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

    /// The sets of three strings of `neck` where it looks, from the floor up.
    fn sets_on(&self, neck: &Neck) -> impl Iterator<Item = StringSet> + use<> {
        let (region, skipping) = (self.region.strings(), self.skipping);
        let looked_on = move |string| region.is_none_or(|strings| strings.contains(string));
        StringSet::every(neck.tuning().string_count(), 3).filter(move |set| {
            set.iter().all(looked_on)
                && match skipping {
                    Skipping::Allowed => true,
                    Skipping::Avoided => set.skipped().all(|string| !looked_on(string)),
                }
        })
    }

    /// A shape that was found, with the fingers that are wanted.
    fn fingered(&self, neck: &Neck, shape: Shape) -> Shape {
        match self.fingers {
            Fingers::Easiest => shape.held_by(neck, self.hand),
            Fingers::None => shape.stretched_by(self.hand),
        }
    }

    fn wants_inversion(&self, inversion: Inversion) -> bool {
        self.inversion.is_none_or(|wanted| wanted == inversion)
    }

    /// Does a shape of the right voicing, inversion and strings fit the rest of the query?
    fn wants(&self, neck: &Neck, shape: &Shape) -> bool {
        shape.stretch_mm() <= self.widest_mm
            && shape.places().into_iter().all(|place| self.region.contains(neck, place))
    }
}

#[cfg(test)]
mod tests;
