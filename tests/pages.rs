//! Pages for the music stand, as the commands write them.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "pages/files.rs"]
mod files;
#[path = "pages/keepers.rs"]
mod keepers;
#[path = "pages/music.rs"]
mod music;
#[path = "pages/necks.rs"]
mod necks;
#[path = "pages/overlap.rs"]
mod overlap;
#[path = "support/program.rs"]
mod program;
#[path = "pages/readers.rs"]
mod readers;
#[path = "pages/sheets.rs"]
mod sheets;
#[path = "pages/xml.rs"]
mod xml;
