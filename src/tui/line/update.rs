//! What keys do to the line screen.

mod click;
mod moves;
mod notes;
mod phrase;
mod phrases;
mod place;
mod typing;
mod writing;

use fretloom_theory::{Direction, NoteChange};

use super::cycles::Way;
use super::field::Typed;
use super::state::LineScreen;
use crate::tui::command::LineCommand;
use crate::tui::screen::{Screen, ScreenEffect};
use crate::tui::shared::Shared;

impl LineScreen {
    /// Does what a command asks for.
    pub(in crate::tui) fn update(
        &mut self,
        command: LineCommand,
        shared: &mut Shared,
    ) -> Vec<ScreenEffect> {
        match command {
            LineCommand::ToExplore => return vec![ScreenEffect::Show(Screen::Explore)],
            LineCommand::ToChanges => return vec![ScreenEffect::Show(Screen::Changes)],
            LineCommand::Play => return self.play_or_stop(shared),
            LineCommand::CopyTab => return self.copy_tab(shared),
            LineCommand::CopyPhrases => return self.copy_phrases(shared),
            LineCommand::EditChords => self.edit(Typed::Chords),
            LineCommand::EditPattern => self.edit(Typed::Pattern),
            LineCommand::EditRhythm => self.edit(Typed::Rhythm),
            LineCommand::EditTargets => self.edit(Typed::Targets),
            LineCommand::EditWhere => self.edit(Typed::Where),
            LineCommand::WriteFile => self.edit(Typed::File),
            LineCommand::EditNotes => self.edit_notes(shared),
            LineCommand::NextPhrase => self.step_phrase(Way::Next, shared),
            LineCommand::PreviousPhrase => self.step_phrase(Way::Before, shared),
            LineCommand::CutHere => self.cut_here(shared),
            LineCommand::JoinBefore => self.join_before(shared),
            LineCommand::Answer => self.answer(shared),
            LineCommand::Later => self.displace(Way::Next, shared),
            LineCommand::Earlier => self.displace(Way::Before, shared),
            LineCommand::Wide => self.widen(shared),
            LineCommand::NextNote => self.step(Way::Next, shared),
            LineCommand::PreviousNote => self.step(Way::Before, shared),
            LineCommand::NextBar => self.step_bar(Way::Next, shared),
            LineCommand::PreviousBar => self.step_bar(Way::Before, shared),
            LineCommand::FirstNote => self.cursor = 0,
            LineCommand::LastNote => self.cursor = self.notes().len().saturating_sub(1),
            LineCommand::PairNoteUp => self.alter(NoteChange::PairNote(Direction::Up), shared),
            LineCommand::PairNoteDown => self.alter(NoteChange::PairNote(Direction::Down), shared),
            LineCommand::StepUp => self.alter(NoteChange::ScaleStep(Direction::Up), shared),
            LineCommand::StepDown => self.alter(NoteChange::ScaleStep(Direction::Down), shared),
            LineCommand::HalfStepUp => self.alter(NoteChange::HalfStep(Direction::Up), shared),
            LineCommand::HalfStepDown => self.alter(NoteChange::HalfStep(Direction::Down), shared),
            LineCommand::SoundOn => self.alter(NoteChange::SoundsOn, shared),
            LineCommand::Accent => self.alter(NoteChange::Accent, shared),
            LineCommand::Silence => self.alter(NoteChange::Silent, shared),
            LineCommand::OtherString => self.other_string(shared),
            LineCommand::Pin => self.pin(shared),
            LineCommand::Slur => self.slur(shared),
            LineCommand::NextPair => self.step_pair(Way::Next, shared),
            LineCommand::PreviousPair => self.step_pair(Way::Before, shared),
            LineCommand::NextPattern => self.step_pattern(Way::Next, shared),
            LineCommand::PreviousPattern => self.step_pattern(Way::Before, shared),
            LineCommand::NextRhythm => self.step_rhythm(Way::Next, shared),
            LineCommand::PreviousRhythm => self.step_rhythm(Way::Before, shared),
            LineCommand::NextTravel => self.step_travel(Way::Next, shared),
            LineCommand::PreviousTravel => self.step_travel(Way::Before, shared),
            LineCommand::NextStart => self.step_start(Way::Next, shared),
            LineCommand::PreviousStart => self.step_start(Way::Before, shared),
            LineCommand::Style => self.change_style(shared),
            LineCommand::AtChange => self.change_at_change(shared),
            LineCommand::MoreBars => self.step_bars(Way::Next, shared),
            LineCommand::FewerBars => self.step_bars(Way::Before, shared),
            LineCommand::NextMeter => self.step_meter(Way::Next, shared),
            LineCommand::PreviousMeter => self.step_meter(Way::Before, shared),
            LineCommand::Faster => self.step_tempo(Way::Next, shared),
            LineCommand::Slower => self.step_tempo(Way::Before, shared),
            LineCommand::NextKey => self.step_key(Way::Next, shared),
            LineCommand::PreviousKey => self.step_key(Way::Before, shared),
            LineCommand::NextStrings => self.step_strings(Way::Next, shared),
            LineCommand::PreviousStrings => self.step_strings(Way::Before, shared),
            LineCommand::NextView => self.step_view(Way::Next, shared),
            LineCommand::PreviousView => self.step_view(Way::Before, shared),
            LineCommand::NextChoice => self.step_choice(Way::Next, shared),
            LineCommand::PreviousChoice => self.step_choice(Way::Before, shared),
            LineCommand::OtherWay => self.step_way(Way::Next, shared),
            LineCommand::WayBefore => self.step_way(Way::Before, shared),
            LineCommand::Labels => self.next_labels(),
        }
        Vec::new()
    }
}
