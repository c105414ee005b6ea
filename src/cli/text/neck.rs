//! The whole neck as text.

use super::tunings::{capo_line, tuning_line};
use crate::answer::{NeckAnswer, PairAnswer};
use crate::export;
use crate::picture::NeckPicture;

/// `neck`
pub(in crate::cli) fn neck(
    answer: &NeckAnswer,
    pair: &PairAnswer,
    picture: &NeckPicture,
) -> String {
    neck_head(answer, pair) + "\n" + &export::text::neck(picture)
}

/// The tuning, and the pair in its brackets.
pub(super) fn neck_head(answer: &NeckAnswer, pair: &PairAnswer) -> String {
    let (first, second) = (pair.first.name, pair.second.name);
    format!(
        "{}{}[{first}] & ({second})   {}\n",
        tuning_line(&answer.tuning),
        capo_line(&answer.tuning, [first, second]),
        pair.why
    )
}
