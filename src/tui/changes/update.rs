//! What keys do to the changes screen.

mod bars;
mod charts;
mod click;
mod comping;
mod elsewhere;
mod files;
mod moves;
mod place;
mod settle;
mod shapes;
mod tempo;
mod typing;

use super::field::Typed;
use super::state::ChangesScreen;
use crate::picture::Labels;
use crate::tui::command::ChangesCommand;
use crate::tui::screen::{Screen, ScreenEffect};
use crate::tui::shared::Shared;

/// Which way a key goes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Way {
    Next,
    Before,
}

impl ChangesScreen {
    /// Does what a command asks for.
    pub(in crate::tui) fn update(
        &mut self,
        command: ChangesCommand,
        shared: &mut Shared,
    ) -> Vec<ScreenEffect> {
        match command {
            ChangesCommand::ToExplore => return vec![ScreenEffect::Show(Screen::Explore)],
            ChangesCommand::Play => return self.play_or_stop(shared),
            ChangesCommand::ExploreChord => return self.explore_chord(shared),
            ChangesCommand::MakeLine => return self.make_line(shared),
            ChangesCommand::LineOn => return self.make_line_on(shared),
            ChangesCommand::LineThrough => return self.make_line_through(shared),
            ChangesCommand::EditBar => self.edit_bar(),
            ChangesCommand::EditChords => self.edit(Typed::Chords),
            ChangesCommand::EditTitle => self.edit(Typed::Title),
            ChangesCommand::EditKey => self.edit(Typed::Key),
            ChangesCommand::Open => self.choose_chart(),
            ChangesCommand::Save => self.save(shared),
            ChangesCommand::SaveAs => self.save_as(shared),
            ChangesCommand::New => self.begin_new(),
            ChangesCommand::CopyChart => return self.copy_chart(shared),
            ChangesCommand::WriteComping => self.ask_where_to_comp(shared),
            ChangesCommand::EditWhere => self.edit(Typed::Where),
            ChangesCommand::EditWishes => self.edit(Typed::Wishes(self.moment())),
            ChangesCommand::NextChord => self.step(Way::Next),
            ChangesCommand::PreviousChord => self.step(Way::Before),
            ChangesCommand::NextRow => self.step_row(Way::Next, shared),
            ChangesCommand::PreviousRow => self.step_row(Way::Before, shared),
            ChangesCommand::NextSection => self.step_section(Way::Next, shared),
            ChangesCommand::PreviousSection => self.step_section(Way::Before, shared),
            ChangesCommand::FirstBar => self.cursor = 0,
            ChangesCommand::LastBar => self.go_to_last_bar(),
            ChangesCommand::NextPair => self.step_pair(Way::Next, shared),
            ChangesCommand::PreviousPair => self.step_pair(Way::Before, shared),
            ChangesCommand::NextScale => self.step_scale(Way::Next, shared),
            ChangesCommand::PreviousScale => self.step_scale(Way::Before, shared),
            ChangesCommand::Pin => self.pin(shared),
            ChangesCommand::Release => self.release(shared),
            ChangesCommand::NextShape => self.step_shape(Way::Next, shared),
            ChangesCommand::PreviousShape => self.step_shape(Way::Before, shared),
            ChangesCommand::HoldShape => self.hold_or_let_go(shared),
            ChangesCommand::OtherPlan => self.step_plan(Way::Next, shared),
            ChangesCommand::PlanBefore => self.step_plan(Way::Before, shared),
            ChangesCommand::NextStrings => self.step_strings(Way::Next, shared),
            ChangesCommand::PreviousStrings => self.step_strings(Way::Before, shared),
            ChangesCommand::NextView => self.step_view(shared),
            ChangesCommand::NextChoice => self.step_position(Way::Next, shared),
            ChangesCommand::PreviousChoice => self.step_position(Way::Before, shared),
            ChangesCommand::MoreBars => self.add_bar(shared),
            ChangesCommand::FewerBars => self.take_bar_away(shared),
            ChangesCommand::Faster => self.step_tempo(Way::Next, shared),
            ChangesCommand::Slower => self.step_tempo(Way::Before, shared),
            ChangesCommand::Labels => self.next_labels(),
        }
        Vec::new()
    }

    /// What stands in the marks next; there is no order in which they are played.
    fn next_labels(&mut self) {
        self.chosen.labels = match self.chosen.labels {
            Labels::Note => Labels::Degree,
            Labels::Degree => Labels::Member,
            Labels::Member => Labels::Finger,
            Labels::Finger | Labels::Order => Labels::Note,
        };
    }
}

/// The other value of a list that comes next, round and round; the first one, or the last, where
/// `now` is none of them.
fn other<T: PartialEq + Clone>(all: &[T], now: Option<&T>, way: Way) -> Option<T> {
    let at = now.and_then(|now| all.iter().position(|one| one == now));
    let last = all.len().checked_sub(1)?;
    let index = match (way, at) {
        (Way::Next, Some(at)) if at < last => at + 1,
        (Way::Next, Some(_) | None) => 0,
        (Way::Before, Some(0) | None) => last,
        (Way::Before, Some(at)) => at - 1,
    };
    all.get(index).filter(|other| Some(*other) != now).cloned()
}
