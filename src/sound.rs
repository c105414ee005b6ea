//! Sound: samples, and the ways by which they leave the program.
//!
//! [`Samples`] are made while they are played: a [`Player`] asks for them block by block, and knows what
//! has been heard of them. Nothing here sounds before it is asked for.

mod player;
mod samples;

pub use player::Player;
pub use player::error::SoundError;
pub use player::silent::SilentPlayer;
pub use player::state::PlayerState;
pub use player::wav::WavPlayer;
pub use samples::{Frames, RATE, Samples};
