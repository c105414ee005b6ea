//! Bad files of lines: what cannot be fingered is refused with one message, and never with a panic.
//!
//! `tests/bad/lines/` holds one mistake a file; what would be too long to keep is made here.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use std::fs;
use std::path::{Path, PathBuf};

use program::{Home, Said};

/// The longest file that is read.
const LONGEST: usize = 16 << 20;

fn refused(arguments: &[&str]) -> String {
    let said = Home::new().run(arguments);
    assert_eq!((said.status, said.out.as_str()), (Some(1), ""), "{}", said.err);
    said.err
}

/// The mistakes and their messages, by name.
fn mistakes() -> Vec<(PathBuf, PathBuf)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad/lines");
    let paths = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let (messages, files): (Vec<PathBuf>, Vec<PathBuf>) =
        paths.partition(|path| path.extension().is_some_and(|extension| extension == "txt"));
    assert_eq!(messages.len(), files.len());
    let message = |file: PathBuf| (file.with_extension("txt"), file);
    files.into_iter().map(message).map(|(message, file)| (file, message)).collect()
}

#[test]
fn each_mistake_has_its_message() {
    for (file, message) in mistakes() {
        let content = fs::read_to_string(&message).unwrap();
        let (arguments, expected) = content.split_once("\n\n").unwrap();
        let name = file.to_str().unwrap();
        let arguments = arguments.lines().map(|word| if word == "FILE" { name } else { word });
        let said = refused(&arguments.collect::<Vec<_>>());
        assert_eq!(said, expected.replace("FILE", name));
        assert!(said.lines().count() == 1 && said.contains("expected"), "{said}");
    }
}

#[test]
fn standard_input_is_refused_alike() {
    let said = Said::by_piping("do re mi", Home::new().program().args(["finger", "-"]));
    let expected = "fretloom: cannot read the line in -: its beginning is unknown; expected a MIDI \
                    file, MusicXML (also .mxl) or JSON with notes\n";
    assert_eq!((said.status, said.err.as_str()), (Some(1), expected));
}

#[test]
fn files_that_cannot_be_opened_say_why() {
    let home = Home::new();
    let folder = home.put("line.json", "").parent().unwrap().to_str().unwrap().to_owned();
    let missing = format!("{folder}/missing");
    for (file, why) in [(&missing, "there is no such file"), (&folder, "it is a folder")] {
        let expected =
            format!("fretloom: cannot read the file {file}: {why}; expected a readable file\n");
        assert_eq!(refused(&["finger", file]), expected);
    }
}

#[test]
fn a_longer_file_than_any_is_left_unread() {
    let home = Home::new();
    let note = r#"{"notes":[{"onset_s":0,"duration_s":1,"midi":60}]}"#;
    let longest = note.to_owned() + &" ".repeat(LONGEST - note.len());
    assert_eq!(longest.len(), LONGEST);
    home.run(&["finger", home.put("longest.json", &longest).to_str().unwrap()]).printed();
    let huge = home.put("huge.json", &(longest + " "));
    let mut names = vec![huge.to_str().unwrap()];
    if cfg!(unix) {
        names.push("/dev/zero");
    }
    for name in names {
        let expected = format!(
            "fretloom: cannot read the line in {name}: it is longer than 16 MiB; expected a \
             shorter file\n"
        );
        assert_eq!(refused(&["finger", name]), expected);
    }
}

#[test]
fn what_nests_without_end_is_refused() {
    let home = Home::new();
    let deep_xml = format!("<score-partwise>{}", "<part>".repeat(100_000));
    let deep_note = format!("{{\"notes\":[{}", "{\"midi\":".repeat(100_000));
    for (content, words) in [
        (deep_xml, "line 1, column 611: too many elements in one another; expected XML that nests"),
        (deep_note, "expected JSON as in"),
    ] {
        let file = home.put("deep", &content);
        let said = refused(&["finger", file.to_str().unwrap()]);
        assert!(said.contains(words) && said.len() < 1000, "{said}");
    }
}

