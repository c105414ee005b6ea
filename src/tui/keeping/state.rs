//! What is known of the file of keepers, and what waits to be done with it.

use std::collections::VecDeque;

use jiff::civil::Date;

use super::asked::{Asked, Done, Move, Outcome};
use super::counter::Counter;
use super::deed::Deed;
use crate::store::{Keeper, KeeperChange, KeeperId, KeeperStore, KeptKeepers, NewKeeper, TriedBy};
use crate::tui::found::Found;
use crate::tui::runtime::{Job, Subject};

/// What is kept, and what is to be done with it.
#[derive(Default)]
pub(in crate::tui) struct Keeping {
    /// None where there is no folder for it.
    store: Option<KeeperStore>,
    kept: KeptKeepers,
    /// Was it read at least once?
    was_read: bool,
    /// What the file had to tell, each once.
    told: Vec<String>,
    waiting: VecDeque<Task>,
    /// What is being done now.
    doing: Option<Step>,
    counter: Counter,
    deeds: Vec<Deed>,
    /// So many of them are done; the others are taken back.
    done: usize,
}

/// Something that is to be done in its turn.
#[derive(Debug)]
enum Task {
    Read,
    New(Asked),
    /// The deed with this index is taken back.
    Back(usize),
    /// It is done again.
    Again(usize),
}

/// What is being done.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Step {
    Read,
    New,
    Back(usize),
    Again(usize),
}

/// What has been done, for whoever tells it.
#[derive(Debug, Default)]
pub(in crate::tui) struct News {
    /// In words.
    pub(in crate::tui) told: Option<String>,
    /// The keeper that it was done with.
    pub(in crate::tui) about: Option<KeeperId>,
}

/// How much waits at most. Nobody asks for so much before the first of it is done.
const MOST_WAITING: usize = 200;

/// How much can be taken back.
const MOST_DEEDS: usize = 2_000;

impl Keeping {
    /// Keeps everything there from now on.
    pub(in crate::tui) fn use_store(&mut self, store: KeeperStore) {
        self.store = Some(store);
    }

    /// Has the file read, unless that is to be done anyway.
    pub(in crate::tui) fn read(&mut self) {
        if self.store.is_some() && !self.waiting.iter().any(|task| matches!(task, Task::Read)) {
            self.waiting.push_back(Task::Read);
        }
    }

    /// Has something kept.
    pub(in crate::tui) fn keep(&mut self, new: NewKeeper) {
        self.ask(Asked::Keep(Box::new(new)));
    }

    /// Has a field of a keeper changed.
    pub(in crate::tui) fn change(&mut self, id: KeeperId, change: KeeperChange) {
        self.ask(Asked::Change(id, change));
    }

    /// Has a keeper removed, as it is seen now.
    pub(in crate::tui) fn remove(&mut self, seen: Keeper) {
        self.ask(Asked::Remove(Box::new(seen)));
    }

    /// Has a keeper put before another one, or at the end.
    pub(in crate::tui) fn put_before(&mut self, id: KeeperId, to: Option<KeeperId>) {
        let mut ids = self.list().iter().map(|keeper| keeper.id);
        let from = ids.by_ref().find(|other| *other == id).and_then(|_| ids.next());
        self.ask(Asked::Move(Move { id, from, to }));
    }

    fn ask(&mut self, asked: Asked) {
        if self.store.is_some() && self.waiting.len() < MOST_WAITING {
            self.waiting.push_back(Task::New(asked));
        }
    }

    /// The next thing to be done, once what was done before has been fetched.
    pub(in crate::tui) fn job(&mut self, day: Date) -> Option<Job<Found>> {
        let store = self.store.clone()?;
        self.begin(day)?;
        let counter = self.counter.clone();
        let work = move |_: &_| {
            counter.serve(&store);
            Found::Keepers
        };
        Some(Job::new(work).about(Subject::Keepers))
    }

