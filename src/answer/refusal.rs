//! Why a question has no answer: the input was at fault.

use std::fmt;

use fretloom_fretboard::{
    Fret, FretRange, HandPosition, Neck, Region, RegionError, StringSet, TuningError,
};
use fretloom_theory::{LineError, ReadError, SpelledTriad};

use super::everyday_chords::near_chord;
use super::no_comping::NoComping;
use super::phrase_refusal::PhraseRefusal;
use super::plan_refusal::PlanRefusal;
use crate::library::Problem;
use crate::score_file::{ScoreFileError, ScoreWriteError};
use crate::store::{KeeperId, KeepersError};

/// An input that cannot be answered. Its words say what, where, what was expected and, where that
/// helps, what to do.
#[derive(Clone, PartialEq, Debug)]
#[non_exhaustive]
pub enum Refusal {
    /// A text cannot be read: a chord, a scale, a triad, strings, frets …
    Read(ReadError),
    /// Two triads that share notes are no pair.
    NoPair([SpelledTriad; 2]),
    /// A pair that is neither a number in the list nor two triads.
    UnknownPair {
        /// The text as given.
        text: String,
        /// How many pairs there are to choose from, at least one.
        count: usize,
    },
    /// A pair chosen from a list that holds none.
    NothingToChoose {
        /// The pair as given.
        text: String,
    },
    /// A pair of the player's own that is not two triads.
    NotTwoTriads {
        /// The text as given.
        text: String,
    },
    /// A tuning that is neither an id nor readable as strings.
    Tuning {
        /// What is wrong with it as typed strings.
        error: TuningError,
        /// The known tuning with the nearest id.
        nearest: Option<String>,
    },
    /// A capo that does not go on the instrument.
    Capo(TuningError),
    /// Strings or frets that the instrument does not have.
    Region(RegionError),
    /// A ladder or shape needs three strings.
    NotThreeStrings(StringSet),
    /// Strings that should lie side by side and do not.
    NotSideBySide(StringSet),
    /// A position above the last fret.
    NoSuchPosition {
        /// The position.
        position: HandPosition,
        /// The last fret of the neck.
        last: Fret,
    },
    /// A position behind a capo that lies over all strings.
    BehindCapo {
        /// The position.
        position: HandPosition,
        /// The fret of the capo.
        capo: Fret,
        /// The first position above it.
        lowest: HandPosition,
    },
    /// A position that has none of the frets that are wanted.
    OutsideFrets {
        /// The position.
        position: HandPosition,
        /// The frets.
        frets: FretRange,
    },
    /// One of several ways to choose from that is not there.
    NoSuchChoice {
        /// The number as given.
        number: usize,
        /// How many there are, at least one.
        count: usize,
    },
    /// A file cannot be read.
    File {
        /// Its name as given.
        name: String,
        /// What the system says.
        reason: String,
    },
    /// The file of a line cannot be read.
    LineFile {
        /// Its name as given.
        name: String,
        /// What the system says.
        reason: String,
    },
    /// A file cannot be written.
    Unwritten {
        /// Its name as given.
        name: String,
        /// Why.
        reason: String,
        /// What would do.
        expected: &'static str,
    },
    /// A file of its kind cannot hold a line.
    Unwritable {
        /// Its name as given.
        name: String,
        /// Why, and what would do.
        error: ScoreWriteError,
    },
    /// What is in the file of a line is no line.
    Line {
        /// The file's name as given.
        name: String,
        /// What is wrong with it, and where.
        error: ScoreFileError,
    },
    /// Notes of a line that the neck does not have.
    NotOnNeck {
        /// The first of them, each with where it stands in the file.
        notes: String,
        /// How many more there are.
        more: usize,
        /// The lowest and the highest note that the neck has.
        range: String,
        /// How many octaves higher it has all of them, if it does anywhere.
        octave: Option<i32>,
    },
    /// Notes of a line that do not sound on the string and fret that the file gives for them.
    Unsettled {
        /// The first of them, each with where it stands in the file and with its string and fret.
        notes: String,
        /// How many more there are.
        more: usize,
    },
    /// No way was found to make a line.
    NoLine {
        /// The condition that fails.
        error: LineError,
    },
    /// Bars without a chord to make a line over.
    NoChords {
        /// The text as given.
        text: String,
    },
    /// A scale that holds no two triads without a common note.
    NoPairIn {
        /// Its name.
        scale: String,
    },
    /// More or fewer things than the chords that they are for.
    OneForEach {
        /// What they are, as in `pairs`.
        what: &'static str,
        /// How many were given.
        given: usize,
        /// How many chords there are.
        chords: usize,
    },
    /// Something that fails in one of the phrases of a file.
    InPhrase {
        /// What the phrase is called.
        phrase: String,
        /// What fails.
        refusal: Box<Refusal>,
    },
    /// Phrases of a file that cannot be used.
    Phrases {
        /// What is wrong: at least one.
        problems: Vec<Problem>,
    },
    /// Readers of a file that cannot be used.
    Readers {
        /// What is wrong: at least one.
        problems: Vec<Problem>,
    },
    /// Two readers whose files would have one name.
    ReaderTwice {
        /// The name of the second.
        name: String,
    },
    /// One file for several readers.
    OneFile {
        /// Its name.
        name: String,
    },
    /// One drawing for several keepers.
    OneSvg {
        /// Its name.
        name: String,
    },
    /// The text of a file that is no chart.
    Chart {
        /// What is wrong: at least one.
        problems: Vec<Problem>,
    },
    /// A chart that is neither a file nor in the library.
    NoChart {
        /// What was asked for.
        name: String,
        /// The id that is nearest to it.
        nearest: Option<String>,
    },
    /// A file that is neither the text of a chart nor a score.
    ChartFile {
        /// Its name as given.
        name: String,
        /// What is wrong with it, and where.
        error: Box<ScoreFileError>,
    },
    /// Something that fails in what a keeper holds.
    InKeeper {
        /// The keeper.
        id: KeeperId,
        /// What fails.
        refusal: Box<Refusal>,
    },
    /// What is kept cannot be read or changed.
    Keepers {
        /// Why, and what would do.
        reason: String,
    },
    /// The system names no folder for what is kept.
    NoDataFolder,
    /// A keeper that is not there.
    NoKeeper {
        /// Its number as given.
        text: String,
    },
    /// A pair that was kept over neither a chord nor a scale.
    NothingUnderIt,
    /// A shape with a place that the neck does not have.
    ShapeNotThere,
    /// A line that was kept note by note, on an instrument that does not have its notes.
    LineDoesNotFit,
    /// Something that fails in one of several keys.
    InKey {
        /// The key.
        key: String,
        /// What fails.
        refusal: Box<Refusal>,
    },
    /// A grip that cannot be moved into a key.
    NoGrip {
        /// The key.
        key: String,
        /// Does it have an open string, which cannot be moved?
        has_open: bool,
    },
    /// No way was found to play a line.
    Fingering {
        /// Why.
        reason: String,
    },
    /// A chart that cannot be planned as it is asked for.
    Plan(PlanRefusal),
    /// A phrase of a line, or what it is to arrive at, that lies where it cannot.
    Phrase(PhraseRefusal),
    /// Pairs that cannot be comped as it is asked for.
    NoComping(Box<NoComping>),
}

