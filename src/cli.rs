//! Commands: read the arguments, ask [`answer`], print.
//!
//! Exit status 0 when done; 1 when the input was at fault, with one message on standard error and
//! nothing on standard output; 2 for wrong usage.

mod args;
mod text;

use std::ffi::OsString;
use std::io::{self, IsTerminal, Read, Write};
use std::path::Path;
use std::process::ExitCode;

use clap::error::ErrorKind;
use clap::{CommandFactory, Parser};
use fretloom_fretboard::{Neck, ShapeQuery};
use fretloom_theory::{ReadChord, SpelledTriad, Spelling};
use serde::Serialize;

pub use args::Cli;
use args::{Command, Wanted, WhereTo};
pub(crate) use text::{inversion, mode_of};

use crate::answer::{
    self, LadderAnswer, Moment, NeckAnswer, PairAnswer, PairsAnswer, Refusal, ShapesAnswer,
    TuningAnswer, TuningsAnswer, Wishes,
};
use crate::library::LoadedTunings;
use crate::tui;
use crate::words::nearest;

/// What a run came to.
enum Outcome {
    /// Text for standard output; with it the warnings that do not keep it from being useful.
    Print(String),
    /// The screen was shown and left.
    Shown,
}

/// Why a run came to nothing.
enum Failure {
    /// The input was at fault: status 1.
    Input(String),
    /// The call was: clap's own words, status 2.
    Usage(clap::Error),
}

impl From<Refusal> for Failure {
    fn from(refusal: Refusal) -> Self {
        Failure::Input(refusal.to_string())
    }
}

/// The whole program: arguments in, words and a status out.
#[must_use]
pub fn main() -> ExitCode {
    let outcome = parse(std::env::args_os()).and_then(|cli| run(&cli));
    match outcome {
        Ok(Outcome::Shown) => ExitCode::SUCCESS,
        Ok(Outcome::Print(text)) => print(&text),
        Err(Failure::Input(message)) => {
            complain(&message);
            ExitCode::FAILURE
        }
        Err(Failure::Usage(error)) => {
            let _ = error.print();
            ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2))
        }
    }
}

/// Prints everything at once; a reader that has gone away is no error.
fn print(text: &str) -> ExitCode {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => ExitCode::FAILURE,
        _ => ExitCode::SUCCESS,
    }
}

/// Says in one line what was wrong. With standard error gone too, the status is all that is left.
fn complain(message: &impl std::fmt::Display) {
    let message = crate::glyphs::printable(&message.to_string()).replace('\n', "\\n");
    let _ = writeln!(io::stderr(), "fretloom: {message}");
}

fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Cli, Failure> {
    let cli = Cli::try_parse_from(arguments).map_err(Failure::Usage)?;
    match (&cli.chord[..], &cli.command) {
        ([word, ..], Some(_)) => Err(misplaced_chord(word)),
        ([word, _, ..], None) => Err(unknown_command(word)),
        ([word], None) if is_mistyped_command(word) => Err(unknown_command(word)),
        _ => Ok(cli),
    }
}

fn misplaced_chord(word: &str) -> Failure {
    let expected = "expected it after the command, as in fretloom pairs Gmaj7";
    wrong_usage(ErrorKind::ArgumentConflict, &format!("\"{word}\" stands first; {expected}"))
}

/// A word that is no chord, yet nearly a command.
fn is_mistyped_command(word: &str) -> bool {
    word.parse::<ReadChord>().is_err() && nearest_command(word).is_some()
}

fn unknown_command(word: &str) -> Failure {
    let expected = nearest_command(word).map_or_else(
        || "expected one chord, or a command and its chord".to_owned(),
        |name| format!("did you mean {name}?"),
    );
    let message = format!("\"{word}\" is no command; {expected}");
    wrong_usage(ErrorKind::InvalidSubcommand, &message)
}

fn nearest_command(word: &str) -> Option<String> {
    let command = Cli::command();
    let names = command.get_subcommands().map(clap::Command::get_name);
    nearest(word, names).map(str::to_owned)
}

