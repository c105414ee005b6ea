//! How the player wants to hear music.

use fretloom_theory::{ClickBeats, Swing};

use crate::sound::{ConcertPitch, CountIn, PlayStyle, Rounds};

/// How the player wants to hear music, beside how loud. It is not taken back with what is played.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(in crate::tui) struct Manner {
    pub(super) concert_pitch: ConcertPitch,
    pub(super) swing: Swing,
    pub(super) click: ClickBeats,
    pub(super) count_in: CountIn,
    pub(super) rounds: Rounds,
}

impl Manner {
    /// As it is written, again and again.
    pub(super) fn usual() -> Manner {
        Manner {
            concert_pitch: ConcertPitch::default(),
            swing: Swing::STRAIGHT,
            click: ClickBeats::Off,
            count_in: CountIn::None,
            rounds: Rounds::Endless,
        }
    }

    /// How eighths are played.
    pub(in crate::tui) fn swing(self) -> Swing {
        self.swing
    }

    /// What is beaten in a file: a track that is not wanted is silenced where the file is opened.
    pub(in crate::tui) fn click_of_file(self) -> ClickBeats {
        match self.click {
            ClickBeats::Off => ClickBeats::TwoAndFour,
            click @ (ClickBeats::TwoAndFour | ClickBeats::Every) => click,
        }
    }

    /// The style of a line; what is played says where its drone lies.
    pub(super) fn style(self) -> PlayStyle {
        PlayStyle {
            concert_pitch: self.concert_pitch,
            swing: self.swing,
            click: self.click,
            count_in: self.count_in,
            rounds: self.rounds,
            ..PlayStyle::default()
        }
    }
}