/// How many problems of a file are told at once.
const FEW_PROBLEMS: usize = 4;

/// The chord that may have been meant, where the reader has no hint of its own.
fn near_chord_of(error: &ReadError) -> Option<String> {
    let is_open = error.what() == "chord" && error.hint().is_none();
    is_open.then(|| near_chord(error.text())).flatten()
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refusal::Read(error) => {
                error.fmt(f)?;
                match near_chord_of(error) {
                    Some(near) => write!(f, "; did you mean {near}?"),
                    None => Ok(()),
                }
            }
            Refusal::NoPair(triads) => {
                let ([one, other], shared) = (triads, shared_notes(*triads));
                write!(
                    f,
                    "{one} & {other} are no pair: both hold {shared}; expected two triads without \
                     a common note"
                )
            }
            Refusal::UnknownPair { text, count } => write!(
                f,
                "cannot read the pair \"{text}\": expected its number in the list, 1 to {count}, \
                 or two triads as in \"F & G\""
            ),
            Refusal::NothingToChoose { text } => write!(
                f,
                "cannot choose the pair \"{text}\": no pair is in the list; expected another \
                 scale, family or wish, or two triads as in \"F & G\""
            ),
            Refusal::NotTwoTriads { text } => {
                write!(f, "cannot read the pair \"{text}\": expected two triads as in \"F & G\"")
            }
            Refusal::Tuning { error, nearest: Some(id) } => {
                write!(f, "{error}; or a tuning's name: the nearest is {id}")
            }
            Refusal::Tuning { error, nearest: None } => {
                write!(f, "{error}; or a tuning's name: fretloom tunings lists them")
            }
            Refusal::Capo(error) => {
                write!(f, "cannot put the capo there: expected {}", error.expected())
            }
            Refusal::Region(error) => error.fmt(f),
            Refusal::NotThreeStrings(strings) => {
                write!(f, "{strings} does not hold a triad: expected three strings, as in 3-2-1")
            }
            Refusal::NotSideBySide(strings) => {
                write!(f, "{strings} skips a string: expected strings side by side, as in 4-3")
            }
            Refusal::NoSuchPosition { position, last } => write!(
                f,
                "there is no position {position} on this instrument: the neck ends at fret {last}; \
                 expected a position from 1 to {last}"
            ),
            Refusal::BehindCapo { position, capo, lowest } => write!(
                f,
                "position {position} lies behind the capo at {capo}: expected {lowest} or a higher \
                 position"
            ),
            Refusal::OutsideFrets { position, frets } => {
                let number = position.number();
                let (lowest, highest) = (number.saturating_sub(1), number.saturating_add(4));
                write!(
                    f,
                    "position {position} reaches frets {lowest} to {highest}: expected some of \
                     them in {frets}, or another position"
                )
            }
            Refusal::NoSuchChoice { number, count } => {
                write!(f, "there is no choice {number}: expected a number from 1 to {count}")
            }
            Refusal::File { name, reason } => {
                write!(f, "cannot read the file {name}: {reason}; expected a readable text file")
            }
            Refusal::LineFile { name, reason } => {
                write!(f, "cannot read the file {name}: {reason}; expected a readable file")
            }
            Refusal::Unwritten { name, reason, expected } => {
                write!(f, "cannot write the file {name}: {reason}; expected {expected}")
            }
            Refusal::Unwritable { name, error } => {
                write!(f, "cannot write the file {name}: {error}")
            }
            Refusal::Line { name, error } => write!(f, "cannot read the line in {name}: {error}"),
            Refusal::NotOnNeck { notes, more, range, octave } => {
                let told = "the instrument does not have";
                write!(f, "{told} {notes}{}; expected notes from {range}", AndMore(*more))?;
                match octave {
                    Some(octaves) => write!(f, ", where --octave {octaves} puts all of them"),
                    None => Ok(()),
                }
            }
            Refusal::Unsettled { notes, more } => write!(
                f,
                "not to be played there: {notes}{}; expected places that sound the notes, or \
                 --no-pins",
                AndMore(*more)
            ),
            Refusal::NoLine { error } => write!(f, "cannot make the line: {error}"),
            Refusal::NoChords { text } => write!(
                f,
                "there is no chord in \"{text}\" to make a line over: expected one, as in Dm7"
            ),
            Refusal::NoPairIn { scale } => write!(
                f,
                "{scale} holds no two triads without a common note: expected another scale, or a \
                 pair of your own as in \"F & G\""
            ),
            Refusal::OneForEach { what, given, chords } => write!(
                f,
                "{given} {what} for {chords} {}: expected one for all, or one for each",
                if *chords == 1 { "chord" } else { "chords" }
            ),
            Refusal::InPhrase { phrase, refusal } => write!(f, "phrase {phrase}: {refusal}"),
            Refusal::NoChart { name, nearest } => {
                let expected = "a file, or a chart that is there by its name, as in";
                let example = "nine-doors-and-a-stair";
                write!(f, "cannot find the chart {name}: expected {expected} {example}")?;
                match nearest {
                    Some(nearest) => write!(f, "; did you mean {nearest}?"),
                    None => Ok(()),
                }
            }
            Refusal::ChartFile { name, error } => {
                write!(f, "cannot read the chart {name}: {error}")
            }
            Refusal::ReaderTwice { name } => write!(
                f,
                "there are two readers named {name}: expected another name for each, since it names \
                 the file"
            ),
            Refusal::OneFile { name } => write!(
                f,
                "one file cannot hold the sheets of several readers: {name}; expected {{reader}} in \
                 its name, as in sheet-{{reader}}.pdf"
            ),
            Refusal::OneSvg { name } => write!(
                f,
                "one SVG file cannot hold several keepers: {name}; expected {{keeper}} in its name, as \
                 in sheet-{{keeper}}.svg, or a PDF"
            ),
            Refusal::Readers { problems }
            | Refusal::Phrases { problems }
            | Refusal::Chart { problems } => {
                let first = problems.iter().take(FEW_PROBLEMS).map(ToString::to_string);
                f.write_str(&first.collect::<Vec<_>>().join("; "))?;
                AndMore(problems.len().saturating_sub(FEW_PROBLEMS)).fmt(f)
            }
            Refusal::InKeeper { id, refusal } => write!(f, "keeper {id}: {refusal}"),
            Refusal::Keepers { reason } => f.write_str(reason),
            Refusal::NoDataFolder => f.write_str(
                "there is no folder for what is kept; expected XDG_DATA_HOME to name one",
            ),
            Refusal::NoKeeper { text } => write!(
                f,
                "there is no keeper \"{text}\"; expected the number of one that fretloom keepers lists"
            ),
            Refusal::NothingUnderIt => f.write_str(
                "it names neither a chord nor a scale for its pair: expected one of them, as in \
                 chord = \"Dm7\"",
            ),
            Refusal::ShapeNotThere => f.write_str(
                "the instrument does not have its shape: expected another tuning, or the one that it \
                 was kept with",
            ),
            Refusal::LineDoesNotFit => f.write_str(
                "the instrument does not have the notes of its line in any octave: expected one with a \
                 larger range",
            ),
            Refusal::InKey { key, refusal } => write!(f, "in {key}: {refusal}"),
            Refusal::NoGrip { key, has_open: true } => write!(
                f,
                "the grip cannot be moved to {key}, since it has an open string: expected --no-open, \
                 or no --grip"
            ),
            Refusal::NoGrip { key, has_open: false } => write!(
                f,
                "the grip does not fit on the neck in {key}: expected another part of the neck, or no \
                 --grip"
            ),
            Refusal::Fingering { reason } => write!(f, "cannot finger the line: {reason}"),
            Refusal::Plan(refusal) => refusal.fmt(f),
            Refusal::Phrase(refusal) => refusal.fmt(f),
            Refusal::NoComping(failed) => failed.fmt(f),
        }
    }
}

