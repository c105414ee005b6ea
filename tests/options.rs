//! Options at every command: each changes the answer or is refused, none is passed over in silence.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use std::path::Path;

use clap::CommandFactory;
use fretloom::cli::Cli;
use program::{Home, Said};

/// A call of each command, chosen so that an option that says something changes what is printed: a
/// chord that strict spelling writes otherwise, and a line that can be played in several ways.
const CALLS: [(&str, &[&str]); 22] = [
    ("pairs", &["pairs", "A7alt"]),
    ("scales", &["scales", "Dm7b5"]),
    ("triads", &["triads", "Gb major"]),
    ("chord", &["chord", "A7alt"]),
    ("shapes", &["shapes", "Bb"]),
    ("ladder", &["ladder", "Bb", "C"]),
    ("neck", &["neck", "Ab7alt"]),
    ("line", &["line", "| Ab7alt | G7 |", "--bars", "4"]),
    ("changes", &["changes", "CHART", "--frets", "1-6"]),
    ("sheet", &["sheet", "Ab7alt"]),
    ("explain", &["explain", "ALTERED"]),
    ("finger", &["finger", "LINE"]),
    ("tunings", &["tunings"]),
    ("patterns", &["patterns"]),
    ("charts", &["charts"]),
    ("compare", &["tunings", "compare", "guitar-standard", "guitar-drop-d"]),
    ("keepers", &["keepers"]),
    ("add", &["keepers", "add", "Ab7alt"]),
    ("remove", &["keepers", "remove", "1"]),
    ("practice", &["practice"]),
    ("listen", &["listen"]),
    ("settings", &["settings"]),
];

