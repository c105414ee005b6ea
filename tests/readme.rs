//! The README shows the program as it is: its pictures are made from the real screens and commands.
//!
//! `FRETLOOM_PICTURES=write cargo test --test readme` makes them again; without it this test fails
//! where the README or a picture is out of date.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at the first surprise")]

#[path = "keepers/folder.rs"]
#[allow(dead_code, reason = "each test program uses its own part of this")]
mod folder;
#[path = "support/svg.rs"]
mod svg;

use std::fmt::Write as _;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use fretloom::library::Library;
use fretloom::store::KeeperStore;
use fretloom::tui::command::{COMMANDS, Section};
use fretloom::tui::event::Event;
use fretloom::tui::gesture::GESTURES;
use fretloom::tui::key::Glyphs;
use fretloom::tui::keys::Keys;
use fretloom::tui::program::{Effect, Program};
use fretloom::tui::runtime::App;
use fretloom::tui::{text_of, theme::Theme};
use fretloom_theory::Spelling;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The program on a chord after some keys, drawn at a size.
fn screen(chord: &str, keys: &str, columns: u16, rows: u16) -> Buffer {
    let library = Library::load(None);
    let program = Program::open(Some(chord), "guitar-standard", library, Spelling::Plain).unwrap();
    screen_of(program, keys, (columns, rows))
}

/// The program on the sixth of May with what is kept in a file, after some keys.
fn with_keepers(file: &str, keys: &str) -> Buffer {
    let folder = folder::Folder::holding(file);
    let library = Library::load(None);
    let mut program = Program::open(None, "guitar-standard", library, Spelling::Plain).unwrap();
    program.use_keepers(folder.store());
    program.update(Event::Time("2026-05-06T09:00[UTC]".parse().unwrap()));
    screen_of(program, keys, (80, 24))
}

fn screen_of(mut program: Program, keys: &str, (columns, rows): (u16, u16)) -> Buffer {
    program.use_theme(Theme::terminal());
    program.update(Event::Resize { columns, rows });
    for key in keys.split_whitespace() {
        let effects = program.update(Event::Key(key.parse().unwrap()));
        work(&mut program, effects);
    }
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    program.draw(area, &mut buffer);
    buffer
}

