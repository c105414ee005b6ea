//! Passages: notes whose places are fixed, played one after another by one hand.

use fretloom_theory::Pitch;

use crate::{Finger, FingeredNote, FingeringQuery, Fret, Hand, HandPosition};
use crate::{LineNote, Neck, Pin, Place};

/// The time from one note to the next, in seconds: eighth notes at 120 beats a minute. The notes of
/// an arpeggio or of a view have no rhythm, and this is the plain tempo at which players practise
/// them: quick enough that a shift costs something, slow enough that it costs no more than a reach.
/// Our choice, no source.
const SECONDS_A_NOTE: f64 = 0.25;

/// Notes at fixed places, with the fingers and positions of the hand that plays them.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Passage {
    notes: Vec<FingeredNote>,
    stretch_mm: f64,
    lowest: HandPosition,
}

impl Passage {
    /// The passage as `hand` plays it. It has no fingers where the notes in a row on some string
    /// lie farther apart than first and fourth finger reach: a hand could only leap there, and a
    /// player would take other strings.
    pub(crate) fn new(neck: &Neck, hand: Hand, notes: &[(Place, Pitch)]) -> Passage {
        let line: Vec<LineNote> =
            notes.iter().enumerate().filter_map(|(index, note)| pinned(index, *note)).collect();
        let in_reach = groups(notes).all(|group| is_in_reach(neck, hand, group));
        let query = FingeringQuery::default().for_hand(hand);
        let fingering = in_reach.then(|| query.best(neck, &line).ok()).flatten();
        let lowest = extent(notes).map_or(Fret::OPEN, |(low, _)| low);
        Passage {
            notes: fingering.map(|it| it.notes().to_vec()).unwrap_or_default(),
            stretch_mm: groups(notes).map(|group| width_mm(neck, group)).fold(0.0, f64::max),
            lowest: HandPosition::with_finger(neck, 1, lowest),
        }
    }

    /// The fingers in the order of playing; `None` beyond the hand.
    pub(crate) fn fingers(&self) -> Option<Vec<Finger>> {
        let fingers = || self.notes.iter().map(|note| note.finger).collect();
        (!self.notes.is_empty()).then(fingers)
    }

    /// Where the hand stands one after another; empty beyond the hand.
    pub(crate) fn positions(&self) -> Vec<HandPosition> {
        let mut positions: Vec<HandPosition> =
            self.notes.iter().map(|note| note.position).collect();
        positions.dedup();
        positions
    }

    /// Where the hand stands first; without fingers, the lowest fretted fret.
    pub(crate) fn position(&self) -> HandPosition {
        self.notes.first().map_or(self.lowest, |note| note.position)
    }

    /// The widest stretch of notes in a row on one string, in millimetres from fret to fret.
    pub(crate) const fn stretch_mm(&self) -> f64 {
        self.stretch_mm
    }
}

/// Note number `index` of the line, pinned where the passage has it.
fn pinned(index: usize, (place, pitch): (Place, Pitch)) -> Option<LineNote> {
    let pin = Pin { string: Some(place.string), fret: Some(place.fret) };
    let note = LineNote::new(index as f64 * SECONDS_A_NOTE, SECONDS_A_NOTE, pitch)?;
    Some(note.pinned(pin))
}

/// The notes in a row on one string.
fn groups(notes: &[(Place, Pitch)]) -> impl Iterator<Item = &[(Place, Pitch)]> {
    notes.chunk_by(|one, next| one.0.string == next.0.string)
}

/// The lowest and the highest fretted fret; `None` where all strings are open.
fn extent(notes: &[(Place, Pitch)]) -> Option<(Fret, Fret)> {
    let fretted = || notes.iter().map(|(place, _)| place.fret).filter(|fret| !fret.is_open());
    fretted().min().zip(fretted().max())
}

fn width_mm(neck: &Neck, group: &[(Place, Pitch)]) -> f64 {
    extent(group).map_or(0.0, |(low, high)| neck.span_mm(low, high))
}

fn is_in_reach(neck: &Neck, hand: Hand, group: &[(Place, Pitch)]) -> bool {
    let fingers = Finger::Fourth.steps_above(Finger::First);
    extent(group).is_none_or(|(low, high)| hand.reaches(neck, low, high, fingers))
}
