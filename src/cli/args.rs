//! The command line: what can be asked, in a guitarist's words.

use std::path::PathBuf;

use clap::parser::ValueSource;
use clap::{ArgAction, ArgMatches, Args, Parser, Subcommand, ValueEnum};
use fretloom_fretboard::{Capo, FretRange, PerString, StringSet};
use fretloom_theory::Spelling;

use crate::answer::Refusal;
use crate::picture::{FretWidths, Labels};
use crate::settings::Ascii;
use crate::tui::pedal::Pedal;

mod changes;
mod choice;
mod explain;
mod finger;
mod hand;
mod handed;
mod keepers;
mod line;
mod line_files;
mod listen;
mod made_of;
mod own;
mod page_files;
mod practice;
mod sheet;
mod sound;
mod triads;
mod value;
mod view;
mod wanted;
mod where_to;

pub(super) use changes::Changes;
pub(super) use choice::ChoiceArgs;
pub(super) use explain::Explain;
pub(super) use finger::Finger;
use handed::HandedArgs;
pub(super) use keepers::{KeepCommand, KeeperAdd, Keepers, KeepersChange};
pub(super) use line::{Line, TravelArg};
pub(super) use line_files::LineFilesArgs;
pub(super) use made_of::MadeOfArgs;
pub(super) use own::{OwnCommand, OwnFile, SettingsArgs};
pub(super) use page_files::PageFilesArgs;
pub(super) use sheet::Sheet;
use sound::PluckedArgs;
pub(super) use triads::{InversionArg, StrikeArg, VoicingArg};
pub(super) use view::{ViewArgs, ViewWord};
pub(super) use wanted::Wanted;
pub(super) use where_to::WhereTo;

/// Triad pairs for improvising guitarists: from a chord to both triads on the neck.
///
/// Two triads that share no note, out of the scale of the moment: six notes in two familiar
/// handfuls. Without a command, fretloom opens on a chord and shows its pairs, what each says over
/// the chord, and both triads on the neck.
#[derive(Parser, Debug)]
#[command(name = "fretloom", version, max_term_width = 100, subcommand_precedence_over_arg = true)]
#[command(after_help = "Quote a chord that holds brackets, and a wish that begins with #: \
                        fretloom pairs 'C7(b9)' --with='#11'\n\n\
                        FRETLOOM_CONFIG names the folder of your settings, keys, themes, tunings, \
                        scales and patterns; else it is fretloom in XDG_CONFIG_HOME, in ~/.config, \
                        or where your system keeps such folders. NO_COLOR leaves the colours out.")]
pub struct Cli {
    /// What to open on: a chord as on a lead sheet (Gmaj7#11, Am7, B7alt), the bars of a tune
    /// ('F#m7b5 | B7alt | Em6'), or the file of a chart
    #[arg(value_name = "CHORD")]
    pub chord: Option<String>,

    /// What else stands there, to be refused in words of our own
    #[arg(hide = true)]
    pub more: Vec<String>,

    /// What to print instead of opening the screen
    #[command(subcommand)]
    pub command: Option<Request>,

    /// The colours of the screen: terminal, dark, light, high-contrast, monochrome, or your own
    #[arg(long, value_name = "NAME", default_value = "terminal")]
    pub theme: String,

    /// Begin the screen afresh, not where it was left; what was left is replaced at the end
    #[arg(long, value_name = "true|false", num_args = 0..=1, require_equals = true,
          action = ArgAction::Set, default_value = "false", default_missing_value = "true",
          hide_possible_values = true)]
    pub fresh: bool,

    /// Choose with the mouse on the screen, rather than select text
    #[arg(long, value_name = "true|false", num_args = 0..=1, require_equals = true,
          action = ArgAction::Set, default_value = "true", default_missing_value = "true",
          hide_possible_values = true)]
    pub mouse: bool,

    /// The key that a foot pedal types, as in f12: the next shape, in a list the next line
    #[arg(long, value_parser = value::pedal, value_name = "KEY", default_value = "none")]
    pub pedal: Pedal,

    /// Options that every command takes
    #[command(flatten)]
    pub common: Common,

    /// Which of the options that a session keeps too were typed
    #[arg(skip)]
    pub typed: Typed,
}

