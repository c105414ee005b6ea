//! What jobs find out for whoever plays.

use std::fmt;

use crate::sound::{Clock, Frames, Samples, Ways};

/// What a job has found out about sound.
#[derive(Debug)]
#[non_exhaustive]
pub enum FoundSound {
    /// A piece is ready to be played; none where there is nothing to be heard of it.
    Piece(Option<Ready>),
    /// The ways by which sound leaves this machine.
    Ways(Ways),
}

/// A piece that is ready to be played.
pub struct Ready {
    pub(super) samples: Box<dyn Samples>,
    pub(super) clock: Clock,
    /// At which frame of what sounds it takes over; none where it begins.
    pub(super) takes_over: Option<Frames>,
}

impl fmt::Debug for Ready {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Ready").field("takes_over", &self.takes_over).finish_non_exhaustive()
    }
}
