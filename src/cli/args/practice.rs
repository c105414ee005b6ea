//! How one practises.

use clap::Args;
use fretloom_theory::KeyCycle;

use super::value;
use crate::practice::{LadderRules, PracticeRules, Spacing};
use crate::store::Beats;

/// `practice`
#[derive(Args, Debug)]
pub struct Practice {
    /// For how long in all, in minutes: 1 to 240
    #[arg(long, value_name = "MINUTES", allow_negative_numbers = true, default_value = "20",
          value_parser = value::number(1, 240))]
    pub minutes: u8,
    /// How many things at most: 1 to 20
    #[arg(long, value_name = "N", allow_negative_numbers = true, default_value = "5",
          value_parser = value::number(1, 20))]
    pub items: u8,
    /// In how many keys at most each: 1 to 12
    #[arg(long, value_name = "N", allow_negative_numbers = true, default_value = "3",
          value_parser = value::number(1, 12))]
    pub item_keys: u8,
    /// How many things at most that were never tried: 0 to 20
    #[arg(long, value_name = "N", allow_negative_numbers = true, default_value = "1",
          value_parser = value::number(0, 20))]
    pub new_items: u8,
    /// How long a turn with one thing is, in minutes: 1 to 30
    #[arg(long, value_name = "MINUTES", allow_negative_numbers = true, default_value = "2",
          value_parser = value::number(1, 30))]
    pub turn: u8,
    /// After how many minutes to propose a rest: 5 to 60
    #[arg(long, value_name = "MINUTES", allow_negative_numbers = true, default_value = "15",
          value_parser = value::number(5, 60))]
    pub rest: u8,
    /// In which order the keys come: fourths, semitones, tones, shuffled or shuffled:7
    #[arg(long, value_name = "ORDER", default_value = "fourths", value_parser = value::key_order)]
    pub key_order: KeyCycle,
    /// Where tempos begin that nothing is known of, in quarter notes a minute: 20 to 400
    #[arg(long, value_name = "BPM", allow_negative_numbers = true, default_value = "60",
          value_parser = value::beats)]
    pub ladder_start: Beats,
    /// After how many good tries in a row to go faster: 1 to 10
    #[arg(long, value_name = "N", allow_negative_numbers = true, default_value = "3",
          value_parser = value::number(1, 10))]
    pub ladder_good: u8,
    /// How much faster then, in quarter notes a minute: 1 to 40
    #[arg(long, value_name = "BPM", allow_negative_numbers = true, default_value = "8",
          value_parser = value::number(1, 40))]
    pub ladder_up: u8,
    /// How much slower after a try that was not good: 1 to 40
    #[arg(long, value_name = "BPM", allow_negative_numbers = true, default_value = "4",
          value_parser = value::number(1, 40))]
    pub ladder_back: u8,
    /// The fastest tempo to go to: 20 to 400
    #[arg(long, value_name = "BPM", allow_negative_numbers = true, default_value = "200",
          value_parser = value::beats)]
    pub ladder_top: Beats,
    /// After how many days comes back what was got once: 1 to 30
    #[arg(long, value_name = "DAYS", allow_negative_numbers = true, default_value = "1",
          value_parser = value::number(1, 30))]
    pub first_gap: u8,
    /// How many times the gap grows when it was got again: 1 to 5
    #[arg(long, value_name = "TIMES", allow_negative_numbers = true, default_value = "2",
          value_parser = value::number(1, 5))]
    pub gap_growth: u8,
    /// The longest gap, in days: 1 to 240
    #[arg(long, value_name = "DAYS", allow_negative_numbers = true, default_value = "60",
          value_parser = value::number(1, 240))]
    pub longest_gap: u8,
}

impl Practice {
    /// The numbers as they are asked for.
    #[must_use]
    pub fn rules(&self) -> PracticeRules {
        PracticeRules {
            minutes: self.minutes.into(),
            items: self.items,
            keys: self.item_keys,
            new: self.new_items,
            turn_minutes: self.turn,
            rest_minutes: self.rest,
            key_order: self.key_order,
            ladder: LadderRules {
                start: self.ladder_start,
                good: self.ladder_good,
                up: self.ladder_up,
                back: self.ladder_back,
                top: self.ladder_top,
            },
            spacing: Spacing {
                first_days: self.first_gap,
                growth: self.gap_growth,
                longest_days: self.longest_gap.into(),
            },
            ..PracticeRules::default()
        }
    }
}
