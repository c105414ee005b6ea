//! What is wanted of a sheet.

use std::path::PathBuf;

use clap::Args;

use super::handed::HandedArgs;
use super::made_of::MadeOfArgs;
use super::page_files::PageFilesArgs;
use super::value;
use crate::library::Reader;
use crate::picture::Labels;

/// `sheet`
#[derive(Args, Debug)]
pub struct Sheet {
    /// The chord, or bars of chords: Dm7, or "| Dm7 | G7 | Cmaj7 |"
    #[arg(required_unless_present = "keeper")]
    pub chords: Option<String>,
    /// What is kept by this number, as it was kept, on the instrument that it was kept with; may stand
    /// several times, each on pages of its own. Files that hold {keeper} in their names are one for each
    #[arg(long, value_name = "ID", allow_negative_numbers = true,
          conflicts_with_all = ["chords", "scale", "pair", "pattern", "rhythm", "bars", "meter",
                                "tempo", "strings", "frets"])]
    pub keeper: Vec<String>,
    /// What its line is made of
    #[command(flatten)]
    pub made_of: MadeOfArgs,
    /// How many bars the line has; without it as many as are written, and two of a chord alone
    #[arg(long, value_name = "N", allow_negative_numbers = true)]
    pub bars: Option<String>,
    /// How many quarter notes a minute
    #[arg(long, value_name = "BPM", allow_negative_numbers = true, default_value = "80")]
    pub tempo: String,
    /// The three strings of the shapes, 1 being the one nearest the floor
    #[arg(long, value_name = "STRINGS", default_value = "3-2-1")]
    pub strings: String,
    /// Only these frets, for all that is on the sheet: 1-12
    #[arg(long, value_name = "FRETS")]
    pub frets: Option<String>,
    /// What stands in the marks of the neck: note, degree (over the chord) or member (of the triad)
    #[arg(long, value_parser = value::labels, value_name = "LABELS", default_value = "note")]
    pub labels: Labels,
    /// For which hand
    #[command(flatten)]
    pub hand: HandedArgs,
    /// Without fingers
    #[arg(long)]
    pub no_fingers: bool,
    /// Without notes: everything is there to be filled in
    #[arg(long)]
    pub no_answers: bool,
    /// Say under each bar of the line what it does
    #[arg(long)]
    pub sentences: bool,
    /// Whom it is for: a name, then a tuning, left, no-fingers, no-answers, with commas between them.
    /// May stand several times; the files then hold {reader} in their names
    #[arg(long, value_parser = value::reader, value_name = "NAME,TUNING,…")]
    pub reader: Vec<Reader>,
    /// A TOML file with more readers
    #[arg(long, value_name = "FILE")]
    pub readers: Option<PathBuf>,
    /// To which files it is written
    #[command(flatten)]
    pub files: PageFilesArgs,
}
