//! Where on the neck to look.

use clap::Args;

use super::hand::HandArgs;

/// Where on the neck to look.
#[derive(Args, Debug)]
pub struct WhereTo {
    /// Only in these frets: 1-15
    #[arg(long, value_name = "FRETS")]
    pub frets: Option<String>,
    /// No open strings
    #[arg(long)]
    pub no_open: bool,
    /// Whose hand it is
    #[command(flatten)]
    pub hand: HandArgs,
}
