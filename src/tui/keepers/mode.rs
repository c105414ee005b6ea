//! What the keepers screen is used for now.

use super::practice::Practice;

/// What the screen is used for.
pub(super) enum Mode {
    /// The list of what is kept.
    List,
    /// Something of it is practised.
    Practice(Box<Practice>),
}
