//! The files that `line` writes: whole, where they are asked for, and never over another one unasked.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use std::fs;
use std::path::Path;

use program::{Home, Said};

/// `line Dm7` with these words after it, in a folder.
fn line(home: &Home, words: &[&str]) -> Said {
    Said::by(home.program().args(["line", "Dm7"]).args(words))
}

/// What the folder holds.
fn names(home: &Home) -> Vec<String> {
    let entries = fs::read_dir(home.folder()).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

fn assert_refused(home: &Home, words: &[&str], message: &str) {
    let before = names(home);
    let said = line(home, words);
    assert_eq!(said.err, format!("fretloom: {message}\n"));
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
    assert_eq!(names(home), before, "{words:?}");
}

#[test]
fn files_are_written_and_named() {
    let home = Home::new();
    let printed = line(&home, &["--midi", "a.mid"]).printed();
    assert!(printed.ends_with("\nwritten: a.mid\n"), "{printed}");
    assert!(fs::read(home.folder().join("a.mid")).unwrap().starts_with(b"MThd"));
    let plain = line(&home, &[]).printed();
    assert_eq!(printed, plain + "written: a.mid\n");
    assert_eq!(names(&home), ["a.mid"]);
}

#[test]
fn json_is_the_same_with_files_and_without() {
    let home = Home::new();
    let with = line(&home, &["--json", "--midi", "a.mid"]).printed();
    assert_eq!(with, line(&home, &["--json"]).printed());
    assert_eq!(names(&home), ["a.mid"]);
}

#[test]
fn a_file_that_is_there_is_kept_unless_it_may_be_replaced() {
    let home = Home::new();
    let file = home.put("a.mid", "somebody's work");
    assert_refused(
        &home,
        &["--midi", "a.mid"],
        "cannot write the file a.mid: it is there already; expected a name that is free, or \
         --overwrite",
    );
    assert_eq!(fs::read(&file).unwrap(), b"somebody's work");
    line(&home, &["--midi", "a.mid", "--overwrite"]).printed();
    assert!(fs::read(&file).unwrap().starts_with(b"MThd"));
    assert_eq!(names(&home), ["a.mid"]);
}

#[test]
fn places_where_no_file_can_be_are_refused_in_words() {
    let home = Home::new();
    home.put("folder/x", "");
    home.put("file", "");
    for (name, reason) in [
        ("folder", "it is a folder; expected the name of a file"),
        ("-", "standard output is for the answer itself; expected the name of a file"),
        ("..", "that is no name of a file; expected the name of a file"),
        ("no/a.mid", "there is no folder no; expected a folder that is there"),
        ("file/a.mid", "there is no folder file; expected a folder that is there"),
    ] {
        let message = format!("cannot write the file {name}: {reason}");
        assert_refused(&home, &["--midi", name, "--overwrite"], &message);
    }
}

#[test]
fn a_name_that_is_too_long_is_refused_in_words() {
    let home = Home::new();
    let name = "a".repeat(300);
    let message = format!(
        "cannot write the file {name}: its name is too long, or is none; expected a place where \
         files may be written"
    );
    assert_refused(&home, &["--midi", &name], &message);
}

#[test]
fn a_line_that_cannot_be_made_writes_nothing() {
    let home = Home::new();
    let said = line(&home, &["--midi", "a.mid", "--tempo", "0.001"]);
    assert_eq!(
        said.err,
        "fretloom: cannot read the tempo \"0.001\": expected quarter notes a minute, 10 to 500, as \
         in 120\n"
    );
    assert_eq!((said.status, names(&home)), (Some(1), vec![]));
}

/// A device stays what it is: it is written to and not replaced.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told() {
    let home = Home::new();
    let full = "/dev/full";
    assert_refused(
        &home,
        &["--midi", full],
        "cannot write the file /dev/full: it is there already; expected a name that is free, or \
         --overwrite",
    );
    assert_refused(
        &home,
        &["--midi", full, "--overwrite"],
        "cannot write the file /dev/full: the disk is full; expected a place where files may be \
         written",
    );
    assert!(!fs::metadata(full).unwrap().is_file());
}

/// What is no folder that may be written to, for everybody: that of the system's own facts.
#[cfg(target_os = "linux")]
#[test]
fn a_place_that_may_not_be_written_is_told() {
    let home = Home::new();
    let said = line(&home, &["--midi", "/proc/a.mid"]);
    assert!(said.err.starts_with("fretloom: cannot write the file /proc/a.mid: "), "{}", said.err);
    assert!(said.err.ends_with("; expected a place where files may be written\n"), "{}", said.err);
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
}

#[test]
fn two_files_of_one_name_are_refused() {
    let home = Home::new();
    for other in ["a.xml", "./a.xml"] {
        let message = format!(
            "cannot write the file {other}: it is named twice; expected another name for each file"
        );
        assert_refused(&home, &["--midi", "a.xml", "--musicxml", other, "--overwrite"], &message);
    }
}

/// Where one of several files cannot be written, none is, and what was there is as it was.
#[cfg(target_os = "linux")]
#[test]
fn all_files_are_written_or_none() {
    let home = Home::new();
    let old = home.put("a.mid", "somebody's work");
    for words in [
        ["--midi", "a.mid", "--musicxml", "/dev/full", "--overwrite"],
        ["--midi", "a.mid", "--musicxml", "no/a.xml", "--overwrite"],
        ["--musicxml", "b.xml", "--midi", "/proc/b.mid", "--overwrite"],
    ] {
        let said = line(&home, &words);
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{words:?}: {}", said.err);
        assert_eq!(fs::read(&old).unwrap(), b"somebody's work", "{words:?}");
        assert_eq!(names(&home), ["a.mid"], "{words:?}");
    }
}

#[test]
fn twelve_keys_are_one_file() {
    let home = Home::new();
    let one = line(&home, &["--bars", "2", "--midi", "one.mid"]).printed();
    let all = line(&home, &["--bars", "2", "--keys", "fourths", "--midi", "all.mid"]).printed();
    let size = |name| fs::metadata(Path::new(home.folder()).join(name)).unwrap().len();
    assert!(size("all.mid") > 5 * size("one.mid"), "{one}{all}");
}

#[test]
fn overwrite_alone_says_what_it_needs() {
    let said = line(&Home::new(), &["--overwrite"]);
    assert_eq!((said.status, said.out.as_str()), (Some(2), ""));
    assert!(said.err.contains("--midi"), "{}", said.err);
}
