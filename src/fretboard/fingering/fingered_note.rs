//! One note of a line as it is played.

use crate::{Finger, HandPosition, Place};

/// One note of a line as it is played.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct FingeredNote {
    /// Where.
    pub place: Place,
    /// With which finger.
    pub finger: Finger,
    /// Where the hand is meanwhile, also while a string sounds open; the finger may reach out of
    /// its position.
    pub position: HandPosition,
}
