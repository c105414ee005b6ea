//! The shape in hand: where else its notes lie, and which fingers take it.

use fretloom_fretboard::{Ease, Grip, Hand, HandPosition, Neck, Rung, Shape};
use fretloom_theory::WhichTriad;

use crate::words::counted;

/// How a rung is held: at which of the places of its notes, from 0, the rung's own first; with which
/// of the fingerings there, from 0, the first that [`Player`] takes.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(super) struct Held {
    pub(super) place: usize,
    pub(super) fingers: usize,
}

/// Who holds a shape.
#[derive(Clone, Copy, Debug)]
pub(super) struct Player {
    pub(super) hand: Hand,
    /// Where the view has the hand stand: fingers that keep it nearest to there come first. Without
    /// it the easiest come first.
    pub(super) position: Option<HandPosition>,
}

impl Player {
    fn grips(self, neck: &Neck, shape: &Shape) -> Vec<Grip> {
        let mut grips = self.hand.grips(neck, shape.places());
        if let Some(position) = self.position {
            // The sort is stable: at one distance the easiest stay first.
            grips.sort_by_key(|grip| grip.position().number().abs_diff(position.number()));
        }
        grips
    }
}

/// A shape of the ladder as it is held: at its own place or another, with one of its fingerings.
#[derive(Clone, Debug)]
pub(super) struct InHand {
    player: Player,
    which: WhichTriad,
    /// The rung's own shape.
    home: Shape,
    /// The rung's own place first, then the others, each with its reason.
    places: Vec<(Shape, String)>,
    /// Every way to finger it at the place where it is held; empty where no hand holds it.
    grips: Vec<Grip>,
    /// The one that is chosen.
    grip: Option<Grip>,
    /// With the chosen fingers.
    shape: Shape,
}

impl InHand {
    /// A rung as it is held; home and with its first fingers where there is no such place or are no
    /// such fingers.
    pub(super) fn of(neck: &Neck, player: Player, rung: &Rung, held: Held) -> InHand {
        let home = rung.shape.held_by(neck, player.hand);
        let mut places = vec![(home, "where the ladder has it".to_owned())];
        let elsewhere = home.same_pitches(neck, player.hand);
        places.extend(elsewhere.iter().map(|there| (there.shape, there.to_string())));
        let (grips, grip) = (Vec::new(), None);
        let hand = InHand { player, which: rung.which, home, places, grips, grip, shape: home };
        hand.moved(neck, held).fingered(held)
    }

    /// The same rung held in another way than before.
    pub(super) fn turned(self, neck: &Neck, before: Held, held: Held) -> InHand {
        match (before.place == held.place, before.fingers == held.fingers) {
            (true, true) => self,
            (true, false) => self.fingered(held),
            (false, _) => self.moved(neck, held).fingered(held),
        }
    }

    /// At its place, with the ways to finger it there.
    fn moved(mut self, neck: &Neck, held: Held) -> InHand {
        self.grips = self.player.grips(neck, &self.at(held));
        self
    }

    /// With its fingers, of those that there are at its place.
    fn fingered(mut self, held: Held) -> InHand {
        self.grip = self.grips.get(held.fingers).or(self.grips.first()).copied();
        let shape = self.at(held);
        self.shape = self.grip.map_or(shape, |grip| shape.gripped(grip));
        self
    }

    /// The shape at the place where it is held.
    fn at(&self, held: Held) -> Shape {
        self.places.get(held.place).map_or(self.home, |(shape, _)| *shape)
    }

    /// Whose triad it is.
    pub(super) fn which(&self) -> WhichTriad {
        self.which
    }

    /// The rung's own shape, wherever it is held.
    pub(super) fn home(&self) -> Shape {
        self.home
    }

    /// The shape, with the chosen fingers.
    pub(super) fn shape(&self) -> Shape {
        self.shape
    }

    /// The way to hold it if there is such a place and are such fingers; else home, or with the
    /// easiest ones.
    pub(super) fn possible(&self, held: Held) -> Held {
        Held {
            place: if held.place < self.places.len() { held.place } else { 0 },
            fingers: if held.fingers < self.grips.len() { held.fingers } else { 0 },
        }
    }

    /// With the next fingers, the first after the last.
    pub(super) fn next_fingers(&self, held: Held) -> Held {
        Held { fingers: (held.fingers + 1) % self.grips.len().max(1), ..held }
    }

