//! What is named by ear: a pair over its chord, among what it could be.

mod choice;
mod heard;
mod question;
mod today;

pub use choice::{EarChoice, EarName};
pub use heard::EarMusic;
pub use question::{EarQuestion, Mistaken};
pub use today::{AskedAnswer, ListeningAnswer};
