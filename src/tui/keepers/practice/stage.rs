//! Where one is in a turn.

use fretloom_theory::Quarters;

/// Where one is in a turn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui::keepers) enum Stage {
    /// It is shown, and nothing sounds.
    Ready,
    /// A try goes on: which moment of it is heard, once it is.
    Trying(Option<Quarters>),
    /// A rest is proposed.
    Rest,
    /// The list is done.
    Over,
}