    /// Puts down the next thing to be done; none where there is none, or one is being done.
    fn begin(&mut self, day: Date) -> Option<()> {
        if self.doing.is_some() {
            return None;
        }
        let (step, asked) = match self.waiting.pop_front()? {
            Task::Read => (Step::Read, Asked::Read),
            Task::New(asked) => (Step::New, asked),
            // Where nothing is left to be taken back, the file is read, which shows it.
            Task::Back(index) => {
                let asked = self.deeds.get(index).and_then(|deed| deed.back(self.list()));
                (Step::Back(index), asked.unwrap_or(Asked::Read))
            }
            Task::Again(index) => {
                let asked = self.deeds.get(index).and_then(|deed| deed.again(self.list()));
                (Step::Again(index), asked.unwrap_or(Asked::Read))
            }
        };
        self.counter.put(asked, day);
        self.doing = Some(step);
        Some(())
    }

    /// Fetches what a job has done.
    pub(in crate::tui) fn fetch(&mut self) -> News {
        let Some(outcome) = self.counter.fetch() else { return News::default() };
        let step = self.doing.take().unwrap_or(Step::Read);
        self.take(step, outcome)
    }

    /// Does all that waits, here and now, at the end of the program. What could not be done is told.
    pub(in crate::tui) fn finish(&mut self, day: Date) -> Vec<String> {
        let Some(store) = self.store.clone() else { return Vec::new() };
        self.waiting.retain(|task| !matches!(task, Task::Read));
        let mut failed = Vec::new();
        while self.doing.is_some() || self.begin(day).is_some() {
            self.counter.serve(&store);
            let Some(outcome) = self.counter.fetch() else { break };
            failed.extend(outcome.result.as_ref().err().map(ToString::to_string));
            let step = self.doing.take().unwrap_or(Step::Read);
            self.take(step, outcome);
        }
        failed
    }

    fn take(&mut self, step: Step, outcome: Outcome) -> News {
        match outcome.result {
            Ok((kept, done)) => {
                self.learn(kept);
                match step {
                    Step::Back(index) | Step::Again(index) => self.gone_along(index, &done),
                    Step::Read | Step::New => self.newly_done(&done),
                }
            }
            Err(error) => {
                self.stay(step);
                News { told: Some(error.to_string()), about: None }
            }
        }
    }

    fn learn(&mut self, kept: KeptKeepers) {
        for told in kept.remarks.iter().map(ToString::to_string) {
            if !self.told.contains(&told) {
                self.told.push(told);
            }
        }
        (self.kept, self.was_read) = (kept, true);
    }

    /// What was to be taken back, or done again, is as it was.
    fn stay(&mut self, step: Step) {
        match step {
            Step::Back(index) => self.done = index + 1,
            Step::Again(index) => self.done = index,
            Step::Read | Step::New => {}
        }
    }

    fn newly_done(&mut self, done: &Done) -> News {
        if let Some(deed) = Deed::of(done) {
            self.deeds.truncate(self.done);
            if self.deeds.len() < MOST_DEEDS {
                self.deeds.push(deed);
                self.done += 1;
            }
        }
        self.news(done, "")
    }

    /// A deed was taken back or done again. Where there was nothing to do it with, that was seen.
    fn gone_along(&mut self, index: usize, done: &Done) -> News {
        let Some(deed) = self.deeds.get_mut(index) else { return News::default() };
        deed.learn(done);
        let id = deed.id();
        match done {
            Done::Read => self.news(&Done::Gone(id), ""),
            done => self.news(done, " again"),
        }
    }

