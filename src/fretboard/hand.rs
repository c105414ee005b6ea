//! The fretting hand: which finger goes where in a three-note grip, and what it costs.
//!
//! The hand is measured in millimetres, so that one rule serves a bass in first position and a
//! ukulele at the twelfth fret. A [`Grip`] holds its notes *together*; for notes one
//! after another see [`FingeringQuery`](crate::FingeringQuery).

mod ease;
mod finger;
mod grip;
mod held;
mod position;

pub use ease::Ease;
pub use finger::Finger;
pub use grip::{Barre, Grip};
pub use position::HandPosition;

use held::Held;

use crate::{Fret, Neck, Place};

/// A hand by its reach.
///
/// Between two fingers the reach is measured from the wire of the lower fret to where a fingertip
/// can first stand in the space of the higher one, since a finger that reaches far does not stand
/// at its wire. No published spans of guitarists were found: 120 mm between first and fourth
/// finger is a rough estimate from finger lengths and angles of 51 adults (Chatzioglou, Pinar and
/// Govsa 2024), and what is left for fingers nearer to each other is our guess.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Fret, Hand, Neck, Place, StringNumber, Tuning};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let place = |(string, fret)| {
///     Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
/// };
/// let g = [(4, 9), (3, 7), (2, 8)].map(place);
/// let grip = Hand::default().grip(&neck, g).unwrap();
/// assert_eq!(grip.fingers().map(|finger| finger.number()), [3, 1, 2]);
/// assert_eq!(grip.position().to_string(), "VII");
/// let no_hand = [(4, 1), (3, 3), (2, 9)].map(place);
/// assert_eq!(Hand::default().grip(&neck, no_hand), None);
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Hand {
    reach_mm: f64,
}

impl Default for Hand {
    fn default() -> Hand {
        Hand { reach_mm: 120.0 }
    }
}

/// How wide two neighbouring fingers stand without stretching, at most: a third of some 90 mm, the
/// comfortable reach of curled fingers. A weak estimate: no source measures it.
const RELAXED_GAP_MM: f64 = 30.0;
/// How far into a space, past the wire before it, a fingertip has its middle: half its width.
const HALF_FINGERTIP_MM: f64 = 8.0;

// Dearer than they are wide. Millimetres, so that they can be weighed against reach; set by which
// fingering players write for the ten grips of each string set, no source.
const FIRST_FINGER_FLAT_MM: f64 = 5.0;
const OTHER_FINGER_FLAT_MM: f64 = 12.0;
const CROWDED_FRET_MM: f64 = 6.0;
const FOURTH_FINGER_MM: f64 = 4.0;

impl Hand {
    /// A hand that reaches `mm` between first and fourth finger; 40 to 200, else `None`.
    #[must_use]
    pub fn reaching_mm(mm: f64) -> Option<Hand> {
        (40.0..=200.0).contains(&mm).then_some(Hand { reach_mm: mm })
    }

    /// Its reach between first and fourth finger.
    #[must_use]
    pub const fn reach_mm(self) -> f64 {
        self.reach_mm
    }

    /// The cheapest fingers for three places held at once, in the order given; `None` where this
    /// hand cannot hold them.
    ///
    /// Every assignment is tried. A higher fret takes a higher finger. On one fret, either one
    /// finger lies flat over the strings between (first, third or fourth finger; nothing below it
    /// may have to sound lower), or two fingers crowd it: on neighbouring strings the longer one on
    /// the higher string number, farther apart the lower finger there. Between equals the lower
    /// fingers win.
    #[must_use]
    pub fn grip(self, neck: &Neck, places: [Place; 3]) -> Option<Grip> {
        self.possible(neck, places)
            .reduce(|best, next| if next.cost_mm() < best.cost_mm() { next } else { best })
    }

