//! How a line is to be made.

use clap::{Args, ValueEnum};
use fretloom_fretboard::Picking;
use fretloom_theory::{AtChange, Direction, Link};

use super::line_files::LineFilesArgs;
use super::made_of::MadeOfArgs;
use super::sound::SoundArgs;
use super::value;
use super::view::ViewArgs;
use crate::picture::TabBelow;

/// `line`
#[derive(Args, Debug)]
pub struct Line {
    /// The chord, or bars of chords: Dm7, or "| Dm7 | G7 | Cmaj7 |"
    #[arg(required_unless_present = "chart", conflicts_with = "chart")]
    pub chords: Option<String>,
    /// A chart instead, or the name of one (fretloom charts lists them), with the scales and pairs that
    /// changes plans for it; - is standard input
    #[arg(long, value_name = "FILE", conflicts_with_all = ["scale", "pair", "bars", "meter"])]
    pub chart: Option<std::path::PathBuf>,
    /// What it is made of
    #[command(flatten)]
    pub made_of: MadeOfArgs,
    /// How to go from triad to triad: by the ladder up or down, linked, between two shapes, or in an
    /// arc
    #[arg(long, value_enum)]
    pub travel: Option<TravelArg>,
    /// Which note of the next triad a linked line goes to
    #[arg(long, value_enum)]
    pub link: Option<LinkArg>,
    /// Where it begins: on the lowest root, first or second inversion, or on a note: F3
    #[arg(long, value_name = "root|first|second|NOTE")]
    pub start: Option<String>,
    /// Where it arrives: a degree or a note at a bar and beat, 3@5.1 or B@5.1, and how:
    /// 3@2.4&:below:early. After a colon any, step, below, above or enclosure, and early or late.
    /// May stand several times
    #[arg(long, value_name = "DEGREE@BAR.BEAT")]
    pub target: Vec<String>,
    /// How many bars; without it as many as are written, and four of a chord alone
    #[arg(long, value_name = "N", allow_negative_numbers = true)]
    pub bars: Option<String>,
    /// How many quarter notes a minute; without it 120, or what the chart says
    #[arg(long, value_name = "BPM", allow_negative_numbers = true)]
    pub tempo: Option<String>,
    /// A file with the phrases of the line, each with its own pair, pattern, rhythm and target, or with
    /// notes entered one by one
    #[arg(long, value_name = "FILE", conflicts_with_all = ["exercise", "target"])]
    pub phrases: Option<std::path::PathBuf>,
    /// The unbroken pattern, without rests and targets, instead of music
    #[arg(long, conflicts_with = "target")]
    pub exercise: bool,
    /// What an exercise does where the chord changes
    #[arg(long, value_enum, requires = "exercise", value_name = "WHAT")]
    pub at_change: Option<AtChangeArg>,
    /// The same line in the twelve keys: fourths, semitones, tones, shuffled or shuffled:7
    #[arg(long, value_name = "ORDER")]
    pub keys: Option<String>,
    /// In the other keys the same grip moved, not the same area fingered anew
    #[arg(long, requires = "keys")]
    pub grip: bool,
    /// How it is picked: beat (down on the beat, up off it), strict (down, up, down) or economy
    #[arg(long, value_enum, value_name = "HOW", default_value = "beat")]
    pub picking: PickingArg,
    /// Suggest slurs from the upbeat into the beat
    #[arg(long)]
    pub slurs: bool,
    /// What stands below the tab beside the fingers
    #[arg(long, value_enum, value_name = "WHAT", default_value = "nothing")]
    pub below: BelowArg,
    /// Put the notes of each triad in brackets below the tab
    #[arg(long)]
    pub triads: bool,
    /// How many ways to play it to show at most
    #[arg(long, value_name = "K", allow_negative_numbers = true, default_value = "1",
          value_parser = value::number(1, 20))]
    pub ways: u8,
    /// Only on these strings, 1 being the one nearest the floor: 4-3-2
    #[arg(long, value_name = "STRINGS")]
    pub strings: Option<String>,
    /// Only in these frets: 1-15
    #[arg(long, value_name = "FRETS")]
    pub frets: Option<String>,
    /// No open strings
    #[arg(long)]
    pub no_open: bool,
    /// Under which view of the neck
    #[command(flatten)]
    pub view: ViewArgs,
    /// To which files it is written
    #[command(flatten)]
    pub files: LineFilesArgs,
    /// On pages, say under each bar what it does
    #[arg(long, requires = "pages")]
    pub sentences: bool,
    /// Play it, once through; Ctrl-C stops it
    #[arg(long, group = "heard")]
    pub play: bool,
    /// How it is heard
    #[command(flatten)]
    pub sound: SoundArgs,
}

