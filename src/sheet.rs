//! Sheets: answers set on pages for the music stand.
//!
//! A sheet takes what `answer` says and puts it on pages (`crate::picture::page`). It reads no files
//! and writes none. Every page says what it is about: chord, scale, pair, tuning and capo.

mod assignment;
mod boxes;
mod care;
mod changes;
mod heading;
mod idea;
mod idea_look;
mod keeper;
mod line;
mod neck;
mod pair;
mod shapes;

pub use changes::{PlanSheet, changes, plan};
pub use heading::{Heading, TriadLine};
pub use idea::{Idea, IdeaShapes, UnderHand, idea};
pub use idea_look::IdeaLook;
pub use keeper::OnSheet;
pub use line::{LineLook, line, line_heading};
pub use neck::neck;
pub use pair::PairPlacing;
pub use shapes::{PageLook, arpeggios, ladder, shapes};