/// Each option with words that ask for something else than what is usual. What an option needs
/// beside it is there on both sides.
const OPTIONS: [(&str, &[&str], &[&str]); 110] = [
    ("tuning", &["--tuning", "guitar-all-fourths"], &[]),
    ("capo", &["--capo", "3"], &[]),
    ("capo_strings", &["--capo-strings", "5-4-3"], &["--capo", "3"]),
    ("spelling", &["--spelling", "strict"], &[]),
    ("json", &["--json"], &[]),
    ("minutes", &["--minutes", "4"], &[]),
    ("items", &["--items", "1"], &[]),
    ("item_keys", &["--item-keys", "1"], &[]),
    ("new_items", &["--new-items", "2"], &[]),
    ("questions", &["--questions", "2"], &[]),
    ("turn", &["--turn", "3"], &[]),
    ("rest", &["--rest", "5"], &[]),
    ("key_order", &["--key-order", "tones"], &[]),
    ("ladder_start", &["--ladder-start", "66"], &[]),
    ("ladder_good", &["--ladder-good", "2"], &[]),
    ("ladder_up", &["--ladder-up", "6"], &[]),
    ("ladder_back", &["--ladder-back", "3"], &[]),
    ("ladder_top", &["--ladder-top", "180"], &[]),
    ("first_gap", &["--first-gap", "2"], &[]),
    ("gap_growth", &["--gap-growth", "3"], &[]),
    ("longest_gap", &["--longest-gap", "90"], &[]),
    ("tag", &["--tag", "slow"], &[]),
    ("serves", &["--serves", "dim7"], &[]),
    ("sort", &["--sort", "newest"], &[]),
    ("name", &["--name", "bridge"], &[]),
    ("notes", &["--notes", "start low"], &[]),
    ("ascii", &["--ascii"], &[]),
    ("theme", &["--theme", "dark"], &[]),
    ("fresh", &["--fresh"], &[]),
    ("mouse", &["--mouse=false"], &[]),
    ("pedal", &["--pedal", "f12"], &[]),
    ("scale", &["--scale", "A whole tone"], &[]),
    ("pair", &["--pair", "C & D"], &[]),
    ("all", &["--all"], &[]),
    ("families", &["--families", "minor"], &[]),
    ("families", &["--families", "minor"], &["--pair", "C & D"]),
    ("with", &["--with", "3,b13"], &[]),
    ("with", &["--with", "3,b13"], &["--pair", "C & D"]),
    ("without", &["--without", "1"], &[]),
    ("before", &["--before", "Cm"], &["--after", "Em7"]),
    ("after", &["--after", "G7"], &[]),
    ("key", &["--key", "Cm"], &[]),
    ("strings", &["--strings", "4-3-2"], &[]),
    ("strings", &["--strings", "4-3-2"], &["--view", "set"]),
    ("strings", &["--strings", "4-3-2"], &["--view", "position"]),
    ("skips", &["--skips"], &[]),
    ("voicing", &["--voicing", "open"], &[]),
    ("arpeggio", &["--arpeggio", "2"], &[]),
    ("inversion", &["--inversion", "first"], &[]),
    ("span", &["--span", "40"], &[]),
    ("frets", &["--frets", "5-9"], &[]),
    ("no_open", &["--no-open"], &["--frets", "0-3"]),
    ("reach", &["--reach", "60"], &[]),
    ("reach", &["--reach", "60"], &["--view", "position"]),
    ("reach", &["--reach", "60"], &["--view", "two"]),
    ("across_sets", &["--across-sets"], &[]),
    ("labels", &["--labels", "degree"], &[]),
    ("labels", &["--labels", "finger"], &[]),
    ("left_handed", &["--left-handed"], &[]),
    ("upside_down", &["--upside-down"], &[]),
    ("fret_widths", &["--fret-widths", "true"], &[]),
    ("view", &["--view", "two"], &[]),
    ("position", &["--position", "7"], &["--view", "position"]),
    ("ways", &["--ways", "2"], &[]),
    ("home", &["--home", "12"], &[]),
    ("like_open", &["--like-open"], &[]),
    ("no_pins", &["--no-pins"], &[]),
    ("track", &["--track", "2"], &[]),
    ("unfold", &["--unfold"], &[]),
    ("transpose", &["--transpose", "2"], &[]),
    ("octave", &["--octave", "1"], &[]),
    ("pattern", &["--pattern", "132 32"], &[]),
    ("rhythm", &["--rhythm", "triplets"], &[]),
    ("travel", &["--travel", "up"], &[]),
    ("link", &["--link", "below"], &[]),
    ("start", &["--start", "second"], &[]),
    ("target", &["--target", "5@3.1"], &[]),
    ("bars", &["--bars", "3"], &[]),
    ("meter", &["--meter", "3/4"], &[]),
    ("tempo", &["--tempo", "92"], &[]),
    ("exercise", &["--exercise"], &[]),
    ("at_change", &["--at-change", "cut"], &["--exercise", "--pattern", "1232 321"]),
    ("keys", &["--keys", "tones"], &[]),
    ("grip", &["--grip"], &["--keys", "semitones", "--frets", "3-22"]),
    ("chords", &["--chords", "| Am7 | G7 |"], &[]),
    ("picking", &["--picking", "strict"], &[]),
    ("slurs", &["--slurs"], &[]),
    ("below", &["--below", "degrees"], &[]),
    ("triads", &["--triads"], &[]),
    ("no_fingers", &["--no-fingers"], &[]),
    ("no_answers", &["--no-answers"], &[]),
    ("sentences", &["--sentences"], &[]),
    ("keeper", &["--keeper", "1"], &[]),
    ("reader", &["--reader", "Mira,bass-4-string"], &[]),
    ("link", &["--link", "below"], &["--travel", "up"]),
    ("kinds", &["--kinds", "major"], &[]),
    ("guide_tones", &["--guide-tones"], &[]),
    ("thirds", &["--thirds"], &["--kinds", "major"]),
    ("most_pairs", &["--most-pairs", "1"], &[]),
    ("contrast", &["--contrast"], &[]),
    ("settle", &["--settle", "E & F@2"], &[]),
    ("never", &["--never", "G@3"], &[]),
    ("optional", &["--optional"], &[]),
    ("once", &["--once"], &[]),
    ("plans", &["--plans", "3"], &[]),
    ("chart", &["--chart", "CHART"], &[]),
    ("comping", &["--comping"], &[]),
    ("area", &["--area", "9"], &["--comping"]),
    ("top", &["--top", "1"], &["--comping"]),
    ("once", &["--once"], &["--comping"]),
];

/// What is asked for otherwise: flags that say what kind of answer is wanted, files, and options of
/// views, which `tests/views.rs` has; phrases of a line, which `tests/phrases.rs` has; files that are
/// written, which `tests/line_files.rs` and `tests/pages.rs` have; what is heard, which `tests/sound/wav.rs` and
/// `tests/sound_program.rs` have.
const ELSEWHERE: [&str; 30] = [
    "help",
    "version",
    "file",
    "choice",
    "open",
    "overlap",
    "inversions",
    "sample",
    "write",
    "part",
    "command",
    "shell",
    "phrases",
    "midi",
    "musicxml",
    "overwrite",
    "wav",
    "pdf",
    "svg",
    "paper",
    "readers",
    "play",
    "swing",
    "drone",
    "click",
    "count_in",
    "a4",
    "line_level",
    "drone_level",
    "click_level",
];