fn wrong_usage(kind: ErrorKind, message: &str) -> Failure {
    Failure::Usage(Cli::command().error(kind, crate::glyphs::printable(message)))
}

fn run(cli: &Cli) -> Result<Outcome, Failure> {
    let Some(command) = &cli.command else { return open_screen(cli) };
    let text = match command {
        Command::Pairs(pairs) => {
            let answer = list_pairs(cli, pairs)?;
            printed(cli, &answer, text::pairs)
        }
        Command::Scales { chord } => printed(cli, &answer::scales_of(chord)?, text::scales),
        Command::Triads { scale } => {
            printed(cli, &answer::triads_of(scale, spelling(cli))?, text::triads)
        }
        Command::Chord { symbol, file } => match (symbol, file) {
            (_, Some(file)) => printed(cli, &answer::chord_list(&contents(file)?), text::chords),
            (symbol, None) => {
                let symbol = symbol.as_deref().unwrap_or_default();
                printed(cli, &answer::chord(symbol)?, text::chord)
            }
        },
        Command::Shapes(shapes) => printed(cli, &list_shapes(cli, shapes)?, text::shapes),
        Command::Ladder(ladder) => printed(cli, &climb(cli, ladder)?, text::ladder),
        Command::Neck(wanted) => draw_neck(cli, wanted)?,
        Command::Tunings => printed(cli, &TuningsAnswer::new(&tunings()), text::tunings),
    };
    Ok(Outcome::Print(text))
}

fn printed<A: Serialize>(cli: &Cli, answer: &A, text: impl Fn(&A) -> String) -> String {
    if cli.common.json {
        // These values hold no maps with odd keys: serialising them cannot fail.
        return serde_json::to_string(answer).unwrap_or_default() + "\n";
    }
    let text = crate::glyphs::printable(&text(answer));
    if is_ascii(cli) { crate::glyphs::to_ascii(&text) } else { text }
}

fn is_ascii(cli: &Cli) -> bool {
    cli.common.ascii || !crate::glyphs::locale_is_utf8()
}

fn spelling(cli: &Cli) -> Spelling {
    cli.common.spelling.into()
}

fn contents(file: &Path) -> Result<String, Refusal> {
    let read = if file == Path::new("-") {
        let mut text = String::new();
        io::stdin().lock().read_to_string(&mut text).map(|_| text)
    } else {
        std::fs::read_to_string(file)
    };
    read.map_err(|error| Refusal::File {
        name: file.display().to_string(),
        reason: in_plain_words(&error),
    })
}

/// What the system says of a file, without its error numbers.
fn in_plain_words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "it may not be read".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        io::ErrorKind::InvalidData => "it is not UTF-8 text".to_owned(),
        _ => error.to_string(),
    }
}

/// The tunings there are. What is wrong with a player's own files is said on standard error and
/// costs no more than those files.
fn tunings() -> LoadedTunings {
    let loaded = LoadedTunings::from_environment();
    for problem in loaded.problems() {
        complain(problem);
    }
    loaded
}

fn chosen_neck(cli: &Cli) -> Result<(Neck, TuningAnswer), Refusal> {
    let (tuning, answer) = answer::find_tuning(&tunings(), &cli.common.tuning)?;
    Ok((Neck::new(tuning), answer))
}

fn moment(chord: Option<&str>, scale: Option<&str>) -> Result<Moment, Refusal> {
    match (chord, scale) {
        (Some(chord), Some(scale)) => Moment::of_chord_in(chord, scale),
        (Some(chord), None) => Moment::of_chord(chord),
        (None, scale) => Moment::of_scale(scale.unwrap_or_default()),
    }
}

fn list_pairs(cli: &Cli, pairs: &args::Pairs) -> Result<PairsAnswer, Refusal> {
    if pairs.all {
        return Ok(answer::every_pair(&pairs.wanted.families, spelling(cli)));
    }
    let moment = moment(pairs.chord.as_deref(), pairs.scale.as_deref())?;
    wanted_pairs(cli, &moment, &pairs.wanted)
}

