//! A list that is practised, and how far one is in it.

use fretloom_theory::Quarters;
use jiff::Timestamp;

use super::stage::Stage;
use super::turn::InTurn;
use crate::answer::{PracticeAnswer, TurnAnswer};
use crate::practice::{Today, Turn, Why, units};
use crate::store::Keeper;
use crate::tui::shared::Shared;
use crate::tui::sound::Unpractised;

/// A list that is practised.
pub(in crate::tui::keepers) struct Practice {
    pub(in crate::tui::keepers) turns: Vec<TurnAnswer>,
    /// Which turn one is in; after the last one none.
    pub(in crate::tui::keepers) at: usize,
    pub(in crate::tui::keepers) turn: Option<InTurn>,
    pub(in crate::tui::keepers) stage: Stage,
    pub(in crate::tui::keepers) began: Timestamp,
    /// When one rested last, or began.
    pub(super) rested: Timestamp,
    /// All tries, and those of them that were got.
    pub(in crate::tui::keepers) tried: (usize, usize),
    /// What was silent before.
    pub(super) before: Unpractised,
}

impl Practice {
    /// What is on the list of today: begins with the first turn that is not done.
    pub(in crate::tui::keepers) fn of_today(shared: &mut Shared) -> Practice {
        let all = shared.keeping.list();
        let PracticeAnswer { turns, .. } =
            PracticeAnswer::new(all, &shared.practice, shared.today());
        Practice::through(turns, shared)
    }

    /// One keeper by itself: what is on the list of today if it had the day to itself; else in its own
    /// key, which does not wait until it is due.
    pub(in crate::tui::keepers) fn of_one(keeper: &Keeper, shared: &mut Shared) -> Practice {
        let (rules, day) = (shared.practice, shared.today());
        let one = std::slice::from_ref(keeper);
        let PracticeAnswer { turns, .. } = PracticeAnswer::new(one, &rules, day);
        let open: Vec<TurnAnswer> = turns.into_iter().filter(|turn| !turn.turn.is_done).collect();
        if !open.is_empty() {
            return Practice::through(open, shared);
        }
        let first = units(keeper, rules.key_order).into_iter().next().unwrap_or_default();
        let turn = Turn {
            keeper: keeper.id,
            unit: first,
            why: Why::Next,
            tempo: rules.ladder.start,
            after_rest: false,
            is_done: false,
        };
        let list = Today { day, turns: vec![turn] };
        Practice::through(PracticeAnswer::of(list, one, &rules).turns, shared)
    }

    fn through(turns: Vec<TurnAnswer>, shared: &mut Shared) -> Practice {
        let now = shared.now.timestamp();
        let first = turns.iter().position(|turn| !turn.turn.is_done).unwrap_or(turns.len());
        let mut practice = Practice {
            turns,
            at: 0,
            turn: None,
            stage: Stage::Over,
            began: now,
            rested: now,
            tried: (0, 0),
            before: shared.sound.for_practice(),
        };
        practice.go_to(first, shared);
        practice
    }

    /// To a turn; behind the last one it is over.
    pub(super) fn go_to(&mut self, at: usize, shared: &Shared) {
        self.at = at.min(self.turns.len());
        self.turn = self.turns.get(self.at).map(|turn| InTurn::of(turn, shared));
        self.stage = if self.turn.is_some() { Stage::Ready } else { Stage::Over };
    }

    /// The turn that one is in, as it was put on the list.
    pub(in crate::tui::keepers) fn here(&self) -> Option<&TurnAnswer> {
        self.turns.get(self.at)
    }

    /// The turn after it.
    pub(in crate::tui::keepers) fn next(&self) -> Option<&TurnAnswer> {
        self.turns.get(self.at + 1)
    }

    /// Is the list done?
    pub(in crate::tui::keepers) fn is_over(&self) -> bool {
        self.stage == Stage::Over
    }

    /// Which moment of a try is heard.
    pub(in crate::tui::keepers) fn moment(&self) -> Option<Quarters> {
        match self.stage {
            Stage::Trying(moment) => moment,
            Stage::Ready | Stage::Rest | Stage::Over => None,
        }
    }

    /// Has the turn taken its time?
    pub(in crate::tui::keepers) fn is_turn_over(&self, shared: &Shared) -> bool {
        let began = self.turn.as_ref().map(|turn| turn.began);
        let minutes = began.map(|began| minutes_since(began, shared)).unwrap_or_default();
        minutes >= u16::from(shared.practice.turn_minutes.max(1))
    }

    /// How many minutes one has practised.
    pub(in crate::tui::keepers) fn minutes(&self, shared: &Shared) -> u16 {
        minutes_since(self.began, shared)
    }

    /// Is it time for a rest?
    pub(super) fn is_tired(&self, shared: &Shared) -> bool {
        shared.practice.proposes_rest(minutes_since(self.rested, shared))
    }
}

/// Whole minutes; none where the clock was put back.
fn minutes_since(then: Timestamp, shared: &Shared) -> u16 {
    let seconds = shared.now.timestamp().as_second().saturating_sub(then.as_second());
    u16::try_from(seconds.max(0) / 60).unwrap_or(u16::MAX)
}
