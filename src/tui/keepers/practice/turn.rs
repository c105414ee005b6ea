//! The turn in hand: what is played, how fast, and how it goes.

use fretloom_theory::WhichTriad;
use jiff::Timestamp;

use crate::answer::{Drill, DrillQuestion, Opening, TurnAnswer};
use crate::picture::{Mark, MarkRole, Tab};
use crate::practice::TempoLadder;
use crate::store::Verdict;
use crate::tui::shared::Shared;

/// The turn in hand.
pub(in crate::tui::keepers) struct InTurn {
    /// What is played; or why nothing can be.
    pub(in crate::tui::keepers) drill: Result<Drill, String>,
    pub(in crate::tui::keepers) marks: Vec<Mark>,
    pub(in crate::tui::keepers) tab: Option<Tab>,
    pub(in crate::tui::keepers) ladder: TempoLadder,
    /// How its tries went, in this turn.
    pub(in crate::tui::keepers) tries: Vec<Verdict>,
    /// When it began.
    pub(in crate::tui::keepers) began: Timestamp,
}

impl InTurn {
    /// The beginning of a turn.
    pub(super) fn of(turn: &TurnAnswer, shared: &Shared) -> InTurn {
        let (record, unit) = (&turn.keeper.practice, &turn.turn.unit);
        let ladder = TempoLadder::going_on(shared.practice.ladder, record, unit);
        let opening = Opening {
            on: None,
            unsaid: shared.tuning(),
            tunings: &shared.library.tunings,
            own: shared.library.scales.kinds(),
            spelling: shared.setup.spelling,
        };
        let asked = DrillQuestion { keeper: &turn.keeper, unit, opening, hand: shared.hand };
        let drill = Drill::new(&asked).map_err(|refusal| refusal.to_string());
        let drill = drill.map(|drill| drill.at(ladder.tempo()));
        let phrase = drill.as_ref().ok().and_then(|drill| drill.phrase.as_ref());
        let tab = phrase.and_then(|phrase| Some(phrase.tab(phrase.ways.first()?)));
        InTurn {
            marks: drill.as_ref().map(marks).unwrap_or_default(),
            tab,
            drill,
            ladder,
            tries: Vec::new(),
            began: shared.now.timestamp(),
        }
    }

    /// Goes on after a try, at the tempo that it has then.
    pub(super) fn go_on(&mut self, verdict: Verdict) {
        self.tries.push(verdict);
        self.ladder = self.ladder.after(verdict);
        if let Ok(drill) = &mut self.drill {
            *drill = drill.at(self.ladder.tempo());
        }
    }

    /// How often it was got in this turn.
    pub(in crate::tui::keepers) fn got(&self) -> usize {
        self.tries.iter().filter(|verdict| **verdict == Verdict::Got).count()
    }
}

/// Where the notes of the phrase lie; a note that is in neither triad is none of the pair's.
fn marks(drill: &Drill) -> Vec<Mark> {
    let mark = |(place, note, which): (_, fretloom_theory::NoteName, Option<WhichTriad>)| {
        let role = which.map_or(MarkRole::LeftOut, MarkRole::Triad);
        Mark::new(place, role, note.to_string())
    };
    drill.places().into_iter().map(mark).collect()
}
