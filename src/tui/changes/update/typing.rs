//! What is typed: all bars, one of them, where the hand stays.

use super::super::field::{Field, Typed, read_area, read_key};
use super::super::files::name_for;
use super::super::sheet::SheetBar;
use super::super::state::ChangesScreen;
use crate::answer::TuneWishes;
use crate::tui::command::TypingCommand;
use crate::tui::key::Key;
use crate::tui::one_line::in_one_line;
use crate::tui::shared::Shared;

impl ChangesScreen {
    pub(super) fn edit(&mut self, what: Typed) {
        let chart = self.chosen.chart();
        let text = match what {
            Typed::Chords => chart.map(|chart| in_one_line(&chart.to_string())),
            Typed::Bar { written, .. } => chart.and_then(|chart| chart.typed_bar(written)),
            Typed::Where => Some(self.chosen.area.to_string()),
            Typed::Wishes(_) => Some(format!("{:#}", self.chosen.wishes)),
            Typed::Title => chart.and_then(|chart| chart.title.clone()),
            Typed::Key => chart.and_then(|chart| chart.key).map(|key| format!("{key:#}")),
            Typed::Save => {
                self.path_in_words().or_else(|| Some(format!("{}.toml", name_for(chart?))))
            }
            Typed::Comping => chart.map(|chart| format!("{}-stabs.mid", name_for(chart))),
        };
        self.files.forget();
        self.music_files.forget();
        self.field = Some(Field::new(what, &text.unwrap_or_default()));
    }

    /// The bar in hand; all of them where there is none yet.
    pub(super) fn edit_bar(&mut self) {
        let typed = |bar: &SheetBar| Typed::Bar { written: bar.written, number: bar.number };
        self.edit(self.bar().map_or(Typed::Chords, typed));
    }

    /// Types a key that stands for no command, where something is typed.
    pub(in crate::tui) fn type_key(&mut self, key: Key) {
        if let Some(list) = &mut self.list {
            list.search.press(key);
            return;
        }
        if let Some(field) = &mut self.field {
            field.text.press(key);
        }
    }

    /// Types a pasted text, where something is typed. A chart of several lines is one line of bars.
    pub(in crate::tui) fn paste(&mut self, text: &str) {
        if let Some(list) = &mut self.list {
            list.search.insert(text.trim());
            return;
        }
        if let Some(field) = &mut self.field {
            field.text.insert(&in_one_line(text));
        }
    }

    /// Does what a command means in the field that lies over the screen.
    pub(in crate::tui) fn update_field(&mut self, command: TypingCommand, shared: &mut Shared) {
        match command {
            TypingCommand::Suggestion => {}
            TypingCommand::Accept => self.accept(shared),
            TypingCommand::Cancel => {
                self.field = None;
                self.files.forget();
                self.music_files.forget();
            }
        }
    }

    /// Takes what is typed. What cannot be read stays in the field.
    fn accept(&mut self, shared: &mut Shared) {
        let Some(field) = &self.field else { return };
        let (what, text) = (field.what, field.text.text());
        let is_taken = match what {
            Typed::Chords => {
                let count = self.chosen.chart().map_or(0, |chart| chart.bars.bars().len());
                let is_read = self.retype(0..count, &text).is_ok();
                if is_read {
                    self.cursor = 0;
                }
                is_read
            }
            Typed::Bar { written, .. } => self.retype(written..written + 1, &text).is_ok(),
            Typed::Where => read_area(&text, shared).map(|area| self.stay(area)).is_ok(),
            Typed::Wishes(here) => {
                TuneWishes::read_line(&text, here).map(|wishes| self.wish(wishes)).is_ok()
            }
            Typed::Title => {
                let title = Some(text.trim().to_owned()).filter(|title| !title.is_empty());
                self.change_chart(|chart| chart.title = title)
            }
            Typed::Key => match read_key(&text) {
                Ok(key) => self.change_chart(|chart| chart.key = key),
                Err(_) => false,
            },
            Typed::Save => self.save_in(&text, shared),
            Typed::Comping => self.write_comping(&text, shared),
        };
        if is_taken {
            self.field = None;
        }
    }
}
