//! What a player is doing.

use super::error::SoundError;

/// What a player is doing.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub enum PlayerState {
    /// Nothing has been asked for, or it was stopped.
    #[default]
    Silent,
    /// The way out is being opened; nothing is heard yet.
    Opening,
    /// It plays.
    Playing,
    /// It was asked to stop, and what is on its way is still heard.
    Stopping,
    /// The samples have been heard to their end.
    Ended,
    /// It could not be played, or broke off. It can be started again.
    Failed(SoundError),
}

impl PlayerState {
    /// Is there something to be heard, or soon? Only then is there a reason to ask for the position.
    #[must_use]
    pub fn is_sounding(&self) -> bool {
        match self {
            PlayerState::Opening | PlayerState::Playing | PlayerState::Stopping => true,
            PlayerState::Silent | PlayerState::Ended | PlayerState::Failed(_) => false,
        }
    }
}
