//! What is shown of an idea, and for whom.

use fretloom_theory::Spelling;

use super::line::LineLook;
use crate::library::Reader;
use crate::picture::Handed;
use crate::picture::page::Paper;

/// What is shown of an idea, and for whom.
#[derive(Clone, PartialEq, Debug)]
pub struct IdeaLook {
    /// Whom it is for, where that is known.
    pub reader: Option<Reader>,
    /// For which hand.
    pub handed: Handed,
    /// What is shown of the line, and whether anything is shown at all.
    pub line: LineLook,
    /// How triads are written.
    pub spelling: Spelling,
    /// The paper.
    pub paper: Paper,
}
