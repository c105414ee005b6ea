//! What is heard now.

use crate::sound::{Baton, Frames, Heard};

use super::heard::Clocks;
use super::piece::What;

/// What is heard now.
pub(super) enum Now {
    Silence,
    /// It was asked for, and is not ready to be played.
    Coming(What),
    Sounding(Sounding),
}

/// Something that is played.
pub(super) struct Sounding {
    pub(super) what: What,
    pub(super) baton: Baton,
    pub(super) clocks: Clocks,
    /// How much of it has been heard.
    pub(super) position: Frames,
}

impl Now {
    /// What it is, if anything.
    pub(super) fn what(&self) -> Option<What> {
        match self {
            Now::Silence => None,
            Now::Coming(what) => Some(*what),
            Now::Sounding(sounding) => Some(sounding.what),
        }
    }

    /// Which moment of it is heard.
    pub(super) fn heard(&self) -> Option<Heard> {
        match self {
            Now::Silence | Now::Coming(_) => None,
            Now::Sounding(sounding) => Some(sounding.clocks.at(sounding.position)),
        }
    }
}