/// Options that were typed, and so win over what was kept.
#[derive(Clone, Copy, Default, Debug)]
pub struct Typed {
    /// `--tuning`
    pub tuning: bool,
    /// `--spelling`
    pub spelling: bool,
}

impl Typed {
    /// Those of a command line.
    #[must_use]
    pub fn of(matches: &ArgMatches) -> Typed {
        let typed = |option| matches.value_source(option) == Some(ValueSource::CommandLine);
        Typed { tuning: typed("tuning"), spelling: typed("spelling") }
    }
}

/// Options that every command takes.
#[derive(Args, Debug)]
pub struct Common {
    /// A tuning's name (fretloom tunings lists them), or its strings: "D A D G B E"
    #[arg(long, global = true, value_name = "TUNING", default_value = "guitar-standard")]
    pub tuning: String,

    /// A capo at this fret of the neck; frets keep their numbers
    #[arg(long, global = true, value_name = "FRET", allow_negative_numbers = true)]
    pub capo: Option<String>,

    /// The strings that a partial capo holds: 5-4-3
    #[arg(long, global = true, value_name = "STRINGS")]
    pub capo_strings: Option<String>,

    /// How triads are written: as triads, or by the letters of the scale
    #[arg(long, global = true, value_enum, default_value = "plain")]
    pub spelling: SpellingArg,

    /// Print one JSON object instead of text
    #[arg(long, global = true)]
    pub json: bool,

    /// Print b and # instead of signs: always with the option alone, else where the locale is not
    /// UTF-8
    #[arg(long, global = true, value_enum, value_name = "WHEN", num_args = 0..=1,
          require_equals = true, default_value = "auto", default_missing_value = "always")]
    pub ascii: Ascii,
}

impl Common {
    /// The capo that is wanted, if any.
    ///
    /// # Errors
    ///
    /// Where its fret or its strings cannot be read.
    pub fn capo(&self) -> Result<Capo, Refusal> {
        let Some(fret) = &self.capo else { return Ok(Capo::NONE) };
        Ok(Capo::read(fret, self.capo_strings.as_deref())?)
    }
}

/// Spelling policies on the command line.
#[derive(Clone, Copy, ValueEnum, Debug)]
pub enum SpellingArg {
    /// Every triad as a triad on its everyday root
    Plain,
    /// By the letters of the parent scale
    Strict,
}

impl From<SpellingArg> for Spelling {
    fn from(arg: SpellingArg) -> Spelling {
        match arg {
            SpellingArg::Plain => Spelling::Plain,
            SpellingArg::Strict => Spelling::Strict,
        }
    }
}

/// What is wanted instead of the screen.
#[derive(Subcommand, Debug)]
#[expect(clippy::large_enum_variant, reason = "there is one in a process")]
pub enum Request {
    /// An answer to a question of music
    #[command(flatten)]
    Print(Command),
    /// Something about what the player keeps
    #[command(flatten)]
    Keep(KeepCommand),
    /// Something about the program and the player's own files
    #[command(flatten)]
    Own(OwnCommand),
}

/// What to print.
#[derive(Subcommand, Debug)]
pub enum Command {
    /// The triad pairs of a chord, ranked, with what each says and which note it leaves out
    Pairs(Pairs),
    /// The scales that fit a chord, the usual ones first, and why
    Scales(Scales),
    /// The triads of a scale, degree by degree
    Triads {
        /// The scale: "C Dorian", "C D Eb F G A Bb" or "C: 1 2 b3 4 5 6 b7"
        scale: String,
    },
    /// What a chord symbol names, and what was assumed in reading it
    Chord {
        /// The symbol
        #[arg(required_unless_present = "file")]
        symbol: Option<String>,
        /// Read one symbol a line from this file, or from standard input with -
        #[arg(long, value_name = "FILE", conflicts_with = "symbol")]
        file: Option<PathBuf>,
    },
    /// Every way to put a triad on the strings
    Shapes(Shapes),
    /// Two triads in turn, up one string set, inversion by inversion
    Ladder(Ladder),
    /// The neck with both triads of a pair
    Neck(Neck),
    /// A line of the pairs of a chord, or of several: tab, fingers and strokes, and what it does
    Line(Box<Line>),
    /// The plan of a chart: scale and pair for every chord of a tune, and where the hand goes
    Changes(Box<Changes>),
    /// One idea on one page for the music stand: a pair, both triads on the neck, a line, twelve keys
    Sheet(Box<Sheet>),
    /// What a line from a file does over its chords, bar by bar: scale, pair, groups, landings
    Explain(Explain),
    /// A line from a file on the neck: where to play each note, and with which finger
    Finger(Finger),
    /// The tunings that there are, and from which file
    Tunings {
        /// What else is asked of them
        #[command(subcommand)]
        question: Option<TuningQuestion>,
    },
    /// The patterns for lines, when each comes round, and its pick strokes
    Patterns,
    /// The charts of tunes, built in and your own, by the names that changes and line --chart take
    Charts,
}

