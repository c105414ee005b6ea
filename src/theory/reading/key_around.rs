//! The key that a chord is at home in, by the chords around it.

use super::motion::is_dominant;
use crate::{Chord, Degree, Key, NoteName, PitchClass};

/// How many chords on each side are asked.
const HORIZON: usize = 4;

/// The key that the chords around `index` speak for; `None` where none does, or several do alike. A
/// chord speaks for every key that holds it on a usual degree, and counts the more the nearer it
/// stands; a dominant that falls to its tonic counts double.
pub(super) fn key_around(chords: &[&Chord], index: usize) -> Option<Key> {
    let own = chords.get(index)?.root();
    let keys = PitchClass::all().flat_map(|tonic| {
        let tonic = name(tonic, own);
        [Key::major(tonic), Key::minor(tonic)]
    });
    let weighed: Vec<(usize, Key)> =
        keys.map(|key| (evidence_for(chords, index, key), key)).collect();
    let strongest = weighed.iter().map(|(evidence, _)| *evidence).max()?;
    let mut likely = weighed.into_iter().filter(|(evidence, _)| *evidence == strongest);
    let (key, rival) = (likely.next()?.1, likely.next());
    // One chord by itself says nothing of its key.
    (strongest > 0 && rival.is_none() && chords.len() > 1).then_some(key)
}

/// How much the chords around `index` speak for a key.
fn evidence_for(chords: &[&Chord], index: usize, key: Key) -> usize {
    let first = index.saturating_sub(HORIZON);
    let heard = chords.iter().enumerate().skip(first).take_while(|(at, _)| *at <= index + HORIZON);
    heard
        .map(|(at, chord)| {
            let nearness = HORIZON + 1 - at.abs_diff(index);
            let falls_home =
                is_dominant(chord) && chords.get(at + 1).is_some_and(|next| is_tonic(next, key));
            nearness * weight(chord, key) * if falls_home { 2 } else { 1 }
        })
        .sum()
}

/// Is it the tonic chord of a key?
fn is_tonic(chord: &Chord, key: Key) -> bool {
    let on_tonic = chord.root().pitch_class() == key.tonic().pitch_class();
    on_tonic && if key.is_minor() { chord.is_minor() } else { is_major(chord) }
}

fn is_major(chord: &Chord) -> bool {
    chord.names(Degree::MAJOR_THIRD) && !chord.names(Degree::MINOR_SEVENTH)
}

/// How strongly a chord belongs to a key. The chords of natural minor are those of its relative
/// major, so that minor keys are told by their tonic, its V and its half-diminished ii.
fn weight(chord: &Chord, key: Key) -> usize {
    let degree = key.tonic().pitch_class().semitones_up_to(chord.root().pitch_class());
    let major = is_major(chord);
    match (degree, key.is_minor()) {
        // A minor seventh is a ii, iii or vi more often than a tonic.
        (0, true) if chord.is_minor() && chord.names(Degree::MINOR_SEVENTH) => 1,
        (0, _) if is_tonic(chord, key) => 3,
        (7, _) if is_dominant(chord) => 3,
        (7, false) if major && !chord.names(Degree::MAJOR_SEVENTH) => 1,
        (2, false) if chord.is_minor() => 2,
        (2, true) if chord.is_half_diminished() => 2,
        (5, false) if major => 1,
        (4 | 9, false) | (5, true) if chord.is_minor() => 1,
        (6 | 11, false) if chord.is_half_diminished() => 1,
        (8, true) if major => 1,
        _ => 0,
    }
}

/// A tonic's name: on the flat or sharp side on which the chord stands.
fn name(tonic: PitchClass, near: NoteName) -> NoteName {
    let mut names: Vec<NoteName> = NoteName::everyday(tonic).collect();
    if near.accidental() > 0 {
        names.reverse();
    }
    names.first().copied().unwrap_or(near)
}
