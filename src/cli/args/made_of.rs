//! What a line is made of.

use clap::Args;

/// What a line is made of.
#[derive(Args, Debug)]
pub struct MadeOfArgs {
    /// One scale for all chords, or one for each: altered, or "D Dorian, altered, C Ionian"
    #[arg(long, value_name = "SCALES")]
    pub scale: Option<String>,
    /// One pair for all chords, or one for each: "F & G", or "F & G, 2, C & D", where 2 is a number
    /// in the list of the chord's pairs
    #[arg(long, value_name = "PAIRS")]
    pub pair: Option<String>,
    /// The order of the notes: a pattern's name (fretloom patterns lists them), or figures: "132 32"
    /// takes 1 2 3 from the lowest note of each inversion up, the triads in turn
    #[arg(long, value_name = "FIGURES", allow_hyphen_values = true)]
    pub pattern: Option<String>,
    /// How long the notes are: eighths, triplets, "4. 8~2" or "8 -8 >4"
    #[arg(long, value_name = "VALUES", allow_hyphen_values = true)]
    pub rhythm: Option<String>,
    /// The meter in which it begins
    #[arg(long, value_name = "M/N", default_value = "4/4")]
    pub meter: String,
}
