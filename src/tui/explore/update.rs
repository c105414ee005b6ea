//! What keys do to the explorer.

mod area;
mod click;
mod in_view;
mod instrument;
mod line;
mod lists;
mod moves;
mod pages;
mod scroll;
mod typing;
mod views;

use fretloom_theory::Direction;
use fretloom_theory::Families;
use fretloom_theory::WhichTriad;

use super::drawing::Drawing;
use super::overlay::Overlay;
use super::state::Explore;
use crate::settings::Settings;
use crate::tui::command::{ExploreCommand, ListCommand, TypingCommand};
use crate::tui::screen::{Screen, ScreenEffect};
use crate::tui::shared::Shared;

impl Explore {
    /// Does what a command asks for.
    pub(in crate::tui) fn update(
        &mut self,
        command: ExploreCommand,
        shared: &mut Shared,
    ) -> Vec<ScreenEffect> {
        self.comparing(shared, |explore, shared| {
            if explore.played.is_none() || plays(command) {
                explore.settle();
            }
            let effects = explore.obey(command, shared);
            if plays(command) {
                explore.settle();
            }
            effects
        })
    }

    fn obey(&mut self, command: ExploreCommand, shared: &mut Shared) -> Vec<ScreenEffect> {
        match command {
            ExploreCommand::EditChord => self.edit_chord(),
            ExploreCommand::EditWish => self.edit_wishes(),
            ExploreCommand::EditWhere => self.edit_where(),
            ExploreCommand::CopyNeck => return Drawing::new(self, shared).copy_neck(),
            ExploreCommand::CopyShape => return self.copy_shape(shared),
            ExploreCommand::PlayShape => return self.play_shape(shared),
            ExploreCommand::PlayPair => return self.play_pair(shared),
            ExploreCommand::KeepShape => return self.keep_shape(shared),
            ExploreCommand::MakeLine => return self.make_line(shared),
            ExploreCommand::ToChanges => return vec![ScreenEffect::Show(Screen::Changes)],
            ExploreCommand::Families => self.change_families(shared),
            ExploreCommand::Details => self.overlay = Some(Overlay::Details(0)),
            ExploreCommand::ChooseScale => self.overlay = Some(Overlay::Scales(self.chosen.scale)),
            ExploreCommand::MovePair => self.move_pair(shared),
            ExploreCommand::NextPair => self.step_pair(1, shared),
            ExploreCommand::PreviousPair => self.step_pair(-1, shared),
            ExploreCommand::NextScale => self.step_scale(1, shared),
            ExploreCommand::PreviousScale => self.step_scale(-1, shared),
            ExploreCommand::Climb => self.climb(Direction::Up, shared),
            ExploreCommand::Descend => self.climb(Direction::Down, shared),
            ExploreCommand::FirstTriad => self.next_inversion(WhichTriad::First, shared),
            ExploreCommand::SecondTriad => self.next_inversion(WhichTriad::Second, shared),
            ExploreCommand::NextStrings => self.step_strings(1, shared),
            ExploreCommand::PreviousStrings => self.step_strings(-1, shared),
            ExploreCommand::LockStrings => self.turn_lock(shared),
            ExploreCommand::OtherFingers => self.other_fingers(shared),
            ExploreCommand::OtherPlace => self.other_place(shared),
            ExploreCommand::NextView => self.step_view(1, shared),
            ExploreCommand::PreviousView => self.step_view(-1, shared),
            ExploreCommand::NextChoice => self.step_choice(1, shared),
            ExploreCommand::PreviousChoice => self.step_choice(-1, shared),
            ExploreCommand::CapoUp => self.move_capo(1, shared),
            ExploreCommand::CapoDown => self.move_capo(-1, shared),
            ExploreCommand::LeftHanded => Explore::turn_for_other_hand(shared),
            ExploreCommand::UpsideDown => Explore::turn_over(shared),
            ExploreCommand::FretWidths => self.change_fret_widths(shared),
            ExploreCommand::LeftOut => self.turn_left_out(shared),
            ExploreCommand::Labels => self.next_labels(),
            ExploreCommand::Spelling => self.change_spelling(shared),
            ExploreCommand::ChooseTuning => self.choose_tuning(shared),
            ExploreCommand::ScrollRight => {
                self.scroll_to(self.chosen.first_fret.saturating_add(1), shared);
            }
            ExploreCommand::ScrollLeft => {
                self.scroll_to(self.chosen.first_fret.saturating_sub(1), shared);
            }
            ExploreCommand::ToNut => self.scroll_to(1, shared),
            ExploreCommand::ToEnd => self.scroll_to(u8::MAX, shared),
            ExploreCommand::ToHand => self.scroll_to_hand(shared),
        }
        Vec::new()
    }

