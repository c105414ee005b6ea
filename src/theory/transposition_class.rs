//! Transposition classes: in a symmetric scale many pairs are transpositions of one another.
//!
//! A half-whole diminished scale holds 36 pairs, and any of them moved up three semitones is another
//! of them; a player learns ten. Nothing is hidden: every pair is in exactly one class.

use crate::{PairSound, PitchClassSet, TriadPair, TriadQuality, transposition_symmetries};

/// A pair and its transpositions in the same scale.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TranspositionClass {
    /// The index of the pair that stands first in the list.
    pub first: usize,
    /// The indices of its transpositions, in the order of the list, each with the semitones to move
    /// the pair up.
    pub transpositions: Vec<(usize, u8)>,
}

impl TranspositionClass {
    /// Sorts the pairs of a scale into classes. Where the scale has no symmetry every pair is a class of
    /// its own.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom_theory::{ChordScale, TranspositionClass, PairSound, TriadQuality};
    /// let chord_scale = ChordScale::over("C7b9".parse().unwrap(), "C half-whole".parse().unwrap());
    /// let sounds = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN);
    /// let classes = TranspositionClass::all(&sounds, chord_scale.scale().set());
    /// assert_eq!(sounds.len(), 36);
    /// assert_eq!(classes.len(), 10);
    /// assert_eq!(classes[0].transpositions, [(1, 3)]); // C & G♭, three semitones up: E♭ & A
    /// ```
    #[must_use]
    pub fn all(sounds: &[PairSound], scale: PitchClassSet) -> Vec<TranspositionClass> {
        let steps: Vec<u8> = transposition_symmetries(scale).collect();
        let mut classes: Vec<TranspositionClass> = Vec::new();
        // The class and the distance of every pair that is a transposition of one seen before; to
        // compare each pair with every class would be slow.
        let mut moved: Vec<Option<(usize, u8)>> =
            vec![None; if steps.is_empty() { 0 } else { PAIRS }];
        for (index, sound) in sounds.iter().enumerate() {
            let known = moved.get(number(sound.pair(), 0)).copied().flatten();
            match known.and_then(|(class, by)| Some((classes.get_mut(class)?, by))) {
                Some((class, by)) => class.transpositions.push((index, by)),
                None => {
                    for by in &steps {
                        if let Some(place) = moved.get_mut(number(sound.pair(), *by)) {
                            place.get_or_insert((classes.len(), *by));
                        }
                    }
                    classes.push(TranspositionClass { first: index, transpositions: Vec::new() });
                }
            }
        }
        classes
    }
}

/// No more triads than these sound differently: each quality on twelve roots.
const TRIADS: usize = TriadQuality::ALL.len() * 12;
const PAIRS: usize = TRIADS * TRIADS;

/// A number below [`PAIRS`] for the sound of a pair moved up by `semitones`, whichever triad is
/// named first.
fn number(pair: TriadPair, semitones: u8) -> usize {
    let [one, other] = pair.triads().map(|triad| {
        let root = usize::from(triad.root().up(i32::from(semitones)).number());
        // An augmented triad sounds alike on three roots.
        let root = if triad.quality() == TriadQuality::Augmented { root % 4 } else { root };
        triad.quality() as usize * 12 + root
    });
    one.min(other) * TRIADS + one.max(other)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{ChordScale, ScaleKind, TriadQuality};

    /// In the chromatic scale with every quality: one number for one sound, all of them in the table.
    #[test]
    fn pairs_have_one_number_where_they_sound_alike() {
        let mut sounds = std::collections::HashMap::new();
        let all =
            TriadPair::within(PitchClassSet::CHROMATIC, TriadQuality::ALL, crate::PitchClass::C);
        for pair in all {
            for up in 0..12 {
                let sets = pair.triads().map(|triad| triad.up(i32::from(up)).set().bits());
                let number = number(pair, up);
                assert!(number < PAIRS);
                let sound = [sets[0].min(sets[1]), sets[0].max(sets[1])];
                assert_eq!(*sounds.entry(number).or_insert(sound), sound);
            }
        }
        assert_eq!(sounds.len(), 840);
    }

    #[test]
    fn every_pair_is_in_exactly_one_fold_and_folds_differ() {
        for kind in ScaleKind::all() {
            let scale = crate::Scale::new("C".parse().unwrap(), kind.clone());
            let chord_scale = ChordScale::alone(scale);
            let sounds = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN);
            let classes = TranspositionClass::all(&sounds, chord_scale.scale().set());
            let mut seen: Vec<usize> = classes
                .iter()
                .flat_map(|class| {
                    class.transpositions.iter().map(|copy| copy.0).chain([class.first])
                })
                .collect();
            seen.sort_unstable();
            assert_eq!(seen, (0..sounds.len()).collect::<Vec<_>>(), "{}", kind.name());
            if kind.has_a_letter_for_each_degree() {
                assert_eq!(classes.len(), sounds.len(), "{}", kind.name());
            }
        }
    }

    /// 33 kinds of tertian pairs exist: the chromatic scale has just so many classes.
    #[test]
    fn the_chromatic_scale_folds_into_the_kinds_of_pairs() {
        let chord_scale = ChordScale::alone("C chromatic".parse().unwrap());
        let sounds = PairSound::ranked(&chord_scale, TriadQuality::TERTIAN);
        assert_eq!(TranspositionClass::all(&sounds, chord_scale.scale().set()).len(), 33);
    }
}
