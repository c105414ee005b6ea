//! `keepers`: what is kept, listed and changed.

use fretloom_fretboard::{Neck, Region, StringSet, Tuning};
use fretloom_theory::ReadError;
use jiff::ZonedDateTime;
use jiff::civil::Date;

use super::args::{self, KeepCommand, KeeperAdd, Keepers, KeepersChange};
use super::call::Call;
use super::complain::complain;
use super::outcome::Failure;
use super::text;
use crate::answer::{
    KeeperAnswer, KeepersAnswer, KeepersQuestion, ListeningAnswer, PracticeAnswer, Refusal,
    pair_to_keep,
};
use crate::glyphs::to_ascii;
use crate::store::{
    Keeper, KeeperId, KeeperStore, Kept, KeptKeepers, NewKeeper, PracticeRecord, Removed,
};

impl Call<'_> {
    /// What a command about keepers prints.
    pub(super) fn keep(&self, command: &KeepCommand) -> Result<String, Failure> {
        let store = self.keeper_store()?;
        match command {
            KeepCommand::Keepers(wanted) => match &wanted.change {
                None => self.listed(wanted, &store),
                Some(KeepersChange::Add(wanted)) => self.added(wanted, &store),
                Some(KeepersChange::Remove { id }) => self.removed(id, &store),
            },
            KeepCommand::Practice(wanted) => {
                let kept = told(store.load()?);
                let answer = PracticeAnswer::new(&kept.list, &wanted.rules(), today());
                Ok(self.printed(&answer, text::practice))
            }
            KeepCommand::Listen(wanted) => {
                let kept = told(store.load()?);
                let rules = wanted.rules();
                let answer = ListeningAnswer::new(&kept.list, &rules, today(), self.own_scales());
                Ok(self.printed(&answer, text::listen))
            }
        }
    }

    /// All that is kept, in the player's order.
    pub(super) fn keepers(&self) -> Result<Vec<Keeper>, Refusal> {
        Ok(told(self.keeper_store()?.load()?).list)
    }

    fn keeper_store(&self) -> Result<KeeperStore, Refusal> {
        let folder = self.data.as_deref();
        folder.map(KeeperStore::in_folder).ok_or(Refusal::NoDataFolder)
    }

    fn listed(&self, wanted: &Keepers, store: &KeeperStore) -> Result<String, Failure> {
        let kept = told(store.load()?);
        let question = KeepersQuestion {
            words: wanted.words.join(" "),
            tag: wanted.tag.clone(),
            serves: wanted.serves.clone(),
            order: wanted.sort.into(),
        };
        let places = question.among(&kept.list).into_iter();
        let keepers = places.filter_map(|place| kept.list.get(place).cloned()).collect();
        Ok(self.printed(&KeepersAnswer { keepers }, text::keepers))
    }

    fn added(&self, wanted: &KeeperAdd, store: &KeeperStore) -> Result<String, Failure> {
        let new = self.new_keeper(wanted)?;
        let after = store.add(new, today())?;
        let keepers = told(after.keepers).list.into_iter();
        let keeper = keepers.rev().find(|keeper| keeper.id == after.done);
        let keeper = keeper.ok_or_else(|| unknown(&after.done.to_string()))?;
        Ok(self.printed(&KeeperAnswer { keeper }, text::keeper_added))
    }

    fn new_keeper(&self, wanted: &KeeperAdd) -> Result<NewKeeper, Failure> {
        let harmony = self.harmony(Some(&wanted.chord), wanted.scale.as_deref())?;
        let pair = self.chosen_pair(&harmony, &wanted.pair, &wanted.wanted)?;
        let (_, tuning, _) = self.neck_within(None)?;
        let strings = args::strings(wanted.strings.as_deref()).map_err(input)?;
        if let Some(strings) = strings {
            unless_on(strings, &tuning.tuning)?;
        }
        let kept = Kept {
            chord: Some(to_ascii(wanted.chord.trim())),
            view: strings.map(|_| "set".to_owned()),
            strings,
            ..pair_to_keep(&harmony, &pair, tuning.tuning)
        };
        let mut tags: Vec<String> = Vec::new();
        for tag in &wanted.tag {
            if !tags.contains(tag) {
                tags.push(tag.clone());
            }
        }
        Ok(NewKeeper {
            kept,
            name: wanted.name.clone(),
            notes: wanted.notes.clone(),
            tags,
            practice: PracticeRecord { start: wanted.tempo, ..PracticeRecord::default() },
        })
    }

    fn removed(&self, id: &str, store: &KeeperStore) -> Result<String, Failure> {
        let number = id.trim().parse().ok().and_then(KeeperId::new);
        let kept = told(store.load()?);
        let keeper = kept.list.into_iter().find(|keeper| Some(keeper.id) == number);
        let keeper: Keeper = keeper.ok_or_else(|| unknown(id))?;
        let after = store.remove(&keeper, today())?;
        match after.done {
            Removed::Done(_) => Ok(self.printed(&KeeperAnswer { keeper }, text::keeper_removed)),
            Removed::Gone => Err(unknown(id)),
            Removed::ChangedMeanwhile(_) => Err(Failure::Input(format!(
                "keeper {id} has just been changed by another fretloom, and is still there; expected \
                 one that nobody changes meanwhile: look at it, and remove it again"
            ))),
        }
    }
}

/// The day it is here.
pub(super) fn today() -> Date {
    ZonedDateTime::now().date()
}

/// Says on standard error what the player should know of the file.
fn told(kept: KeptKeepers) -> KeptKeepers {
    kept.remarks.iter().for_each(complain);
    kept
}

fn unless_on(strings: StringSet, tuning: &Tuning) -> Result<(), Failure> {
    let checked = Region::default().on(strings).check(&Neck::new(tuning.clone()));
    checked.map_err(|error| Refusal::Region(error).into())
}

fn input(error: ReadError) -> Failure {
    Refusal::Read(error).into()
}

fn unknown(id: &str) -> Failure {
    Refusal::NoKeeper { text: id.to_owned() }.into()
}
