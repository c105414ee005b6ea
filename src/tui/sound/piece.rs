//! What a screen wants to be heard.

use std::fmt;

use crate::sound::{Performance, PlayStyle};

/// What is heard, for whoever follows it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui) enum What {
    /// The line of the line screen.
    Line,
    /// The tune of the changes screen.
    Changes,
    /// Shapes of the explorer.
    Shapes,
    /// A pair that is to be named.
    Ear,
    /// What is practised on the keepers screen.
    Practice,
}

/// What a screen wants to be heard. It is laid out in a job, so that no key waits for it.
pub(in crate::tui) struct Piece {
    pub(super) what: What,
    pub(super) make: Box<Make>,
}

type Make = dyn FnOnce(&PlayStyle) -> Option<Performance> + Send;

impl Piece {
    /// This, laid out as the player wants to hear music; nothing is heard of what cannot be.
    pub(in crate::tui) fn new(
        what: What,
        make: impl FnOnce(&PlayStyle) -> Option<Performance> + Send + 'static,
    ) -> Piece {
        Piece { what, make: Box::new(make) }
    }
}

impl fmt::Debug for Piece {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("Piece").field(&self.what).finish()
    }
}
