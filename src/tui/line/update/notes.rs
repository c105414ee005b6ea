//! Single notes, changed by their player.

use fretloom_fretboard::StringNumber;
use fretloom_theory::{Direction, NoteChange, NoteEdit};

use super::super::chosen::Chosen;
use super::super::cycles::{Way, others};
use super::super::state::LineScreen;
use crate::answer::{LineEdit, ToldNote};
use crate::tui::shared::Shared;

impl LineScreen {
    /// Changes the note at the cursor, or says that nothing would change.
    pub(super) fn alter(&mut self, change: NoteChange, shared: &mut Shared) {
        let Some(at) = self.at() else { return };
        let before: Vec<ToldNote> = self.notes().to_vec();
        let edit = NoteEdit { onset: at.onset, voice: at.voice, change };
        let chosen = self.chosen.clone();
        if !self.make_edit(LineEdit::Note(edit), shared) {
            return;
        }
        if self.notes() == before.as_slice() {
            self.chosen = chosen;
            shared.tell(nothing_there(change));
        } else if self.notes().is_empty() {
            // A line without a note is none.
            self.restore(chosen, shared);
            shared.tell("this is the only note");
        }
    }

    /// The note at the cursor on the next string that has it.
    pub(super) fn other_string(&mut self, shared: &mut Shared) {
        let Some(now) = self.string() else { return };
        let strings = self.strings_of_note(shared);
        match others(&strings, &now, Way::Next).first() {
            Some(string) => self.settle_on(Some(*string), shared),
            None => shared.tell(format!("string {now} is the only one with this note here")),
        }
    }

    /// The note stays on its string whatever becomes of the phrase, or is free again.
    pub(super) fn pin(&mut self, shared: &mut Shared) {
        let (Some(now), pinned) = (self.string(), self.pinned()) else { return };
        match pinned {
            None => {
                self.settle_on(Some(now), shared);
                shared.tell(format!("pinned to string {now}"));
            }
            Some(_) => {
                self.settle_on(None, shared);
                shared.tell("on any string again");
            }
        }
    }

    /// The string that the note at the cursor is pinned to, if it is.
    pub(in crate::tui::line) fn pinned(&self) -> Option<StringNumber> {
        let here = self.at()?;
        let last = self.chosen.edits.iter().rev().find_map(|edit| match edit {
            LineEdit::String(at, string) if *at == here => Some(*string),
            LineEdit::String(..) | LineEdit::Note(_) | LineEdit::Slur(_) => None,
        });
        last.flatten().filter(|string| self.string() == Some(*string))
    }

    fn settle_on(&mut self, string: Option<StringNumber>, shared: &mut Shared) {
        if let Some(at) = self.at() {
            self.make_edit(LineEdit::String(at, string), shared);
        }
    }

    /// The note is slurred to from the one before, or picked.
    pub(super) fn slur(&mut self, shared: &mut Shared) {
        let Some(at) = self.at() else { return };
        let before = self.slur_at_cursor();
        let chosen = self.chosen.clone();
        if !self.make_edit(LineEdit::Slur(at), shared) {
            return;
        }
        if self.slur_at_cursor() == before {
            self.chosen = chosen;
            shared.tell("no slur: it takes two notes on one string, under one hand");
        }
    }

    fn slur_at_cursor(&self) -> bool {
        let way = self.made().and_then(|made| made.way());
        way.is_some_and(|way| way.slurs.get(self.cursor).copied().flatten().is_some())
    }

    /// The string of the note at the cursor.
    fn string(&self) -> Option<StringNumber> {
        let way = self.made()?.way()?;
        Some(way.way.notes.get(self.cursor)?.place.string)
    }

    fn strings_of_note(&self, shared: &Shared) -> Vec<StringNumber> {
        let places =
            self.made().map(|made| made.answer.places(&made.ground, shared.neck(), self.cursor));
        places.unwrap_or_default().into_iter().map(|place| place.string).collect()
    }

    fn make_edit(&mut self, edit: LineEdit, shared: &mut Shared) -> bool {
        if self.chosen.edits.len() >= Chosen::MOST_EDITS {
            shared.tell(format!("{} changes are the most; take some back", Chosen::MOST_EDITS));
            return false;
        }
        let mut chosen = self.chosen.clone();
        chosen.edits.push(edit);
        self.take(chosen, shared)
    }
}

/// Why a change of a note changes nothing.
const fn nothing_there(change: NoteChange) -> &'static str {
    match change {
        NoteChange::PairNote(Direction::Up) => "no note of the pair lies above it here",
        NoteChange::PairNote(Direction::Down) => "no note of the pair lies below it here",
        NoteChange::ScaleStep(Direction::Up) | NoteChange::HalfStep(Direction::Up) => {
            "nothing lies above it here"
        }
        NoteChange::ScaleStep(Direction::Down) | NoteChange::HalfStep(Direction::Down) => {
            "nothing lies below it here"
        }
        NoteChange::SoundsOn => "no note comes after it",
        NoteChange::Accent | NoteChange::Silent => "nothing changes",
    }
}
