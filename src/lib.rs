//! fretloom, the program as a library, so that tests and benchmarks reach all of it.
//!
//! [`cli`] reads commands and [`tui`] is the screen; both ask [`answer`], which asks the two crates
//! of theory and fretboard. [`library`] finds and reads data files, [`line_file`]
//! a line of notes.

pub mod answer;
pub mod cli;
pub mod glyphs;
pub mod library;
pub mod line_file;
pub mod tui;
pub mod words;