/// Eight notes that lie in several positions, the first of them pinned; the last one is an open
/// string or nothing.
const LINE: &str = r#"{"notes":[
    {"onset_s":0.0,"duration_s":0.2,"midi":60,"string":4,"fret":10},
    {"onset_s":0.2,"duration_s":0.2,"midi":64},{"onset_s":0.4,"duration_s":0.2,"midi":67},
    {"onset_s":0.6,"duration_s":0.2,"midi":71},{"onset_s":0.8,"duration_s":0.2,"midi":62},
    {"onset_s":1.0,"duration_s":0.2,"midi":59},{"onset_s":3.0,"duration_s":0.2,"midi":55},
    {"onset_s":3.2,"duration_s":0.2,"midi":40}]}"#;

/// Over A♭7alt the major triads on its ♭5 and its ♯5, whose letters are another matter.
const ALTERED: &str = r#"{"tempo":120,"chords":[{"onset_s":0,"symbol":"Ab7alt"}],"notes":[
    {"onset_s":0.0,"duration_s":0.2,"midi":62},{"onset_s":0.25,"duration_s":0.2,"midi":66},
    {"onset_s":0.5,"duration_s":0.2,"midi":69},{"onset_s":0.75,"duration_s":0.2,"midi":64},
    {"onset_s":1.0,"duration_s":0.2,"midi":68},{"onset_s":1.25,"duration_s":0.2,"midi":71},
    {"onset_s":1.5,"duration_s":0.2,"midi":62},{"onset_s":1.75,"duration_s":0.2,"midi":66}]}"#;

