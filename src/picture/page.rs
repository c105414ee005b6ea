//! A printed page as data: what stands where, in millimetres from the upper left corner.
//!
//! A page knows neither what it means nor the file that it becomes: it holds lines, outlines, text
//! and signs of music, in black and grey alone. SVG and PDF are written from the same page
//! (`crate::export`), so that both show the same.

mod extent;
mod figure;
mod flow;
mod font;
mod item;
mod music_sign;
mod pages;
mod paper;
mod segment;
mod shade;

pub use extent::{Extent, Point};
pub use figure::Figure;
pub use flow::{Flow, MARGIN_MM};
pub use font::{Face, GlyphNumber, points};
pub use item::{Dash, Item, Line, Outline, Paint, Text};
pub use music_sign::{MusicSign, SignKind};
pub use pages::{Page, Pages};
pub use paper::Paper;
pub use segment::Segment;
pub use shade::Shade;
