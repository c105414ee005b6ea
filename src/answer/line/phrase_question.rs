//! A phrase of a line, as it is asked for.

use fretloom_fretboard::{
    ChainQuery, HandPosition, Neck, PositionView, SetView, TwoAStringQuery, View,
};
use fretloom_theory::{ReadError, WrittenPhrase};

use super::area::LineArea;
use crate::answer::refusal::Refusal;
use crate::answer::views::ViewQuestion;
use crate::library::{PhraseArea, PhraseView};

/// A phrase of a line, as it is asked for.
#[derive(Clone, PartialEq, Debug)]
pub struct PhraseQuestion {
    /// What it is called.
    pub name: String,
    /// Which of the phrases that the player wrote it is, or is a part of, from 0.
    pub asked: usize,
    /// What is played.
    pub written: WrittenPhrase,
    /// Where on the neck; where the line is, if it does not say.
    pub area: Option<PhraseArea>,
}

impl PhraseQuestion {
    /// The same phrase so many semitones higher, in the same place; `None` where a note would be
    /// none.
    pub(super) fn up(&self, semitones: i32) -> Option<PhraseQuestion> {
        Some(PhraseQuestion { written: self.written.up(semitones)?, ..self.clone() })
    }
}

impl LineArea {
    /// Where a phrase of a line that lies here is played.
    pub(super) fn of_phrase(&self, own: &PhraseArea, neck: &Neck) -> Result<LineArea, Refusal> {
        let region = own.frets.map_or(self.region, |frets| self.region.within(frets));
        if own.view.is_none() && own.strings.is_none() {
            let view = self.view.map(|view| view.within(region.frets()));
            return Ok(LineArea { view, region, hand: self.hand });
        }
        let region = match (own.view, own.strings) {
            (None | Some(PhraseView::Position(_)), Some(strings)) => region.on(strings),
            // The strings of the other views are the view's own.
            (_, Some(_) | None) => region.on_all_strings(),
        };
        let view = own.view.map(|view| self.view_of_phrase(own, view, neck)).transpose()?;
        Ok(LineArea { view, region, hand: self.hand })
    }

    fn view_of_phrase(
        &self,
        own: &PhraseArea,
        view: PhraseView,
        neck: &Neck,
    ) -> Result<ViewQuestion, Refusal> {
        let frets = own.frets.unwrap_or(self.region.frets());
        let (view, choice) = match view {
            PhraseView::Position(position) => {
                // Where only frets are named, the hand begins with them.
                let lowest = HandPosition::lowest_on(neck);
                let in_frets = HandPosition::new(frets.first().number()).unwrap_or(lowest);
                let position = position.unwrap_or(in_frets.max(lowest));
                (View::Position(PositionView::at(position)), 1)
            }
            PhraseView::Set => {
                let three = || "3-2-1".parse().map_err(|error: ReadError| error.into());
                let strings = own.strings.map_or_else(three, Ok::<_, Refusal>)?;
                (View::Set(SetView::on(strings)), 1)
            }
            PhraseView::Across(choice) => (View::Across(ChainQuery::default()), choice),
            PhraseView::Two(position, choice) => {
                let query = TwoAStringQuery::default();
                let query = own.strings.map_or(query, |strings| query.on(strings));
                (View::Two(position.map_or(query, |position| query.near(position))), choice)
            }
        };
        Ok(ViewQuestion::new(view, self.hand, frets, choice))
    }
}
