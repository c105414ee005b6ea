//! Options that say nothing where they stand. They are refused: what is asked for and then ignored
//! would look answered.

use clap::ArgMatches;
use clap::parser::ValueSource;

use super::args::{
    Changes, Cli, Command, KeepCommand, Keepers, KeepersChange, Line, Neck, Request, Shapes, Sheet,
    StrikeArg, ViewArgs, ViewWord,
};
use crate::picture::Labels;

/// The options of every command, and the commands to which each says something; the screen is the
/// program's own name.
const COMMON: [(&str, &[&str]); 10] = [
    ("tuning", &[SCREEN, "shapes", "ladder", "neck", "line", "sheet", "finger", "changes", "add"]),
    ("capo", &[SCREEN, "shapes", "ladder", "neck", "line", "sheet", "finger", "changes", "add"]),
    (
        "capo_strings",
        &[SCREEN, "shapes", "ladder", "neck", "line", "sheet", "finger", "changes", "add"],
    ),
    (
        "spelling",
        &[SCREEN, "pairs", "triads", "neck", "line", "sheet", "explain", "changes", "add"],
    ),
    (
        "json",
        &[
            "pairs", "scales", "triads", "chord", "shapes", "ladder", "neck", "line", "explain",
            "finger", "changes", "charts", "patterns", "tunings", "compare", "keepers", "add",
            "remove", "practice", "listen", "check", "settings",
        ],
    ),
    (
        "ascii",
        &[
            SCREEN, "pairs", "scales", "triads", "chord", "shapes", "ladder", "neck", "line",
            "sheet", "explain", "finger", "changes", "charts", "patterns", "tunings", "compare",
            "keepers", "add", "remove", "practice", "listen", "check", "settings",
        ],
    ),
    ("theme", &[SCREEN]),
    ("fresh", &[SCREEN]),
    ("mouse", &[SCREEN]),
    ("pedal", &[SCREEN]),
];

const SCREEN: &str = "fretloom";

/// The option that does not apply, in words; `None` where all of them do.
pub(super) fn misused(cli: &Cli, matches: &ArgMatches) -> Option<String> {
    let typed = Typed::of(matches);
    misused_common(&typed).or_else(|| match &cli.command {
        Some(Request::Print(Command::Neck(neck))) => misused_on_neck(neck, &typed),
        Some(Request::Print(Command::Line(line))) => misused_on_line(line, &typed),
        Some(Request::Print(Command::Changes(changes))) => misused_on_changes(changes, &typed),
        Some(Request::Print(Command::Sheet(sheet))) => misused_on_sheet(sheet),
        Some(Request::Print(Command::Shapes(shapes))) => {
            misused_on_shapes(shapes).or_else(|| misused_without_pages(&typed))
        }
        Some(Request::Print(Command::Ladder(_))) => misused_without_pages(&typed),
        Some(Request::Print(Command::Pairs(pairs))) if pairs.pair.is_some() => {
            typed.first_of(&["families", "with", "without"]).map(beside_a_pair)
        }
        Some(Request::Keep(KeepCommand::Keepers(Keepers {
            change: Some(KeepersChange::Add(add)),
            ..
        }))) if add.pair.contains('&') => {
            typed.first_of(&["families", "with", "without"]).map(beside_a_pair)
        }
        _ => None,
    })
}

/// What was typed, apart from settings and defaults.
struct Typed<'a> {
    /// The command; the program where there is none.
    command: &'a str,
    /// Those of the program and those of the command.
    matches: Vec<&'a ArgMatches>,
}

