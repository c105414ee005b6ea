//! Scores that are written: what is read again is what was written.
//!
//! `written/lines.rs` makes lines of every kind; `tests/outside/` has the files read by programs that
//! share nothing with this one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "written/lines.rs"]
mod lines;
#[path = "written/midi.rs"]
mod midi;
#[path = "written/music_xml.rs"]
mod music_xml;
