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
    /// What is being looked for.
    waiting: Option<Waiting>,
    /// How often something was looked for.
    count: u64,
}

/// Plans, and what was asked.
struct Made {
    asked: Asked,
    answer: Arc<ChangesAnswer>,
    /// In which bars each plan has other pairs than the first one.
    differ: Vec<String>,
}

/// What is being looked for, and its number.
struct Waiting {
    number: u64,
    asked: Asked,
    /// Is the plan that is chosen known already, and are the others to be listed beside it?
    is_for_list: bool,
}

/// What was found is new, or is what was there before with more beside it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Taken {
    New,
    Others,
    Nothing,
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
    /// The work that finds what is chosen now, and then, where they are `listed`, the other plans; none
    /// where that is known, or is being looked for.
    pub(super) fn job(
        &mut self,
        chosen: &Chosen,
        shared: &Shared,
        listed: bool,
    ) -> Option<Job<Found>> {
        let asked = Asked::of(chosen, shared)?;
        let (is_for_list, asked) = match self.knows(&asked) {
            false => (false, asked),
            true => (true, Asked { several: true, ..asked }),
        };
        if is_for_list && (self.knows(&asked) || self.is_refused(&asked) || !listed) {
            self.waiting = None;
            return None;
        }
        if let Some(waiting) = &mut self.waiting
            && waiting.asked.serves(&asked)
        {
            waiting.is_for_list = is_for_list;
            return None;
        }
        self.count += 1;
        let number = self.count;
        self.waiting = Some(Waiting { number, asked: asked.clone(), is_for_list });
        let work = move || {
            let neck = Neck::new(asked.tuning.clone());
            let answer = ChangesAnswer::new(&neck, &asked.question());
            Found::Plan(Box::new(FoundPlan { number, answer }))
        };
        Some(Job::new(move |_| work()).about(Subject::Plan))
    }

    /// Is it known what there is of this?
    fn knows(&self, asked: &Asked) -> bool {
        self.made.as_ref().is_some_and(|made| made.asked.serves(asked))
            || self.refused.as_ref().is_some_and(|(refused, _)| refused == asked)
    }

    /// Is there no plan of this, however many are asked for?
    fn is_refused(&self, asked: &Asked) -> bool {
        self.refused.as_ref().is_some_and(|(refused, _)| asked.serves(refused))
    }

    /// Takes what was found, if it is what is being looked for.
    pub(super) fn take(&mut self, found: FoundPlan) -> Taken {
        let is_it = |waiting: &mut Waiting| waiting.number == found.number;
        let Some(waiting) = self.waiting.take_if(is_it) else { return Taken::Nothing };
        match found.answer {
            Ok(answer) => {
                self.refused = None;
                self.made = Some(Made::of(waiting.asked, answer));
            }
            Err(refusal) => self.refused = Some((waiting.asked, refusal.to_string())),
        }
        if waiting.is_for_list { Taken::Others } else { Taken::New }
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

    /// In which bars a plan has other pairs than the first one: `2, 5–6`.
    pub(super) fn differs_in(&self, which: usize) -> &str {
        self.made.as_ref().and_then(|made| made.differ.get(which)).map_or("", String::as_str)
    }

    /// Was it found for this tuning, so that its shapes lie on this neck?
    pub(super) fn is_on(&self, tuning: &Tuning) -> bool {
        self.made.as_ref().is_some_and(|made| made.asked.tuning == *tuning)
    }

    /// Is the plan that is chosen being looked for?
    pub(super) fn is_waiting(&self) -> bool {
        self.waiting.as_ref().is_some_and(|waiting| !waiting.is_for_list)
    }

    /// Why there is none of what is chosen.
    pub(super) fn refusal(&self) -> Option<&str> {
        let (_, why) = self.refused.as_ref()?;
        Some(why)
    }
}

impl Made {
    fn of(asked: Asked, answer: ChangesAnswer) -> Made {
        let differ = |plan| in_ranges(&answer.bars_that_differ(answer.best(), plan));
        let differ = answer.plans().map(differ).collect();
        Made { asked, answer: Arc::new(answer), differ }
    }
}

/// `2, 5–6`: numbers that follow one another as the first and the last of them.
fn in_ranges(numbers: &[u64]) -> String {
    let ranges = numbers.chunk_by(|one, next| one + 1 == *next);
    let words = ranges.filter_map(|range| match (range.first()?, range.last()?) {
        (first, last) if first == last => Some(first.to_string()),
        (first, last) => Some(format!("{first}–{last}")),
    });
    words.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::in_ranges;

    #[test]
    fn bars_that_follow_one_another_are_told_together() {
        let cases: [(&[u64], &str); 4] =
            [(&[], ""), (&[2], "2"), (&[2, 5, 6, 7, 9], "2, 5–7, 9"), (&[0, 1], "0–1")];
        for (numbers, told) in cases {
            assert_eq!(in_ranges(numbers), told);
        }
    }
}
