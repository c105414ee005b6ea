//! A ranked list whose pairs are worked out when they are asked for.

use std::cell::OnceCell;

use fretloom_theory::{PairSound, Speller, TriadPair};

use super::pair::PairAnswer;

/// The pairs of an answer, the first one first.
///
/// To rank pairs is cheap, to say all that is true of one is not: the chromatic scale holds 366, of
/// which a screen shows a few. So each is worked out when it is first asked for, and kept.
///
/// # Example
///
/// ```
/// use fretloom::answer::{Harmony, Wishes, pairs_over};
/// use fretloom_theory::Families;
/// let harmony = Harmony::of_chord_in("C", "chromatic", &[]).unwrap();
/// let answer = pairs_over(&harmony, &Families::default(), &Wishes::default(), Default::default());
/// assert_eq!(answer.pairs.len(), 366);
/// assert_eq!(answer.pairs.get(365).unwrap().rank, 366);
/// assert!(answer.pairs.get(366).is_none());
/// ```
#[derive(Clone, Debug)]
pub struct PairList {
    speller: Speller,
    /// In their order.
    sounds: Vec<PairSound>,
    /// One for each sound. Boxed, since most of many stay empty.
    pairs: Vec<OnceCell<Box<PairAnswer>>>,
}

impl PairList {
    pub(in crate::answer) fn new(speller: Speller, sounds: Vec<PairSound>) -> PairList {
        let pairs = vec![OnceCell::new(); sounds.len()];
        PairList { speller, sounds, pairs }
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.sounds.len()
    }

    /// Is there none?
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.sounds.is_empty()
    }

    /// Which pair stands at this place of the list, counted from 0; nothing is worked out for it.
    #[must_use]
    pub fn pair(&self, index: usize) -> Option<TriadPair> {
        self.sounds.get(index).map(PairSound::pair)
    }

    /// The pair at this place of the list, counted from 0; `None` beyond its end.
    #[must_use]
    pub fn get(&self, index: usize) -> Option<&PairAnswer> {
        let (sound, cell) = (self.sounds.get(index)?, self.pairs.get(index)?);
        Some(cell.get_or_init(|| Box::new(PairAnswer::new(sound, index + 1, &self.speller))))
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &PairAnswer> {
        (0..self.len()).filter_map(|index| self.get(index))
    }
}

impl PartialEq for PairList {
    fn eq(&self, other: &PairList) -> bool {
        self.iter().eq(other.iter())
    }
}

#[cfg(test)]
mod tests;
