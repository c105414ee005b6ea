//! The questions of a day, with what is called by name there.

use std::cell::RefCell;
use std::collections::HashMap;

use fretloom_theory::{NoteName, ScaleKind};
use jiff::civil::Date;

use super::question::EarQuestion;
use crate::answer::practice::key_of;
use crate::practice::{Asking, Listening, PracticeRules};
use crate::store::{Asked, Keeper, Kept, KeptThing};

/// The answer of `listen`.
#[derive(Clone, PartialEq, Debug)]
pub struct ListeningAnswer {
    /// The day.
    pub day: Date,
    /// The questions, one after another.
    pub questions: Vec<AskedAnswer>,
}

/// A question with its keeper.
#[derive(Clone, PartialEq, Debug)]
pub struct AskedAnswer {
    /// What is asked, and why today.
    pub asking: Asking,
    /// Of what.
    pub keeper: Keeper,
    /// The key by its root; `None` where neither chord nor scale says one.
    pub key: Option<NoteName>,
    /// What sounds, and what may be answered.
    pub question: EarQuestion,
}

impl ListeningAnswer {
    /// What is to be named by ear on a day. `own` are the player's kinds of scale.
    #[must_use]
    pub fn new(
        keepers: &[Keeper],
        rules: &PracticeRules,
        day: Date,
        own: &[ScaleKind],
    ) -> ListeningAnswer {
        // Of many keepers over one chord, one is looked at.
        let known: RefCell<HashMap<_, bool>> = RefCell::default();
        let may_ask = |keeper: &Keeper, asked: Asked| {
            let Kept { chord, scale, scale_notes, pair, what, .. } = &keeper.kept;
            let is_plan = matches!(what, KeptThing::Plan(_));
            let texts = [chord, scale, scale_notes, pair].map(Option::as_deref);
            let mut known = known.borrow_mut();
            let is_there = || EarQuestion::is_there(keeper, asked, own);
            *known
                .entry((asked, is_plan, texts.map(|it| it.map(str::to_owned))))
                .or_insert_with(is_there)
        };
        let Listening { day, questions } = Listening::of(keepers, rules, day, may_ask);
        let asked = questions.into_iter().filter_map(|asking| {
            let keeper = keepers.iter().find(|keeper| keeper.id == asking.keeper)?;
            AskedAnswer::of(keeper, asking, own)
        });
        ListeningAnswer { day, questions: asked.collect() }
    }
}

impl AskedAnswer {
    /// What is asked of a keeper; `None` where there is nothing to choose from.
    #[must_use]
    pub fn of(keeper: &Keeper, asking: Asking, own: &[ScaleKind]) -> Option<AskedAnswer> {
        let question = EarQuestion::of(keeper, &asking, own)?;
        let key = key_of(keeper, asking.key.semitones());
        Some(AskedAnswer { asking, keeper: keeper.clone(), key, question })
    }

    /// The same question with another sound.
    #[must_use]
    pub fn anew(&self, own: &[ScaleKind]) -> Option<AskedAnswer> {
        AskedAnswer::of(&self.keeper, self.asking.anew(), own)
    }
}
