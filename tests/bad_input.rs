//! Bad input: what cannot be read is refused with one message, and never with a panic.
//!
//! `tests/bad/` holds one mistake a file, with the message word for word; its README tells the
//! form.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use std::fs;
use std::path::{Path, PathBuf};

use program::{Home, Said};

/// The longest list of symbols that is read.
const MEBIBYTE: usize = 1 << 20;

/// The files of a folder of `tests/bad/` with this extension, by name.
fn files(folder: &str, extension: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(folder);
    let paths = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let wanted = |path: &PathBuf| path.extension().is_some_and(|found| found == extension);
    let mut paths: Vec<PathBuf> = paths.filter(wanted).collect();
    paths.sort();
    assert!(!paths.is_empty());
    paths
}

fn run(arguments: &[&str]) -> Said {
    Home::new().run(arguments)
}

/// Refused as the input's fault, in these words.
fn assert_refused(said: &Said, message: &str) {
    assert_eq!(said.err, message);
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{message}");
}

/// Refused as wrong usage, with these words among clap's own.
fn assert_wrong_usage(arguments: &[&str], words: &[&str]) {
    let said = run(arguments);
    assert_eq!((said.status, said.out.as_str()), (Some(2), ""), "{arguments:?}: {}", said.err);
    for words in words {
        assert!(said.err.contains(words), "{arguments:?}: {}", said.err);
    }
}

#[test]
fn each_mistake_has_its_message() {
    for path in files("bad", "txt") {
        let content = fs::read_to_string(&path).unwrap();
        let (arguments, message) = content.split_once("\n\n").unwrap();
        let said = run(&arguments.lines().collect::<Vec<_>>());
        assert_eq!(said.err, message, "{}", path.display());
        assert_refused(&said, message);
        assert_eq!(message.lines().count(), 1, "{}", path.display());
        assert!(message.contains("expected"), "{}", path.display());
    }
}

#[test]
fn each_broken_tuning_costs_itself_only() {
    for path in files("bad/tunings", "toml") {
        let home = Home::new();
        let name = path.file_name().unwrap().to_str().unwrap();
        let content = fs::read_to_string(&path).unwrap();
        let put = home.put(&format!("fretloom/tunings/{name}"), &content);
        let good = content_of_a_good_tuning();
        home.put("fretloom/tunings/zz-good.toml", &good);
        let said = home.run(&["tunings"]);
        let expected = fs::read_to_string(path.with_extension("txt")).unwrap();
        assert_eq!(said.err, expected.replace("FILE", put.to_str().unwrap()), "{name}");
        assert_eq!(said.status, Some(0), "{name}");
        assert!(said.out.contains("guitar-standard") && said.out.contains("zz-good"), "{name}");
        let shapes = home.run(&["shapes", "G", "--tuning", "zz-good", "--json"]);
        assert_eq!((shapes.status, &shapes.err), (Some(0), &said.err), "{name}");
    }
}

fn content_of_a_good_tuning() -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tunings");
    fs::read_to_string(folder.join("guitar-drop-d.toml")).unwrap()
}

#[test]
fn a_huge_tuning_file_is_left_unread() {
    let home = Home::new();
    let huge = format!("{}# {}\n", content_of_a_good_tuning(), "x".repeat(1 << 20));
    let put = home.put("fretloom/tunings/huge.toml", &huge);
    let said = home.run(&["tunings"]);
    let expected = format!(
        "fretloom: {}:1:1: expected a file that can be read (it is longer than 64 KiB)\n",
        put.display()
    );
    assert_eq!(said.err, expected);
    assert_eq!(said.status, Some(0));
    assert!(!said.out.contains("huge"));
}

