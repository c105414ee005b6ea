//! The keepers screen: what was kept, in a list, and what each of it holds.
//!
//! [`KeepersScreen`] is the whole state: what the player has `chosen` to see, the places in the list that
//! follow from it, and which of them is marked. The keepers themselves are those of `Shared`, as the file
//! held them when it was read last.

mod chosen;
mod day;
mod drawing;
mod field;
mod help;
mod hit;
mod listed;
mod listen;
mod mode;
mod practice;
mod session;
mod signs;
mod state;
mod update;
mod view;

pub(super) use chosen::{Chosen, Page};
pub(super) use drawing::Drawing;
pub(super) use help::NOTES;
pub(super) use hit::Hit;
pub use state::KeepersScreen;
