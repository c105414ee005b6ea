//! What is played, how the player wants to hear it, and which moment of it is heard.
//!
//! It is shared by all screens. A screen gives a [`Piece`]; the piece becomes samples in a job, the
//! runtime plays them, and the time comes back as [`SoundNews`](super::event::SoundNews).

mod heard;
mod manner;
mod now;
mod page;
mod piece;
mod ready;
mod row;
mod session;
mod state;

pub(super) use manner::Manner;
pub(super) use page::{SoundPage, draw_page, lines_of_page};
pub(super) use piece::{Piece, What};
pub use ready::{FoundSound, Ready};
pub(super) use row::{Change, SoundRow};
pub(super) use state::{ELSEWHERE, Sound, Unpractised};