#[test]
fn files_that_cannot_be_read_say_why() {
    let home = Home::new();
    let binary = home.put("symbols", "");
    fs::write(&binary, [0xff, 0xfe, 0x00]).unwrap();
    let folder = binary.parent().unwrap().to_str().unwrap();
    let missing = format!("{folder}/missing");
    let (binary, missing) = (binary.to_str().unwrap(), missing.as_str());
    for (file, why) in [
        (missing, "there is no such file"),
        (folder, "it is a folder"),
        (binary, "it is not UTF-8 text"),
    ] {
        let message = format!(
            "fretloom: cannot read the file {file}: {why}; expected a readable text file\n"
        );
        assert_refused(&home.run(&["chord", "--file", file]), &message);
    }
}

/// The name, as it stands in the message, of a list that is too long.
fn too_long(name: &str) -> String {
    let why = "it is longer than 1 MiB; expected a readable text file";
    format!("fretloom: cannot read the file {name}: {why}\n")
}

#[test]
fn a_list_of_symbols_longer_than_a_mebibyte_is_left_unread() {
    let home = Home::new();
    let longest = home.put("longest", &"Gmaj7#11\n".repeat(116_508));
    assert!((MEBIBYTE - 9..=MEBIBYTE).contains(&(fs::metadata(&longest).unwrap().len() as usize)));
    let read = home.run(&["chord", "--file", longest.to_str().unwrap()]).printed();
    assert_eq!(read.lines().count(), 116_508);
    for content in ["C7\n".repeat(2 * MEBIBYTE / 3), "♭".repeat(2 * MEBIBYTE / 3)] {
        let huge = home.put("huge", &content);
        let name = huge.to_str().unwrap();
        assert_refused(&home.run(&["chord", "--file", name]), &too_long(name));
        let mut program = home.program();
        let piped = program.args(["chord", "--file", "-"]).stdin(fs::File::open(&huge).unwrap());
        assert_refused(&Said::by(piped), &too_long("-"));
    }
}

#[cfg(unix)]
#[test]
fn what_has_no_end_is_left_after_a_mebibyte() {
    let home = Home::new();
    let endless = "/dev/zero";
    assert_refused(&home.run(&["chord", "--file", endless]), &too_long(endless));
    let mut program = home.program();
    let piped = program.args(["chord", "--file", "-"]).stdin(fs::File::open(endless).unwrap());
    assert_refused(&Said::by(piped), &too_long("-"));
}

#[test]
fn where_there_is_no_terminal_the_commands_are_named() {
    let message = "fretloom: the screen needs a terminal, and this is none; these commands print \
                   text: pairs, scales, triads, chord, shapes, ladder, neck, line, sheet, changes, explain, finger, tunings (see \
                   fretloom --help)\n";
    for arguments in [&[][..], &["Gmaj7"], &["--tuning", "guitar-dadgad", "Am7"], &[""]] {
        assert_refused(&run(arguments), message);
    }
}

#[test]
fn unknown_commands_suggest_the_nearest() {
    let usage = "Usage: fretloom [OPTIONS] [CHORD] [COMMAND]";
    let pairs = "\"pears\" is no command; did you mean pairs?";
    assert_wrong_usage(&["pears", "Gmaj7"], &[pairs, usage]);
    assert_wrong_usage(&["pears"], &[pairs, usage]);
    assert_wrong_usage(&["--json", "pears", "Gmaj7"], &[pairs, usage]);
    assert_wrong_usage(&["scale", "Gmaj7"], &["did you mean scales?"]);
    let one_chord = "\"Gmaj7\" is no command; expected one chord, or a command and its chord";
    assert_wrong_usage(&["Gmaj7", "Am7"], &[one_chord, usage]);
    let after = "\"Gmaj7\" stands first; expected it after the command, as in fretloom pairs Gmaj7";
    assert_wrong_usage(&["Gmaj7", "pairs", "Am7"], &[after, usage]);
}

