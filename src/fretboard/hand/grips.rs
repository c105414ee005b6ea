//! The ways for a hand to hold three places at once.

use super::Hand;
use crate::{Finger, Grip, Neck, Place};

impl Hand {
    /// The cheapest fingers for three places held at once, in the order given; `None` where this
    /// hand cannot hold them.
    ///
    /// Every assignment is tried. A higher fret takes a higher finger. On one fret, either one
    /// finger lies flat over the strings between (first, third or fourth finger; nothing below it
    /// may have to sound lower), or fingers crowd it, rising towards string 1: common practice, no
    /// source, as 2-3-1 on strings 5-4-3 for E at the nut and 1-2-3 on 4-3-2 for A. Between equals
    /// the lower fingers win. Notes that a line has together are held by the same rules.
    #[must_use]
    pub fn grip(self, neck: &Neck, places: [Place; 3]) -> Option<Grip> {
        self.grips(neck, places).first().copied()
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
        let mut grips = Vec::new();
        self.each_assignment(neck, &places, &mut |fingers, cost_mm| {
            let fingers = <[Finger; 3]>::try_from(fingers);
            grips.extend(fingers.map(|fingers| Grip::new(neck, places, fingers, cost_mm)));
            true
        });
        grips.sort_by_key(|grip| (thousandths(grip.cost_mm()), grip.fingers()));
        grips
    }
}

/// A cost that the last bits of sums made in another order do not change.
fn thousandths(mm: f64) -> i64 {
    (mm * 1000.0).round() as i64
}
