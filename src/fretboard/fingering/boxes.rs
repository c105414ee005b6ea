//! How well a line lies round each position of the hand.
//!
//! Players learn keys as boxes: positions in which the notes of the key lie where the first finger
//! is and where the hand ends, on every string, with gaps in between. In recorded solos the box
//! tells most of where on the neck a phrase is played. No key is guessed: what counts is how much
//! of the line's time each note takes.

use fretloom_theory::Pitch;

use super::line_note::LineNote;
use crate::{Fret, Neck, Place};

/// How much a note of the line is worth at so many frets above the first finger, in millimetres for
/// a note that fills the line and lies there on every string. Fitted as the other weights are.
const WORTH_MM: [f64; 5] = [54.0, 0.0, -12.0, 18.0, 27.0];

/// How many seconds of other notes count besides those of the line: a few notes tell no key.
const UNHEARD_S: f64 = 4.0;

/// A note counts for no longer than this, in seconds.
const LONGEST_S: f64 = 1.0;

const FRETS: usize = Fret::HIGHEST.number() as usize + 1;

/// What it costs a note of a line that the hand stands at each fret and not in the best box: nothing
/// there, more the less of the line lies round it.
pub(super) struct Boxes {
    costs_mm: [f64; FRETS],
}

impl Boxes {
    pub(super) fn of(neck: &Neck, line: &[LineNote]) -> Boxes {
        let parts = parts_of_time(line);
        let mut worths = [0.0; FRETS];
        for (worth, fret) in worths.iter_mut().zip(0..) {
            *worth = worth_mm(neck, &parts, fret);
        }
        let most = worths[1..].iter().copied().fold(f64::NEG_INFINITY, f64::max);
        Boxes { costs_mm: worths.map(|worth| (most - worth).max(0.0)) }
    }

    /// With the first finger at `fret`.
    pub(super) fn cost_mm(&self, fret: Fret) -> f64 {
        self.costs_mm[usize::from(fret.number())]
    }
}

/// Which part of the line's time each pitch class takes, from C up.
fn parts_of_time(line: &[LineNote]) -> [f64; 12] {
    let mut seconds = [0.0; 12];
    for note in line {
        seconds[class(note.pitch())] += note.duration_s().min(LONGEST_S);
    }
    let sum: f64 = seconds.iter().sum();
    seconds.map(|seconds| seconds / (sum + UNHEARD_S))
}

fn class(pitch: Pitch) -> usize {
    usize::from(pitch.midi() % 12)
}

fn worth_mm(neck: &Neck, parts: &[f64; 12], first: u8) -> f64 {
    WORTH_MM.iter().zip(first..).map(|(worth, fret)| worth * part_at(neck, parts, fret)).sum()
}

/// Which part of the line's time has its notes at `fret`, on the average string that is stopped
/// there.
fn part_at(neck: &Neck, parts: &[f64; 12], fret: u8) -> f64 {
    let Some(fret) = Fret::new(fret) else { return 0.0 };
    let places = neck.tuning().strings().map(|(string, _)| Place { string, fret });
    let pitches: Vec<Pitch> = places.filter_map(|place| neck.pitch_at(place)).collect();
    let sum: f64 = pitches.iter().map(|pitch| parts[class(*pitch)]).sum();
    sum / pitches.len().max(1) as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Tuning;

    fn line(midi: &[u8], duration_s: f64) -> Vec<LineNote> {
        let pitches = midi.iter().filter_map(|midi| Pitch::from_midi(*midi));
        pitches.filter_map(|pitch| LineNote::new(0.0, duration_s, pitch)).collect()
    }

    /// The first box that guitarists learn: A minor pentatonic lies at the fifth fret on all six
    /// strings. Common practice, no source.
    #[test]
    fn a_pentatonic_scale_lies_where_players_learn_it() {
        let neck = Neck::new(Tuning::read("EADGBE").unwrap());
        let boxes = Boxes::of(&neck, &line(&[57, 60, 62, 64, 67].repeat(8), 0.5));
        let at = |fret| boxes.cost_mm(Fret::new(fret).unwrap());
        assert_eq!((at(5), at(17)), (0.0, 0.0));
        for fret in [1, 3, 4, 6, 8, 9, 11] {
            assert!(at(fret) > 3.0, "{fret}: {}", at(fret));
        }
    }

    #[test]
    fn a_line_that_does_not_last_has_no_box() {
        let neck = Neck::new(Tuning::read("GCEA").unwrap());
        for line in [line(&[], 1.0), line(&[60, 64], 0.0)] {
            let boxes = Boxes::of(&neck, &line);
            assert!((0..=36).filter_map(Fret::new).all(|fret| boxes.cost_mm(fret) == 0.0));
        }
    }
}
