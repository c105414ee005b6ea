use fretloom_theory::{Families, Spelling};

use super::PairList;
use crate::answer::{Harmony, Wishes, pairs_over};

fn chromatic() -> PairList {
    let harmony = Harmony::of_chord_in("C7", "chromatic", &[]).unwrap();
    pairs_over(&harmony, &Families::default(), &Wishes::default(), Spelling::Plain).pairs
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
}
