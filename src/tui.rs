//! The program on the screen: keys in, frames out.
//!
//! [`runtime::run`] is the whole loop: it takes the terminal through a guard ([`terminal`]),
//! waits on one queue for [`event::Event`]s, hands them to an [`App`](runtime::App), carries out
//! the effects the app asks for, and draws. An app never touches the terminal, so every screen can
//! be updated and drawn in a test without one.

pub mod changes;
pub mod clipboard;
pub mod command;
pub mod event;
pub mod explore;
pub mod gesture;
pub mod keepers;
pub mod key;
pub mod keymap;
pub mod keys;
pub mod line;
pub mod mouse;
pub mod pedal;
pub mod program;
pub mod runtime;
pub mod terminal;
pub mod theme;
mod typed_path;

mod faults;
mod found;
mod input;
mod job_control;
mod keeping;
mod line_place;
mod music_file;
mod one_line;
mod screen;
mod shared;
mod signals;
mod sound;
mod wakes;
mod widget;

use ratatui::buffer::Buffer;

pub use found::{Found, FoundPlan, OpenedChart, SavedChart};
pub use sound::{FoundSound, Ready};
pub use widget::NeckWidget;

/// What a buffer shows, as lines of text without spaces at their ends.
#[must_use]
pub fn text_of(buffer: &Buffer) -> String {
    let width = usize::from(buffer.area.width).max(1);
    let lines = buffer.content.chunks(width).map(|row| {
        let line: String = row.iter().map(ratatui::buffer::Cell::symbol).collect();
        line.trim_end().to_owned() + "\n"
    });
    lines.collect()
}
