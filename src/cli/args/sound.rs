//! How a line is to be heard.

use clap::{ArgAction, Args};
use fretloom_theory::{ClickBeats, Swing};

use super::value;
use crate::sound::{ConcertPitch, CountIn, Level, SoundChoices};

/// How a line is to be heard. None of it means anything but to what is heard: the group `heard`.
#[derive(Args, Debug)]
#[command(next_help_heading = "What is heard")]
pub struct SoundArgs {
    /// How two eighths are played, the first to the second: 2:1, or 3:2; nothing that is written changes
    #[arg(long, requires = "heard", value_parser = value::swing, value_name = "L:S", default_value = "1:1")]
    pub swing: Swing,
    /// Hold the chords under the line, above it for a bass
    #[arg(long, requires = "heard", value_name = "true|false", num_args = 0..=1, require_equals = true,
          action = ArgAction::Set, default_value = "false", default_missing_value = "true",
          hide_possible_values = true)]
    pub drone: bool,
    /// A metronome: off, 2-and-4 or every-beat
    #[arg(long, requires = "heard", value_parser = value::click, value_name = "BEATS", default_value = "off")]
    pub click: ClickBeats,
    /// Count a bar before the line
    #[arg(long, requires = "heard", value_name = "true|false", num_args = 0..=1, require_equals = true,
          action = ArgAction::Set, default_value = "false", default_missing_value = "true",
          hide_possible_values = true)]
    pub count_in: bool,
    /// How loud the drone is, 0 to 100
    #[arg(long, requires = "heard", value_parser = value::level, value_name = "LEVEL", default_value = "60")]
    pub drone_level: Level,
    /// How loud the click is, 0 to 100
    #[arg(long, requires = "heard", value_parser = value::level, value_name = "LEVEL", default_value = "50")]
    pub click_level: Level,
    /// How strings sound
    #[command(flatten)]
    pub plucked: PluckedArgs,
}

/// How strings sound.
#[derive(Args, Debug)]
#[command(next_help_heading = "What is heard")]
pub struct PluckedArgs {
    /// What the instrument is tuned to: A4 in hertz, 380 to 480
    #[arg(long, requires = "heard", value_parser = value::concert_pitch, value_name = "HERTZ", default_value = "440")]
    pub a4: ConcertPitch,
    /// How loud the strings are, 0 to 100; it begins quietly, and loud sound harms the ear
    #[arg(long, requires = "heard", value_parser = value::level, value_name = "LEVEL", default_value = "70")]
    pub line_level: Level,
}

impl SoundArgs {
    /// What is chosen.
    #[must_use]
    pub fn choices(&self) -> SoundChoices {
        SoundChoices {
            swing: self.swing,
            click: self.click,
            count_in: CountIn::when(self.count_in),
            drone: self.drone,
            drone_level: self.drone_level,
            click_level: self.click_level,
            ..self.plucked.choices()
        }
    }
}

impl PluckedArgs {
    /// What is chosen, with strings alone.
    #[must_use]
    pub fn choices(&self) -> SoundChoices {
        SoundChoices {
            concert_pitch: self.a4,
            line_level: self.line_level,
            ..SoundChoices::default()
        }
    }
}
