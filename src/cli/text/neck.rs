//! The whole neck as text.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::tunings::{capo_line, tuning_line};
use crate::answer::{NeckAnswer, PairAnswer};
use crate::tui::neck::NeckPicture;
use crate::tui::theme::Theme;

/// `neck`
pub(in crate::cli) fn neck(
    answer: &NeckAnswer,
    pair: &PairAnswer,
    picture: &NeckPicture,
) -> String {
    neck_head(answer, pair) + "\n" + &drawn(picture)
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

/// A neck picture at its narrowest, as lines of text.
pub(super) fn drawn(picture: &NeckPicture) -> String {
    let area = Rect::new(0, 0, picture.narrowest_width(), picture.height());
    let mut buffer = Buffer::empty(area);
    picture.draw(area, &mut buffer, &Theme::monochrome());
    crate::tui::text_of(&buffer)
}
