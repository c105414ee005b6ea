//! What is heard: pitch, loudness, levels and times of the samples, measured from outside.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "sound/in_hand.rs"]
mod in_hand;
#[path = "sound/levels.rs"]
mod levels;
#[path = "sound/measure.rs"]
mod measure;
#[path = "sound/pitches.rs"]
mod pitches;
#[path = "support/program.rs"]
mod program;
#[path = "sound/times.rs"]
mod times;
#[path = "sound/wav.rs"]
mod wav;
