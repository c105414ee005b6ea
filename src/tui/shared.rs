//! What every screen is given: keys, theme and signs, the library, the instrument, the hand, the size
//! of the window, the mouse.
//!
//! Screens change it through their `&mut Shared`; it knows no screen.

mod frets_in_view;
mod instrument;
mod session;
mod setup;
mod state;

pub(super) use setup::Setup;
pub(super) use state::Shared;
