//! What has been done, with all that is needed to take it back and to do it again.

use super::asked::{Asked, Done, Move};
use crate::store::{Keeper, KeeperChange, KeeperId, RemovedKeeper};

/// Something that was done, and can be taken back.
#[derive(Debug)]
pub(super) enum Deed {
    /// Something was kept; once that is taken back, its entry as it was then.
    Kept(KeeperId, Option<Box<RemovedKeeper>>),
    /// A keeper was removed: its entry as it was then.
    Removed(KeeperId, Box<RemovedKeeper>),
    /// A field was changed; and the change that takes it back.
    Changed { id: KeeperId, change: KeeperChange, back: KeeperChange },
    /// A keeper was put elsewhere in the list.
    Moved(Move),
}

impl Deed {
    /// What was done, if it can be taken back.
    pub(super) fn of(done: &Done) -> Option<Deed> {
        match done {
            Done::Kept(id) => Some(Deed::Kept(*id, None)),
            Done::Removed(keeper, removed) => Some(Deed::Removed(keeper.id, removed.clone())),
            Done::Changed { change, before } => Some(Deed::Changed {
                id: before.id,
                change: change.clone(),
                back: change.undone(before),
            }),
            Done::Moved(moved) => Some(Deed::Moved(*moved)),
            Done::Read | Done::Restored(_) | Done::Gone(_) | Done::ChangedMeanwhile(_) => None,
        }
    }

    /// What takes it back, of the keepers that there are now; none where there is nothing to take back.
    pub(super) fn back(&self, now: &[Keeper]) -> Option<Asked> {
        match self {
            Deed::Kept(id, _) => seen(now, *id).map(Asked::Remove),
            Deed::Removed(_, removed) => Some(Asked::Restore(removed.clone())),
            Deed::Changed { id, back, .. } => Some(Asked::Change(*id, back.clone())),
            Deed::Moved(Move { id, from, to }) => {
                Some(Asked::Move(Move { id: *id, from: *to, to: *from }))
            }
        }
    }

    /// What does it again.
    pub(super) fn again(&self, now: &[Keeper]) -> Option<Asked> {
        match self {
            Deed::Kept(_, removed) => removed.clone().map(Asked::Restore),
            Deed::Removed(id, _) => seen(now, *id).map(Asked::Remove),
            Deed::Changed { id, change, .. } => Some(Asked::Change(*id, change.clone())),
            Deed::Moved(moved) => Some(Asked::Move(*moved)),
        }
    }

    /// Remembers the entry that was removed now.
    pub(super) fn learn(&mut self, done: &Done) {
        let Done::Removed(_, entry) = done else { return };
        match self {
            Deed::Kept(_, removed) => *removed = Some(entry.clone()),
            Deed::Removed(_, removed) => removed.clone_from(entry),
            Deed::Changed { .. } | Deed::Moved(_) => {}
        }
    }

    /// Its keeper.
    pub(super) fn id(&self) -> KeeperId {
        match self {
            Deed::Kept(id, _) | Deed::Removed(id, _) | Deed::Changed { id, .. } => *id,
            Deed::Moved(moved) => moved.id,
        }
    }
}

fn seen(now: &[Keeper], id: KeeperId) -> Option<Box<Keeper>> {
    now.iter().find(|keeper| keeper.id == id).cloned().map(Box::new)
}
