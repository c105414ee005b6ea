//! Laying the chosen pair out: its places, its ladders, the shape in hand.

use fretloom_fretboard::{
    Ladder, Nearness, Neck, Rung, Shape, ShapeQuery, Side, StringNumber, StringSet,
};
use fretloom_theory::{PitchClass, Triad, TriadQuality};

use super::Explore;
use super::in_hand::InHand;
use crate::answer::{self, Harmony, places_left_out, places_of_pair};

impl Explore {
    /// Asks for the pairs again: the chord, the scale, the spelling, the families or the wishes have
    /// changed. The row stays where it can.
    pub(super) fn ask_pairs(&mut self) {
        let Some(choice) = self.choices.get(self.scale) else { return };
        let harmony = Harmony::with_choice(&self.symbol, self.read.clone(), choice);
        let (families, _) = self.families();
        self.pairs = answer::pairs_over(&harmony, &families, &self.wishes, self.spelling);
        self.row = self.row.min(self.pairs.folds.len().saturating_sub(1));
        if self.pair().is_none() {
            self.copy = 0;
        }
        self.lay_out();
    }

    /// Lays the pair on the neck and on the strings again; keeps the hand as near as it can.
    pub(super) fn lay_out(&mut self) {
        let near = self.rung_in_hand().map(|rung| rung.shape);
        let neck = &self.instrument.neck;
        self.places = self.pair().map(|pair| places_of_pair(neck, pair)).unwrap_or_default();
        self.left_out = self.pair().map(|pair| places_left_out(neck, pair)).unwrap_or_default();
        self.everywhere = self.ladder_of_all_strings();
        let set = self.strings();
        self.ladder = set.map_or_else(|| empty_ladder(self.neck()), |set| self.everywhere.on(set));
        self.rung = near.map_or_else(|| self.rung_to_begin(), |shape| self.rung_near(&shape));
        self.ask_view();
        self.take_hand();
    }

    /// The close shapes of the pair on the neck as it is now, without fingers.
    pub(super) fn ladder_of_all_strings(&self) -> Ladder {
        let query = ShapeQuery::default().without_fingers();
        match self.pair() {
            Some(pair) => Ladder::new(self.neck(), pair.pair().triads(), &query),
            None => empty_ladder(self.neck()),
        }
    }

    /// Goes to the strings of a rung of that ladder, and takes its shape there.
    pub(super) fn take_rung(&mut self, wanted: &Rung) {
        let set = self.set_of(wanted).unwrap_or(self.set);
        if set != self.set {
            self.set = set;
            self.lay_out();
        }
        self.rung = self.ladder.find(&wanted.shape).unwrap_or(self.rung);
        self.take_hand();
    }

    /// Which of the sets has the strings of a rung.
    pub(super) fn set_of(&self, rung: &Rung) -> Option<usize> {
        self.sets().iter().position(|set| *set == rung.shape.string_set())
    }

    /// Takes the shape of the rung in hand, and keeps it in view.
    pub(super) fn take_hand(&mut self) {
        self.hand = self.rung_in_hand().map(|rung| InHand::of(self.neck(), self.player, rung));
        self.follow_hand();
    }

    /// The lowest shape of the first triad without open strings, where there is one.
    fn rung_to_begin(&self) -> usize {
        let rungs = self.ladder.rungs();
        let good = |rung: &Rung| {
            rung.side == Side::First && rung.shape.frets().iter().all(|fret| !fret.is_open())
        };
        rungs.iter().position(good).unwrap_or_default()
    }

    /// The rung whose frets lie nearest to those of a shape.
    fn rung_near(&self, shape: &Shape) -> usize {
        self.ladder.nearest(shape, Nearness::Frets, |_| true).unwrap_or_default()
    }
}

/// A ladder without rungs.
pub(super) fn empty_ladder(neck: &Neck) -> Ladder {
    let triad = Triad::new(PitchClass::C, TriadQuality::Major);
    // One string is no set of three, so nothing is found on it.
    let nowhere = StringSet::only(StringNumber::FIRST);
    Ladder::new(neck, [triad, triad], &ShapeQuery::default().on(nowhere))
}