    /// Does what a command means in the list that lies over the explorer.
    pub(in crate::tui) fn update_list(&mut self, command: ListCommand, shared: &mut Shared) {
        self.comparing(shared, |explore, shared| explore.obey_in_list(command, shared));
    }

    /// Does what a command means in the field that lies over the explorer.
    pub(in crate::tui) fn update_field(&mut self, command: TypingCommand, shared: &mut Shared) {
        self.comparing(shared, |explore, shared| explore.obey_in_field(command, shared));
    }

    /// The window has another size.
    pub(in crate::tui) fn resize(&mut self, shared: &Shared) {
        self.follow_hand(shared);
    }

    /// Begins as the player has settled it.
    pub(in crate::tui) fn use_settings(&mut self, settings: &Settings, shared: &Shared) {
        let mut turns = Families::usual().into_iter();
        let families = turns.position(|(families, _)| families == settings.families);
        self.chosen.families = families.unwrap_or_default();
        self.chosen.labels = settings.labels;
        self.lay_out(shared);
    }
}

/// Does the player take the hand somewhere with it, rather than look at what there is?
fn plays(command: ExploreCommand) -> bool {
    match command {
        ExploreCommand::Climb
        | ExploreCommand::Descend
        | ExploreCommand::FirstTriad
        | ExploreCommand::SecondTriad
        | ExploreCommand::NextStrings
        | ExploreCommand::PreviousStrings
        | ExploreCommand::LockStrings
        | ExploreCommand::OtherFingers
        | ExploreCommand::OtherPlace
        | ExploreCommand::NextView
        | ExploreCommand::PreviousView
        | ExploreCommand::NextChoice
        | ExploreCommand::PreviousChoice
        | ExploreCommand::CapoUp
        | ExploreCommand::CapoDown => true,
        ExploreCommand::EditChord
        | ExploreCommand::EditWish
        | ExploreCommand::EditWhere
        | ExploreCommand::Families
        | ExploreCommand::ChooseScale
        | ExploreCommand::MovePair
        | ExploreCommand::Details
        | ExploreCommand::NextPair
        | ExploreCommand::PreviousPair
        | ExploreCommand::NextScale
        | ExploreCommand::PreviousScale
        | ExploreCommand::LeftHanded
        | ExploreCommand::UpsideDown
        | ExploreCommand::FretWidths
        | ExploreCommand::LeftOut
        | ExploreCommand::Labels
        | ExploreCommand::Spelling
        | ExploreCommand::ChooseTuning
        | ExploreCommand::ScrollRight
        | ExploreCommand::ScrollLeft
        | ExploreCommand::ToNut
        | ExploreCommand::ToEnd
        | ExploreCommand::CopyNeck
        | ExploreCommand::CopyShape
        | ExploreCommand::MakeLine
        | ExploreCommand::ToChanges
        | ExploreCommand::PlayShape
        | ExploreCommand::PlayPair
        | ExploreCommand::KeepShape
        | ExploreCommand::ToHand => false,
    }
}
