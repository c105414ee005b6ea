//! What comes of reading and changing keepers.

use std::fmt;
use std::path::PathBuf;

use super::keeper::{Keeper, KeeperId};
use crate::words::counted;

/// All that is kept, in the player's order.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct KeptKeepers {
    /// The keepers.
    pub list: Vec<Keeper>,
    /// Can they be changed? Those in a file of a newer fretloom cannot.
    pub may_change: bool,
    /// What the player should know of the file.
    pub remarks: Vec<Remark>,
}

/// Something that the player should know of the file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Remark {
    /// The file could not be read and was moved aside.
    MovedAside {
        /// What is wrong with it, and where.
        why: String,
        /// Where it lies now.
        to: PathBuf,
    },
    /// What was kept before the first change of a day is in use again.
    BackupLoaded {
        /// Where the backup lies.
        from: PathBuf,
        /// How many keepers it holds.
        keepers: usize,
    },
    /// There is no backup that can be read.
    NoBackup,
    /// Entries of the file that this version does not understand.
    NotUnderstood {
        /// How many.
        entries: usize,
    },
    /// A newer fretloom wrote the file.
    Newer {
        /// Its format.
        format: u32,
        /// The newest format that this version writes.
        known: u32,
    },
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Remark::MovedAside { why, to } => {
                write!(
                    f,
                    "the keepers could not be read ({why}); that file is now {}",
                    to.display()
                )
            }
            Remark::BackupLoaded { from, keepers } => {
                write!(f, "{} come from the backup {}", counted(*keepers, "keeper"), from.display())
            }
            Remark::NoBackup => {
                f.write_str("there is no backup that can be read; nothing is kept now")
            }
            Remark::NotUnderstood { entries: 1 } => {
                f.write_str("one entry of the keepers is not understood; it stays as it is")
            }
            Remark::NotUnderstood { entries } => {
                write!(
                    f,
                    "{entries} entries of the keepers are not understood; they stay as they are"
                )
            }
            Remark::Newer { format, known } => write!(
                f,
                "the keepers are of format {format}, expected {known}: they can be read and not \
                 changed, as a newer fretloom wrote them"
            ),
        }
    }
}

/// What was done, once it is on the disk, and what is kept since then.
#[derive(Clone, PartialEq, Debug)]
pub struct After<T> {
    /// What was done.
    pub done: T,
    /// All that is kept now.
    pub keepers: KeptKeepers,
}

/// What came of changing a keeper.
#[derive(Clone, PartialEq, Debug)]
pub enum Changed {
    /// It is changed.
    Done {
        /// As it was right before.
        before: Box<Keeper>,
    },
    /// Another program has removed it.
    Gone,
}

/// What came of removing a keeper.
#[derive(Clone, PartialEq, Debug)]
pub enum Removed {
    /// It is removed.
    Done(RemovedKeeper),
    /// Another program has changed it since it was looked at, and it is still there. To remove it
    /// all the same, remove the keeper that is given here.
    ChangedMeanwhile(Box<Keeper>),
    /// Another program has removed it.
    Gone,
}

/// A keeper that was removed, by which it can be brought back as it was.
#[derive(Clone, PartialEq, Debug)]
pub struct RemovedKeeper {
    /// Its number.
    pub id: KeeperId,
    /// Its entry, word for word.
    pub(super) text: String,
    /// The keeper before it.
    pub(super) after: Option<KeeperId>,
}

/// What came of bringing back a keeper.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Restored {
    /// It is there again, by the number that it had.
    Done,
    /// It is there already.
    There,
}

/// What came of moving a keeper in the list.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Moved {
    /// It stands there.
    Done,
    /// It is not there any more.
    Gone,
}
