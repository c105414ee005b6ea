//! What is to be done with the file of keepers.

use crate::store::{KeeperStore, KeepersError, KeptKeepers};

/// Something to be done with the file of keepers.
#[derive(Debug)]
pub(super) enum Asked {
    /// It is read.
    Read,
}

/// What came of it.
#[derive(Debug)]
pub(super) struct Outcome {
    /// All that is kept since then; or why nothing was done.
    pub(super) kept: Result<KeptKeepers, KeepersError>,
}

impl Asked {
    /// Does it, however long that takes.
    pub(super) fn done(self, store: &KeeperStore) -> Outcome {
        match self {
            Asked::Read => Outcome { kept: store.load() },
        }
    }
}
