//! The key that a chord is at home in, by the chords around it.

use std::array;

use crate::{Chord, Degree, Key, NoteName, PitchClass};

/// How many chords on each side are asked.
const HORIZON: usize = 4;

/// The major key that the chords around `index` speak for; `None` where none does, or several do
/// alike. A chord speaks for every major key that holds it on a usual degree, and counts the more
/// the nearer it stands; a dominant that falls to its tonic counts double.
pub(super) fn key_around(chords: &[&Chord], index: usize) -> Option<Key> {
    let evidence: [usize; 12] =
        array::from_fn(|n| evidence_for(chords, index, PitchClass::new(n as i32)));
    let strongest = *evidence.iter().max()?;
    let mut tonics =
        PitchClass::all().filter(|tonic| evidence[usize::from(tonic.number())] == strongest);
    let (tonic, rival) = (tonics.next()?, tonics.next());
    let own = chords.get(index)?.root();
    // One chord by itself says nothing of its key.
    (strongest > 0 && rival.is_none() && chords.len() > 1).then(|| Key::major(name(tonic, own)))
}

/// How much the chords around `index` speak for the major key of `tonic`.
fn evidence_for(chords: &[&Chord], index: usize, tonic: PitchClass) -> usize {
    let first = index.saturating_sub(HORIZON);
    let heard = chords.iter().enumerate().skip(first).take_while(|(at, _)| *at <= index + HORIZON);
    heard
        .map(|(at, chord)| {
            let nearness = HORIZON + 1 - at.abs_diff(index);
            let falls_home = chords
                .get(at + 1)
                .is_some_and(|next| next.root().pitch_class() == tonic && chord.is_dominant());
            nearness * weight(chord, tonic) * if falls_home { 2 } else { 1 }
        })
        .sum()
}

/// How strongly a chord belongs to a major key.
fn weight(chord: &Chord, tonic: PitchClass) -> usize {
    let degree = tonic.semitones_up_to(chord.root().pitch_class());
    let major = chord.names(Degree::MAJOR_THIRD) && !chord.names(Degree::MINOR_SEVENTH);
    match degree {
        0 if major => 3,
        7 if chord.is_dominant() => 3,
        2 if chord.is_minor() => 2,
        5 if major => 1,
        4 | 9 if chord.is_minor() => 1,
        11 if chord.is_half_diminished() => 1,
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
