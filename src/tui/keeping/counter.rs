//! Where what is to be done is handed to another thread, and what came of it is fetched.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use jiff::civil::Date;

use super::asked::{Asked, Outcome};
use crate::store::KeeperStore;

/// A counter with two sides. What lies on it is done once, by whoever takes it first: a job, or the
/// program at its end.
#[derive(Clone, Default, Debug)]
pub(super) struct Counter(Arc<Mutex<Lying>>);

#[derive(Default, Debug)]
struct Lying {
    asked: Option<(Asked, Date)>,
    outcome: Option<Outcome>,
}

impl Counter {
    /// Puts down what is to be done on a day.
    pub(super) fn put(&self, asked: Asked, day: Date) {
        self.lying().asked = Some((asked, day));
    }

    /// Does what lies here, if anything. Whoever comes meanwhile waits until it is done.
    pub(super) fn serve(&self, store: &KeeperStore) {
        let mut lying = self.lying();
        if let Some((asked, day)) = lying.asked.take() {
            lying.outcome = Some(asked.done(store, day));
        }
    }

    /// What came of it.
    pub(super) fn fetch(&self) -> Option<Outcome> {
        self.lying().outcome.take()
    }

    /// What lies here is whole after every change, so a panic elsewhere does not matter.
    fn lying(&self) -> MutexGuard<'_, Lying> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
