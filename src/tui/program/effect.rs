//! What the program asks the runtime to do.

use std::convert::Infallible;

use crate::tui::runtime;

/// What the program asks for: nothing in it takes so long that it is a job.
pub type Effect = runtime::Effect<Infallible>;