fn wanted_pairs(cli: &Cli, moment: &Moment, wanted: &Wanted) -> Result<PairsAnswer, Refusal> {
    let wishes = Wishes::read(&wanted.with, &wanted.without)?;
    Ok(answer::pairs_over(moment, &wanted.families, &wishes, spelling(cli)))
}

fn query(where_to: &WhereTo) -> Result<ShapeQuery, Refusal> {
    let query = ShapeQuery::default().within(args::frets(where_to.frets.as_deref())?);
    Ok(if where_to.no_open { query.without_open_strings() } else { query })
}

fn list_shapes(cli: &Cli, shapes: &args::Shapes) -> Result<ShapesAnswer, Refusal> {
    let triad: SpelledTriad = shapes.triad.parse()?;
    let strings = args::strings(shapes.strings.as_deref())?;
    let mut query = query(&shapes.where_to)?;
    query = match shapes.voicing.one() {
        Some(voicing) => query.voiced(voicing),
        None => query.of_both_voicings(),
    };
    if shapes.skips {
        query = query.skipping_strings();
    }
    if let Some(inversion) = shapes.inversion {
        query = query.inverted(inversion.into());
    }
    if let Some(span) = shapes.span {
        query = query.up_to_mm(span);
    }
    let (neck, tuning) = chosen_neck(cli)?;
    ShapesAnswer::new(&neck, tuning, triad, strings, &query)
}

fn climb(cli: &Cli, ladder: &args::Ladder) -> Result<LadderAnswer, Refusal> {
    let triads = [ladder.first.parse()?, ladder.second.parse()?];
    let strings = ladder.strings.parse().map_err(Refusal::Read)?;
    let query = query(&ladder.where_to)?;
    let (neck, tuning) = chosen_neck(cli)?;
    LadderAnswer::new(&neck, tuning, triads, strings, &query)
}

fn draw_neck(cli: &Cli, wanted: &args::Neck) -> Result<String, Refusal> {
    let moment = moment(wanted.chord.as_deref(), wanted.scale.as_deref())?;
    let pair = chosen_pair(cli, &moment, wanted)?;
    let frets = args::frets(wanted.frets.as_deref())?;
    let (neck, tuning) = chosen_neck(cli)?;
    let answer = NeckAnswer::new(&neck, tuning, &pair, frets);
    let drawn = |answer: &NeckAnswer| text::neck(answer, &neck, &pair, frets, wanted.labels);
    Ok(printed(cli, &answer, drawn))
}

/// The pair that is meant by its number in the list or by its two triads.
fn chosen_pair(cli: &Cli, moment: &Moment, wanted: &args::Neck) -> Result<PairAnswer, Refusal> {
    let text = wanted.pair.trim();
    if let Some((one, other)) = text.split_once('&') {
        let triads = [one.trim().parse()?, other.trim().parse()?];
        return answer::pair_over(moment, triads, spelling(cli));
    }
    let mut pairs = wanted_pairs(cli, moment, &wanted.wanted)?.pairs;
    let count = pairs.len();
    let index = text.parse().ok().and_then(|rank: usize| rank.checked_sub(1));
    match index.filter(|index| *index < count) {
        Some(index) => Ok(pairs.swap_remove(index)),
        None => Err(Refusal::UnknownPair { text: text.to_owned(), count }),
    }
}

fn open_screen(cli: &Cli) -> Result<Outcome, Failure> {
    if !io::stdout().is_terminal() || !io::stdin().is_terminal() {
        return Err(Failure::Input(
            "the screen needs a terminal, and this is none; these commands print text: pairs, \
             scales, triads, chord, shapes, ladder, neck, tunings (see fretloom --help)"
                .to_owned(),
        ));
    }
    let mut explore = tui::explore::Explore::open(
        cli.chord.first().map(String::as_str),
        &cli.common.tuning,
        LoadedTunings::from_environment(),
        spelling(cli),
    )?;
    if is_ascii(cli) {
        explore.use_ascii();
    }
    tui::runtime::run(&mut explore).map_err(|error| Failure::Input(error.to_string()))?;
    Ok(Outcome::Shown)
}
