//! What a line may use of a neck, found once for all that is asked there.

use fretloom_fretboard::Neck;

use super::area::Area;
use super::question::LineQuestion;
use crate::answer::refusal::Refusal;

/// What a line may use of a neck over its chords. To look for it takes longer than to make a line
/// where a view is searched for, so whoever asks again and again keeps it.
///
/// It is good for every question with the same chords and the same area, on the same neck.
#[derive(Debug)]
pub struct LineGround {
    area: Area,
}

impl LineGround {
    /// What this question may use.
    ///
    /// # Errors
    ///
    /// Where the neck does not have what is asked for.
    pub fn of(neck: &Neck, question: &LineQuestion) -> Result<LineGround, Refusal> {
        Ok(LineGround { area: question.area.on(neck, &question.pairs())? })
    }

    pub(super) const fn area(&self) -> &Area {
        &self.area
    }
}