    /// What has been done, in words.
    fn news(&self, done: &Done, again: &str) -> News {
        let title = |id: KeeperId| {
            let keeper = self.list().iter().find(|keeper| keeper.id == id);
            keeper.map(Keeper::title).unwrap_or_default()
        };
        let (told, about) = match done {
            Done::Read => return News::default(),
            Done::Kept(id) => (format!("kept as {id}: {}", title(*id)), *id),
            Done::Restored(id) => (format!("keeper {id} is there again: {}", title(*id)), *id),
            Done::Removed(keeper, _) => {
                (format!("keeper {} is removed{again}: {}", keeper.id, keeper.title()), keeper.id)
            }
            // What is played is told where it is practised.
            Done::Changed { change: KeeperChange::Tried(tried), .. }
                if tried.unit.by == TriedBy::Hand =>
            {
                return News::default();
            }
            Done::Changed { change, before } => {
                let id = before.id;
                (format!("keeper {id}: {}{again}", words_of(change)), id)
            }
            Done::Moved(moved) => {
                (format!("keeper {} stands elsewhere{again}", moved.id), moved.id)
            }
            Done::Gone(id) => (format!("keeper {id} is gone: another fretloom removed it"), *id),
            Done::ChangedMeanwhile(id) => (
                format!(
                    "keeper {id} stays: another fretloom has changed it meanwhile. Look at it; once \
                     more removes it all the same"
                ),
                *id,
            ),
        };
        News { told: Some(told), about: Some(about) }
    }

    /// Goes back or forward to when so much was done.
    pub(in crate::tui) fn go_to(&mut self, done: usize) {
        let (now, done) = (self.done, done.min(self.deeds.len()));
        self.waiting.extend((done..now).rev().map(Task::Back));
        self.waiting.extend((now..done).map(Task::Again));
        self.done = done;
    }

    /// How much was done: where one is on the way back and forward.
    pub(in crate::tui) fn done(&self) -> usize {
        self.done
    }

    /// Is something being done, or waits to be done, that changes what is kept?
    pub(in crate::tui) fn is_busy(&self) -> bool {
        let waits = self.waiting.iter().any(|task| !matches!(task, Task::Read));
        waits || self.doing.is_some_and(|step| step != Step::Read)
    }

    /// All that was kept when the file was read last, in the player's order.
    pub(in crate::tui) fn list(&self) -> &[Keeper] {
        &self.kept.list
    }

    /// The keeper of that number.
    pub(in crate::tui) fn keeper(&self, id: KeeperId) -> Option<&Keeper> {
        self.list().iter().find(|keeper| keeper.id == id)
    }

    /// Has the file been read yet?
    pub(in crate::tui) fn was_read(&self) -> bool {
        self.was_read
    }

    /// Is there a folder in which something can be kept?
    pub(in crate::tui) fn has_folder(&self) -> bool {
        self.store.is_some()
    }

    /// What the player should know of the file, a sentence each.
    pub(in crate::tui) fn told(&self) -> &[String] {
        &self.told
    }
}

/// What was changed.
fn words_of(change: &KeeperChange) -> String {
    match change {
        KeeperChange::Name(Some(name)) => format!("it is called {name}"),
        KeeperChange::Name(None) => "it has no name of its own".to_owned(),
        KeeperChange::Notes(_) => "its notes are changed".to_owned(),
        KeeperChange::Tag(tag) => format!("it has the tag {tag}"),
        KeeperChange::Untag(tag) => format!("it has the tag {tag} no more"),
        KeeperChange::Start(Some(start)) => format!("practice begins at {start}"),
        KeeperChange::Start(None) => "practice begins at the usual tempo".to_owned(),
        KeeperChange::Keys(_) => "its keys are changed".to_owned(),
        KeeperChange::Sets(_) => "its string sets are changed".to_owned(),
        KeeperChange::Limits(_) => "its limits are changed".to_owned(),
        KeeperChange::Tried(tried) if tried.unit.by != TriedBy::Hand => {
            "the answer is recorded".to_owned()
        }
        KeeperChange::Tried(tried) => format!("{} is recorded", tried.verdict.word()),
        KeeperChange::Untried(_) => "a try is taken back".to_owned(),
    }
}
