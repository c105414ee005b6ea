//! The plans of the tune: what is asked, and what was found last.

use std::sync::Arc;

use fretloom_fretboard::{Hand, Neck, Region, Tuning};
use fretloom_theory::{ScaleKind, Spelling};

use super::chosen::{ChartInHand, Chosen};
use super::melody::MelodyInHand;
use super::place;
use crate::answer::{ChangesAnswer, ChangesPlan, ChangesQuestion, HeldHere, TuneWishes};
use crate::tui::found::{Found, FoundPlan};
use crate::tui::runtime::{Job, Subject};
use crate::tui::shared::Shared;

/// What is known of the plans.
#[derive(Default)]
pub(super) struct Plans {
    made: Option<Made>,
    /// Why there are none.
    refused: Option<(Asked, String)>,
    /// What is being looked for, and its number.
    waiting: Option<(u64, Asked)>,
    /// How often something was looked for.
    count: u64,
}

/// Plans, and what was asked.
struct Made {
    asked: Asked,
    answer: Arc<ChangesAnswer>,
}

/// What plans rest on.
#[derive(Clone, PartialEq)]
struct Asked {
    chart: ChartInHand,
    melody: MelodyInHand,
    wishes: TuneWishes,
    held: Vec<HeldHere>,
    region: Option<Region>,
    tuning: Tuning,
    hand: Hand,
    spelling: Spelling,
    own: Vec<ScaleKind>,
    several: bool,
}

impl Asked {
    fn of(chosen: &Chosen, shared: &Shared) -> Option<Asked> {
        Some(Asked {
            chart: chosen.chart.clone()?,
            melody: chosen.melody.clone(),
            wishes: chosen.wishes.clone(),
            held: chosen.held.clone(),
            region: place::region(chosen.area),
            tuning: shared.setup.tuning.clone(),
            hand: shared.hand,
            spelling: shared.setup.spelling,
            own: shared.library.scales.kinds().to_vec(),
            several: chosen.plan > 0,
        })
    }

    /// Does what was found for this do for that too?
    fn serves(&self, other: &Asked) -> bool {
        (self.several || !other.several)
            && Asked { several: other.several, ..self.clone() } == *other
    }

    fn question(&self) -> ChangesQuestion {
        let TuneWishes { plan, optional } = self.wishes.clone();
        ChangesQuestion {
            melody: self.melody.get().clone(),
            optional,
            wishes: plan,
            held: self.held.clone(),
            region: self.region,
            hand: self.hand,
            plans: if self.several { Chosen::MOST_PLANS } else { 1 },
            spelling: self.spelling,
            own: self.own.clone(),
            ..ChangesQuestion::of(self.chart.get().clone())
        }
    }
}

impl Plans {
    /// The work that finds what is chosen now; none where that is known, or is being looked for.
    pub(super) fn job(&mut self, chosen: &Chosen, shared: &Shared) -> Option<Job<Found>> {
        let asked = Asked::of(chosen, shared)?;
        let known = self.made.as_ref().is_some_and(|made| made.asked.serves(&asked))
            || self.refused.as_ref().is_some_and(|(refused, _)| *refused == asked);
        if known {
            self.waiting = None;
            return None;
        }
        if self.waiting.as_ref().is_some_and(|(_, waiting)| waiting.serves(&asked)) {
            return None;
        }
        self.count += 1;
        let number = self.count;
        self.waiting = Some((number, asked.clone()));
        let work = move || {
            let neck = Neck::new(asked.tuning.clone());
            let answer = ChangesAnswer::new(&neck, &asked.question());
            Found::Plan(Box::new(FoundPlan { number, answer }))
        };
        Some(Job::new(move |_| work()).about(Subject::Plan))
    }

    /// Takes what was found, if it is what is being looked for.
    pub(super) fn take(&mut self, found: FoundPlan) {
        let Some((_, asked)) = self.waiting.take_if(|(number, _)| *number == found.number) else {
            return;
        };
        match found.answer {
            Ok(answer) => {
                self.refused = None;
                self.made = Some(Made { asked, answer: Arc::new(answer) });
            }
            Err(refusal) => self.refused = Some((asked, refusal.to_string())),
        }
    }

    /// The plan that was found last, whatever has changed since.
    pub(super) fn last(&self, which: usize) -> Option<&ChangesPlan> {
        let answer = &self.made.as_ref()?.answer;
        answer.plans().nth(which).or_else(|| answer.plans().last())
    }

    /// The answer with all plans, as it was found last.
    pub(super) fn answer(&self) -> Option<&Arc<ChangesAnswer>> {
        self.made.as_ref().map(|made| &made.answer)
    }

    /// How many there are.
    pub(super) fn number(&self) -> usize {
        self.made.as_ref().map_or(0, |made| made.answer.plans().count())
    }

    /// Was it found for this tuning, so that its shapes lie on this neck?
    pub(super) fn is_on(&self, tuning: &Tuning) -> bool {
        self.made.as_ref().is_some_and(|made| made.asked.tuning == *tuning)
    }

    /// Is it being looked for?
    pub(super) fn is_waiting(&self) -> bool {
        self.waiting.is_some()
    }

    /// Why there is none of what is chosen.
    pub(super) fn refusal(&self) -> Option<&str> {
        let (_, why) = self.refused.as_ref()?;
        Some(why)
    }
}
