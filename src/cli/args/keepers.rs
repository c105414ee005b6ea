//! What is asked of keepers.

use clap::{Args, Subcommand, ValueEnum};

use super::listen::Listen;
use super::practice::Practice;
use super::value;
use super::wanted::Wanted;
use crate::answer::{ChordKind, KeeperOrder};
use crate::store::Beats;

/// What is about what the player keeps.
#[derive(Subcommand, Debug)]
pub enum KeepCommand {
    /// What you have kept; with add and remove, to keep a pair and to remove what is kept
    #[command(args_conflicts_with_subcommands = true)]
    Keepers(Keepers),
    /// What is to be practised today: what is due, in a list that ends
    Practice(Practice),
    /// What is to be named by ear today: the pair, its qualities, or what it leaves out
    Listen(Listen),
}

/// `keepers`
#[derive(Args, Debug)]
pub struct Keepers {
    /// What is to be done, instead of listing them
    #[command(subcommand)]
    pub change: Option<KeepersChange>,
    /// Only those that hold all of these words: in names, chords, pairs, notes, tags
    #[arg(value_name = "WORDS")]
    pub words: Vec<String>,
    /// Only those with this tag
    #[arg(long, value_name = "TAG")]
    pub tag: Option<String>,
    /// Only those that serve this kind of chord: kept over one, or of a pair in its usual scale: m7b5
    #[arg(long, value_name = "KIND", value_parser = value::chord_kind)]
    pub serves: Option<ChordKind>,
    /// In which order
    #[arg(long, value_enum, value_name = "ORDER", default_value = "own")]
    pub sort: OrderArg,
}

/// What is to be done with keepers.
#[derive(Subcommand, Debug)]
pub enum KeepersChange {
    /// Keep a pair over a chord, with its scale and the tuning
    Add(Box<KeeperAdd>),
    /// Remove a keeper
    Remove {
        /// Its number, as fretloom keepers lists it
        #[arg(value_name = "ID", allow_negative_numbers = true)]
        id: String,
    },
}

/// `keepers add`
#[derive(Args, Debug)]
pub struct KeeperAdd {
    /// The chord: Gmaj7#11, Am7, B7alt
    pub chord: String,
    /// Another scale for the chord: altered, "C Dorian", "C D Eb F G A Bb"
    #[arg(long, value_name = "SCALE")]
    pub scale: Option<String>,
    /// Which pair: its number in the list, or two triads: "F & G"
    #[arg(long, value_name = "PAIR", default_value = "1")]
    pub pair: String,
    /// Which pairs to choose from
    #[command(flatten)]
    pub wanted: Wanted,
    /// On these strings, 1 being the one nearest the floor: 4-3-2
    #[arg(long, value_name = "STRINGS")]
    pub strings: Option<String>,
    /// What to call it
    #[arg(long, value_name = "NAME")]
    pub name: Option<String>,
    /// What to note beside it
    #[arg(long, value_name = "TEXT", default_value = "", hide_default_value = true)]
    pub notes: String,
    /// A word by which to find it again; may be given several times
    #[arg(long, value_name = "TAG")]
    pub tag: Vec<String>,
    /// The tempo at which it is clean, where practice begins: 20 to 400
    #[arg(long, value_name = "BPM", allow_negative_numbers = true, value_parser = value::beats)]
    pub tempo: Option<Beats>,
}

/// Orders on the command line.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
pub enum OrderArg {
    /// Your own, as the screen has it
    Own,
    /// What was kept last first
    Newest,
    /// By their names
    Name,
    /// By their chords
    Chord,
    /// What is due first first
    Due,
}

impl From<OrderArg> for KeeperOrder {
    fn from(arg: OrderArg) -> KeeperOrder {
        match arg {
            OrderArg::Own => KeeperOrder::Own,
            OrderArg::Newest => KeeperOrder::Newest,
            OrderArg::Name => KeeperOrder::Name,
            OrderArg::Chord => KeeperOrder::Chord,
            OrderArg::Due => KeeperOrder::Due,
        }
    }
}
