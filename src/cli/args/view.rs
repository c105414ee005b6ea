//! The views of `neck` on the command line.

use clap::{Args, ValueEnum};
use fretloom_fretboard::Overlap;
use fretloom_theory::Inversion;

use super::hand::HandArgs;
use super::triads::InversionArg;

/// Which view of the neck.
#[derive(Args, Debug)]
pub struct ViewArgs {
    /// Only what is played together: under one hand, on some strings, as a chain of shapes across
    /// the strings, or the six notes two a string
    #[arg(long, value_enum)]
    pub view: Option<ViewWord>,
    /// For the view position: where the hand is, V or 5; for two: the nearest first
    #[arg(long, value_name = "POSITION", requires = "view")]
    pub position: Option<String>,
    /// For the view position: with open strings however far up the hand is
    #[arg(long, requires = "view")]
    pub open: bool,
    /// For the views across and two: which of the ways; without it 1, the best
    #[arg(long, visible_alias = "chain", value_name = "NUMBER", requires = "view",
          value_parser = choice)]
    pub choice: Option<usize>,
    /// For the view across: may the string sets share strings? Without it they do
    #[arg(long, value_enum, requires = "view")]
    pub overlap: Option<OverlapArg>,
    /// For the view across: the inversion of the first triad and of the second: root,any
    #[arg(long, value_enum, requires = "view", value_delimiter = ',', value_name = "INVERSIONS")]
    pub inversions: Vec<InversionChoice>,
    /// Whose hand it is
    #[command(flatten)]
    pub hand: HandArgs,
}

/// The views by their words.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
pub enum ViewWord {
    /// Everything under one hand, with its stretches
    Position,
    /// Everything on some strings, with the steps along them
    Set,
    /// A chain of close shapes, the triads in turn, across the strings
    Across,
    /// The six notes of the pair going up, two on each of three strings
    Two,
}

impl ViewWord {
    /// The word as it is typed.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            ViewWord::Position => "position",
            ViewWord::Set => "set",
            ViewWord::Across => "across",
            ViewWord::Two => "two",
        }
    }
}

/// May the string sets of a chain share strings?
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
pub enum OverlapArg {
    /// One string further each time: 6-5-4, 5-4-3, 4-3-2
    Yes,
    /// Three new strings each time: 6-5-4, 3-2-1
    No,
}

impl From<OverlapArg> for Overlap {
    fn from(arg: OverlapArg) -> Overlap {
        match arg {
            OverlapArg::Yes => Overlap::Shared,
            OverlapArg::No => Overlap::Apart,
        }
    }
}

/// An inversion, or whichever suits.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
#[allow(missing_docs, reason = "the words say themselves")]
pub enum InversionChoice {
    Root,
    First,
    Second,
    Any,
}

impl InversionChoice {
    /// The inversion, if it is one.
    #[must_use]
    pub fn one(self) -> Option<Inversion> {
        match self {
            InversionChoice::Root => Some(InversionArg::Root.into()),
            InversionChoice::First => Some(InversionArg::First.into()),
            InversionChoice::Second => Some(InversionArg::Second.into()),
            InversionChoice::Any => None,
        }
    }
}

fn choice(text: &str) -> Result<usize, &'static str> {
    let read = text.parse().ok().filter(|number| *number > 0);
    read.ok_or("expected a number, 1 for the best")
}
