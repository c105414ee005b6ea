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
            None if bottom_of_stack(pitches).is_some() || in_chord => Movement::Arpeggio,
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

/// The lowest of these thirds on top of one another, up or down, octaves aside; `None` where they are
/// no such stack. A step into the first of them is an approach and does not count. Five notes at
/// least; four make a seventh chord, which holds no two triads anyway.
pub(super) fn bottom_of_stack(pitches: &[Pitch]) -> Option<PitchClass> {
    match pitches {
        [first, rest @ ..] if rest.first().is_some_and(|next| leads(*first, *next)) => {
            bottom_of(rest)
        }
        pitches => bottom_of(pitches),
    }
}

fn leads(from: Pitch, to: Pitch) -> bool {
    matches!(from.semitones_up_to(to).abs(), 1 | 2)
}

fn bottom_of(pitches: &[Pitch]) -> Option<PitchClass> {
    let first = pitches.first().filter(|_| pitches.len() >= 5)?.pitch_class();
    // What sounds so many thirds above the first note; seven thirds lead round a scale.
    let mut stack: [Option<PitchClass>; 7] = [None; 7];
    let (mut at, mut lowest) = (0_i32, (0_i32, first));
    let mut before = first;
    for class in pitches.iter().map(|pitch| pitch.pitch_class()) {
        at += match before.semitones_up_to(class) {
            0 => 0,
            3 | 4 => 1,
            8 | 9 => -1,
            _ => return None,
        };
        let slot = stack.get_mut(at.rem_euclid(7) as usize)?;
        if *slot.get_or_insert(class) != class {
            return None;
        }
        lowest = if at < lowest.0 { (at, class) } else { lowest };
        before = class;
    }
    Some(lowest.1)
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