#[test]
fn wrong_calls_show_the_usage() {
    for command in [
        "pairs", "scales", "triads", "chord", "shapes", "ladder", "neck", "line", "sheet",
        "changes", "explain", "finger",
    ] {
        let usage = format!("Usage: fretloom {command}");
        assert_wrong_usage(&[command], &["required arguments were not provided", &usage]);
        assert_wrong_usage(&[command, "G", "--loud"], &["'--loud'", "Usage: fretloom"]);
    }
    assert_wrong_usage(&["ladder", "F"], &["<SECOND>"]);
    assert_wrong_usage(&["tunings", "standard"], &["'standard'", "Usage: fretloom tunings"]);
    let usage = "Usage: fretloom tunings compare";
    assert_wrong_usage(&["tunings", "compare", "guitar-standard"], &["<B>", usage]);
    assert_wrong_usage(&["--loud"], &["'--loud'", "Usage: fretloom"]);
    let alone = "expected the capo's fret too, as in --capo 2 --capo-strings 5-4-3";
    assert_wrong_usage(&["shapes", "G", "--capo-strings", "5-4-3"], &[alone]);
    assert_wrong_usage(&["pairs", "C7", "--all"], &["cannot be used with", "Usage:"]);
    assert_wrong_usage(&["chord", "C7", "--file", "x"], &["cannot be used with", "Usage:"]);
    assert_wrong_usage(&["shapes", "G", "--skips", "--strings", "3-2-1"], &["cannot be used with"]);
}

/// What would say nothing where it stands is refused, and not ignored.
#[test]
fn options_of_another_view_are_wrong_usage() {
    for (view, options, words) in [
        ("set", &["--position", "V"][..], "--position says nothing in the view set"),
        ("across", &["--position", "V"], "expected --view position or two"),
        ("position", &["--strings", "3-2-1"], "expected --view set or two"),
        ("across", &["--strings", "3-2-1"], "--strings says nothing in the view across"),
        ("two", &["--open"], "expected --view position"),
        ("position", &["--choice", "1"], "expected --view across or two"),
        ("set", &["--chain", "2"], "--choice says nothing in the view set"),
        ("two", &["--overlap", "yes"], "expected --view across"),
        ("two", &["--inversions", "root"], "expected --view across"),
        ("across", &["--inversions", "root,any,first"], "--inversions names 3: expected one"),
    ] {
        let call = [&["neck", "Dm7", "--view", view], options].concat();
        assert_wrong_usage(&call, &[words, "Usage: fretloom"]);
    }
    assert_wrong_usage(&["neck", "Dm7", "--choice", "1"], &["--view <VIEW>"]);
}

#[test]
fn two_tunings_are_compared_without_a_capo() {
    let compare = ["tunings", "compare", "guitar-standard", "guitar-dadgad", "--capo"];
    let words = "--capo is not used by tunings compare: expected two tunings and no capo";
    assert_wrong_usage(&[&compare[..], &["2"]].concat(), &[words]);
    assert_wrong_usage(&[&compare[..], &["2", "--capo-strings", "5-4-3"]].concat(), &[words]);
}

#[test]
fn wrong_values_of_options_say_what_was_expected() {
    let triads = "expected tertian, major, minor, diminished, augmented, sus, flat-five or all";
    assert_wrong_usage(&["pairs", "C7", "--families", "sus,odd"], &["\"odd\"", triads]);
    assert_wrong_usage(
        &["neck", "C7", "--labels", "x"],
        &["expected note, degree, member, finger or order"],
    );
    assert_wrong_usage(&["shapes", "G", "--inversion", "third"], &["root, first, second"]);
    assert_wrong_usage(&["shapes", "G", "--voicing", "x"], &["close, open, both"]);
    assert_wrong_usage(&["pairs", "C7", "--spelling", "x"], &["plain, strict"]);
    for span in ["wide", "-5", "nan", "inf"] {
        let expected = "expected millimetres, as in 90";
        assert_wrong_usage(&["shapes", "G", "--span", span], &[expected]);
    }
}

