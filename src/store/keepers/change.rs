//! What the player changes of a keeper, one field at a time.

use fretloom_fretboard::StringSet;

use super::keeper::Keeper;
use super::practice_record::{Beats, Limit, Try};

/// A change of one field of a keeper. Two programs that change different fields both keep their change.
///
/// # Example
///
/// ```
/// use fretloom::store::{Keeper, KeeperChange, KeeperId, NewKeeper};
/// let keeper = Keeper::new(KeeperId::new(1).unwrap(), NewKeeper::default());
/// let named = KeeperChange::Name(Some("bridge".to_owned()));
/// assert_eq!(named.undone(&keeper), KeeperChange::Name(None));
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum KeeperChange {
    /// What it is called; `None` for no name of its own.
    Name(Option<String>),
    /// What is noted beside it; empty for nothing.
    Notes(String),
    /// One more tag; nothing changes where it is there.
    Tag(String),
    /// One tag less.
    Untag(String),
    /// Where practice begins.
    Start(Option<Beats>),
    /// In which keys it is practised, by their word.
    Keys(Option<String>),
    /// On which string sets; empty for the one it was kept on.
    Sets(Vec<StringSet>),
    /// Under which limits.
    Limits(Vec<Limit>),
    /// One more try.
    Tried(Try),
    /// The last such try taken back.
    Untried(Try),
}

impl KeeperChange {
    /// The change that takes this one back, of a keeper as it was before.
    #[must_use]
    pub fn undone(&self, before: &Keeper) -> KeeperChange {
        match self {
            KeeperChange::Name(_) => KeeperChange::Name(before.name.clone()),
            KeeperChange::Notes(_) => KeeperChange::Notes(before.notes.clone()),
            // A tag that was there before stays.
            KeeperChange::Tag(tag) if before.tags.contains(tag) => KeeperChange::Tag(tag.clone()),
            KeeperChange::Tag(tag) => KeeperChange::Untag(tag.clone()),
            KeeperChange::Untag(tag) if before.tags.contains(tag) => KeeperChange::Tag(tag.clone()),
            KeeperChange::Untag(tag) => KeeperChange::Untag(tag.clone()),
            KeeperChange::Start(_) => KeeperChange::Start(before.practice.start),
            KeeperChange::Keys(_) => KeeperChange::Keys(before.practice.keys.clone()),
            KeeperChange::Sets(_) => KeeperChange::Sets(before.practice.sets.clone()),
            KeeperChange::Limits(_) => KeeperChange::Limits(before.practice.limits.clone()),
            KeeperChange::Tried(tried) => KeeperChange::Untried(tried.clone()),
            KeeperChange::Untried(tried) => KeeperChange::Tried(tried.clone()),
        }
    }
}
