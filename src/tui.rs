//! The program on the screen: keys in, frames out.
//!
//! [`runtime::run`] is the whole loop: it takes the terminal through [`terminal::TerminalGuard`],
//! waits on one channel for [`event::Event`]s, hands them to an [`App`](runtime::App), carries out
//! the effects the app asks for, and draws. An app never touches the terminal, so every screen can
//! be updated and drawn in a test without one.

pub mod event;
pub mod key;
pub mod keymap;
pub mod runtime;
pub mod terminal;

mod faults;
mod input;
mod signals;
