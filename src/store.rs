//! What the program remembers from one start to the next.
//!
//! State belongs to the program, settings belong to the player. Nothing here is meant to be edited,
//! and no file that a player writes is ever written here. The folder comes as an argument;
//! [`Folders`](crate::library::Folders) finds it.

mod changes;
mod error;
mod keepers;
mod line;
mod session;
mod sound;
mod write_lock;

pub use changes::ChangesSession;
pub use error::StoreError;
pub use keepers::{
    After, Asked, Beats, Changed, Keeper, KeeperChange, KeeperId, KeeperStore, KeepersError, Kept,
    KeptKeepers, KeptNote, KeptPlan, KeptShape, KeptThing, KeyAway, Limit, Moved, NewKeeper,
    PracticeRecord, Remark, Removed, RemovedKeeper, Restored, TriedBy, Try, Unit, Verdict,
};
pub use line::LineSession;
pub use session::{KeepersSession, Session, SessionStore};
pub use sound::SoundSession;
