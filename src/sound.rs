//! Sound: samples, and the ways by which they leave the program.
//!
//! A [`Performance`] is music laid out in time: plucked strings, the chords that are held beside them,
//! and a metronome. It gives [`Samples`], which are made while they are played and listen to a [`Mix`],
//! and a [`Clock`], which says what moment of the music is heard when. A [`Player`] asks for samples
//! block by block, and knows what has been heard of them. Nothing here sounds before it is asked for.

mod choices;
mod clock;
mod concert_pitch;
mod drone;
mod drone_side;
mod held_tone;
mod in_hand;
mod laid;
mod level;
mod mix;
mod noise;
mod performance;
mod player;
mod pluck;
mod relay;
mod rendering;
mod samples;
mod struck;
mod style;
mod tick;
mod time_map;
mod track;
mod write_wav;

pub use choices::SoundChoices;
pub use clock::{Clock, Heard};
pub use concert_pitch::ConcertPitch;
pub use drone_side::drone_side;
pub use in_hand::{Strike, begins_in_turn, struck_in_turn};
pub use level::Level;
pub use mix::Mix;
pub use performance::Performance;
pub use player::Player;
pub use player::error::SoundError;
pub use player::places::SoundPlaces;
pub use player::silent::SilentPlayer;
pub use player::state::PlayerState;
pub use player::system::SystemPlayer;
pub use player::wav::WavPlayer;
pub use player::way::{Untaken, Way};
pub use player::ways::Ways;
pub use relay::{Baton, Relay};
pub use samples::{Frames, RATE, Samples};
pub use struck::Struck;
pub use style::{CountIn, PlayStyle, Rounds};
pub use track::Track;
pub use write_wav::TooLongForWav;