impl<'a> Typed<'a> {
    fn of(matches: &'a ArgMatches) -> Typed<'a> {
        let mut typed = Typed { command: SCREEN, matches: vec![matches] };
        while let Some((command, under)) = typed.matches.last().and_then(|last| last.subcommand()) {
            typed.command = command;
            typed.matches.push(under);
        }
        typed
    }

    fn has(&self, option: &str) -> bool {
        self.matches.iter().any(|matches| {
            let is_known = matches.try_contains_id(option).is_ok();
            is_known && matches.value_source(option) == Some(ValueSource::CommandLine)
        })
    }

    fn first_of(&self, options: &[&'static str]) -> Option<&'static str> {
        options.iter().find(|option| self.has(option)).copied()
    }
}

fn misused_common(typed: &Typed<'_>) -> Option<String> {
    let misplaced = COMMON
        .iter()
        .find(|(option, commands)| !commands.contains(&typed.command) && typed.has(option));
    let (option, commands) = misplaced?;
    let option = option.replace('_', "-");
    let where_to = match (*commands, typed.command) {
        (_, "compare") if option.starts_with("capo") => return Some(capo_beside_compare()),
        ([_], _) => "it is for the screen, which opens without a command".to_owned(),
        (commands, _) => {
            let named = commands.iter().filter(|command| **command != SCREEN);
            let named: Vec<&str> = named.map(|command| whole_name(command)).collect();
            format!("it is for {}", named.join(", "))
        }
    };
    let to = if typed.command == SCREEN { "the screen" } else { typed.command };
    Some(format!("--{option} says nothing to {to}: {where_to}"))
}

/// A command as it is typed, with the one that it stands under.
fn whole_name(command: &str) -> &str {
    match command {
        "compare" => "tunings compare",
        "add" => "keepers add",
        "remove" => "keepers remove",
        command => command,
    }
}

fn beside_a_pair(option: &str) -> String {
    format!("--{option} says nothing beside a pair of your own: it chooses from the list")
}

/// Two tunings are compared as they are strung. With a capo on one of them alone its frets would
/// not be those of the other.
fn capo_beside_compare() -> String {
    "--capo is not used by tunings compare: expected two tunings and no capo, which moves all \
     shapes alike"
        .to_owned()
}

/// An option of views: is it given, and which views does it belong to?
struct ViewOption {
    name: &'static str,
    is_given: bool,
    views: &'static [ViewWord],
}

fn misused_on_neck(neck: &Neck, typed: &Typed<'_>) -> Option<String> {
    let named = neck.pair.contains('&');
    if let Some(option) = typed.first_of(&["families", "with", "without"]).filter(|_| named) {
        return Some(beside_a_pair(option));
    }
    let of_views = matches!(neck.labels, Labels::Finger | Labels::Order);
    if neck.view.view.is_none() && of_views && typed.has("labels") {
        let label = neck.labels.word();
        return Some(format!("--labels {label} says nothing without a view: expected --view too"));
    }
    misused_view(&neck.view, &options(neck, typed))
}

/// The files of a line.
const FILES: [&str; 3] = ["midi", "musicxml", "wav"];

/// A plan that locks the hand to no part of the neck asks for no neck.
fn misused_on_changes(changes: &Changes, typed: &Typed<'_>) -> Option<String> {
    let of_necks = ["tuning", "capo", "capo_strings", "no_open", "reach"];
    let is_locked = changes.strings.is_some() || changes.where_to.frets.is_some();
    let is_played = changes.comping.comping || changes.play || typed.first_of(&FILES).is_some();
    let option = typed.first_of(&of_necks).filter(|_| !is_locked && !is_played)?;
    let option = option.replace('_', "-");
    Some(format!(
        "--{option} says nothing to changes while the hand is free: expected --strings or --frets too"
    ))
}

/// A whole neck has no fingers and no order.
fn misused_on_sheet(sheet: &Sheet) -> Option<String> {
    matches!(sheet.labels, Labels::Finger | Labels::Order).then(|| {
        let label = sheet.labels.word();
        format!("--labels {label} says nothing to a whole neck: expected note, degree or member")
    })
}

/// Two notes of an arpeggio may lie on one string.
fn misused_on_shapes(shapes: &Shapes) -> Option<String> {
    let together = shapes.play == Some(Some(StrikeArg::Together));
    (together && shapes.arpeggio.is_some()).then(|| {
        "--play=together says nothing to arpeggios: expected --play, or --play=in-turn".to_owned()
    })
}

/// A list of frets is the same for both hands; boxes are not.
fn misused_without_pages(typed: &Typed<'_>) -> Option<String> {
    let is_alone = typed.has("left_handed") && typed.first_of(&["pdf", "svg"]).is_none();
    is_alone.then(|| {
        format!(
            "--left-handed says nothing to {} without pages: expected --pdf or --svg too",
            typed.command
        )
    })
}

/// A link says where a linked line goes, and nothing of another one.
fn misused_on_line(line: &Line, typed: &Typed<'_>) -> Option<String> {
    if line.link.is_some() && line.travel.is_some_and(|travel| !travel.is_linked()) {
        return Some(
            "--link says nothing to that --travel: expected linked or linked-down".to_owned(),
        );
    }
    use ViewWord::{Position, Set, Two};
    let strings = ViewOption {
        name: "--strings",
        is_given: line.strings.is_some() && line.view.view.is_some(),
        views: &[Position, Set, Two],
    };
    let mut options = vec![strings];
    options.extend(view_options(&line.view, typed).into_iter().filter(|it| it.name != "--reach"));
    misused_view(&line.view, &options)
}

/// The option that says nothing to the view that is asked for.
fn misused_view(view: &ViewArgs, options: &[ViewOption]) -> Option<String> {
    let mut given = options.iter().filter(|option| option.is_given);
    let misplaced = given.find(|option| match view.view {
        Some(view) => !option.views.contains(&view),
        None => true,
    });
    if let Some(option) = misplaced {
        return Some(refused(option, view.view));
    }
    let inversions = view.inversions.len();
    (inversions > 2).then(|| {
        format!("--inversions names {inversions}: expected one for both triads, or one for each")
    })
}

fn options(neck: &Neck, typed: &Typed<'_>) -> Vec<ViewOption> {
    use ViewWord::{Set, Two};
    let (name, is_given, views) = ("--strings", neck.strings.is_some(), &[Set, Two]);
    let mut options = view_options(&neck.view, typed);
    options.insert(1, ViewOption { name, is_given, views });
    options
}

fn view_options(view: &ViewArgs, typed: &Typed<'_>) -> Vec<ViewOption> {
    use ViewWord::{Across, Position, Set, Two};
    let option = |name, is_given, views| ViewOption { name, is_given, views };
    vec![
        option("--position", view.position.is_some(), &[Position, Two]),
        option("--open", view.open, &[Position]),
        option("--choice", view.choice.is_some(), &[Across, Two]),
        option("--overlap", view.overlap.is_some(), &[Across]),
        option("--inversions", !view.inversions.is_empty(), &[Across]),
        option("--reach", typed.has("reach"), &[Set, Across, Two]),
    ]
}

fn refused(option: &ViewOption, view: Option<ViewWord>) -> String {
    let words: Vec<&str> = option.views.iter().map(|view| view.word()).collect();
    let (name, views) = (option.name, words.join(" or "));
    match view {
        Some(view) => {
            format!("{name} says nothing in the view {}: expected --view {views}", view.word())
        }
        None => format!("{name} says nothing without a view: expected --view {views} too"),
    }
}
