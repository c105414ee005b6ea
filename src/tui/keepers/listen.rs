//! Listening: a walk through the questions of a day, each heard, answered and told.

mod piece;
mod state;
mod update;
mod view;
mod words;

pub(super) use state::Listen;
