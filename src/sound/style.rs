//! How music is played.

use fretloom_theory::{ClickBeats, DroneSide, Swing};

use super::concert_pitch::ConcertPitch;

/// How music is played: what a player may want otherwise than it is written.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PlayStyle {
    /// What it is tuned to.
    pub concert_pitch: ConcertPitch,
    /// How eighths are played.
    pub swing: Swing,
    /// Which beats are struck.
    pub click: ClickBeats,
    /// Is a bar counted before it begins?
    pub count_in: CountIn,
    /// Is it played once, or again and again?
    pub rounds: Rounds,
    /// Where the drone lies.
    pub drone: DroneSide,
}

/// What comes before the music.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum CountIn {
    /// Nothing.
    #[default]
    None,
    /// A bar of clicks on every beat, before the first round only; before a pick-up, a bar and what
    /// lies before the pick-up in its own bar.
    OneBar,
}

impl CountIn {
    /// A bar where that is wanted.
    #[must_use]
    pub const fn when(is_wanted: bool) -> CountIn {
        if is_wanted { CountIn::OneBar } else { CountIn::None }
    }
}

/// How often music is played.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Rounds {
    /// Once.
    #[default]
    Once,
    /// Again and again, from the end straight on to the beginning, until it is stopped.
    Endless,
}

impl Default for PlayStyle {
    /// As it is written: at 440 Hz, straight, once, without a click; the drone below.
    fn default() -> PlayStyle {
        PlayStyle {
            concert_pitch: ConcertPitch::default(),
            swing: Swing::STRAIGHT,
            click: ClickBeats::Off,
            count_in: CountIn::None,
            rounds: Rounds::Once,
            drone: DroneSide::Below,
        }
    }
}
