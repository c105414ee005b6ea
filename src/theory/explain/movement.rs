//! What a line does where no pair explains it.

use crate::{Pitch, PitchClass, PitchClassSet, Triad, TriadQuality};

/// What a line does where no pair explains it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Movement {
    /// No note begins.
    Rests,
    /// One note, or one that is repeated.
    OneNote,
    /// Mostly half steps.
    Chromatic,
    /// Mostly half and whole steps.
    Scale,
    /// Thirds, broken one after another up or down a scale.
    Thirds,
    /// The notes of one triad.
    OneTriad(Triad),
    /// Thirds on top of one another, or the tones of a chord.
    Arpeggio,
    /// The five notes of a pentatonic scale, with its leaps.
    Pentatonic,
    /// Steps and leaps of no one kind.
    Mixed,
}

impl Movement {
    /// What these notes do, one after another; `chord` holds the tones of the chord under them.
    pub(super) fn of(pitches: &[Pitch], chord: PitchClassSet) -> Movement {
        let steps: Vec<i32> =
            pitches.windows(2).map(|pair| pair[0].semitones_up_to(pair[1])).collect();
        let sounded: PitchClassSet = pitches.iter().map(|pitch| pitch.pitch_class()).collect();
        let most = |count: usize| 3 * count >= 2 * steps.len();
        let count = |within: fn(i32) -> bool| steps.iter().filter(|step| within(**step)).count();
        if pitches.is_empty() {
            return Movement::Rests;
        }
        if sounded.len() == 1 {
            return Movement::OneNote;
        }
        let half_steps = count(|step| step.abs() == 1);
        let small = count(|step| matches!(step.abs(), 1 | 2));
        let in_chord = sounded.is_subset(chord);
        match triad_of(sounded) {
            Some(triad) => Movement::OneTriad(triad),
            None if most(half_steps) => Movement::Chromatic,
            None if is_stacked(pitches) || in_chord => Movement::Arpeggio,
            None if most(small) => Movement::Scale,
            None if are_thirds(&steps) => Movement::Thirds,
            None if is_pentatonic(sounded) => Movement::Pentatonic,
            None => Movement::Mixed,
        }
    }
}

/// The triad whose three notes these are.
fn triad_of(sounded: PitchClassSet) -> Option<Triad> {
    Triad::every(TriadQuality::TERTIAN).find(|triad| triad.set() == sounded)
}

/// Is each note a third, or a third in another octave, from the one before? A step into the first
/// of them is an approach and does not count. Five notes at least; four make a seventh chord, which
/// holds no two triads anyway.
pub(super) fn is_stacked(pitches: &[Pitch]) -> bool {
    let thirds = |pitches: &[Pitch]| {
        let third =
            |pair: &[Pitch]| matches!(pair[0].semitones_up_to(pair[1]).abs(), 3 | 4 | 8 | 9);
        pitches.len() >= 5 && pitches.windows(2).all(third)
    };
    let leads_in = |pair: &[Pitch]| matches!(pair[0].semitones_up_to(pair[1]).abs(), 1 | 2);
    match pitches {
        [first, second, ..] if leads_in(&[*first, *second]) => thirds(&pitches[1..]),
        pitches => thirds(pitches),
    }
}

/// Do thirds and what leads to the next third take turns?
fn are_thirds(steps: &[i32]) -> bool {
    let third = |step: &i32| matches!(step.abs(), 3 | 4);
    let turns = |first: usize| steps.iter().skip(first).step_by(2).filter(|step| third(step));
    let half = steps.len() / 2;
    steps.len() >= 3 && (turns(0).count() >= half.max(2) || turns(1).count() >= half.max(2))
}

/// Do they all lie in a major or minor pentatonic scale?
fn is_pentatonic(sounded: PitchClassSet) -> bool {
    let on_c: PitchClassSet = [0, 2, 4, 7, 9].into_iter().map(PitchClass::new).collect();
    (0..12).any(|by| sounded.is_subset(on_c.transposed(by)))
}
