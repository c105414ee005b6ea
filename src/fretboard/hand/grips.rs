//! The ways for a hand to hold three places at once.

use super::Hand;
use super::assignment::Assignment;
use crate::{Finger, Grip, Neck, Place};

impl Hand {
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
            let cost_mm = Assignment::new(neck, places, fingers).cost_mm(self)?;
            Some(Grip::new(neck, places, fingers, cost_mm))
        })
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
