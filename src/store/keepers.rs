//! What the player has kept: the file `keepers.toml` in the data folder.
//!
//! Its text is cut into entries, and every entry that is not changed is written back word for word. So
//! nothing is lost that a player or a newer version wrote there.

mod all_toml;
mod asked;
mod blocks;
mod change;
mod edit;
mod error;
mod file;
mod item;
mod keeper;
mod keeper_store;
mod kept_tuning;
mod outcome;
mod plain;
mod practice_record;
mod read;
mod rewrite;
mod values;
mod written;

pub use asked::Asked;
pub use change::KeeperChange;
pub use error::KeepersError;
pub use keeper::{Keeper, KeeperId, Kept, KeptNote, KeptPlan, KeptShape, KeptThing, NewKeeper};
pub use keeper_store::KeeperStore;
pub use outcome::{After, Changed, KeptKeepers, Moved, Remark, Removed, RemovedKeeper, Restored};
pub use practice_record::{Beats, KeyAway, Limit, PracticeRecord, TriedBy, Try, Unit, Verdict};