/// How a line goes from triad to triad.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
pub enum TravelArg {
    /// Up the ladder
    Up,
    /// Down the ladder
    Down,
    /// To the note that the link asks for, up where two are equally near
    Linked,
    /// The same, down where two are equally near
    LinkedDown,
    /// Between two shapes
    Stay,
    /// Up to one highest note and down again
    Arc,
}

/// To which note a line is linked.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
pub enum LinkArg {
    /// The next one below
    Below,
    /// The next one above
    Above,
    /// The nearest
    Nearest,
}

impl From<LinkArg> for Link {
    fn from(arg: LinkArg) -> Link {
        match arg {
            LinkArg::Below => Link::Below,
            LinkArg::Above => Link::Above,
            LinkArg::Nearest => Link::Nearest,
        }
    }
}

impl TravelArg {
    /// How it goes, with the link that is asked for.
    #[must_use]
    pub fn travel(self, link: Option<LinkArg>) -> fretloom_theory::Travel {
        use fretloom_theory::Travel;
        let link = link.map_or(Link::Nearest, Link::from);
        match self {
            TravelArg::Up => Travel::Ladder(Direction::Up),
            TravelArg::Down => Travel::Ladder(Direction::Down),
            TravelArg::Linked => Travel::Linked(link, Direction::Up),
            TravelArg::LinkedDown => Travel::Linked(link, Direction::Down),
            TravelArg::Stay => Travel::Stay,
            TravelArg::Arc => Travel::Arc,
        }
    }

    /// Does a link say where it goes?
    #[must_use]
    pub const fn is_linked(self) -> bool {
        match self {
            TravelArg::Linked | TravelArg::LinkedDown => true,
            TravelArg::Up | TravelArg::Down | TravelArg::Stay | TravelArg::Arc => false,
        }
    }
}

/// What an exercise does where the chord changes.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
pub enum AtChangeArg {
    /// The pattern runs on
    RunsOn,
    /// It begins again
    Again,
    /// It ends with its last whole group and begins again
    Cut,
}

impl From<AtChangeArg> for AtChange {
    fn from(arg: AtChangeArg) -> AtChange {
        match arg {
            AtChangeArg::RunsOn => AtChange::RunsOn,
            AtChangeArg::Again => AtChange::BeginsAgain,
            AtChangeArg::Cut => AtChange::CutShort,
        }
    }
}

/// How a line is picked.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
pub enum PickingArg {
    /// Down on the beat and up off it, also after rests
    Beat,
    /// Down, up, down from the first note on
    Strict,
    /// On to the next string with the stroke that goes there
    Economy,
}

impl From<PickingArg> for Picking {
    fn from(arg: PickingArg) -> Picking {
        match arg {
            PickingArg::Beat => Picking::WithTheBeat,
            PickingArg::Strict => Picking::Strict,
            PickingArg::Economy => Picking::Economy,
        }
    }
}

/// What stands below each note.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum, Debug)]
pub enum BelowArg {
    /// Nothing
    Nothing,
    /// What it is over the chord
    Degrees,
    /// What it is called
    Notes,
}

impl From<BelowArg> for TabBelow {
    fn from(arg: BelowArg) -> TabBelow {
        match arg {
            BelowArg::Nothing => TabBelow::Nothing,
            BelowArg::Degrees => TabBelow::Degrees,
            BelowArg::Notes => TabBelow::Names,
        }
    }
}
