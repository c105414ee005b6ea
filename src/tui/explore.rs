//! The explorer: a chord, its scale, its pairs, and both triads on the neck.
//!
//! [`Explore`] is the whole state: what the player has `chosen`, and what is `shown`, which follows
//! from it. `update.rs` changes it and says what is to be done outside, `view.rs` draws it, `hit.rs`
//! says what lies under the mouse. What is shown is computed when the choice changes, never while
//! drawing; but a pair of a long list is worked out when it first comes into view.

mod chosen;
mod circle;
mod copying;
mod drawing;
mod follow;
mod help;
mod hit;
mod in_hand;
mod kept_notes;
mod neck_view;
mod overlay;
mod playing;
mod session;
mod shown;
mod state;
mod struck;
mod suggest;
mod to_keep;
mod tuning_list;
mod update;
mod view;

pub(super) use chosen::{Chosen, Page, TypedChord};
pub(super) use drawing::Drawing;
pub(super) use help::NOTES;
pub(super) use hit::Hit;
pub use state::Explore;
