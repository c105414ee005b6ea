//! What others write never reaches the terminal as it is: hostile text in every argument of every
//! command, in every kind of file, and in the names of files.
//!
//! What counts as harmful stands here once more and shares nothing with the program.

#![cfg(unix)]
#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use std::ffi::{OsStr, OsString};
use std::fs;
use std::os::unix::ffi::{OsStrExt, OsStringExt};
use std::path::{Path, PathBuf};

use clap::{Arg, ArgAction, Command, CommandFactory};
use fretloom::cli::Cli;
use program::Home;

/// Sets the clipboard, makes text blink, the same with a control character of the second set, rubs
/// out, goes back to the start of the line, turns the direction round in three ways, ends a line for
/// some programs, and is a tag that nobody sees.
const HOSTILE: &str = "\u{1b}]52;c;QQ==\u{7}\u{1b}[5;7mx\u{9b}5m\u{7f}\u{8}\r\u{b}\u{202e}\u{2066}\u{200f}\
                       \u{61c}\u{2028}\u{feff}\u{e0041}z";

/// The same inside a text of TOML or JSON.
const ESCAPED: &str = "\\u001b]52;c;QQ==\\u0007\\u001b[5;7mx\\u009b5m\\u007f\\u0008\\r\\u202e\\u2066\\u200f\\u061c\
                       \\u2028\\ufeffz";

/// Bytes that are no UTF-8, among them a control character of the second set as one byte.
const NO_UTF_8: &[u8] = b"\x1b[5m\x9b5m\xff\xc2";

/// The styles of clap's own words: bold, underlined, red, green, yellow and none. They are forced, so
/// that it does not take out of its words what it would let through to a terminal.
const STYLES: [&str; 8] = ["0", "1", "3", "4", "31", "32", "33", "36"];

/// Text, DEL and the second set, direction and what is not seen, by their numbers in Unicode.
fn harmful(char: char) -> bool {
    let number = char as u32;
    let controls = number < 0x20 && char != '\n' || (0x7f..=0x9f).contains(&number);
    let direction = [0x61c, 0x200e, 0x200f].contains(&number)
        || (0x202a..=0x202e).contains(&number)
        || (0x2066..=0x206f).contains(&number);
    let unseen = [0x2028, 0x2029, 0xfeff].contains(&number)
        || (0xfff9..=0xfffb).contains(&number)
        || (0xe0000..=0xe007f).contains(&number);
    controls || direction || unseen
}

/// A text without the styles that clap sets.
fn unstyled(text: &str) -> String {
    let styles = STYLES.iter().map(|style| format!("\u{1b}[{style}m"));
    styles.fold(text.to_owned(), |text, style| text.replace(&style, ""))
}

/// Runs the program and looks at every byte that it says.
fn assert_harmless(home: &Home, arguments: &[OsString]) {
    let mut program = home.program();
    program.args(arguments).env("CLICOLOR_FORCE", "1");
    let output = program.output().unwrap();
    for bytes in [&output.stdout, &output.stderr] {
        let text = unstyled(std::str::from_utf8(bytes).unwrap());
        if let Some(at) = text.find(harmful) {
            let around: String = text[at..].chars().take(60).collect();
            panic!("{arguments:?} says {around:?}");
        }
    }
    assert!(matches!(output.status.code(), Some(0..=2)), "{arguments:?}: {:?}", output.status);
}

fn words(words: &[&str]) -> Vec<OsString> {
    words.iter().map(OsString::from).collect()
}

/// The words that lead to a command, and what stands in the place of its arguments usually.
struct Place<'a> {
    path: Vec<OsString>,
    command: &'a Command,
}

/// Every command, with those of commands.
fn places(command: &Command) -> Vec<Place<'_>> {
    let mut places = vec![Place { path: Vec::new(), command }];
    let mut at = 0;
    while let Some(Place { path, command }) = places.get(at) {
        let under = command.get_subcommands().map(|under| {
            let path = [path.clone(), words(&[under.get_name()])].concat();
            Place { path, command: under }
        });
        let under: Vec<_> = under.collect();
        places.extend(under);
        at += 1;
    }
    places
}

/// What is usual at a place for words: enough for most to be read.
fn usual(argument: &Arg) -> &'static str {
    match argument.get_id().as_str() {
        "scale" => "C major",
        "triad" | "first" => "C",
        "second" => "D",
        "a" | "b" => "guitar-standard",
        "shell" => "bash",
        "file" => "line.json",
        _ => "C7",
    }
}

