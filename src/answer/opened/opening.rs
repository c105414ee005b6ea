//! With what a keeper is opened.

use fretloom_theory::{ScaleKind, Spelling};

use crate::answer::tunings::TuningAnswer;
use crate::library::LoadedTunings;

/// With what a keeper is opened.
#[derive(Clone, Copy, Debug)]
pub struct Opening<'a> {
    /// Another instrument than its own, for whoever plays that.
    pub on: Option<&'a TuningAnswer>,
    /// The instrument of a keeper that says none.
    pub unsaid: &'a TuningAnswer,
    /// The tunings that there are.
    pub tunings: &'a LoadedTunings,
    /// The player's own scales.
    pub own: &'a [ScaleKind],
    /// How triads are written.
    pub spelling: Spelling,
}
