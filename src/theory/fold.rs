//! Folding: in a symmetric scale most pairs are one pair, moved.
//!
//! A half-whole diminished scale holds 36 pairs, but moving any of them three frets gives another;
//! a player learns a dozen. Nothing is hidden: every pair is in exactly one fold.

use std::collections::HashMap;

use crate::{PitchClassSet, Sound, TriadPair, transposition_symmetries};

/// A pair and its copies elsewhere in the same scale.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fold {
    /// The index of the pair that stands first in the list.
    pub first: usize,
    /// The indices of its copies, in the order of the list, each with the semitones to move up.
    pub copies: Vec<(usize, u8)>,
}

impl Fold {
    /// Folds a list of sounds in a scale. Where the scale has no symmetry every pair is a fold of
    /// its own.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom_theory::{ChordScale, Fold, Sound, TriadQuality};
    /// let ground = ChordScale::over("C7b9".parse().unwrap(), "C half-whole".parse().unwrap());
    /// let sounds = Sound::ranked(&ground, TriadQuality::TERTIAN);
    /// let folds = Fold::all(&sounds, ground.scale().set());
    /// assert_eq!(sounds.len(), 36);
    /// assert_eq!(folds.len(), 10);
    /// assert_eq!(folds[0].copies, [(1, 3)]); // C & G♭, moved three frets: E♭ & A
    /// ```
    #[must_use]
    pub fn all(sounds: &[Sound], scale: PitchClassSet) -> Vec<Fold> {
        let steps: Vec<u8> = transposition_symmetries(scale).collect();
        let mut folds: Vec<Fold> = Vec::new();
        // Where each pair that can be a copy belongs; to compare it with every fold is slow.
        let mut moved: HashMap<[u16; 2], (usize, u8)> = HashMap::with_capacity(sounds.len());
        for (index, sound) in sounds.iter().enumerate() {
            let known = moved.get(&notes(sound.pair(), 0)).copied();
            match known.and_then(|(fold, by)| Some((folds.get_mut(fold)?, by))) {
                Some((fold, by)) => fold.copies.push((index, by)),
                None => {
                    for by in &steps {
                        moved.entry(notes(sound.pair(), *by)).or_insert((folds.len(), *by));
                    }
                    folds.push(Fold { first: index, copies: Vec::new() });
                }
            }
        }
        folds
    }
}

/// The notes of both triads of a pair moved up by `semitones`, whichever triad is named first.
fn notes(pair: TriadPair, semitones: u8) -> [u16; 2] {
    let mut notes = pair.triads().map(|triad| triad.set().transposed(i32::from(semitones)).bits());
    notes.sort_unstable();
    notes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{ChordScale, ScaleKind, TriadQuality};

    #[test]
    fn every_pair_is_in_exactly_one_fold_and_folds_differ() {
        for kind in ScaleKind::all() {
            let scale = crate::Scale::new("C".parse().unwrap(), kind.clone());
            let ground = ChordScale::alone(scale);
            let sounds = Sound::ranked(&ground, TriadQuality::TERTIAN);
            let folds = Fold::all(&sounds, ground.scale().set());
            let mut seen: Vec<usize> = folds
                .iter()
                .flat_map(|fold| fold.copies.iter().map(|copy| copy.0).chain([fold.first]))
                .collect();
            seen.sort_unstable();
            assert_eq!(seen, (0..sounds.len()).collect::<Vec<_>>(), "{}", kind.name());
            if kind.has_a_letter_for_each_degree() {
                assert_eq!(folds.len(), sounds.len(), "{}", kind.name());
            }
        }
    }

    /// 33 kinds of tertian pairs exist: the chromatic scale folds into just so many.
    #[test]
    fn the_chromatic_scale_folds_into_the_kinds_of_pairs() {
        let ground = ChordScale::alone("C chromatic".parse().unwrap());
        let sounds = Sound::ranked(&ground, TriadQuality::TERTIAN);
        assert_eq!(Fold::all(&sounds, ground.scale().set()).len(), 33);
    }
}
