//! What is drawn, as data: made once, and written as the cells of a screen or as text.
//!
//! A picture knows notes and necks, but neither the question that it answers nor who draws it: no
//! colours, no cells, no files.

mod fret_widths;
mod labels;

pub use fret_widths::FretWidths;
pub use labels::Labels;
