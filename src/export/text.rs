//! Pictures as plain text: what commands print and what is copied.

mod neck;

pub use neck::neck;
