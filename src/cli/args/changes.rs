//! What is wanted of a chart.

use std::path::PathBuf;

use clap::Args;
use fretloom_theory::{GuideTones, PairKinds};

use super::line_files::LineFilesArgs;
use super::sound::SoundArgs;
use super::value;
use super::where_to::WhereTo;

/// `changes`
#[derive(Args, Debug)]
pub struct Changes {
    /// The chart: bars of chords as they are typed, | Dm7 | G7 |, TOML, or MusicXML; or the name of one
    /// (fretloom charts lists them); - is standard input
    pub file: PathBuf,
    /// The key of the tune, in place of the chart's: Bb, or "D minor"
    #[arg(long, value_name = "KEY")]
    pub key: Option<String>,
    /// Lock the hand to these strings, 1 being the one nearest the floor: 4-3-2
    #[arg(long, value_name = "STRINGS")]
    pub strings: Option<String>,
    /// To which frets the hand is locked, and whose hand it is
    #[command(flatten)]
    pub where_to: WhereTo,
    /// What else is wished
    #[command(flatten)]
    pub wishes: ChangesWishes,
    /// How many plans that really differ to show at most
    #[arg(long, value_name = "K", allow_negative_numbers = true, default_value = "1",
          value_parser = value::number(1, 20))]
    pub plans: u8,
    /// How it is comped
    #[command(flatten)]
    pub comping: CompingArgs,
    /// To which files its line is written, or its comping
    #[command(flatten)]
    pub files: LineFilesArgs,
    /// Play its line, or its comping, once through; Ctrl-C stops it
    #[arg(long, group = "heard")]
    pub play: bool,
    /// How it is heard
    #[command(flatten)]
    pub sound: SoundArgs,
}

/// How a chart is comped.
#[derive(Args, Debug)]
pub struct CompingArgs {
    /// Comp it: two stabs a bar, both triads of each pair, in one area of the neck
    #[arg(long)]
    pub comping: bool,
    /// In an area of how many frets it is comped, where --frets does not say which
    #[arg(long, requires = "comping", conflicts_with = "frets", value_name = "N",
          allow_negative_numbers = true, default_value = "6", value_parser = value::number(1, 37))]
    pub area: u8,
    /// How many semitones the highest note of a stab may move to the next
    #[arg(long, requires = "comping", value_name = "SEMITONES", allow_negative_numbers = true,
          default_value = "3", value_parser = value::number(0, 24))]
    pub top: u8,
}

/// What is wished of a plan.
#[derive(Args, Debug)]
pub struct ChangesWishes {
    /// Only pairs of these triads: "major & minor", or major for two alike
    #[arg(long, value_name = "QUALITIES", value_parser = value::kinds)]
    pub kinds: Option<PairKinds>,
    /// Only pairs that state third and seventh
    #[arg(long)]
    pub guide_tones: bool,
    /// Only pairs that state the third
    #[arg(long, conflicts_with = "guide_tones")]
    pub thirds: bool,
    /// So many different pairs in the whole tune at most
    #[arg(long, value_name = "N", allow_negative_numbers = true,
          value_parser = value::number(1, 99))]
    pub most_pairs: Option<u8>,
    /// Begin each section with another pair
    #[arg(long)]
    pub contrast: bool,
    /// Settle a pair or a scale from a bar, or a beat of it, on: "F & G@5" or altered@5.3. May stand
    /// several times
    #[arg(long, value_name = "PAIR@BAR.BEAT")]
    pub settle: Vec<String>,
    /// Never play a note over the chord of a bar, or of a beat of it: B@5, or 11@5.3 by its degree. May
    /// stand several times
    #[arg(long, value_name = "NOTE@BAR.BEAT")]
    pub never: Vec<String>,
    /// Play the chords in brackets too
    #[arg(long)]
    pub optional: bool,
    /// Play it once, so that the last chord need not lead back to the first
    #[arg(long)]
    pub once: bool,
}

impl ChangesWishes {
    /// What every pair states of its chord.
    pub fn states(&self) -> GuideTones {
        match (self.guide_tones, self.thirds) {
            (true, _) => GuideTones::Both,
            (false, true) => GuideTones::Third,
            (false, false) => GuideTones::Weighed,
        }
    }
}