/// ` and 3 more`, where there are any.
pub(super) struct AndMore(pub(super) usize);

impl fmt::Display for AndMore {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 == 0 { Ok(()) } else { write!(f, " and {} more", self.0) }
    }
}

/// The notes that two triads share, named as the first of them is spelled: `C and E`.
fn shared_notes([first, second]: [SpelledTriad; 2]) -> String {
    let other = second.triad().set();
    let shared = first.notes().into_iter().filter(|note| other.contains(note.pitch_class()));
    let shared: Vec<String> = shared.map(|note| note.to_string()).collect();
    shared.join(" and ")
}

/// What must be true of strings.
impl Refusal {
    pub(super) fn unless_on(neck: &Neck, strings: StringSet) -> Result<(), Refusal> {
        Ok(Region::default().on(strings).check(neck)?)
    }

    pub(super) fn unless_side_by_side(strings: StringSet) -> Result<(), Refusal> {
        if strings.is_unbroken() { Ok(()) } else { Err(Refusal::NotSideBySide(strings)) }
    }

    pub(super) fn unless_reached(neck: &Neck, position: HandPosition) -> Result<(), Refusal> {
        let (last, lowest) = (neck.tuning().last_fret(), HandPosition::lowest_on(neck));
        if position.fret() > last {
            return Err(Refusal::NoSuchPosition { position, last });
        }
        if position < lowest {
            return Err(Refusal::BehindCapo { position, capo: neck.begins_at(), lowest });
        }
        Ok(())
    }

    pub(super) fn unless_three(strings: StringSet) -> Result<(), Refusal> {
        strings.three().map(|_| ()).ok_or(Refusal::NotThreeStrings(strings))
    }
}

impl std::error::Error for Refusal {}

impl From<PlanRefusal> for Refusal {
    fn from(refusal: PlanRefusal) -> Self {
        Refusal::Plan(refusal)
    }
}

impl From<PhraseRefusal> for Refusal {
    fn from(refusal: PhraseRefusal) -> Self {
        Refusal::Phrase(refusal)
    }
}

impl From<KeepersError> for Refusal {
    fn from(error: KeepersError) -> Self {
        Refusal::Keepers { reason: error.to_string() }
    }
}

impl From<RegionError> for Refusal {
    fn from(error: RegionError) -> Self {
        Refusal::Region(error)
    }
}

impl From<ReadError> for Refusal {
    fn from(error: ReadError) -> Self {
        Refusal::Read(error)
    }
}
