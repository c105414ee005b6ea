//! What the program asks the runtime to do.

use crate::tui::{Found, runtime};

/// What the program asks for. Its jobs make ready what is to be played, and look how.
pub type Effect = runtime::Effect<Found>;
