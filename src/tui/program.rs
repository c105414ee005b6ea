//! The program on the screen: every screen, which of them is in front, and what they have in common.
//!
//! Help, the list of commands, taking back, pages, copying, the mouse and the look-up of keys are
//! written here, once. A key becomes a [`Command`](super::command::Command), and each command goes
//! to the one who carries it out: the program itself, or a screen. What a screen asks for in return
//! is a `ScreenEffect`; what is to be done outside is an [`Effect`](super::runtime::Effect) of the
//! runtime.

mod commands;
mod effect;
mod help;
mod history;
mod opened;
mod overlay;
mod pages;
mod palette;
mod screens;
mod sound;
mod state;
mod step;
mod update;
mod view;

pub use effect::Effect;
pub use state::Program;
