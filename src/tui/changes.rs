//! The changes screen: a tune bar by bar, the pair of each chord, and the hand that stays where it is
//! while the bars go by.
//!
//! [`ChangesScreen`] is the whole state: what the player has `chosen`, the `sheet` of bars that
//! follows from it at once, and its plans, which are found in a job. Bars change with the key; their
//! pairs come as soon as they are found, and until then those of the plan before stand there where
//! their chord is the same.

mod chart_list;
mod choices;
mod chosen;
mod comping;
mod drawing;
mod field;
mod files;
mod help;
mod hit;
mod layout;
mod melody;
mod place;
mod plans;
mod playing;
mod session;
mod sheet;
mod state;
mod to_keep;
mod update;
mod view;

pub(super) use chosen::{Chosen, Page};
pub(super) use drawing::Drawing;
pub(super) use help::NOTES;
pub(super) use hit::Hit;
pub use state::ChangesScreen;
