//! What is known of the file of keepers, and what waits to be done with it.

use std::collections::VecDeque;

use super::asked::{Asked, Outcome};
use super::counter::Counter;
use crate::store::{Keeper, KeeperStore, KeptKeepers};
use crate::tui::found::Found;
use crate::tui::runtime::{Job, Subject};

/// What is kept, and what is to be done with it.
#[derive(Default)]
pub(in crate::tui) struct Keeping {
    /// None where there is no folder for it.
    store: Option<KeeperStore>,
    kept: KeptKeepers,
    /// Was it read at least once?
    was_read: bool,
    /// What the file had to tell, each once.
    told: Vec<String>,
    waiting: VecDeque<Asked>,
    counter: Counter,
    /// Does a job do something now?
    is_working: bool,
}

impl Keeping {
    /// Keeps everything there from now on.
    pub(in crate::tui) fn use_store(&mut self, store: KeeperStore) {
        self.store = Some(store);
    }

    /// Has the file read, unless that is to be done anyway.
    pub(in crate::tui) fn read(&mut self) {
        if self.store.is_some() && !self.waiting.iter().any(|asked| matches!(asked, Asked::Read)) {
            self.waiting.push_back(Asked::Read);
        }
    }

    /// The next thing to be done, once what was done before has been fetched.
    pub(in crate::tui) fn job(&mut self) -> Option<Job<Found>> {
        let store = self.store.clone().filter(|_| !self.is_working)?;
        self.counter.put(self.waiting.pop_front()?);
        self.is_working = true;
        let counter = self.counter.clone();
        let work = move |_: &_| {
            counter.serve(&store);
            Found::Keepers
        };
        Some(Job::new(work).about(Subject::Keepers))
    }

    /// Fetches what a job has done. What is to be told of it comes back.
    pub(in crate::tui) fn fetch(&mut self) -> Option<String> {
        let outcome = self.counter.fetch()?;
        self.is_working = false;
        self.take(outcome)
    }

    fn take(&mut self, outcome: Outcome) -> Option<String> {
        match outcome.kept {
            Ok(kept) => {
                for told in kept.remarks.iter().map(ToString::to_string) {
                    if !self.told.contains(&told) {
                        self.told.push(told);
                    }
                }
                (self.kept, self.was_read) = (kept, true);
                None
            }
            Err(error) => Some(error.to_string()),
        }
    }

    /// All that was kept when the file was read last, in the player's order.
    pub(in crate::tui) fn list(&self) -> &[Keeper] {
        &self.kept.list
    }

    /// Has the file been read yet?
    pub(in crate::tui) fn was_read(&self) -> bool {
        self.was_read
    }

    /// Is there a folder in which something can be kept?
    pub(in crate::tui) fn has_folder(&self) -> bool {
        self.store.is_some()
    }

    /// What the player should know of the file, a sentence each.
    pub(in crate::tui) fn told(&self) -> &[String] {
        &self.told
    }
}