/// Every call in which this text stands for one of the arguments.
fn calls(place: &Place<'_>, text: &OsStr) -> Vec<Vec<OsString>> {
    let positionals: Vec<&Arg> = place.command.get_positionals().collect();
    let usual_words = words(&positionals.iter().map(|word| usual(word)).collect::<Vec<_>>());
    let begin = || place.path.clone();
    let mut calls = Vec::new();
    for at in 0..positionals.len() {
        let mut some = usual_words.clone();
        some[at] = text.to_owned();
        calls.push([begin(), some].concat());
    }
    for option in place.command.get_arguments().filter(|argument| !argument.is_positional()) {
        let name = format!("--{}", option.get_long().unwrap());
        let mut joined = OsString::from(format!("{name}="));
        joined.push(text);
        calls.push([begin(), usual_words.clone(), vec![joined]].concat());
        if matches!(option.get_action(), ArgAction::Set | ArgAction::Append) {
            let apart = vec![OsString::from(&name), text.to_owned()];
            calls.push([begin(), usual_words.clone(), apart].concat());
        }
    }
    // One word too many, and options that nobody has.
    for unknown in ["", "--", "-", "--tuning"] {
        let mut word = OsString::from(unknown);
        word.push(text);
        calls.push([begin(), usual_words.clone(), vec![word.clone()]].concat());
        calls.push([begin(), vec![word]].concat());
    }
    calls
}

const LINE: &str = r#"{"notes":[{"onset_s":0.0,"duration_s":0.2,"midi":60}]}"#;

#[test]
fn no_argument_reaches_the_terminal_as_it_is() {
    let home = Home::new();
    home.put("line.json", LINE);
    let mut command = Cli::command();
    command.build();
    let mut count = 0;
    let texts = [OsString::from(HOSTILE), OsString::from_vec(NO_UTF_8.to_vec())];
    for place in places(&command) {
        for text in &texts {
            for call in calls(&place, text) {
                assert_harmless(&home, &call);
                assert_harmless(&home, &[call, words(&["--json"])].concat());
                count += 2;
            }
        }
    }
    assert!(count > 1000, "{count}");
}

/// What is said beside another mistake: a chord that can be read, words that cannot.
#[test]
fn no_text_within_a_readable_one_reaches_the_terminal_as_it_is() {
    let home = Home::new();
    for call in [
        &["pairs", "C7", "--scale", "C HOSTILE"][..],
        &["pairs", "C7(HOSTILE)"],
        &["pairs", "C7", "--with", "9,HOSTILE"],
        &["pairs", "C7", "--pair", "C & DHOSTILE"],
        &["scales", "C7", "--before", "G7 HOSTILE"],
        &["scales", "C7", "--key", "C HOSTILE"],
        &["triads", "C: 1 HOSTILE"],
        &["shapes", "C", "--tuning", "E A D G B HOSTILE"],
        &["shapes", "C", "--strings", "4-3-HOSTILE"],
        &["finger", "HOSTILE/HOSTILE"],
        &["chord", "--file", "HOSTILE"],
        &["pair\nHOSTILE"],
        &["C", "HOSTILE"],
        &["HOSTILE", "pairs"],
    ] {
        let call: Vec<_> = call.iter().map(|word| word.replace("HOSTILE", HOSTILE)).collect();
        let call = words(&call.iter().map(String::as_str).collect::<Vec<_>>());
        for more in [&[][..], &["--json"], &["--ascii"]] {
            assert_harmless(&home, &[call.clone(), words(more)].concat());
        }
    }
}

/// A kind of file: where it lies in the player's folder, what is in one, and the calls that read it.
type Kind = (&'static str, Vec<u8>, Vec<Vec<OsString>>);

fn files() -> Vec<Kind> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let read = |name: &str| fs::read(root.join(name)).unwrap();
    let sample = |of: &str| {
        let printed = Home::new().run(&["settings", &format!("--sample={of}")]).printed();
        // In a sample every line is a comment, but for the headings.
        let lines = printed.lines().map(|line| line.strip_prefix("# ").unwrap_or(line));
        let kept = lines.filter(|line| line.contains(" = ") || line.starts_with('['));
        kept.collect::<Vec<_>>().join("\n").into_bytes()
    };
    let own = || {
        let calls =
            [&["check"][..], &["check", "--json"], &["settings"], &["--help"], &["tunings"]];
        let more = [
            &["tunings", "--json"][..],
            &["patterns"],
            &["patterns", "--json"],
            &["charts"],
            &["scales", "C7"],
            &["shapes", "C"],
        ];
        calls.into_iter().chain(more).map(words).collect::<Vec<_>>()
    };
    let line = |file: &str| {
        let calls = [&["finger", file][..], &["finger", file, "--json"]];
        calls.into_iter().map(words).collect::<Vec<_>>()
    };
    let list =
        vec![words(&["chord", "--file", "list"]), words(&["chord", "--file", "list", "--json"])];
    let scales = b"[[scale]]\nname = \"own\"\nnotes = \"1 2 3 5 6\"\n".to_vec();
    vec![
        ("fretloom/settings.toml", sample("settings"), own()),
        ("fretloom/keys.toml", sample("keys"), own()),
        ("fretloom/themes/own.toml", sample("theme"), own()),
        ("fretloom/tunings/own.toml", read("tests/fuzz/corpus/toml_tuning/guitar.toml"), own()),
        ("fretloom/scales.toml", scales, own()),
        ("fretloom/patterns.toml", read("assets/patterns.toml"), own()),
        ("list", b"Dm7\nG7(b9) xyz\nCmaj7\n".to_vec(), list),
        ("line.json", read("tests/fuzz/corpus/json_line/pinned.json"), line("line.json")),
        ("line.mid", read("tests/fuzz/corpus/midi/tempo-and-meter.mid"), line("line.mid")),
        ("line.xml", read("tests/fuzz/corpus/musicxml/tempo-and-tab.xml"), line("line.xml")),
    ]
}

