//! A walk through questions, and what has become of each.

use std::sync::Arc;

use fretloom_fretboard::{Neck, Tuning};
use fretloom_theory::ScaleKind;
use jiff::civil::Date;

use crate::answer::{AskedAnswer, EarChoice};
use crate::practice::EarRound;
use crate::store::Verdict;

/// The questions that are asked now, and how far one is.
pub(in crate::tui::keepers) struct Listen {
    pub(super) questions: Vec<Question>,
    pub(super) round: EarRound,
    /// Was the question of now heard yet?
    pub(super) was_heard: bool,
    /// What was answered to the question of now, by its place among the choices.
    pub(super) answered: Option<usize>,
}

/// A question, and what has become of it.
pub(super) struct Question {
    pub(super) asked: AskedAnswer,
    /// The instrument on which its pair is heard and shown.
    pub(super) neck: Neck,
    pub(super) fate: Fate,
}

/// What has become of a question.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Fate {
    /// It was got earlier today, and is not asked again.
    Before,
    /// It is to come.
    ToCome,
    /// It was got, with the first answer or later, and comes back on a day.
    Got { at_once: bool, due: Option<Date> },
    /// It was missed last.
    Missed { due: Option<Date> },
}

impl Listen {
    /// A walk through these, but those that were got today; on `usual` where a keeper has no tuning of
    /// its own.
    pub(super) fn through(asked: Vec<AskedAnswer>, usual: &Neck) -> Listen {
        let question = |asked: AskedAnswer| {
            let own: Option<&Arc<Tuning>> = asked.keeper.kept.tuning.as_ref();
            let neck = own.map_or_else(|| usual.clone(), |own| Neck::new(Tuning::clone(own)));
            let fate = if asked.asking.is_done { Fate::Before } else { Fate::ToCome };
            Question { asked, neck, fate }
        };
        let questions: Vec<Question> = asked.into_iter().map(question).collect();
        let to_come = questions.iter().enumerate().filter(|(_, one)| one.fate == Fate::ToCome);
        let round = EarRound::through(to_come.map(|(place, _)| place));
        Listen { questions, round, was_heard: false, answered: None }
    }

    /// The same questions with other sounds.
    pub(super) fn anew(&self, own: &[ScaleKind], usual: &Neck) -> Listen {
        let asked = self.questions.iter().filter_map(|question| question.asked.anew(own));
        Listen::through(asked.collect(), usual)
    }

    /// The question that is asked, or was just answered; none at the end.
    pub(super) fn now(&self) -> Option<&Question> {
        self.questions.get(self.round.now()?)
    }

    /// Its choices.
    pub(super) fn choices(&self) -> &[EarChoice] {
        self.now().map_or(&[], |question| question.asked.question.choices())
    }

    /// Takes an answer, with the day on which it comes back.
    pub(super) fn take_answer(&mut self, choice: usize, due: Option<Date>) {
        let (again, place) = (self.round.is_asked_again(), self.round.now());
        let Some(question) = place.and_then(|place| self.questions.get_mut(place)) else { return };
        question.fate = match question.asked.question.verdict(choice) {
            Verdict::Got => Fate::Got { at_once: !again, due },
            Verdict::Again => Fate::Missed { due },
        };
        self.answered = Some(choice);
    }

    /// Goes on to the next question, once this one is answered.
    pub(super) fn go_on(&mut self) {
        let Some(choice) = self.answered else { return };
        let Some(verdict) = self.now().map(|now| now.asked.question.verdict(choice)) else {
            return;
        };
        self.round = std::mem::take(&mut self.round).after(verdict);
        (self.answered, self.was_heard) = (None, false);
    }
}
