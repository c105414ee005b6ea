//! A ranked list whose pairs are worked out when they are asked for.

use std::cell::OnceCell;

use fretloom_theory::{Sound, Speller};
use serde::{Serialize, Serializer};

use super::{PairAnswer, answer};

/// The pairs of an answer, the first one first.
///
/// To rank pairs is cheap, to say all that is true of one is not: the chromatic scale holds 366, of
/// which a screen shows a few. So each is worked out when it is first asked for, and kept.
///
/// # Example
///
/// ```
/// use fretloom::answer::{Families, Moment, Wishes, pairs_over};
/// let moment = Moment::of_chord_in("C", "chromatic", &[]).unwrap();
/// let answer = pairs_over(&moment, &Families::default(), &Wishes::default(), Default::default());
/// assert_eq!(answer.pairs.len(), 366);
/// assert_eq!(answer.pairs.get(365).unwrap().rank, 366);
/// assert!(answer.pairs.get(366).is_none());
/// ```
#[derive(Clone, Debug)]
pub struct PairList {
    /// What the pairs sound over; none where every pair was worked out at once.
    ranked: Option<Ranked>,
    /// Boxed, since most of many stay empty.
    pairs: Vec<OnceCell<Box<PairAnswer>>>,
}

/// Pairs in their order, and all that their answers follow from.
#[derive(Clone, Debug)]
struct Ranked {
    speller: Speller,
    sounds: Vec<Sound>,
}

impl PairList {
    pub(super) fn ranked(speller: Speller, sounds: Vec<Sound>) -> PairList {
        let pairs = vec![OnceCell::new(); sounds.len()];
        PairList { ranked: Some(Ranked { speller, sounds }), pairs }
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.pairs.len()
    }

    /// Is there none?
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.pairs.is_empty()
    }

    /// The pair at this place of the list, counted from 0; `None` beyond its end.
    #[must_use]
    pub fn get(&self, index: usize) -> Option<&PairAnswer> {
        let cell = self.pairs.get(index)?;
        match &self.ranked {
            None => cell.get().map(Box::as_ref),
            Some(ranked) => {
                let sound = ranked.sounds.get(index)?;
                Some(cell.get_or_init(|| Box::new(answer(sound, index + 1, &ranked.speller))))
            }
        }
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &PairAnswer> {
        (0..self.len()).filter_map(|index| self.get(index))
    }
}

impl FromIterator<PairAnswer> for PairList {
    fn from_iter<I: IntoIterator<Item = PairAnswer>>(pairs: I) -> PairList {
        PairList {
            ranked: None,
            pairs: pairs.into_iter().map(|pair| OnceCell::from(Box::new(pair))).collect(),
        }
    }
}

impl PartialEq for PairList {
    fn eq(&self, other: &PairList) -> bool {
        self.iter().eq(other.iter())
    }
}

impl Serialize for PairList {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.iter())
    }
}

#[cfg(test)]
mod tests {
    use fretloom_theory::Spelling;

    use super::super::{Families, Moment, Wishes, pairs_over};
    use super::*;

    fn chromatic() -> PairList {
        let moment = Moment::of_chord_in("C7", "chromatic", &[]).unwrap();
        let wishes = Wishes::default();
        pairs_over(&moment, &Families::default(), &wishes, Spelling::Plain).pairs
    }

    #[test]
    fn a_pair_is_worked_out_once_and_no_other_with_it() {
        let list = chromatic();
        let worked_out =
            |list: &PairList| list.pairs.iter().filter(|cell| cell.get().is_some()).count();
        assert_eq!((list.len(), worked_out(&list)), (366, 0));
        let first = list.get(7).unwrap();
        assert!(std::ptr::eq(first, list.get(7).unwrap()));
        assert_eq!((first.rank, worked_out(&list)), (8, 1));
        assert_eq!(list.iter().count(), 366);
        assert_eq!(worked_out(&list), 366);
    }

    /// The order in which pairs are asked for changes nothing.
    #[test]
    fn from_behind_the_list_is_the_same() {
        let (ahead, behind) = (chromatic(), chromatic());
        for index in (0..behind.len()).rev() {
            assert_eq!(behind.get(index).unwrap().rank, index + 1);
        }
        assert_eq!(ahead, behind);
        assert_eq!(ahead.iter().cloned().collect::<PairList>(), behind);
    }
}