#[test]
fn messages_of_huge_texts_stay_short_and_harmless() {
    let home = Home::new();
    let long = "\u{1b}[31m".repeat(100_000);
    for content in [
        format!("<{long}/>"),
        format!("<score-partwise><part id=\"{long}\"/><part id=\"{long}\"/></score-partwise>"),
        format!("{{\"notes\":[{{\"{}\":0}}]}}", "x".repeat(100_000)),
        format!("{{\"notes\":[\"{}\"]}}", "x".repeat(100_000)),
    ] {
        let file = home.put("long", &content);
        let said = refused(&["finger", file.to_str().unwrap()]);
        assert!(said.len() < 1000 && !said.contains('\u{1b}'), "{} bytes", said.len());
    }
}

/// Ten seconds of work are enough for a file that is full of attributes, and a hundred thousand times
/// enough for its notes.
#[test]
#[cfg(unix)]
fn attributes_without_end_take_no_time_without_end() {
    let attributes: String = (0..400_000).map(|n| format!(" a{n}=\"\"")).collect();
    let note = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration></note>";
    let file = format!(
        "<score-partwise{attributes}><part id=\"P1\"><measure number=\"1\"><attributes><divisions>1\
         </divisions></attributes>{note}</measure></part></score-partwise>"
    );
    let home = Home::new();
    let file = home.put("line.musicxml", &file);
    let mut shell = std::process::Command::new("sh");
    shell.args(["-c", "ulimit -t 10; exec \"$0\" finger \"$1\""]);
    shell.arg(env!("CARGO_BIN_EXE_fretloom")).arg(&file).env_clear();
    let said = Said::by(shell.env("XDG_CONFIG_HOME", home.folder()));
    assert_eq!((said.status, said.err.as_str()), (Some(0), ""));
}

/// Whatever a score may hold many of, as many as fit in a file: ten seconds of work and a gigabyte
/// are enough, and most take a hundredth of that. `#` is a number that is another each time.
#[test]
#[cfg(unix)]
fn nothing_that_a_score_holds_many_of_takes_time_or_memory_without_end() {
    let in_measure = [
        "<attributes><transpose number=\"#\"><chromatic>1</chromatic></transpose></attributes>",
        "<attributes><key><fifths>1</fifths></key></attributes>",
        "<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>",
        "<attributes><clef number=\"#\"><sign>G</sign></clef></attributes>",
        "<direction><sound tempo=\"#\"/></direction>",
        "<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>",
        "<note><rest/><duration>1</duration><voice>#</voice></note>",
        "<note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration>\
         <tie type=\"start\"/><voice>#</voice></note><backup><duration>1</duration></backup>",
        "<note><grace/><pitch><step>C</step><octave>4</octave></pitch><voice>#</voice></note>",
        "<forward><duration>0.#</duration></forward>",
        "</measure><measure number=\"#\">",
        "</measure></part><part id=\"Q#\"><measure>",
        "<!-- # -->",
        "&amp;",
    ];
    let in_list = ["<score-part id=\"R#\"><part-name>#</part-name></score-part>"];
    let of_measure = in_measure.iter().map(|many| (many, score("", &as_many_as_fit(many))));
    let of_list = in_list.iter().map(|many| (many, score(&as_many_as_fit(many), "")));
    let home = Home::new();
    for (many, content) in of_measure.chain(of_list) {
        let file = home.put("line.musicxml", &content);
        let mut shell = std::process::Command::new("sh");
        let limited = "ulimit -t 10; ulimit -v 1000000; exec \"$0\" finger \"$1\" --ways 1";
        shell.args(["-c", limited, env!("CARGO_BIN_EXE_fretloom")]).arg(&file).env_clear();
        let said = Said::by(shell.env("XDG_CONFIG_HOME", home.folder()));
        assert!(matches!(said.status, Some(0 | 1)), "{many}: {:?} {}", said.status, said.err);
    }
}

/// So many that a file is nearly as long as files may be.
fn as_many_as_fit(many: &str) -> String {
    let count = 16_000_000 / (many.len() + 10);
    (0..count).map(|n| many.replace('#', &n.to_string())).collect()
}

/// A score of one note, with this in its list of parts and in its measure.
fn score(list: &str, measure: &str) -> String {
    format!(
        "<score-partwise><part-list>{list}</part-list><part id=\"P1\"><measure number=\"1\">\
         <attributes><divisions>1</divisions></attributes>{measure}<note><pitch><step>C</step>\
         <octave>4</octave></pitch><duration>1</duration></note></measure></part></score-partwise>"
    )
}
