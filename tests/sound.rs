//! What is heard: pitch, loudness, levels and times of the samples, measured from outside.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

#[path = "sound/levels.rs"]
mod levels;
#[path = "sound/measure.rs"]
mod measure;
#[path = "sound/pitches.rs"]
mod pitches;