/// The program after some keys, with what was kept in a file of a few keepers.
fn practising(keys: &str) -> Buffer {
    let folder = std::env::temp_dir().join(format!("fretloom-readme-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let kept = include_str!("keepers/format-1.toml");
    std::fs::write(folder.join("keepers.toml"), kept).unwrap();
    let library = Library::load(None);
    let mut program =
        Program::open(Some("Dm7"), "guitar-standard", library, Spelling::Plain).unwrap();
    program.use_keepers(KeeperStore::in_folder(&folder));
    program.update(Event::Time("2026-05-08T09:00[UTC]".parse().unwrap()));
    let area = Rect::new(0, 0, 80, 24);
    program.update(Event::Resize { columns: area.width, rows: area.height });
    for key in keys.split_whitespace() {
        let effects = program.update(Event::Key(key.parse().unwrap()));
        work(&mut program, effects);
    }
    let mut buffer = Buffer::empty(area);
    program.draw(area, &mut buffer);
    std::fs::remove_dir_all(&folder).unwrap();
    buffer
}

/// Does at once what is to be worked out, and what that asks for.
fn work(program: &mut Program, effects: Vec<Effect>) {
    for effect in effects {
        if let Effect::Work(job) = effect {
            let effects = program.finish(job.run());
            work(program, effects);
        }
    }
}

/// A screen from the rule over the neck down, without the footer.
fn neck_of(screen: &Buffer) -> String {
    let text = text_of(screen);
    let from_rule = text.lines().skip_while(|line| !line.starts_with("─ frets"));
    let lines: Vec<&str> = from_rule.collect();
    lines.split_last().map(|(_, lines)| lines.join("\n")).unwrap_or_default()
}

/// What a command prints.
fn printed(arguments: &[&str]) -> String {
    printed_of("", arguments)
}

/// What a command prints that finds this on its standard input.
fn printed_of(typed: &str, arguments: &[&str]) -> String {
    let program = env!("CARGO_BIN_EXE_fretloom");
    let environment = [("LANG", "C.UTF-8"), ("XDG_CONFIG_HOME", "/nonexistent")];
    let mut child = Command::new(program)
        .args(arguments)
        .env_remove("LC_ALL")
        .env_remove("LC_CTYPE")
        .envs(environment)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    // A command that reads nothing may be gone already.
    let _ = child.stdin.take().unwrap().write_all(typed.as_bytes());
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success(), "{arguments:?}");
    String::from_utf8(output.stdout).unwrap()
}

fn fenced(text: &str) -> String {
    format!("```text\n{}\n```\n", text.trim_end())
}

/// A line over three chords, and what is typed for it.
const LINE_KEYS: &str = "3 c D m 7 space | space G 7 space | space C m a j 7 enter e 1 2 3 2 space \
                         3 2 1 space a enter right right";

/// The table of keys, from the live command table.
fn key_table() -> String {
    let (keys, _) = Keys::built_in();
    let mut table = String::from("| keys | what they do |\n|---|---|\n");
    for section in Section::ALL {
        writeln!(table, "| | **{}** |", section.heading()).unwrap();
        for row in COMMANDS.iter().filter(|row| row.listed == section) {
            let labels = keys.of(row).iter().map(|key| format!("`{}`", key.label(Glyphs::Unicode)));
            let labels = labels.collect::<Vec<_>>().join(" ");
            writeln!(table, "| {labels} | {} |", row.help).unwrap();
        }
    }
    table
}

/// The table of the mouse, from the live one.
fn mouse_table() -> String {
    let mut table = String::from("| with the mouse | what it does |\n|---|---|\n");
    for row in GESTURES {
        writeln!(table, "| {} | {} |", row.label(), row.help).unwrap();
    }
    table
}

/// A line as the README asks for it.
const README_LINE: [&str; 7] =
    ["line", "| Dm7 | G7 | Cmaj7 |", "--strings", "4-3-2", "--triads", "--below", "degrees"];

/// A line that is explained as the README asks for it.
const README_EXPLAIN: [&str; 4] = ["explain", "assets/lines/f-and-g.json", "--chords", "Dm7"];

/// A tune of four bars as the README asks for it.
const README_BARS: &str = "| F#m7b5 | B7alt | Em6 | % |";
const README_CHANGES: [&str; 6] = ["changes", "-", "--strings", "4-3-2", "--frets", "5-10"];

/// What is kept in the pictures.
const KEPT: &str = "format = 1
next_id = 4

[[keeper]]
id = 1
kept = 2026-05-04
chord = \"Dm7\"
scale = \"D Dorian\"
pair = \"F & G\"

[[keeper]]
id = 2
kept = 2026-05-04
chord = \"Gmaj7#11\"
scale = \"G Lydian\"
pair = \"G & A\"

[[keeper]]
id = 3
kept = 2026-05-05
chord = \"C7alt\"
scale = \"C altered\"
pair = \"Gb & Ab\"
";

/// Every part of the README that is made, by the name in its marker.
fn parts() -> Vec<(&'static str, String)> {
    vec![
        ("explore", fenced(&text_of(&screen("Gmaj7#11", "", 80, 24)))),
        ("altered", fenced(&text_of(&screen("A7alt", "t n l space space", 80, 24)))),
        ("pairs", fenced(&printed(&["pairs", "Dm7"]))),
        ("ladder", fenced(&printed(&["ladder", "Eb", "F", "--frets", "1-15"]))),
        ("neck", fenced(&printed(&["neck", "Dm7", "--frets", "1-9", "--labels", "degree"]))),
        ("line", fenced(&printed(&README_LINE))),
        ("changes", fenced(&printed_of(README_BARS, &README_CHANGES))),
        ("explain", fenced(&printed(&README_EXPLAIN))),
        ("finger", fenced(&printed(&["finger", "assets/lines/f-and-g.json", "--ways", "1"]))),
        ("across", fenced(&printed(&["neck", "Dm7", "--view", "across", "--frets", "0-12"]))),
        ("position", fenced(&neck_of(&screen("Gmaj7#11", "v x n n n", 80, 24)))),
        ("search", fenced(&text_of(&screen("Gmaj7#11", "g b a n j o", 80, 24)))),
        ("line-screen", fenced(&text_of(&screen("Dm7", LINE_KEYS, 80, 24)))),
        ("practice-screen", fenced(&text_of(&practising("; p")))),
        ("changes-screen", fenced(&text_of(&screen("Dm7", "4 o n i n e enter right", 80, 24)))),
        ("listen", fenced(&text_of(&with_keepers(KEPT, "f3 l space 3")))),
        ("keys", key_table()),
        ("mouse", mouse_table()),
    ]
}

/// `text` with what stands between the markers of `name` replaced.
fn with_part(text: &str, name: &str, part: &str) -> String {
    let (begin, end) = (format!("<!-- made: {name} -->\n"), format!("<!-- end: {name} -->"));
    let (before, rest) = text.split_once(&begin).unwrap_or_else(|| panic!("no marker {begin}"));
    let (_, after) = rest.split_once(&end).unwrap_or_else(|| panic!("no marker {end}"));
    format!("{before}{begin}{part}{end}{after}")
}

/// Writes the file where that is asked for, else holds it to what it should be.
fn settle(file: &Path, expected: &str) {
    if std::env::var_os("FRETLOOM_PICTURES").is_some_and(|wish| wish == "write") {
        std::fs::write(file, expected).unwrap();
        return;
    }
    let found = std::fs::read_to_string(file).unwrap_or_default();
    assert!(
        found == expected,
        "{} is out of date; FRETLOOM_PICTURES=write cargo test --test readme makes it again",
        file.display()
    );
}

#[test]
fn the_readme_shows_the_program_as_it_is() {
    let file = root().join("README.md");
    let found = std::fs::read_to_string(&file).unwrap();
    let expected =
        parts().into_iter().fold(found, |text, (name, part)| with_part(&text, name, &part));
    settle(&file, &expected);
    let typed = format!("echo '{README_BARS}' | fretloom {}", README_CHANGES.join(" "));
    assert!(expected.contains(&typed), "{typed}");
}

#[test]
fn the_picture_is_the_real_screen() {
    let picture = svg::of_buffer(&screen("Gmaj7#11", "space space", 110, 30));
    settle(&root().join("assets/pictures/explore.svg"), &picture);
}