#[test]
fn no_file_reaches_the_terminal_as_it_is() {
    const PLACES: usize = 12;
    for (name, content, calls) in files() {
        for text in [HOSTILE.as_bytes(), ESCAPED.as_bytes(), NO_UTF_8] {
            for place in 0..=PLACES {
                let home = Home::new();
                let at = content.len() * place / PLACES;
                let hostile = [&content[..at], text, &content[at..]].concat();
                let path = home.put(name, "");
                fs::write(path, hostile).unwrap();
                for call in &calls {
                    assert_harmless(&home, call);
                }
            }
        }
    }
}

/// In every text that a file holds between quotation marks or tags.
#[test]
fn no_text_of_a_file_reaches_the_terminal_as_it_is() {
    for (name, content, calls) in files() {
        let Ok(content) = String::from_utf8(content) else { continue };
        let ends: Vec<usize> = content.match_indices(['"', '<']).map(|(at, _)| at).collect();
        let some = ends.len().div_ceil(20).max(1);
        for at in ends.into_iter().skip(1).step_by(some) {
            for text in [HOSTILE, ESCAPED] {
                let home = Home::new();
                home.put(name, &format!("{}{text}{}", &content[..at], &content[at..]));
                for call in &calls {
                    assert_harmless(&home, call);
                }
            }
        }
    }
}

#[test]
fn no_name_of_a_file_reaches_the_terminal_as_it_is() {
    for name in [HOSTILE.as_bytes(), NO_UTF_8] {
        let name: PathBuf = OsStr::from_bytes(name).into();
        for (kind, content, calls) in files() {
            let home = Home::new();
            let kind = Path::new(kind);
            let folder = home.folder().join(kind.parent().unwrap());
            fs::create_dir_all(&folder).unwrap();
            let mut file = name.clone().into_os_string();
            file.push(kind.extension().map_or(String::new(), |end| format!(".{}", end.display())));
            for content in [&content[..], b"name = \"x\ny"] {
                fs::write(folder.join(&file), content).unwrap();
                let mut all = calls.clone();
                for at in [1, 2] {
                    let mut call = calls[0].clone();
                    if let Some(word) = call.get_mut(at) {
                        *word = file.clone();
                        all.push(call);
                    }
                }
                all.push(words(&["check"]));
                for call in &all {
                    assert_harmless(&home, call);
                }
            }
        }
    }
}

/// A theme is called as its file is, and settings that name it become the default that help shows.
#[test]
fn no_setting_reaches_the_help_as_it_is() {
    let home = Home::new();
    let name = "x\u{1b}[5mx\u{9b}\u{202e}";
    home.put(&format!("fretloom/themes/{name}.toml"), "cursor = \"red\"\n");
    home.put("fretloom/settings.toml", "theme = \"x\\u001b[5mx\\u009b\\u202e\"\n");
    for call in [&["--help"][..], &["-h"], &["settings"], &["settings", "--json"], &["--theme=y"]] {
        assert_harmless(&home, &words(call));
    }
}

/// What the program itself makes needs no cleaning: nothing in it is written as a code.
#[test]
fn scripts_pages_and_samples_are_printed_as_they_are() {
    let home = Home::new();
    for call in [
        &["completions", "bash"][..],
        &["completions", "zsh"],
        &["completions", "fish"],
        &["completions", "elvish"],
        &["completions", "powershell"],
        &["manual"],
        &["manual", "neck"],
        &["settings", "--sample=keys"],
    ] {
        let printed = home.run(call).printed();
        assert!(!printed.contains("\\u{"), "{call:?}");
    }
}
