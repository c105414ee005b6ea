//! Words for the kinds of triad shapes on the command line.

use clap::ValueEnum;
use fretloom_theory::Inversion;

use crate::sound::Strike;

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

/// How shapes are struck, on the command line.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
#[allow(missing_docs, reason = "the words say themselves")]
pub enum StrikeArg {
    Together,
    InTurn,
}

impl From<StrikeArg> for Strike {
    fn from(arg: StrikeArg) -> Strike {
        match arg {
            StrikeArg::Together => Strike::Together,
            StrikeArg::InTurn => Strike::InTurn,
        }
    }
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
