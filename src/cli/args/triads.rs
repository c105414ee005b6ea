//! Words for the kinds of triad shapes on the command line.

use clap::ValueEnum;
use fretloom_theory::Inversion;

/// Voicings on the command line.
#[derive(Clone, Copy, ValueEnum, Debug)]
#[allow(missing_docs, reason = "the words say themselves")]
pub enum VoicingArg {
    Close,
    Open,
    Both,
    Wide,
    All,
}

/// Inversions on the command line.
#[derive(Clone, Copy, ValueEnum, Debug)]
#[allow(missing_docs, reason = "the words say themselves")]
pub enum InversionArg {
    Root,
    First,
    Second,
}

impl From<InversionArg> for Inversion {
    fn from(arg: InversionArg) -> Inversion {
        match arg {
            InversionArg::Root => Inversion::Root,
            InversionArg::First => Inversion::First,
            InversionArg::Second => Inversion::Second,
        }
    }
}
