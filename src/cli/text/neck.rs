//! The whole neck as text.

use super::tunings::{capo_line, tuning_line};
use crate::answer::{Harmony, NeckAnswer, PairAnswer};
use crate::export;
use crate::picture::NeckPicture;

/// `neck`
pub(in crate::cli) fn neck(
    answer: &NeckAnswer,
    harmony: &Harmony,
    pair: &PairAnswer,
    picture: &NeckPicture,
) -> String {
    neck_head(answer, harmony, pair) + "\n" + &export::text::neck(picture)
}

/// Chord and scale, the pair in its brackets, the tuning with its capo.
pub(super) fn neck_head(answer: &NeckAnswer, harmony: &Harmony, pair: &PairAnswer) -> String {
    let chord = harmony.chord().map(|chord| format!("{}   ", chord.read.chord));
    let scale = harmony.scale().scale();
    let (first, second) = (pair.first.name, pair.second.name);
    format!(
        "{}{scale}\n[{first}] & ({second})   {}\n{}{}",
        chord.unwrap_or_default(),
        pair.why,
        tuning_line(&answer.tuning),
        capo_line(&answer.tuning, [first, second]),
    )
}
