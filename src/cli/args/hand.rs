//! The player's hand on the command line.

use clap::Args;
use fretloom_fretboard::Hand;

/// The player's hand.
#[derive(Args, Clone, Copy, Debug)]
pub struct HandArgs {
    /// How far your hand reaches from the first finger to the fourth, in millimetres, 40 to 200;
    /// without it 120
    #[arg(long, value_name = "MM", allow_negative_numbers = true, value_parser = hand)]
    pub reach: Option<Hand>,
}

impl HandArgs {
    /// The hand that is meant, an average one by default.
    #[must_use]
    pub fn hand(self) -> Hand {
        self.reach.unwrap_or_default()
    }
}

fn hand(text: &str) -> Result<Hand, &'static str> {
    let read = text.parse().ok().and_then(Hand::reaching_mm);
    read.ok_or("expected millimetres from 40 to 200, as in 110")
}