/// What can be asked of tunings besides their list.
#[derive(Subcommand, Debug)]
pub enum TuningQuestion {
    /// Which shapes survive from one tuning to another, string set by string set
    Compare {
        /// The tuning that you know, as --tuning takes it
        a: String,
        /// The tuning that you go to
        b: String,
        /// Also say where the ladder of this pair begins: "F & G"
        #[arg(long, value_name = "PAIR")]
        pair: Option<String>,
    },
}

/// `scales`
#[derive(Args, Debug)]
pub struct Scales {
    /// The chord: Gmaj7#11, Am7, B7alt
    pub chord: String,
    /// The chords before it, the nearest last: "Em7b5"
    #[arg(long, value_name = "CHORDS", default_value = "", hide_default_value = true)]
    pub before: String,
    /// The chords after it, the nearest first: "Dm6" or "Dm6 G7"
    #[arg(long, value_name = "CHORDS", default_value = "", hide_default_value = true)]
    pub after: String,
    /// The key of the tune: Bb, or "D minor"
    #[arg(long, value_name = "KEY")]
    pub key: Option<String>,
}

/// `pairs`
#[derive(Args, Debug)]
pub struct Pairs {
    /// The chord: Gmaj7#11, Am7, B7alt
    #[arg(required_unless_present_any = ["scale", "all"])]
    pub chord: Option<String>,
    /// Another scale for the chord, or a scale by itself: altered, "C Dorian", "C D Eb F G A Bb"
    #[arg(long, value_name = "SCALE")]
    pub scale: Option<String>,
    /// One pair of your own instead of the list, notes outside the scale and all: "E & F"
    #[arg(long, value_name = "PAIR", conflicts_with = "all")]
    pub pair: Option<String>,
    /// Every pair that exists, over no chord
    #[arg(long, conflicts_with_all = ["chord", "scale", "with", "without"])]
    pub all: bool,
    /// Which pairs to list
    #[command(flatten)]
    pub wanted: Wanted,
}

/// `shapes`
#[derive(Args, Debug)]
pub struct Shapes {
    /// The triad: G, F#m, Bbdim, C+
    pub triad: String,
    /// Only on these three strings, 1 being the one nearest the floor: 4-3-2
    #[arg(long, value_name = "STRINGS", conflicts_with = "skips")]
    pub strings: Option<String>,
    /// Also on sets that skip strings
    #[arg(long)]
    pub skips: bool,
    /// Close within an octave, open (spread), both, wide (any note octaves away, strings left out
    /// too), or all
    #[arg(long, value_enum, default_value = "close")]
    pub voicing: VoicingArg,
    /// As arpeggios instead, upwards through the chord tones, 2 or 3 notes a string; the strings may
    /// then be any that lie side by side
    #[arg(long, value_name = "NOTES", value_parser = per_string,
          conflicts_with_all = ["voicing", "skips"])]
    pub arpeggio: Option<PerString>,
    /// Only this inversion, judged by the lowest sounding note
    #[arg(long, value_enum)]
    pub inversion: Option<InversionArg>,
    /// Play them one after another: each struck together, or its notes in turn, as those of arpeggios
    /// always are; Ctrl-C stops it
    #[arg(long, value_enum, value_name = "HOW", num_args = 0..=1, require_equals = true,
          group = "heard")]
    pub play: Option<Option<StrikeArg>>,
    /// Only shapes that stretch over at most so many millimetres
    #[arg(long, value_name = "MM", allow_negative_numbers = true, value_parser = millimetres)]
    pub span: Option<f64>,
    /// Which shapes to leave out
    #[command(flatten)]
    pub where_to: WhereTo,
    /// How they are heard
    #[command(flatten)]
    pub plucked: PluckedArgs,
    /// For which hand pages are drawn
    #[command(flatten)]
    pub hand: HandedArgs,
    /// To which files it is written
    #[command(flatten)]
    pub files: PageFilesArgs,
}

