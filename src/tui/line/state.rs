//! The state of the line screen.

use fretloom_theory::Quarters;

use super::chosen::{Chosen, Page};
use super::field::Field;
use super::made::Made;
use crate::answer::{NoteAt, ToldNote};
use crate::tui::command::Section;
use crate::tui::line_place::LineSeed;
use crate::tui::music_file::MusicFiles;
use crate::tui::shared::Shared;

/// The line screen: phrases over chords, and the line that they make.
pub struct LineScreen {
    pub(super) chosen: Chosen,
    pub(super) outcome: Outcome,
    /// Which note the player is at.
    pub(super) cursor: usize,
    pub(super) field: Option<Field>,
    pub(super) music_files: MusicFiles,
}

/// What has become of what is chosen.
pub(super) enum Outcome {
    /// Nobody has looked at it yet.
    NotYet,
    Made(Box<Made>),
    /// Why there is no line.
    Refused(String),
}

impl LineScreen {
    /// The screen before anybody has asked for a line.
    pub(in crate::tui) fn new() -> LineScreen {
        LineScreen {
            chosen: Chosen::nothing(),
            outcome: Outcome::NotYet,
            cursor: 0,
            field: None,
            music_files: MusicFiles::default(),
        }
    }

    /// Comes to the front: with the line that was made of the same pair, or with a new one.
    pub(in crate::tui) fn open(&mut self, seed: &LineSeed, shared: &mut Shared) {
        self.field = None;
        if self.chosen.seed.as_ref() == Some(&seed.to_string()) {
            self.make_again(shared);
            return;
        }
        // What was told on the way here stays; that a manner does not fit is no news.
        let told = shared.notice.take();
        let in_this_manner = self.chosen.in_this_manner(seed);
        self.cursor = 0;
        if self.chosen.seed.is_none() || !self.take(in_this_manner, shared) {
            self.chosen = Chosen::of(seed);
            self.make_again(shared);
        }
        shared.notice = told;
    }

    /// Was a line made here before, today or another day?
    pub(in crate::tui) fn was_asked_for(&self) -> bool {
        self.chosen.seed.is_some()
    }

    /// Comes to the front as it was left.
    pub(in crate::tui) fn resume(&mut self, shared: &Shared) {
        self.field = None;
        self.make_again(shared);
    }

    /// Makes the line again, since the instrument or the spelling may have changed.
    pub(super) fn make_again(&mut self, shared: &Shared) {
        self.chosen = self.chosen.on(shared.neck());
        let mut made = Made::of(&self.chosen, shared, self.made());
        if made.is_err() {
            // A chain or a run may be none here: rather a line whose phrases go along with it.
            let along = self.chosen.without_own_places();
            if along != self.chosen
                && let Ok(other) = Made::of(&along, shared, self.made())
            {
                (self.chosen, made) = (along, Ok(other));
            }
        }
        self.outcome = match made {
            Ok(made) => Outcome::Made(Box::new(made)),
            Err(refusal) => Outcome::Refused(refusal.to_string()),
        };
        self.stay_in_line();
    }

    /// Takes other choices, if a line can be made of them; else says why not.
    pub(super) fn take(&mut self, chosen: Chosen, shared: &mut Shared) -> bool {
        match Made::of(&chosen, shared, self.made()) {
            Ok(made) if made.silent_phrase(chosen.phrases.len()).is_some() => {
                let silent = made.silent_phrase(chosen.phrases.len()).unwrap_or_default();
                shared.tell(format!("phrase {} would have no note", silent + 1));
                false
            }
            Ok(made) => {
                let onset = self.note().map(|told| told.note.onset);
                self.chosen = chosen;
                self.outcome = Outcome::Made(Box::new(made));
                self.go_near(onset);
                true
            }
            Err(refusal) => {
                shared.tell(refusal.to_string());
                false
            }
        }
    }

    /// To the note that begins then, or to the last one before.
    fn go_near(&mut self, onset: Option<Quarters>) {
        let Some(onset) = onset else { return self.stay_in_line() };
        let onsets = || self.notes().iter().map(|told| told.note.onset);
        let is_here = onsets().nth(self.cursor) == Some(onset);
        if !is_here {
            let before = onsets().take_while(|other| *other <= onset).count();
            self.cursor = before.saturating_sub(1);
        }
    }

    fn stay_in_line(&mut self) {
        self.cursor = self.cursor.min(self.notes().len().saturating_sub(1));
    }

    /// What is chosen now, to be taken back to.
    pub(in crate::tui) fn chosen(&self) -> &Chosen {
        &self.chosen
    }

    /// Chooses all this again, and goes to the first note that is another one then.
    pub(in crate::tui) fn restore(&mut self, chosen: Chosen, shared: &Shared) {
        let before: Vec<ToldNote> = self.notes().to_vec();
        self.field = None;
        self.chosen = chosen;
        self.make_again(shared);
        let same = self.notes().iter().zip(&before).take_while(|(now, was)| now == was).count();
        if same < self.notes().len() && !before.is_empty() {
            self.cursor = same;
        }
    }

    /// The line, as it can be turned back to.
    pub(in crate::tui) fn page(&self) -> Page {
        Page { chosen: self.chosen.clone() }
    }

    /// Turns to a line.
    pub(in crate::tui) fn turn_to(&mut self, page: Page, shared: &Shared) {
        self.restore(page.chosen, shared);
    }

    /// Where keys are pressed now: on the screen, or in the field that lies over it.
    pub(in crate::tui) fn section(&self) -> Section {
        if self.field.is_some() { Section::Typing } else { Section::Line }
    }

    pub(super) fn made(&self) -> Option<&Made> {
        match &self.outcome {
            Outcome::Made(made) => Some(made),
            Outcome::NotYet | Outcome::Refused(_) => None,
        }
    }

    /// The notes of the line, in order of time.
    #[must_use]
    pub fn notes(&self) -> &[ToldNote] {
        self.made().map(Made::notes).unwrap_or_default()
    }

    /// The note at which the player is.
    #[must_use]
    pub fn note(&self) -> Option<&ToldNote> {
        self.notes().get(self.cursor)
    }

    /// That note by its place in time.
    pub(super) fn at(&self) -> Option<NoteAt> {
        let onset = self.note()?.note.onset;
        let together = self.notes().iter().take(self.cursor).rev();
        let voice = together.take_while(|told| told.note.onset == onset).count();
        Some(NoteAt { onset, voice })
    }
}
