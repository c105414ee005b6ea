//! What keys and clicks do to the keepers screen.

mod changes;
mod practice;
mod typing;

use super::chosen::ORDERS;
use super::hit::Hit;
use super::state::KeepersScreen;
use crate::tui::command::{KeepersCommand, ListenCommand};
use crate::tui::gesture::Spot;
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;

/// Which way a keeper is moved.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Way {
    Down,
    Up,
}

impl KeepersScreen {
    /// Does what a command asks for.
    pub(in crate::tui) fn update(
        &mut self,
        command: KeepersCommand,
        shared: &mut Shared,
    ) -> Vec<ScreenEffect> {
        let page = usize::from(shared.size.height / 3).max(1);
        match command {
            KeepersCommand::ToScreenBefore => return vec![ScreenEffect::Show(self.from)],
            KeepersCommand::NextKeeper => self.mark(self.at.saturating_add(1), shared),
            KeepersCommand::PreviousKeeper => self.mark(self.at.saturating_sub(1), shared),
            KeepersCommand::PageDown => self.mark(self.at.saturating_add(page), shared),
            KeepersCommand::PageUp => self.mark(self.at.saturating_sub(page), shared),
            KeepersCommand::FirstKeeper => self.mark(0, shared),
            KeepersCommand::LastKeeper => self.mark(usize::MAX, shared),
            KeepersCommand::Listen => self.begin_listening(shared),
            KeepersCommand::Open => return self.open(shared),
            KeepersCommand::EditName => self.edit_name(shared),
            KeepersCommand::EditNotes => self.edit_notes(shared),
            KeepersCommand::EditTags => self.edit_tags(shared),
            KeepersCommand::EditHow => self.edit_how(shared),
            KeepersCommand::Find => self.find(),
            KeepersCommand::FindKind => self.find_kind(),
            KeepersCommand::NextTag => self.next_tag(shared),
            KeepersCommand::NextOrder => self.step_order(1, shared),
            KeepersCommand::PreviousOrder => self.step_order(ORDERS.len() - 1, shared),
            KeepersCommand::ShowAll => self.show_all(shared),
            KeepersCommand::Practise => self.practise_today(shared),
            KeepersCommand::PractiseThis => self.practise_marked(shared),
            KeepersCommand::Delete => self.delete(shared),
            KeepersCommand::Faster => self.begin_at(2, shared),
            KeepersCommand::Slower => self.begin_at(-2, shared),
            KeepersCommand::MoveDown => self.move_by(Way::Down, shared),
            KeepersCommand::MoveUp => self.move_by(Way::Up, shared),
        }
        Vec::new()
    }

    /// Takes what lies under the mouse.
    pub(in crate::tui) fn click(&mut self, hit: Hit, shared: &mut Shared) -> Vec<ScreenEffect> {
        match hit {
            Hit::Footer(key) => return vec![ScreenEffect::Press(key)],
            Hit::Keeper(line) if shared.clicked == Some((Spot::Keeper, line)) => {
                shared.clicked = None;
                return self.open(shared);
            }
            Hit::Keeper(line) => {
                shared.clicked = Some((Spot::Keeper, line));
                self.mark(line.line, shared);
            }
            Hit::Choice(choice) => {
                return self.update_listen(ListenCommand::Answer(choice), shared);
            }
            Hit::Keepers => {}
        }
        Vec::new()
    }
}
