//! What keys and the sound do to a list that is practised.

use fretloom_theory::Quarters;

use super::stage::Stage;
use super::state::Practice;
use crate::sound::{CountIn, PlayStyle, Rounds};
use crate::store::{KeeperChange, Verdict};
use crate::tui::command::PracticeCommand;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::tui::sound::{Change, Piece, SoundRow, What};

impl Practice {
    /// Does what a command asks for, but for leaving.
    pub(in crate::tui::keepers) fn update(
        &mut self,
        command: PracticeCommand,
        shared: &mut Shared,
    ) -> Vec<ScreenEffect> {
        match command {
            PracticeCommand::GoOn => self.go_on(shared),
            PracticeCommand::NotThisTime => self.not_this_time(shared),
            PracticeCommand::NextTurn => self.turn_to(self.at + 1, shared),
            PracticeCommand::PreviousTurn => self.turn_to(self.at.saturating_sub(1), shared),
            PracticeCommand::Stop => self.stop(shared),
            PracticeCommand::Click => {
                shared.sound.change(SoundRow::Click, Change::More);
                Vec::new()
            }
            PracticeCommand::Leave => Vec::new(),
        }
    }

    /// The one key: begins a try; while it goes on, says that it was got.
    fn go_on(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match self.stage {
            Stage::Ready => self.begin(),
            Stage::Trying(_) => self.judge(Verdict::Got, shared),
            Stage::Rest => {
                self.rested = shared.now.timestamp();
                self.go_to(self.at + 1, shared);
                Vec::new()
            }
            Stage::Over => Vec::new(),
        }
    }

    fn not_this_time(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match self.stage {
            Stage::Trying(_) => self.judge(Verdict::Again, shared),
            Stage::Ready | Stage::Rest | Stage::Over => {
                shared.tell("nothing is being tried");
                Vec::new()
            }
        }
    }

    /// To another turn, which begins when its player wants it to.
    fn turn_to(&mut self, at: usize, shared: &mut Shared) -> Vec<ScreenEffect> {
        self.go_to(at, shared);
        silence(shared)
    }

    /// Breaks a try off, of which nothing is recorded.
    fn stop(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        if let Stage::Trying(_) = self.stage {
            self.stage = Stage::Ready;
            shared.tell("broken off: nothing of it is recorded");
        }
        silence(shared)
    }

    /// Begins a try.
    fn begin(&mut self) -> Vec<ScreenEffect> {
        let piece = self.piece();
        if self.turn.is_some() {
            self.stage = Stage::Trying(None);
        }
        piece.map(ScreenEffect::Play).into_iter().collect()
    }

    /// A try as it is heard: with a bar counted in, once.
    pub(in crate::tui::keepers) fn piece(&self) -> Option<Piece> {
        let drill = self.turn.as_ref()?.drill.as_ref().ok()?.clone();
        Some(Piece::new(What::Practice, move |style| {
            let (count_in, rounds) = (CountIn::OneBar, Rounds::Once);
            Some(drill.performance(&PlayStyle { count_in, rounds, ..*style }))
        }))
    }

    /// Records how a try went, and goes on with the next one, the next turn, or a rest.
    fn judge(&mut self, verdict: Verdict, shared: &mut Shared) -> Vec<ScreenEffect> {
        let (Some(here), Some(turn)) = (self.turns.get(self.at), &mut self.turn) else {
            return Vec::new();
        };
        // Without a click nobody knows how fast it was.
        let heard =
            shared.sound.what() == Some(What::Practice) || self.stage != Stage::Trying(None);
        let tempo = heard.then(|| turn.ladder.tempo());
        let record = shared.keeping.keeper(here.keeper.id).map(|keeper| &keeper.practice);
        let record = record.unwrap_or(&here.keeper.practice);
        let spacing = shared.practice.spacing;
        let tried = spacing.tried(record, &here.turn.unit, (shared.today(), tempo, verdict));
        let id = here.keeper.id;
        shared.keeping.change(id, KeeperChange::Tried(tried));
        turn.go_on(verdict);
        self.tried = (self.tried.0 + 1, self.tried.1 + usize::from(verdict == Verdict::Got));
        self.after(verdict, shared)
    }

    fn after(&mut self, verdict: Verdict, shared: &mut Shared) -> Vec<ScreenEffect> {
        if verdict == Verdict::Got && self.is_turn_over(shared) {
            return self.end_turn(shared);
        }
        self.begin()
    }

    /// Ends a turn on a good try.
    fn end_turn(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        if let Some(turn) = self.turns.get_mut(self.at) {
            turn.turn.is_done = true;
        }
        let is_last = self.next().is_none();
        if !is_last && self.is_tired(shared) {
            self.stage = Stage::Rest;
            return silence(shared);
        }
        self.go_to(self.at + 1, shared);
        match self.stage {
            Stage::Ready => self.begin(),
            Stage::Trying(_) | Stage::Rest | Stage::Over => silence(shared),
        }
    }

    /// Hears which moment of a try sounds.
    pub(in crate::tui::keepers) fn follow(&mut self, moment: Quarters) {
        if let Stage::Trying(heard) = &mut self.stage {
            *heard = Some(moment);
        }
    }

    /// A try has sounded to its end, and nobody said that it was got.
    pub(in crate::tui::keepers) fn run_out(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match self.stage {
            Stage::Trying(_) => self.judge(Verdict::Again, shared),
            Stage::Ready | Stage::Rest | Stage::Over => Vec::new(),
        }
    }

    /// Nothing is heard any more, since the player has gone elsewhere.
    pub(in crate::tui::keepers) fn pause(&mut self) {
        if let Stage::Trying(_) = self.stage {
            self.stage = Stage::Ready;
        }
    }

    /// Ends it: what was silent before is silent again.
    pub(in crate::tui::keepers) fn end(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        shared.sound.after_practice(self.before);
        silence(shared)
    }
}

fn silence(shared: &Shared) -> Vec<ScreenEffect> {
    if shared.sound.what() == Some(What::Practice) {
        vec![ScreenEffect::StopPlaying]
    } else {
        Vec::new()
    }
}