/// What is kept, in the order of the numbers.
const KEPT: &str = "format = 1
[[keeper]]
id = 1
kept = 2026-05-04
chord = \"Dm7\"
pair = \"F & G\"
tags = [\"slow\"]
[[keeper]]
id = 2
kept = 2026-05-05
chord = \"A♭maj7♯11\"
pair = \"A♭ & B♭\"
tries = [{ on = 2026-05-05, verdict = \"got\", next = 2026-05-06 }]
[[keeper]]
id = 3
kept = 2026-05-05
chord = \"Cmaj7\"
pair = \"F & G\"
";

/// Two sections that keep a pair, a chord in brackets, and one whose scale is a matter of the key.
const CHART: &str = "[A] | Ab7alt | Dm7 | [B] Cmaj7 (A7) | Cm |";

fn run(home: &Home, call: &[&str], more: &[&[&str]]) -> Said {
    let line = home.put("line.json", LINE);
    let altered = home.put("altered.json", ALTERED);
    let chart = home.put("chart.txt", CHART);
    home.put("data/fretloom/keepers.toml", KEPT);
    let [line, altered, chart] = [&line, &altered, &chart].map(|file| file.to_str().unwrap());
    let words = call.iter().chain(more.iter().copied().flatten());
    let words = words.map(|word| match *word {
        "LINE" => line,
        "ALTERED" => altered,
        "CHART" => chart,
        word => word,
    });
    home.run(&words.collect::<Vec<_>>())
}

#[test]
fn every_option_changes_the_answer_or_is_refused() {
    let home = Home::new();
    let mut changed = 0;
    for (command, call) in CALLS {
        for (option, words, beside) in OPTIONS {
            let without = run(&home, call, &[beside]);
            if without.status == Some(2) {
                // What the option needs beside it does not belong here; it is tried by itself.
                continue;
            }
            let with = run(&home, call, &[beside, words]);
            if option == "ascii" && without.out.is_ascii() {
                continue;
            }
            let told = format!("{command} {words:?} beside {beside:?}: {}", with.err);
            match with.status {
                Some(0 | 1) => {
                    assert_ne!((&with.out, &with.err), (&without.out, &without.err), "{told}");
                }
                Some(2) => {
                    let typed = words[0].split('=').next().unwrap();
                    assert!(with.err.contains(typed), "{told}");
                    assert_eq!(with.out, "", "{told}");
                }
                _ => panic!("{told}"),
            }
            changed += usize::from(with.status == Some(0));
        }
    }
    assert!(changed > 75, "{changed}");
}

/// The list above has every option that there is.
#[test]
fn every_option_is_tried() {
    let mut command = Cli::command();
    command.build();
    let mut commands = vec![&command];
    while let Some(command) = commands.pop() {
        commands.extend(command.get_subcommands());
        for option in command.get_arguments().filter(|argument| !argument.is_positional()) {
            let name = option.get_id().as_str();
            let tried = OPTIONS.iter().any(|(option, ..)| *option == name);
            assert!(tried || ELSEWHERE.contains(&name), "{name} of {}", command.get_name());
        }
        let name = command.get_name();
        let called = CALLS.iter().any(|(call, _)| *call == name);
        let others = ["fretloom", "help", "check", "completions", "manual"];
        assert!(called || others.contains(&name), "{name}");
    }
}

#[test]
fn numbers_are_asked_for_in_plain_words() {
    let home = Home::new();
    for (words, expected) in [
        (&["finger", "x", "--ways", "x"][..], "expected a number from 1 to 20"),
        (&["finger", "x", "--ways", "21"], "expected a number from 1 to 20"),
        (&["finger", "x", "--home", "-1"], "expected a number from 0 to 36"),
        (&["finger", "x", "--home", "99999999999999999999"], "expected a number from 0 to 36"),
        (&["finger", "x", "--octave", "6"], "expected a number from -5 to 5"),
        (&["explain", "x", "--transpose", "up"], "expected a number from -60 to 60"),
        (&["shapes", "G", "--span", "wide"], "expected millimetres, as in 90"),
        (&["shapes", "G", "--arpeggio", "4"], "expected 2 or 3 notes a string"),
        (&["neck", "C", "--view", "two", "--choice", "one"], "expected a number, 1 for the best"),
        (&["neck", "C", "--view", "two", "--choice", "0"], "expected a number, 1 for the best"),
    ] {
        let said = home.run(words);
        assert_eq!(said.status, Some(2), "{words:?}");
        assert!(said.err.contains(expected), "{words:?}: {}", said.err);
    }
}

/// Words of the language that the program is written in, and numbers of the system's errors.
const NO_WORDS_FOR_PLAYERS: [&str; 7] = [
    "invalid digit",
    "invalid float",
    "number too",
    "empty string",
    "is not in",
    "out of range integral",
    "os error",
];

#[test]
fn every_option_that_cannot_be_read_is_told_in_plain_words() {
    let home = Home::new();
    let mut command = Cli::command();
    command.build();
    for (name, call) in CALLS {
        let found = match name {
            "compare" => command.find_subcommand("tunings").and_then(|of| of.find_subcommand(name)),
            "add" | "remove" => {
                command.find_subcommand("keepers").and_then(|of| of.find_subcommand(name))
            }
            _ => command.find_subcommand(name),
        };
        for option in found.unwrap().get_opts() {
            for value in ["abc", "-1", "99999999999999999999"] {
                let typed = format!("--{}={value}", option.get_long().unwrap());
                let said = run(&home, call, &[&[&typed]]);
                let told = format!("{}{}", said.out, said.err);
                assert!(matches!(said.status, Some(0..=2)), "{call:?} {typed}");
                let bad = NO_WORDS_FOR_PLAYERS.iter().find(|words| told.contains(**words));
                assert_eq!(bad, None, "{call:?} {typed}: {told}");
            }
        }
    }
}

/// Whatever cannot be written is told, with a status.
#[test]
#[cfg(target_os = "linux")]
fn an_answer_that_cannot_be_written_is_told() {
    use std::fs::File;
    use std::process::Command;
    let home = Home::new();
    home.put("line.json", LINE);
    let others: [&[&str]; 6] = [
        &["--help"],
        &["--version"],
        &["pairs", "--help"],
        &["completions", "bash"],
        &["manual"],
        &["settings", "--sample"],
    ];
    let calls = CALLS
        .iter()
        .map(|(_, call)| *call)
        .filter(|call| !["finger", "explain", "changes"].contains(&call[0]))
        // What is removed once is gone.
        .filter(|call| call.get(1) != Some(&"remove"));
    for call in calls.chain(others) {
        for json in [&[][..], &["--json"]] {
            let mut program: Command = home.program();
            program.args(call).args(json).stdout(File::create("/dev/full").unwrap());
            let said = Said::by(program.stderr(std::process::Stdio::piped()));
            if said.status != Some(2) {
                let expected = "fretloom: the answer cannot be written: the disk is full; expected \
                                room for it\n";
                assert_eq!((said.status, said.err.as_str()), (Some(1), expected), "{call:?}");
            }
        }
    }
}

/// A disk that is full leaves nothing behind that stands in the way of the next try.
#[test]
#[cfg(unix)]
fn a_file_that_could_not_be_begun_can_be_begun_again() {
    let home = Home::new();
    let script = "trap '' XFSZ; ulimit -f 0; exec \"$0\" settings --write";
    let full = || {
        let mut shell = std::process::Command::new("sh");
        shell.args(["-c", script, env!("CARGO_BIN_EXE_fretloom")]);
        Said::by(shell.env_clear().env("XDG_CONFIG_HOME", home.folder()))
    };
    let said = full();
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{}", said.err);
    assert!(said.err.contains("cannot write the file"), "{}", said.err);
    let folder = home.folder().join("fretloom");
    assert_eq!(std::fs::read_dir(&folder).unwrap().count(), 0);
    let file = home.run(&["settings", "--write"]).printed();
    assert_eq!(home.run(&["check"]).printed(), "nothing is wrong in your files\n");
    assert_eq!(Path::new(file.trim()).parent(), Some(folder.as_path()));
    let again = home.run(&["settings", "--write"]);
    assert!(again.err.contains("it is there already, and is left as it is"), "{}", again.err);
}

#[test]
fn a_folder_that_is_a_file_is_named() {
    let home = Home::new();
    let file = home.put("settings", "");
    for call in [&["settings", "--write"][..], &["check"], &["pairs", "C"], &["tunings"]] {
        let said = Said::by(home.program().env("FRETLOOM_CONFIG", &file).args(call));
        assert!(!said.err.contains("os error") && !said.out.contains("os error"), "{call:?}");
        let told = format!("{}{}", said.out, said.err);
        let named = told.contains("is a file and no folder") || told.contains("is no folder");
        assert!(named || call[0] == "pairs", "{call:?}: {told}");
    }
}

/// Thousands of mistakes in a file are told by some of them and by their number.
#[test]
fn a_long_list_of_mistakes_ends_with_a_count() {
    let home = Home::new();
    let scales: String = (0..1_500).map(|n| format!("\"scale {n}\" = {n}\n")).collect();
    home.put("fretloom/scales.toml", &scales);
    let said = home.run(&["scales", "C7"]);
    let lines: Vec<&str> = said.err.lines().collect();
    assert_eq!(lines.len(), 9, "{}", said.err);
    assert!(lines[8].ends_with("more; fretloom check lists them"), "{}", lines[8]);
    let settings: String = (0..1_500).map(|n| format!("setting{n} = {n}\n")).collect();
    home.put("fretloom/settings.toml", &settings);
    assert_eq!(home.run(&["settings"]).err.lines().count(), 9);
    let check = home.run(&["check"]);
    assert_eq!((check.status, check.out.lines().count()), (Some(1), 101));
    assert!(check.out.lines().last().unwrap().ends_with("more; --json lists them all"));
}

/// What a message tells to type is an option that there is: every one that the sentences of the answers and
/// of the commands name.
#[test]
fn messages_name_options_that_there_are() {
    let mut command = Cli::command();
    command.build();
    let mut known: Vec<String> = Vec::new();
    let mut commands = vec![&command];
    while let Some(command) = commands.pop() {
        commands.extend(command.get_subcommands());
        let longs = command.get_arguments().filter_map(|argument| argument.get_long());
        known.extend(longs.map(str::to_owned));
    }
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let rooms = ["answer", "cli", "library", "sheet", "store", "tui"];
    let mut folders: Vec<_> = rooms.into_iter().map(|room| source.join(room)).collect();
    let mut named = 0;
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let text = std::fs::read_to_string(&path).unwrap();
            let words = text.split(|sign: char| !sign.is_ascii_lowercase() && sign != '-');
            let options = words.filter_map(|word| word.strip_prefix("--"));
            for option in options.filter(|option| option.starts_with(|sign: char| sign != '-')) {
                named += 1;
                let option = option.trim_end_matches('-');
                assert!(known.iter().any(|it| it == option), "--{option} in {}", path.display());
            }
        }
    }
    assert!(named > 50, "{named}");
}
