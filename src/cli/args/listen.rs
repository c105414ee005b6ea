//! What is asked by ear.

use clap::Args;

use super::value;
use crate::practice::PracticeRules;

/// `listen`
#[derive(Args, Debug)]
pub struct Listen {
    /// How many questions at most: 1 to 40
    #[arg(long, value_name = "N", allow_negative_numbers = true, default_value = "10",
          value_parser = value::number(1, 40))]
    pub questions: u8,
    /// Of how many things at most: 1 to 20
    #[arg(long, value_name = "N", allow_negative_numbers = true, default_value = "5",
          value_parser = value::number(1, 20))]
    pub items: u8,
}

impl Listen {
    /// The numbers as they are asked for.
    #[must_use]
    pub fn rules(&self) -> PracticeRules {
        PracticeRules { questions: self.questions, items: self.items, ..PracticeRules::default() }
    }
}
