//! The line screen: phrases over chords, edited with what they become in sight.
//!
//! [`LineScreen`] is the whole state: what the player has `chosen`, and the line that is made of it.
//! Every key that changes the choice makes the line again; where that cannot be done, the choice
//! stays what it was and the screen says why. What a player changes note by note is a list of
//! changes that is applied after making.

mod chosen;
mod copying;
mod cycles;
mod drawing;
mod field;
mod help;
mod hit;
mod made;
mod phrases;
mod playing;
mod session;
mod state;
mod targets;
mod to_keep;
mod update;
mod view;

pub(super) use chosen::{Chosen, Page};
pub(super) use drawing::Drawing;
pub(super) use help::NOTES;
pub(super) use hit::Hit;
pub use state::LineScreen;