    /// At the next place of the same notes among those that are wanted, home after the last.
    pub(super) fn next_place(&self, held: Held, wanted: impl Fn(&Shape) -> bool) -> Held {
        let is_wanted =
            |place: &usize| self.places.get(*place).is_some_and(|(shape, _)| wanted(shape));
        let mut after = (held.place + 1..self.places.len()).chain(0..held.place);
        match after.find(is_wanted) {
            Some(place) => Held { place, fingers: 0 },
            None => held,
        }
    }

    /// Which fingers these are, and why.
    pub(super) fn fingers_told(&self, held: Held) -> String {
        match (self.grip, self.grips.len()) {
            (None, _) => "no hand holds this at once".to_owned(),
            (Some(grip), 1) => format!("no other fingers: {}", grip.reason()),
            (Some(grip), count) => format!("{} of {count}: {}", held.fingers + 1, grip.reason()),
        }
    }

    /// Do these notes lie anywhere else under one hand?
    pub(super) fn lies_elsewhere(&self) -> bool {
        self.places.len() > 1
    }

    /// Which place this is, and why there.
    pub(super) fn place_told(&self, held: Held) -> String {
        let reason = self.places.get(held.place).map(|(_, reason)| reason.as_str());
        let (number, count) = (held.place + 1, self.places.len());
        format!("place {number} of {count}: {}", reason.unwrap_or_default())
    }

    /// Why these fingers, and how many others there are; care first, where the stretch is wide.
    pub(super) fn told(&self) -> String {
        let (fingers, places) = (self.grips.len(), self.places.len());
        let ways =
            format!("{}, {} on the neck", counted(fingers, "fingering"), counted(places, "place"));
        match (self.shape.ease(), self.grip) {
            (Ease::Wide, _) => {
                format!("a wide stretch: warm up, rest, stop when it hurts · {ways}")
            }
            (_, Some(grip)) => format!("{ways} · {}", grip.reason()),
            (_, None) => format!("{ways} · one note after another"),
        }
    }
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::{Ladder, ShapeQuery, Tuning};
    use fretloom_theory::{SpelledTriad, TriadPair};

    use super::*;

    fn held(frets: [u8; 3]) -> (Neck, InHand) {
        let neck = Neck::new(Tuning::read("EADGBE").unwrap());
        let [g, a] = ["G", "A"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
        let pair = TriadPair::in_order(g, a).unwrap();
        let query = ShapeQuery::default().on("4-3-2".parse().unwrap());
        let ladder = Ladder::new(&neck, pair, &query);
        let is_meant = |rung: &&Rung| rung.shape.frets().map(|fret| fret.number()) == frets;
        let rung = *ladder.rungs().iter().find(is_meant).unwrap();
        let player = Player { hand: Hand::default(), position: None };
        let hand = InHand::of(&neck, player, &rung, Held::default());
        (neck, hand)
    }

    #[test]
    fn fingers_go_round_and_no_two_are_alike() {
        let (neck, mut hand) = held([9, 7, 8]);
        let (first, mut now) = (hand.shape().fingers(), Held::default());
        let mut seen = vec![first];
        loop {
            let next = hand.next_fingers(now);
            hand = hand.turned(&neck, now, next);
            now = next;
            let fingers = hand.shape().fingers();
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
        let (home, mut now) = (hand.shape(), Held::default());
        for _ in 1..hand.places.len() {
            let next = hand.next_place(now, |_| true);
            hand = hand.turned(&neck, now, next);
            now = next;
            let told = hand.place_told(now);
            assert!(told.contains("on strings"), "{told}");
            assert_eq!(hand.shape().going_up(), home.going_up());
            assert_ne!(hand.shape().places(), home.places());
        }
        let next = hand.next_place(now, |_| true);
        assert_eq!(hand.turned(&neck, now, next).shape(), home);
    }

    #[test]
    fn a_place_or_fingers_that_are_not_there_are_those_at_home() {
        let (neck, hand) = held([5, 4, 3]);
        let beyond = Held { place: 9, fingers: 99 };
        assert_eq!(hand.possible(beyond), Held::default());
        let home = hand.shape();
        assert_eq!(hand.turned(&neck, Held::default(), beyond).shape(), home);
    }
}
