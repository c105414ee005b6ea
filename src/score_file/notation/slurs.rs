//! Which notes slurs lead from.

use fretloom_theory::Slur;

use crate::score_file::written_score::WrittenScore;

/// The slurs that begin and that end at a note.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub(crate) struct Slurs {
    pub(crate) from: Option<Slur>,
    pub(crate) to: Option<Slur>,
}

/// The slurs of each note. One leads from the last note before on the same string; where places are
/// not known, from the last note before.
pub(crate) fn slurs_of(written: &WrittenScore) -> Vec<Slurs> {
    let notes: Vec<_> = written.played().collect();
    let mut slurs = vec![Slurs::default(); notes.len()];
    let mut in_time: Vec<usize> = (0..notes.len()).collect();
    in_time.sort_by_key(|index| notes.get(*index).map(|(note, _)| note.onset()));
    for (order, index) in in_time.iter().enumerate() {
        let Some((note, beside)) = notes.get(*index) else { continue };
        let Some(slur) = beside.slur else { continue };
        let string = beside.place.map(|place| place.string);
        let is_before = |other: &usize| {
            notes.get(*other).is_some_and(|(before, other)| {
                before.onset() < note.onset() && other.place.map(|place| place.string) == string
            })
        };
        let earlier = in_time.iter().take(order).rev().take(MOST_BETWEEN);
        if let Some(first) = earlier.copied().find(is_before) {
            slurs.get_mut(first).into_iter().for_each(|slurs| slurs.from = Some(slur));
            slurs.get_mut(*index).into_iter().for_each(|slurs| slurs.to = Some(slur));
        }
    }
    slurs
}

/// A slur leads no further back than so many notes.
const MOST_BETWEEN: usize = 64;
