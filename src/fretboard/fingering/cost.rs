//! What a fingering costs.
//!
//! The unit is the millimetre: one is the effort of moving the hand a millimetre along the neck
//! with time to spare. Everything else is weighed against that. What decides is where the *hand*
//! is and how far and how fast it has to go, not the distance from one fret number to the next;
//! reaching is measured in millimetres and moving also in seconds.
//!
//! The weights were fitted to sixty recorded solos of two players (`GuitarSet` v1.1.0, Xi, Bittner,
//! Pauwels, Ye and Bello 2018), then rounded. Fingers were not recorded there: what concerns
//! fingers alone follows common teaching and has no source.

use super::boxes::Boxes;
use super::fingered_note::FingeredNote;
use super::hurry::Hurry;
use super::line_note::LineNote;
use super::query::FingeringQuery;
use crate::{Finger, Fret, Hand, HandPosition, Neck};

/// The terms of the cost. Lengths are in millimetres; `_s` marks a weight that is divided by the
/// time there is, in seconds.
struct Weights {
    /// Setting the hand in motion at all.
    shift: f64,
    /// For each millimetre that the hand goes, besides the 1 that it costs with time to spare.
    shift_hurried_s: f64,
    /// For each millimetre, at each note, that the hand stands above where it likes to be.
    high: f64,
    /// For each millimetre that a finger reaches up beyond where it stands at ease.
    stretch: f64,
    /// For each millimetre that the first finger reaches back.
    reach_back: f64,
    /// For each millimetre that a finger stands nearer to the first than it would at ease.
    squeeze: f64,
    /// For each note of the fourth finger, the weakest.
    fourth_finger: f64,
    /// For each string from one note to the next.
    string: f64,
    /// The same, hurried.
    string_hurried_s: f64,
    /// For each string in between that is skipped.
    skip: f64,
    /// One finger for two strings of one fret in a row: it rolls.
    roll_hurried_s: f64,
    /// One finger for two frets of one string in a row: it slides.
    slide_hurried_s: f64,
    /// One finger for two frets of two strings in a row: it jumps.
    jump_hurried_s: f64,
    /// Two fingers on one fret of two strings with the shorter one on the higher string number.
    crossed: f64,
    /// Another finger for the note that sounded just before.
    substitution: f64,
    /// Third and fourth finger in a row, which do not move freely of one another.
    third_to_fourth_hurried_s: f64,
    /// For each millimetre that a grip costs: what its fingers, held together, leave of standing at
    /// ease.
    grip: f64,
}

const WEIGHTS: Weights = Weights {
    shift: 15.0,
    shift_hurried_s: 0.8,
    high: 0.1,
    stretch: 3.0,
    reach_back: 4.0,
    squeeze: 0.3,
    fourth_finger: 38.0,
    string: 3.5,
    string_hurried_s: 0.5,
    skip: 5.0,
    roll_hurried_s: 8.0,
    slide_hurried_s: 5.0,
    jump_hurried_s: 10.0,
    crossed: 10.0,
    substitution: 8.0,
    third_to_fourth_hurried_s: 0.5,
    grip: 2.0,
};

/// What is to be avoided at any price, to find the best way without it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Avoid {
    Nothing,
    EveryShift,
    /// Every shift for which neither an open string nor a pause gives time.
    HurriedShifts,
}

/// More than any line could cost otherwise, for each thing to be avoided.
const AT_ANY_PRICE: f64 = 1e9;

/// The cost of fingerings on one neck, for one hand and taste.
pub(super) struct Cost {
    avoid: Avoid,
    boxes: Boxes,
    from_nut_mm: [f64; FRETS],
    home_mm: f64,
    open_string: f64,
    hand: Hand,
}

const FRETS: usize = Fret::HIGHEST.number() as usize + 1;

impl Cost {
    /// Of fingerings of `line`.
    pub(super) fn new(
        neck: &Neck,
        query: &FingeringQuery,
        avoid: Avoid,
        line: &[LineNote],
    ) -> Cost {
        let taste = query.taste();
        let mut from_nut_mm = [0.0; FRETS];
        for (mm, fret) in from_nut_mm.iter_mut().zip(0..) {
            *mm = Fret::new(fret).map_or(0.0, |fret| neck.distance_mm(fret));
        }
        let nut_mm = neck.distance_mm(neck.begins_at());
        Cost {
            avoid,
            boxes: Boxes::of(neck, line),
            from_nut_mm,
            home_mm: nut_mm + taste.home_part() * (neck.tuning().scale_mm() - nut_mm),
            open_string: taste.open_string_mm(),
            hand: query.hand(),
        }
    }

    fn mm(&self, fret: u8) -> f64 {
        self.from_nut_mm[usize::from(fret).min(FRETS - 1)]
    }

    /// What one note costs where it is.
    pub(super) fn of(&self, note: FingeredNote) -> f64 {
        let stand = self.stand(note.position.fret());
        if note.finger == Finger::Open {
            return stand + self.open_string;
        }
        let beyond = self.mm(note.place.fret.number()) - self.at_ease_mm(note);
        let reach = match note.finger {
            _ if beyond >= 0.0 => beyond * WEIGHTS.stretch,
            Finger::First => -beyond * WEIGHTS.reach_back,
            _ => -beyond * WEIGHTS.squeeze,
        };
        let fourth = if note.finger == Finger::Fourth { WEIGHTS.fourth_finger } else { 0.0 };
        stand + reach + fourth
    }

