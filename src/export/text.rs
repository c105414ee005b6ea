//! Pictures as plain text: what commands print and what is copied.

mod neck;
mod tab;

pub use neck::neck;
pub use tab::{Legend, TabHead, TabText, shape_tab};
