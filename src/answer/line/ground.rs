//! What a line may use of a neck, found once for all that is asked there.

use fretloom_fretboard::Neck;
use fretloom_theory::TriadPair;

use super::area::{Area, LineArea};
use super::question::LineQuestion;
use crate::answer::refusal::Refusal;

/// What a line may use of a neck over its chords. To look for it takes longer than to make a line
/// where a view is searched for, so whoever asks again and again keeps it.
///
/// It is [good for](LineGround::is_for) every question with the same pairs and the same area, on the
/// same neck.
#[derive(Debug)]
pub struct LineGround {
    area: Area,
    asked: LineArea,
    pairs: Vec<TriadPair>,
}

impl LineGround {
    /// What this question may use.
    ///
    /// # Errors
    ///
    /// Where the neck does not have what is asked for.
    pub fn of(neck: &Neck, question: &LineQuestion) -> Result<LineGround, Refusal> {
        let (asked, pairs) = (question.area, question.pairs());
        Ok(LineGround { area: asked.on(neck, &pairs)?, asked, pairs })
    }

    /// Does it have what this question may use, on the neck that it is of?
    #[must_use]
    pub fn is_for(&self, question: &LineQuestion) -> bool {
        self.asked == question.area && self.pairs == question.pairs()
    }

    pub(super) const fn area(&self) -> &Area {
        &self.area
    }
}