    /// Where the finger stands at ease: one finger a fret, as far as frets are no wider than
    /// fingers stand.
    fn at_ease_mm(&self, note: FingeredNote) -> f64 {
        let fingers = note.finger.number().saturating_sub(1);
        let first = self.mm(note.position.number());
        let by_frets = self.mm(note.position.number() + fingers);
        by_frets.min(first + self.hand.at_ease_mm(fingers))
    }

    /// What several notes cost that are held together in a grip of this cost. For the same places the
    /// cheapest is what a hand takes that does nothing else.
    pub(super) fn of_chord(&self, notes: &[FingeredNote], grip_mm: f64) -> f64 {
        let fretted = notes.iter().map(|note| note.place.fret).filter(|fret| !fret.is_open());
        let position = notes.first().map_or(HandPosition::FIRST, |note| note.position);
        let stands = fretted.min().unwrap_or(position.fret());
        let open = notes.iter().filter(|note| note.finger == Finger::Open).count();
        let stand = self.stand(stands) * notes.len() as f64;
        stand + self.open_string * open as f64 + grip_mm * WEIGHTS.grip
    }

    /// What it costs a note that the hand stands at `fret`.
    fn stand(&self, fret: Fret) -> f64 {
        let high_mm = (self.mm(fret.number()) - self.home_mm).max(0.0);
        high_mm * WEIGHTS.high + self.boxes.cost_mm(fret)
    }

    /// What it costs to go from one note to the next.
    pub(super) fn between(&self, from: FingeredNote, to: FingeredNote, hurry: Hurry) -> f64 {
        strings(from, to, hurry) + fingers(from, to, hurry) + self.shift(from, to, hurry)
    }

    fn shift(&self, from: FingeredNote, to: FingeredNote, hurry: Hurry) -> f64 {
        if from.position == to.position {
            return 0.0;
        }
        let travel = self.travel(from.position, to.position, hurry);
        let begin = if is_guided(from, to) { 0.0 } else { WEIGHTS.shift };
        travel + begin + self.price(from, to, hurry)
    }

    /// What it costs to get the hand from one position to another, apart from beginning to.
    pub(super) fn travel(&self, from: HandPosition, to: HandPosition, hurry: Hurry) -> f64 {
        let far_mm = (self.mm(to.number()) - self.mm(from.number())).abs();
        far_mm * (1.0 + WEIGHTS.shift_hurried_s * hurry.per_s())
    }

    /// What a shift costs because it is to be avoided.
    fn price(&self, from: FingeredNote, to: FingeredNote, hurry: Hurry) -> f64 {
        let is_avoided = match self.avoid {
            Avoid::Nothing => false,
            Avoid::EveryShift => true,
            Avoid::HurriedShifts => !sounds_open(from, to) && !hurry.is_a_pause(),
        };
        if is_avoided { AT_ANY_PRICE } else { 0.0 }
    }
}

/// Is the shift an easy one to begin: while an open string sounds, or with a finger that stays on
/// its string as a guide?
fn is_guided(from: FingeredNote, to: FingeredNote) -> bool {
    sounds_open(from, to) || from.finger == to.finger && from.place.string == to.place.string
}

fn sounds_open(from: FingeredNote, to: FingeredNote) -> bool {
    from.finger == Finger::Open || to.finger == Finger::Open
}

fn strings(from: FingeredNote, to: FingeredNote, hurry: Hurry) -> f64 {
    let across = from.place.string.number().abs_diff(to.place.string.number());
    let skipped = across.saturating_sub(1);
    f64::from(across) * (WEIGHTS.string + WEIGHTS.string_hurried_s * hurry.per_s())
        + f64::from(skipped) * WEIGHTS.skip
}

fn fingers(from: FingeredNote, to: FingeredNote, hurry: Hurry) -> f64 {
    if sounds_open(from, to) {
        return 0.0;
    }
    let hurried = match (
        from.finger == to.finger,
        from.place.fret == to.place.fret,
        from.place.string == to.place.string,
    ) {
        (true, true, true) => return 0.0,
        (true, true, false) => WEIGHTS.roll_hurried_s,
        (true, false, true) => WEIGHTS.slide_hurried_s,
        (true, false, false) => WEIGHTS.jump_hurried_s,
        (false, true, true) => return WEIGHTS.substitution,
        (false, true, false) => return crossed(from, to),
        (false, false, _) if are_third_and_fourth(from, to) => WEIGHTS.third_to_fourth_hurried_s,
        (false, false, _) => return 0.0,
    };
    hurried * hurry.per_s()
}

fn are_third_and_fourth(one: FingeredNote, other: FingeredNote) -> bool {
    let fingers = [one.finger, other.finger];
    fingers == [Finger::Third, Finger::Fourth] || fingers == [Finger::Fourth, Finger::Third]
}

/// Two fingers on one fret: the longer one belongs on the higher string number.
fn crossed(one: FingeredNote, other: FingeredNote) -> f64 {
    if one.place.fret != other.place.fret || one.place.string == other.place.string {
        return 0.0;
    }
    let (ceiling, floor) =
        if one.place.string > other.place.string { (one, other) } else { (other, one) };
    if ceiling.finger.length_mm() < floor.finger.length_mm() { WEIGHTS.crossed } else { 0.0 }
}
