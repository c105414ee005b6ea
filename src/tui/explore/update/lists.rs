//! What is done in the explorer's own lists: the scales and the tunings.

use super::super::drawing::Drawing;
use super::super::overlay::Overlay;
use super::super::state::Explore;
use super::super::tuning_list::TuningList;
use crate::tui::command::ListCommand;
use crate::tui::shared::Shared;
use crate::tui::widget::moved;

impl Explore {
    /// Opens the list of tunings on the one in use.
    pub(super) fn choose_tuning(&mut self, shared: &Shared) {
        let list = TuningList::open(self.pair(), shared);
        self.overlay = Some(Overlay::Tunings(Box::new(list)));
    }

    pub(super) fn obey_in_list(&mut self, command: ListCommand, shared: &mut Shared) {
        match &self.overlay {
            Some(Overlay::Scales(at)) => self.obey_in_scales(*at, command, shared),
            Some(Overlay::Tunings(_)) => self.obey_in_tunings(command, shared),
            Some(Overlay::Details(top)) => self.obey_in_details(*top, command, shared),
            Some(Overlay::Chord(_) | Overlay::Wishes(_) | Overlay::Where(_)) | None => {}
        }
    }

    fn obey_in_scales(&mut self, at: usize, command: ListCommand, shared: &Shared) {
        let page = usize::from(shared.size.height.saturating_sub(4)).max(1);
        match command {
            ListCommand::Cancel => self.overlay = None,
            ListCommand::Accept => {
                self.overlay = None;
                self.take_scale(at, shared);
            }
            ListCommand::Down | ListCommand::Up | ListCommand::PageDown | ListCommand::PageUp => {
                let last = self.shown.scales.len().saturating_sub(1);
                self.overlay = Some(Overlay::Scales(moved(at, command, page).min(last)));
            }
        }
    }

    fn obey_in_details(&mut self, top: usize, command: ListCommand, shared: &Shared) {
        let rows = usize::from(shared.size.height.saturating_sub(2));
        match command {
            ListCommand::Cancel | ListCommand::Accept => self.overlay = None,
            ListCommand::Down | ListCommand::Up | ListCommand::PageDown | ListCommand::PageUp => {
                let count = Drawing::new(self, shared).detail_lines(shared.size.width).len();
                let last = count.saturating_sub(rows);
                let page = rows.saturating_sub(2).max(1);
                self.overlay = Some(Overlay::Details(moved(top, command, page).min(last)));
            }
        }
    }

    fn obey_in_tunings(&mut self, command: ListCommand, shared: &mut Shared) {
        let page = usize::from(shared.size.height / 3).max(1);
        let pair = self.shown.pair(&self.chosen);
        let Some(Overlay::Tunings(list)) = &mut self.overlay else { return };
        match command {
            ListCommand::Cancel if list.field.text().is_empty() => self.overlay = None,
            ListCommand::Cancel => list.empty(pair, shared),
            ListCommand::Accept => {
                if let Some(tuning) = list.marked().cloned() {
                    self.take_tuning(tuning, shared);
                }
            }
            ListCommand::Down | ListCommand::Up | ListCommand::PageDown | ListCommand::PageUp => {
                list.mark(moved(list.at, command, page), pair, shared);
            }
        }
    }

    /// Marks a line of the list that is open.
    pub(super) fn mark_line(&mut self, line: usize, shared: &Shared) {
        let pair = self.shown.pair(&self.chosen);
        match &mut self.overlay {
            Some(Overlay::Scales(at)) => *at = line,
            Some(Overlay::Tunings(list)) => list.mark(line, pair, shared),
            Some(
                Overlay::Chord(_) | Overlay::Wishes(_) | Overlay::Where(_) | Overlay::Details(_),
            )
            | None => {}
        }
    }
}
