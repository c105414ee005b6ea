//! Sheets: answers set on pages for the music stand.
//!
//! A sheet takes what `answer` says and puts it on pages (`crate::picture::page`). It reads no files
//! and writes none. Every page says what it is about: chord, scale, pair, tuning and capo.

mod boxes;
mod care;
mod changes;
mod heading;
mod idea;
mod line;
mod neck;
mod shapes;

pub use changes::changes;
pub use heading::{Heading, TriadLine};
pub use idea::{Idea, IdeaLook, idea};
pub use line::{LineLook, line, line_heading};
pub use neck::neck;
pub use shapes::{arpeggios, ladder, shapes};
