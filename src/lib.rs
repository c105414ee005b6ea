//! fretloom, the program as a library, so that tests and benchmarks reach all of it.
//!
//! [`cli`] reads commands and [`tui`] is the screen; both ask [`answer`], which asks the two crates
//! of theory and fretboard. [`json`] is a view of what they answer for other programs. [`picture`] is
//! what is drawn, as data, which [`export`] and the screen write, [`engraving`] sets music on pages. [`library`] finds and reads data
//! files, [`sheet`] sets answers on pages, [`settings`] what the player has settled, [`store`] what the program remembers,
//! [`score_file`] reads scores, [`sound`] plays.

pub mod answer;
pub mod cli;
pub mod engraving;
pub mod export;
pub mod glyphs;
pub mod json;
pub mod library;
pub mod picture;
pub mod practice;
pub mod score_file;
pub mod settings;
pub mod sheet;
pub mod sound;
pub mod store;
pub mod tui;
pub mod words;
