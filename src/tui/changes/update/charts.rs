//! What is done in the list of tunes.

use super::super::chart_list::{ChartList, Offer};
use super::super::state::ChangesScreen;
use crate::tui::command::ListCommand;
use crate::tui::gesture::Spot;
use crate::tui::shared::Shared;
use crate::tui::typed_path::path_of;
use crate::tui::widget::{ListLine, moved};

impl ChangesScreen {
    /// Opens the list of tunes.
    pub(super) fn choose_chart(&mut self) {
        self.files.forget();
        self.list = Some(ChartList::open());
    }

    /// Does what a command means in the list that lies over the screen.
    pub(in crate::tui) fn update_list(&mut self, command: ListCommand, shared: &mut Shared) {
        let Some(list) = &mut self.list else { return };
        shared.notice = None;
        let page = usize::from(shared.size.height.saturating_sub(4)).max(1);
        let last = list.offers(shared).len().saturating_sub(1);
        match command {
            ListCommand::Cancel if !list.search.field.text().is_empty() => {
                *list = ChartList::open();
            }
            ListCommand::Cancel => {
                self.list = None;
                self.files.forget();
            }
            ListCommand::Accept => self.take_marked(shared),
            ListCommand::Down | ListCommand::Up | ListCommand::PageDown | ListCommand::PageUp => {
                list.search.at = moved(list.search.at, command, page).min(last);
            }
        }
    }

    /// Has the marked tune read; the list stays until it is there.
    fn take_marked(&mut self, shared: &mut Shared) {
        let own = shared.library.scales.kinds().to_vec();
        let Some(list) = &self.list else { return };
        match list.offers(shared).into_iter().nth(list.search.at) {
            Some(Offer::Known(known)) => self.files.open_known(known.clone(), own),
            Some(Offer::File(name)) => {
                if let Some(path) = path_of(&name) {
                    self.files.open(path, own);
                }
            }
            None => {}
        }
    }

    /// Marks the line; a second click takes it, as Enter does.
    pub(super) fn click_line(&mut self, line: ListLine, shared: &mut Shared) {
        let Some(list) = &mut self.list else { return };
        if shared.clicked == Some((Spot::Line, line)) {
            shared.clicked = None;
            self.update_list(ListCommand::Accept, shared);
        } else {
            shared.clicked = Some((Spot::Line, line));
            list.search.at = line.line;
        }
    }
}
