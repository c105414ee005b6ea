//! Typing names, notes, tags, and what is looked for; and the order of the list.

use super::super::chosen::ORDERS;
use super::super::field::{Field, Typed, changes, how_in_line, notes_in_line};
use super::super::state::KeepersScreen;
use crate::glyphs::printable_line;
use crate::store::{Keeper, KeeperId};
use crate::tui::command::TypingCommand;
use crate::tui::key::Key;
use crate::tui::one_line::in_one_line;
use crate::tui::shared::Shared;

impl KeepersScreen {
    /// Opens a field for the keeper that is marked.
    pub(super) fn edit(
        &mut self,
        what: fn(KeeperId) -> Typed,
        text: impl Fn(&Keeper) -> String,
        shared: &mut Shared,
    ) {
        match self.marked(shared) {
            Some(keeper) => self.field = Some(Field::new(what(keeper.id), &text(keeper))),
            None => shared.tell("no keeper is marked"),
        }
    }

    pub(super) fn edit_name(&mut self, shared: &mut Shared) {
        self.edit(Typed::Name, |keeper| keeper.name.clone().unwrap_or_default(), shared);
    }

    pub(super) fn edit_notes(&mut self, shared: &mut Shared) {
        self.edit(Typed::Notes, |keeper| notes_in_line(&keeper.notes), shared);
    }

    pub(super) fn edit_tags(&mut self, shared: &mut Shared) {
        self.edit(Typed::Tags, |keeper| keeper.tags.join(", "), shared);
    }

    pub(super) fn edit_how(&mut self, shared: &mut Shared) {
        self.edit(Typed::How, how_in_line, shared);
    }

    pub(super) fn find(&mut self) {
        self.field = Some(Field::new(Typed::Words, &self.chosen.words));
    }

    pub(super) fn find_kind(&mut self) {
        self.field = Some(Field::new(Typed::Kind, &self.chosen.serves));
    }

    /// Lists what has the next of all tags, after the last one everything.
    pub(super) fn next_tag(&mut self, shared: &mut Shared) {
        let keepers = shared.keeping.list().iter();
        let mut tags: Vec<String> = keepers.flat_map(|keeper| keeper.tags.clone()).collect();
        tags.sort_unstable();
        tags.dedup();
        let after = self.chosen.tag.as_ref();
        let at = after.map_or(0, |tag| tags.partition_point(|other| other <= tag));
        self.chosen.tag = tags.get(at).cloned();
        self.list_again(shared);
        shared.tell(match (&self.chosen.tag, tags.is_empty()) {
            (Some(tag), _) => format!("what has the tag {}", printable_line(tag)),
            (None, true) => "nothing has a tag yet".to_owned(),
            (None, false) => "whatever its tags".to_owned(),
        });
    }

    /// Lists in another order.
    pub(super) fn step_order(&mut self, by: usize, shared: &mut Shared) {
        let at = ORDERS.iter().position(|(order, _)| *order == self.chosen.order);
        let next = (at.unwrap_or_default() + by) % ORDERS.len();
        self.chosen.order = ORDERS.get(next).map(|(order, _)| *order).unwrap_or_default();
        self.list_again(shared);
        shared.tell(self.chosen.order_in_words());
    }

    /// Lists everything, in the player's own order.
    pub(super) fn show_all(&mut self, shared: &mut Shared) {
        self.chosen = super::super::chosen::Chosen::default();
        self.list_again(shared);
        shared.tell("everything, in your own order");
    }

    /// Types a key that stands for no command, where something is typed. What is looked for is
    /// listed as it is typed.
    pub(in crate::tui) fn type_key(&mut self, key: Key, shared: &Shared) {
        if let Some(field) = &mut self.field {
            field.text.press(key);
            self.list_again(shared);
        }
    }

    /// Types a pasted text, where something is typed.
    pub(in crate::tui) fn paste(&mut self, text: &str, shared: &Shared) {
        if let Some(field) = &mut self.field {
            field.text.insert(&in_one_line(text));
            self.list_again(shared);
        }
    }

    /// Does what a command means in the field that lies over the screen.
    pub(in crate::tui) fn update_field(&mut self, command: TypingCommand, shared: &mut Shared) {
        match command {
            TypingCommand::Suggestion => {}
            TypingCommand::Accept => self.accept(shared),
            TypingCommand::Cancel => self.field = None,
        }
        self.list_again(shared);
    }

    /// Takes what is typed. What cannot be read stays in the field.
    fn accept(&mut self, shared: &mut Shared) {
        let Some(field) = &self.field else { return };
        let (what, text) = (field.what, field.text.text());
        if field.mistake().is_some() {
            return;
        }
        match what {
            Typed::Name(id) | Typed::Notes(id) | Typed::Tags(id) | Typed::How(id) => {
                let wanted = shared.keeping.keeper(id).map(|keeper| changes(what, &text, keeper));
                for change in wanted.into_iter().flatten() {
                    shared.keeping.change(id, change);
                }
            }
            Typed::Words => text.trim().clone_into(&mut self.chosen.words),
            Typed::Kind => text.trim().clone_into(&mut self.chosen.serves),
        }
        self.field = None;
    }
}
