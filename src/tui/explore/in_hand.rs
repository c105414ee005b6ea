//! The shape in hand: where else its notes lie, and which fingers take it.

use fretloom_fretboard::{Ease, Grip, Hand, Neck, Rung, Shape, Side};

use crate::words::counted;

/// A shape of the ladder as it is held: at its own place or another, with one of its fingerings.
#[derive(Clone, Debug)]
pub(super) struct InHand {
    /// The hand that holds it.
    player: Hand,
    side: Side,
    /// The rung's own place first, then the others, each with its reason.
    places: Vec<(Shape, String)>,
    place: usize,
    /// Every way to finger it there, the easiest first; empty where no hand holds it.
    grips: Vec<Grip>,
    grip: usize,
}

impl InHand {
    /// A rung where it lies, with its easiest fingers.
    pub(super) fn of(neck: &Neck, player: Hand, rung: &Rung) -> InHand {
        let shape = rung.shape.held_by(neck, player);
        let mut places = vec![(shape, "where the ladder has it".to_owned())];
        let elsewhere = shape.elsewhere(neck, player);
        places.extend(elsewhere.iter().map(|there| (there.shape, there.to_string())));
        let grips = player.grips(neck, shape.places());
        InHand { player, side: rung.side, places, place: 0, grips, grip: 0 }
    }

    /// Whose triad it is.
    pub(super) fn side(&self) -> Side {
        self.side
    }

    /// The shape, with the chosen fingers.
    pub(super) fn shape(&self) -> Option<Shape> {
        let (shape, _) = self.places.get(self.place)?;
        let grip = self.grips.get(self.grip);
        Some(grip.map_or(*shape, |grip| shape.gripped(*grip)))
    }

    /// Which of the places, and which of the fingers there.
    pub(super) fn which(&self) -> (usize, usize) {
        (self.place, self.grip)
    }

    /// Goes to one of the places, with some of the fingers there; home where there is none such.
    pub(super) fn turn_to(&mut self, neck: &Neck, (place, grip): (usize, usize)) {
        let place = if place < self.places.len() { place } else { 0 };
        if let Some((shape, _)) = self.places.get(place).filter(|_| place != self.place) {
            self.grips = self.player.grips(neck, shape.places());
        }
        self.place = place;
        self.grip = if grip < self.grips.len() { grip } else { 0 };
    }

    /// Takes the next fingers, the easiest after the last; says which and why.
    pub(super) fn next_fingers(&mut self) -> String {
        self.grip = (self.grip + 1) % self.grips.len().max(1);
        match (self.grips.get(self.grip), self.grips.len()) {
            (None, _) => "no hand holds this at once".to_owned(),
            (Some(grip), 1) => format!("no other fingers: {}", grip.reason()),
            (Some(grip), count) => format!("{} of {count}: {}", self.grip + 1, grip.reason()),
        }
    }

    /// Goes to the next place of the same notes, home after the last; says which and why.
    pub(super) fn next_place(&mut self, neck: &Neck) -> String {
        self.place = (self.place + 1) % self.places.len().max(1);
        self.grip = 0;
        let Some((shape, reason)) = self.places.get(self.place) else { return String::new() };
        self.grips = self.player.grips(neck, shape.places());
        match self.places.len() {
            1 => "these notes lie nowhere else under one hand".to_owned(),
            count => format!("place {} of {count}: {reason}", self.place + 1),
        }
    }

    /// Why these fingers, and how many others there are; care first, where the stretch is wide.
    pub(super) fn told(&self) -> String {
        let (fingers, places) = (self.grips.len(), self.places.len());
        let ways = format!("{}, {}", counted(fingers, "way"), counted(places, "place"));
        let reason = self.grips.get(self.grip).map(|grip| grip.reason());
        match (self.shape().map(|shape| shape.ease()), reason) {
            (Some(Ease::Wide), _) => {
                format!("a wide stretch: warm up, rest, stop when it hurts · {ways}")
            }
            (_, Some(reason)) => format!("{ways} · {reason}"),
            (_, None) => format!("{ways} · one note after another"),
        }
    }
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::{Ladder, ShapeQuery, Tuning};
    use fretloom_theory::SpelledTriad;

    use super::*;

    fn held(frets: [u8; 3]) -> (Neck, InHand) {
        let neck = Neck::new(Tuning::read("EADGBE").unwrap());
        let pair = ["G", "A"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
        let query = ShapeQuery::default().on("4-3-2".parse().unwrap());
        let ladder = Ladder::new(&neck, pair, &query);
        let is_meant = |rung: &&Rung| rung.shape.frets().map(|fret| fret.number()) == frets;
        let rung = *ladder.rungs().iter().find(is_meant).unwrap();
        let hand = InHand::of(&neck, Hand::default(), &rung);
        (neck, hand)
    }

    #[test]
    fn fingers_go_round_and_no_two_are_alike() {
        let (_, mut hand) = held([9, 7, 8]);
        let first = hand.shape().unwrap().fingers();
        let mut seen = vec![first];
        loop {
            hand.next_fingers();
            let fingers = hand.shape().unwrap().fingers();
            if fingers == first {
                break;
            }
            assert!(!seen.contains(&fingers));
            seen.push(fingers);
        }
        assert_eq!(seen.len(), hand.grips.len());
        assert!(seen.len() > 1);
    }

    #[test]
    fn other_places_sound_the_same_and_lead_home() {
        let (neck, mut hand) = held([5, 4, 3]);
        let home = hand.shape().unwrap();
        for _ in 1..hand.places.len() {
            let told = hand.next_place(&neck);
            assert!(told.contains("on strings"), "{told}");
            assert_eq!(hand.shape().unwrap().going_up(), home.going_up());
            assert_ne!(hand.shape().unwrap().places(), home.places());
        }
        hand.next_place(&neck);
        assert_eq!(hand.shape(), Some(home));
    }
}
