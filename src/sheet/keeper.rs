//! What a keeper holds on pages.

use fretloom_theory::Spelling;

use super::changes::{PlanSheet, plan};
use super::idea::{Idea, IdeaShapes, idea};
use super::idea_look::IdeaLook;
use super::line::line_heading;
use super::pair::{PairPlacing, line_of_pair};
use super::shapes::ladder_neck;
use crate::answer::{OpenedKeeper, OpenedThing, Refusal};
use crate::picture::Labels;
use crate::picture::page::Pages;
use crate::score_file::ScoreWriteError;
use crate::store::Keeper;

/// What stands on a sheet.
#[derive(Clone, Debug)]
pub enum OnSheet {
    /// A pair, its shapes, or a line.
    Idea(Box<Idea>),
    /// A chart with its plan.
    Plan(Box<PlanSheet>),
}

impl OnSheet {
    /// Its page, or several where one does not do.
    ///
    /// # Errors
    ///
    /// Where no values say the notes of the line.
    pub fn pages(&self, look: &IdeaLook) -> Result<Pages, ScoreWriteError> {
        match self {
            OnSheet::Idea(shown) => idea(shown, look),
            OnSheet::Plan(shown) => Ok(plan(shown, look)),
        }
    }

    /// What a keeper holds, with what the player has noted of it.
    ///
    /// # Errors
    ///
    /// Where the neck does not have three strings for its shapes.
    pub fn of_keeper(
        keeper: &Keeper,
        opened: OpenedKeeper,
        labels: Labels,
        spelling: Spelling,
    ) -> Result<OnSheet, Refusal> {
        let notes = [keeper.name.clone(), Some(keeper.notes.clone())];
        let notes = notes.into_iter().flatten().filter(|note| !note.trim().is_empty()).collect();
        let OpenedKeeper { neck, tuning, frets, thing, how } = opened;
        let at = PairPlacing { tuning, frets, strings: None, view: None, labels, spelling };
        let made = match thing {
            OpenedThing::Pair { over, strings, view } => {
                let at = PairPlacing { strings, view, ..at };
                let line = line_of_pair(&neck, &over, &at);
                Idea::of_pair(neck, &over, &at, line)?
            }
            OpenedThing::Shape { over, shape } => {
                let made = Idea::of_pair(neck, &over, &at, None)?;
                let places = shape.notes.iter().map(|note| note.place);
                let picture = made.picture.map(|picture| picture.holding_at(places));
                Idea { picture, shapes: IdeaShapes::Held(shape), ..made }
            }
            OpenedThing::Ladder { over, ladder } => {
                let picture = Some(ladder_neck(&ladder, &neck));
                let made = Idea::of_pair(neck, &over, &at, None)?;
                Idea { picture, shapes: IdeaShapes::Whole(ladder), ..made }
            }
            OpenedThing::Line(line) => Idea {
                heading: line_heading(&line),
                notes: Vec::new(),
                neck,
                picture: None,
                position: None,
                shapes: IdeaShapes::Nothing,
                line: Some(*line),
                keys: None,
                how,
            },
            OpenedThing::Plan(answer) => {
                return Ok(OnSheet::Plan(Box::new(PlanSheet {
                    notes,
                    tuning: at.tuning,
                    answer: *answer,
                })));
            }
        };
        Ok(OnSheet::Idea(Box::new(Idea { notes, how, ..made })))
    }
}
