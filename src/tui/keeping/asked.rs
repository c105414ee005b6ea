//! What is to be done with the file of keepers, and what has been done.

use jiff::civil::Date;

use crate::store::{
    After, Changed, Keeper, KeeperChange, KeeperId, KeeperStore, KeepersError, KeptKeepers, Moved,
    NewKeeper, Removed, RemovedKeeper, Restored,
};

/// Something to be done with the file of keepers.
#[derive(Debug)]
pub(super) enum Asked {
    /// It is read.
    Read,
    /// Something is kept.
    Keep(Box<NewKeeper>),
    /// One field is changed.
    Change(KeeperId, KeeperChange),
    /// A keeper is removed, if it is as it was seen.
    Remove(Box<Keeper>),
    /// One that was removed is brought back.
    Restore(Box<RemovedKeeper>),
    /// One is put before another, or at the end.
    Move(Move),
}

/// A keeper that is put elsewhere in the list.
#[derive(Clone, Copy, Debug)]
pub(super) struct Move {
    pub(super) id: KeeperId,
    /// Before which it stood; none for the end.
    pub(super) from: Option<KeeperId>,
    /// Before which it stands then.
    pub(super) to: Option<KeeperId>,
}

/// What has been done.
#[derive(Debug)]
pub(super) enum Done {
    Read,
    Kept(KeeperId),
    Changed {
        change: KeeperChange,
        before: Box<Keeper>,
    },
    Removed(Box<Keeper>, Box<RemovedKeeper>),
    Restored(KeeperId),
    Moved(Move),
    /// Nothing, since that keeper is not there any more.
    Gone(KeeperId),
    /// Nothing, since another program has changed that keeper since it was seen.
    ChangedMeanwhile(KeeperId),
}

/// What came of it.
#[derive(Debug)]
pub(super) struct Outcome {
    /// What has been done, and all that is kept since then; or why nothing was done.
    pub(super) result: Result<(KeptKeepers, Done), KeepersError>,
}

impl Asked {
    /// Does it on this day, however long that takes.
    pub(super) fn done(self, store: &KeeperStore, day: Date) -> Outcome {
        Outcome { result: self.carried_out(store, day) }
    }

    fn carried_out(
        self,
        store: &KeeperStore,
        day: Date,
    ) -> Result<(KeptKeepers, Done), KeepersError> {
        match self {
            Asked::Read => Ok((store.load()?, Done::Read)),
            Asked::Keep(new) => {
                let After { done, keepers } = store.add(*new, day)?;
                Ok((keepers, Done::Kept(done)))
            }
            Asked::Change(id, change) => {
                let After { done, keepers } = store.change(id, &change, day)?;
                let done = match done {
                    Changed::Done { before } => Done::Changed { change, before },
                    Changed::Gone => Done::Gone(id),
                };
                Ok((keepers, done))
            }
            Asked::Remove(seen) => {
                let After { done, keepers } = store.remove(&seen, day)?;
                let done = match done {
                    Removed::Done(removed) => Done::Removed(seen, Box::new(removed)),
                    Removed::ChangedMeanwhile(now) => Done::ChangedMeanwhile(now.id),
                    Removed::Gone => Done::Gone(seen.id),
                };
                Ok((keepers, done))
            }
            Asked::Restore(removed) => {
                let After { done: Restored::Done | Restored::There, keepers } =
                    store.restore(&removed, day)?;
                Ok((keepers, Done::Restored(removed.id)))
            }
            Asked::Move(moved) => {
                let After { done, keepers } = store.move_before(moved.id, moved.to, day)?;
                let done = match done {
                    Moved::Done => Done::Moved(moved),
                    Moved::Gone => Done::Gone(moved.id),
                };
                Ok((keepers, done))
            }
        }
    }
}