#[test]
fn an_empty_text_is_refused_wherever_one_is_read() {
    for arguments in [
        &["pairs", ""][..],
        &["pairs", "--scale", ""],
        &["scales", ""],
        &["triads", ""],
        &["chord", ""],
        &["shapes", ""],
        &["ladder", "", "G"],
        &["ladder", "F", "G", "--strings", ""],
        &["shapes", "G", "--strings", ""],
        &["shapes", "G", "--frets", ""],
        &["shapes", "G", "--tuning", ""],
        &["neck", "C7", "--pair", ""],
        &["neck", "C7", "--pair", "&"],
    ] {
        let said = run(arguments);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{arguments:?}");
        assert_eq!(said.err.lines().count(), 1, "{arguments:?}: {}", said.err);
        assert!(said.err.contains("expected"), "{arguments:?}: {}", said.err);
    }
}

#[test]
fn after_two_hyphens_everything_is_text() {
    let message = "fretloom: cannot read the chord \"-C\" at character 1: expected a note letter, \
                   A to G\n";
    assert_refused(&run(&["pairs", "--", "-C"]), message);
    assert_eq!(run(&["pairs", "--", "C7"]), run(&["pairs", "C7"]));
    assert_refused(&run(&["chord", "--", "--json"]), &message.replace("-C", "--json"));
}

/// Escape sequences would move the cursor or recolour the terminal of whoever reads the message.
#[test]
fn control_characters_never_reach_the_terminal() {
    let hostile = "C\u{1b}[31m7\u{7}\u{9b}2J";
    assert_eq!(run(&["pairs", "C\n7\n"]).err.lines().count(), 1);
    for arguments in [
        &["pairs", hostile][..],
        &["triads", hostile],
        &["shapes", hostile],
        &["shapes", "G", "--strings", hostile],
        &["shapes", "G", "--tuning", hostile],
        &["neck", "C7", "--pair", hostile],
        &["pairs", "C7", "--with", hostile],
        &["chord", "--file", hostile],
    ] {
        let said = run(arguments);
        assert_eq!(said.status, Some(1), "{arguments:?}");
        assert!(said.err.contains("\\u{1b}[31m7\\u{7}\\u{9b}2J"), "{}", said.err);
        assert_eq!(said.err.matches(char::is_control).collect::<String>(), "\n");
    }
    let home = Home::new();
    let symbols = format!("C7\n{hostile}\n");
    let listed = Said::by_piping(&symbols, home.program().args(["chord", "--file", "-"])).printed();
    assert_eq!(listed.matches(char::is_control).collect::<String>(), "\n\n");
}

#[test]
fn a_symbol_of_a_mebibyte_gets_a_short_answer() {
    let home = Home::new();
    let brackets = "(".repeat(MEBIBYTE - 1);
    for symbol in ["C".repeat(MEBIBYTE), "♭".repeat(MEBIBYTE / 3), "C".to_owned() + &brackets] {
        for json in [&[][..], &["--json"]] {
            let mut program = home.program();
            let program = program.args(["chord", "--file", "-"]).args(json);
            let said = Said::by_piping(&symbol, program).printed();
            assert!(said.len() < 1000, "{} bytes", said.len());
        }
    }
    // The longest argument that the systems at hand allow.
    let long = "x".repeat(100_000);
    for arguments in
        [&["pairs", &long][..], &["triads", &long], &["shapes", "G", "--tuning", &long]]
    {
        let said = run(arguments);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
        assert!(said.err.len() < 1000, "{} bytes", said.err.len());
    }
}

#[cfg(unix)]
#[test]
fn an_argument_that_is_no_text_is_wrong_usage() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;
    let bytes = OsStr::from_bytes(b"C\xff7");
    for arguments in [&["pairs".as_ref(), bytes][..], &[bytes], &["shapes".as_ref(), bytes]] {
        let said = Home::new().run(arguments);
        assert_eq!((said.status, said.out.as_str()), (Some(2), ""), "{}", said.err);
        assert!(said.err.contains("invalid UTF-8"), "{}", said.err);
    }
}

#[test]
fn messages_are_ascii_where_the_player_typed_ascii() {
    for path in files("bad", "txt") {
        let content = fs::read_to_string(&path).unwrap();
        let (arguments, message) = content.split_once("\n\n").unwrap();
        assert_eq!(arguments.is_ascii(), message.is_ascii(), "{}", path.display());
    }
}
