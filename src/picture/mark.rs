//! The notes on a drawn neck.

use fretloom_fretboard::Place;
use fretloom_theory::WhichTriad;

/// A note in its place on a drawn neck.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mark {
    /// String and fret.
    pub place: Place,
    /// What stands in it: a few signs.
    pub label: String,
    /// What it belongs to.
    pub role: MarkRole,
    /// How it is shown in the view of the moment.
    pub presence: Presence,
    /// Is it the root of its triad?
    pub is_root: bool,
    /// Is it in the shape in hand?
    pub is_held: bool,
    /// Does it stay from the pair before, which had its note too?
    pub stays: bool,
}

/// What a note on a drawn neck belongs to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum MarkRole {
    /// One of the two triads.
    Triad(WhichTriad),
    /// Neither: the pair leaves this note of the scale out.
    LeftOut,
}

/// How a view shows a note.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Presence {
    /// As it is.
    #[default]
    Shown,
    /// As one for which a finger leaves its fret.
    Stretched,
    /// As a dot: a place of the pair outside the view.
    Hidden,
}

impl Mark {
    /// A note that is shown, no root, not in hand, and new.
    #[must_use]
    pub const fn new(place: Place, role: MarkRole, label: String) -> Mark {
        let (presence, is_root, is_held, stays) = (Presence::Shown, false, false, false);
        Mark { place, label, role, presence, is_root, is_held, stays }
    }
}
