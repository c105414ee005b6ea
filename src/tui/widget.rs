//! The parts that screens are made of: they are given a theme, keys and data, and know no screen.
//!
//! State and drawing are apart: a [`TextField`] and a [`Search`] are kept by a screen; a [`ListView`],
//! a [`Footer`] and a [`NeckWidget`] are made for one frame or one click, so that both see the same
//! layout.

mod choice_rows;
mod field;
mod footer;
mod line;
mod list;
mod neck;
mod search;
mod text_field;

pub(super) use choice_rows::{PairColumns, PairRow, says, scale_line};
pub(super) use field::draw_field;
pub(super) use footer::{Footer, list_footer};
pub(super) use line::{below, broken, cut_to, fitting, indented, write};
pub(super) use list::{ListLine, ListView, list_rows, moved};
pub use neck::NeckWidget;
pub(super) use search::Search;
pub(super) use text_field::TextField;