    /// Every way to finger three places held at once, the cheapest first, each with
    /// [its reason](Grip::reason); empty where this hand cannot hold them. The first is what
    /// [`grip`](Self::grip) chooses.
    ///
    /// ```
    /// # use fretloom_fretboard::{Fret, Hand, Neck, Place, StringNumber, Tuning};
    /// # let neck = Neck::new(Tuning::read("EADGBE").unwrap());
    /// # let place = |(string, fret)| {
    /// #     Place::new(StringNumber::new(string).unwrap(), Fret::new(fret).unwrap())
    /// # };
    /// let grips = Hand::default().grips(&neck, [(4, 10), (3, 8), (2, 8)].map(place));
    /// let reasons = grips.iter().map(|grip| grip.reason()).collect::<Vec<_>>();
    /// assert!(reasons[0].starts_with("first finger lies flat over strings 3-2, one finger a fret"));
    /// ```
    #[must_use]
    pub fn grips(self, neck: &Neck, places: [Place; 3]) -> Vec<Grip> {
        let mut grips: Vec<Grip> = self.possible(neck, places).collect();
        grips.sort_by(|one, other| one.cost_mm().total_cmp(&other.cost_mm()));
        grips
    }

    /// Every way to finger three places, by fingers from the lowest up.
    fn possible(self, neck: &Neck, places: [Place; 3]) -> impl Iterator<Item = Grip> {
        let [ones, twos, threes] = choices(places);
        let twos = move |one: Finger| twos.iter().map(move |two| [one, *two]);
        let threes = move |[one, two]: [Finger; 2]| threes.iter().map(move |it| [one, two, *it]);
        let fingers = ones.iter().copied().flat_map(twos).flat_map(threes);
        fingers.filter_map(move |fingers| {
            let cost_mm = Held::new(neck, places, fingers).cost_mm(self)?;
            Some(Grip::new(neck, places, fingers, cost_mm))
        })
    }

    /// How far above the first finger another stands at ease in a line, at most, by how many fingers
    /// it is above. Index and middle part more easily than middle and ring (Chatzioglou, Pinar and
    /// Govsa 2024); the parts are a weak estimate, no source.
    pub(crate) fn at_ease_mm(self, steps: u8) -> f64 {
        match steps {
            0 => 0.0,
            1 => self.reach_mm * 0.38,
            2 => self.reach_mm * 0.55,
            _ => self.reach_mm * 0.75,
        }
    }

    /// How far two fingers reach whose numbers lie `steps` apart.
    fn reach_between_mm(self, steps: u8) -> f64 {
        match steps {
            1 => self.reach_mm * 0.45,
            2 => self.reach_mm * 0.75,
            _ => self.reach_mm,
        }
    }

    /// Do two fingers stand on two frets at once? The first is the lower fret.
    fn holds(self, neck: &Neck, low: (Place, Finger), high: (Place, Finger)) -> bool {
        self.reaches(neck, low.0.fret, high.0.fret, high.1.steps_above(low.1))
    }

    /// With one finger on `low`, does the finger `steps` above it get to `high`?
    pub(crate) fn reaches(self, neck: &Neck, low: Fret, high: Fret, steps: u8) -> bool {
        let nut_side = Fret::new(high.number().saturating_sub(1)).unwrap_or(low);
        let space = neck.span_mm(nut_side, high);
        let reach = neck.distance_mm(nut_side) - neck.distance_mm(low);
        reach + HALF_FINGERTIP_MM.min(space) <= self.reach_between_mm(steps)
    }
}

/// The fingers that each place leaves open; none where two places are on one string.
fn choices(places: [Place; 3]) -> [&'static [Finger]; 3] {
    let [one, two, three] = places.map(|place| place.string);
    if one == two || two == three || one == three {
        return [&[]; 3];
    }
    places.map(|place| Finger::choices(place.fret))
}

/// What two fingers on a lower and a higher fret cost beyond standing at ease: one a fret, as far
/// as the frets are no wider than fingers stand.
fn one_a_fret_mm(neck: &Neck, low: (Place, Finger), high: (Place, Finger)) -> f64 {
    let fingers = high.1.steps_above(low.1);
    let one_a_fret = Fret::new(low.0.fret.number() + fingers).unwrap_or(Fret::HIGHEST);
    let at_ease = neck.span_mm(low.0.fret, one_a_fret);
    let at_ease = at_ease.min(f64::from(fingers) * RELAXED_GAP_MM);
    (neck.span_mm(low.0.fret, high.0.fret) - at_ease).abs()
}

#[cfg(test)]
mod tests;
