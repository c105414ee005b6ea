//! Pictures as plain text: what commands print and what is copied.

mod neck;
mod tab;
mod tuning;

pub use neck::neck;
pub use tab::{Legend, TabHead, TabText, shape_tab};
pub use tuning::{strings_with_courses, tuning_line};