/// `ladder`
#[derive(Args, Debug)]
pub struct Ladder {
    /// One triad: F
    pub first: String,
    /// The other: G
    pub second: String,
    /// The three strings to climb, 1 being the one nearest the floor; without it 3-2-1, and across
    /// sets the lowest
    #[arg(long, value_name = "STRINGS")]
    pub strings: Option<String>,
    /// Where a set of strings ends, go on on the next one
    #[arg(long)]
    pub across_sets: bool,
    /// Which shapes to leave out
    #[command(flatten)]
    pub where_to: WhereTo,
    /// For which hand pages are drawn
    #[command(flatten)]
    pub hand: HandedArgs,
    /// To which files it is written
    #[command(flatten)]
    pub files: PageFilesArgs,
}

/// `neck`
#[derive(Args, Debug)]
pub struct Neck {
    /// The chord: Gmaj7#11, Am7, B7alt
    #[arg(required_unless_present = "scale")]
    pub chord: Option<String>,
    /// Another scale for the chord, or a scale by itself
    #[arg(long, value_name = "SCALE")]
    pub scale: Option<String>,
    /// Which pair: its number in the list, or two triads: "F & G"
    #[arg(long, value_name = "PAIR", default_value = "1")]
    pub pair: String,
    /// Which pairs to choose from
    #[command(flatten)]
    pub wanted: Wanted,
    /// Only these frets: 1-15
    #[arg(long, value_name = "FRETS")]
    pub frets: Option<String>,
    /// What stands in the marks: note, degree (over the chord), member (of the triad), finger or order (of a view)
    #[arg(long, value_parser = value::labels, value_name = "LABELS", default_value = "note")]
    pub labels: Labels,
    /// For which hand
    #[command(flatten)]
    pub hand: HandedArgs,
    /// With string 1 at the bottom
    #[arg(long, value_name = "true|false", num_args = 0..=1, require_equals = true,
          action = ArgAction::Set, default_value = "false", default_missing_value = "true",
          hide_possible_values = true)]
    pub upside_down: bool,
    /// The cells of the frets: even, or true to scale
    #[arg(long, value_parser = value::fret_widths, value_name = "even|true", default_value = "even")]
    pub fret_widths: FretWidths,
    /// For the view set: any strings, 3-2-1, 2-1 or 3; for two: three side by side
    #[arg(long, value_name = "STRINGS", requires = "view")]
    pub strings: Option<String>,
    /// Which view of the neck
    #[command(flatten)]
    pub view: ViewArgs,
    /// To which files it is written
    #[command(flatten)]
    pub files: PageFilesArgs,
}

fn millimetres(text: &str) -> Result<f64, &'static str> {
    let read = text.parse().ok().filter(|mm: &f64| mm.is_finite() && *mm >= 0.0);
    read.ok_or("expected millimetres, as in 90")
}

fn per_string(text: &str) -> Result<PerString, &'static str> {
    text.parse().ok().and_then(PerString::new).ok_or("expected 2 or 3 notes a string")
}

/// A string set or fret range that may be absent, read so that a mistake is the input's fault.
pub(super) fn read<T: std::str::FromStr>(text: Option<&str>) -> Result<Option<T>, T::Err> {
    text.map(str::parse).transpose()
}

/// The frets that are wanted, the whole neck by default.
pub(super) fn frets(text: Option<&str>) -> Result<FretRange, fretloom_theory::ReadError> {
    Ok(read(text)?.unwrap_or(FretRange::WHOLE_NECK))
}

/// The string set that is wanted, if one is.
pub(super) fn strings(text: Option<&str>) -> Result<Option<StringSet>, fretloom_theory::ReadError> {
    read(text)
}
