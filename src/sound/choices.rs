//! What a player chooses of sound.

use fretloom_fretboard::Tuning;
use fretloom_theory::{ClickBeats, Swing};

use super::concert_pitch::ConcertPitch;
use super::drone_side::drone_side;
use super::level::Level;
use super::mix::Mix;
use super::style::{CountIn, PlayStyle, Rounds};
use super::track::Track;

/// What a player chooses of sound, whatever is played.
///
/// # Example
///
/// ```
/// use fretloom::sound::{SoundChoices, Track};
/// let choices = SoundChoices::default();
/// assert!(choices.mix().is_muted(Track::Drone)); // nothing but the line, until more is asked for
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SoundChoices {
    /// What A4 is.
    pub concert_pitch: ConcertPitch,
    /// How eighths are played.
    pub swing: Swing,
    /// Which beats are struck.
    pub click: ClickBeats,
    /// Is a bar counted first?
    pub count_in: CountIn,
    /// Are the chords held beside the line?
    pub drone: bool,
    /// How loud the line is.
    pub line_level: Level,
    /// How loud the drone is, where there is one.
    pub drone_level: Level,
    /// How loud the click is, where there is one.
    pub click_level: Level,
}

impl Default for SoundChoices {
    /// The line alone, as it is written, at 440 Hz; quiet.
    fn default() -> SoundChoices {
        SoundChoices {
            concert_pitch: ConcertPitch::default(),
            swing: Swing::STRAIGHT,
            click: ClickBeats::Off,
            count_in: CountIn::None,
            drone: false,
            line_level: Level::USUAL_LINE,
            drone_level: Level::USUAL_DRONE,
            click_level: Level::USUAL_CLICK,
        }
    }
}

impl SoundChoices {
    /// How music for an instrument is played.
    #[must_use]
    pub fn style(&self, tuning: &Tuning, rounds: Rounds) -> PlayStyle {
        let SoundChoices { concert_pitch, swing, click, count_in, .. } = *self;
        PlayStyle { concert_pitch, swing, click, count_in, rounds, drone: drone_side(tuning) }
    }

    /// How loud each track is.
    #[must_use]
    pub fn mix(&self) -> Mix {
        let mix = Mix::default();
        mix.set_level(Track::Line, self.line_level);
        mix.set_level(Track::Drone, self.drone_level);
        mix.set_level(Track::Click, self.click_level);
        if !self.drone {
            mix.mute(Track::Drone);
        }
        mix
    }
}
