//! What keys do while something is to be named by ear.

use super::super::state::KeepersScreen;
use super::state::Listen;
use crate::answer::ListeningAnswer;
use crate::store::{KeeperChange, KeeperId, Try, Verdict};
use crate::tui::command::{Command, ListenCommand};
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::words::counted;

impl KeepersScreen {
    /// Asks the questions of today. Nothing sounds yet.
    pub(in crate::tui::keepers) fn begin_listening(&mut self, shared: &mut Shared) {
        let own = shared.library.scales.kinds();
        let (all, today) = (shared.keeping.list(), shared.today());
        let ListeningAnswer { questions, .. } =
            ListeningAnswer::new(all, &shared.practice, today, own);
        if questions.is_empty() {
            return shared.tell("nothing can be named by ear yet: keep a pair over a chord first");
        }
        self.listen = Some(Listen::through(questions, shared.neck()));
    }

    /// Does what is asked for while something is to be named.
    pub(in crate::tui) fn update_listen(
        &mut self,
        command: ListenCommand,
        shared: &mut Shared,
    ) -> Vec<ScreenEffect> {
        let Some(listen) = &mut self.listen else { return Vec::new() };
        match command {
            ListenCommand::GoOn => return listen.go_on_and_play(shared),
            ListenCommand::Answer(choice) => listen.answer(choice, shared),
            ListenCommand::HearAgain if listen.now().is_some() => return listen.play(),
            ListenCommand::HearAgain => shared.tell("nothing is asked any more"),
            ListenCommand::HearMine => return listen.play_answer(shared),
            ListenCommand::ToList => {
                self.listen = None;
                return vec![ScreenEffect::StopPlaying];
            }
        }
        Vec::new()
    }
}

impl KeepersScreen {
    /// What was to be heard was not, since no sound can be played: it cannot be named either.
    pub(in crate::tui) fn was_not_heard(&mut self) {
        if let Some(listen) = &mut self.listen {
            listen.was_heard = false;
        }
    }
}

impl Listen {
    /// Plays what is asked; once that is answered, what is asked next; at the end, all of it with
    /// other sounds.
    fn go_on_and_play(&mut self, shared: &Shared) -> Vec<ScreenEffect> {
        if self.now().is_none() {
            *self = self.anew(shared.library.scales.kinds(), shared.neck());
        }
        self.go_on();
        match self.now() {
            Some(_) => self.play(),
            None => vec![ScreenEffect::StopPlaying],
        }
    }

    fn play(&mut self) -> Vec<ScreenEffect> {
        self.was_heard = true;
        self.piece().map(ScreenEffect::Play).into_iter().collect()
    }

    fn play_answer(&mut self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match self.piece_of_answer() {
            Some(piece) => return vec![ScreenEffect::Play(piece)],
            None if self.answered.is_some() => shared.tell("what you named is what sounded"),
            None => shared.tell("nothing is named yet"),
        }
        Vec::new()
    }

    /// Takes an answer, and has it recorded.
    fn answer(&mut self, choice: usize, shared: &mut Shared) {
        let key = shared.key_of(Command::Listen(ListenCommand::GoOn));
        let Some(now) = self.now() else { return shared.tell("nothing is asked any more") };
        let choices = now.asked.question.choices().len();
        if self.answered.is_some() {
            return shared.tell(format!("it is answered: {key} goes on"));
        }
        if !self.was_heard {
            return shared.tell(format!("{key} lets it be heard first"));
        }
        if choice >= choices {
            return shared.tell(format!("there are {} to choose from", counted(choices, "answer")));
        }
        let verdict = now.asked.question.verdict(choice);
        let (keeper, tried) = self.tried(verdict, shared).unzip();
        let due = tried.as_ref().and_then(|tried: &Try| tried.next);
        if let (Some(keeper), Some(tried)) = (keeper, tried) {
            shared.keeping.change(keeper, KeeperChange::Tried(tried));
        }
        self.take_answer(choice, due);
    }

    /// What is recorded of an answer, beside what was recorded before.
    fn tried(&self, verdict: Verdict, shared: &Shared) -> Option<(KeeperId, Try)> {
        let asked = &self.now()?.asked;
        let keeper = shared.keeping.keeper(asked.keeper.id).unwrap_or(&asked.keeper);
        let unit = asked.asking.unit();
        let spacing = shared.practice.spacing;
        Some((keeper.id, spacing.tried(&keeper.practice, &unit, (shared.today(), None, verdict))))
    }
}
