//! The whole screen, cell by cell: its text and its styles, kept as snapshots.
//!
//! A snapshot is the text of a screen with the runs of its styles. Theme and signs are chosen here,
//! so that the environment does not matter. Sizes that no player works at must not panic either;
//! `tests/monkey.rs` sees to keys at any size.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

#[path = "support/styled_text.rs"]
mod styled_text;

use fretloom::library::Library;
use fretloom::settings::Settings;
use fretloom::tui::event::Event;
use fretloom::tui::program::Program;
use fretloom::tui::runtime::App;
use fretloom::tui::text_of;
use fretloom::tui::theme::{Depth, Theme};
use fretloom_theory::Spelling;
use insta::assert_snapshot;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use styled_text::styled_text;

fn opened() -> Program {
    let library = Library::load(None);
    let mut program = Program::open(None, "guitar-standard", library, Spelling::Plain).unwrap();
    program.use_theme(Theme::terminal());
    program
}

fn press(program: &mut Program, keys: &str) {
    for key in keys.split_whitespace() {
        program.update(Event::Key(key.parse().unwrap()));
    }
}

fn drawn(program: &mut Program, columns: u16, rows: u16) -> Buffer {
    program.update(Event::Resize { columns, rows });
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    program.draw(area, &mut buffer);
    buffer
}

/// Every screen there is, and the keys that lead there.
const SCREENS: [(&str, &str); 17] = [
    ("explorer", ""),
    ("climbing", "space space n l"),
    ("position", "v x n n n"),
    ("strings", "v v x x x x"),
    ("across", "v v v n n n n"),
    ("two", "v v v v x n n n n"),
    ("left_out", "L n"),
    ("true_widths", "W L r"),
    ("stays", "down"),
    ("help", "?"),
    ("tunings", "g down"),
    ("search", "g b a n j o down"),
    ("scales", "e down"),
    ("chord", "c C 7 a l t"),
    ("bad_chord", "c C m q"),
    ("wish", "w 7 , - 1 3"),
    ("chromatic", "S"),
];

const SIZES: [(u16, u16); 3] = [(80, 24), (120, 40), (200, 60)];

/// Each screen at each size, in colours and without any, without signs too.
#[test]
fn every_screen_at_every_size_in_colours_and_in_plain_ascii() {
    let themes =
        [("dark", Theme::built_in("dark", Depth::Full).unwrap()), ("ascii", Theme::monochrome())];
    let library = Library::load(None);
    for ((screen, keys), (columns, rows)) in
        SCREENS.into_iter().flat_map(|screen| SIZES.map(|size| (screen, size)))
    {
        for (name, theme) in themes {
            let mut program =
                Program::open(None, "guitar-standard", library.clone(), Spelling::Plain).unwrap();
            program.use_theme(theme);
            if name == "ascii" {
                program.use_ascii();
            }
            program.update(Event::Resize { columns, rows });
            press(&mut program, keys);
            let buffer = drawn(&mut program, columns, rows);
            assert!(name != "ascii" || text_of(&buffer).is_ascii(), "{screen}");
            let snapshot = format!("{screen}_{columns}x{rows}_{name}");
            assert_snapshot!(snapshot, styled_text(&buffer));
        }
    }
}

/// The screen on an instrument after some keys.
fn on(tuning: &str, keys: &str, columns: u16, rows: u16) -> Buffer {
    let library = Library::load(None);
    let mut program = Program::open(None, tuning, library, Spelling::Plain).unwrap();
    program.use_theme(Theme::terminal());
    program.update(Event::Resize { columns, rows });
    press(&mut program, keys);
    drawn(&mut program, columns, rows)
}

const TWELVE_STRINGS: &str = "C2 F2 A#2 D#3 G#3 C#4 F#4 B4 E5 A5 D6 G6";

#[test]
fn necks_of_three_to_twelve_strings() {
    for (name, tuning, keys) in [
        ("three_strings", "guitar-3-string-gdg", ""),
        ("ukulele_left_handed", "ukulele-high-g", "r"),
        ("banjo", "banjo-open-g", ""),
        ("seven_strings_capo", "guitar-7-string", "i i space"),
        ("nine_strings", "guitar-9-string", "n"),
        ("twelve_strings", TWELVE_STRINGS, ""),
        ("upside_down_left_handed_capo", "guitar-standard", "i i i r y"),
    ] {
        assert_snapshot!(format!("{name}_80x24"), styled_text(&on(tuning, keys, 80, 24)));
    }
    assert_snapshot!("banjo_120x40", styled_text(&on("banjo-open-g", "i", 120, 40)));
    assert_snapshot!("twelve_strings_120x40", styled_text(&on(TWELVE_STRINGS, "", 120, 40)));
}

#[test]
fn another_place_with_other_fingers() {
    let screen = on("guitar-standard", "o h", 80, 24);
    assert_snapshot!("other_place_80x24", styled_text(&screen));
}

/// The list of pairs gives way, never a string of the neck.
#[test]
fn every_string_is_drawn_at_24_rows() {
    for (tuning, count) in [("guitar-9-string", 9), (TWELVE_STRINGS, 12)] {
        let text = text_of(&on(tuning, "", 80, 24));
        for number in 1..=count {
            let there =
                text.lines().any(|line| line.trim_start().starts_with(&format!("{number} ")));
            assert!(there, "{number}\n{text}");
        }
        assert!(text.contains("▸ G & A"), "{text}");
    }
}

/// Every key of views, capo and hand on every instrument; each leaves a screen with all strings.
#[test]
fn every_instrument_takes_every_view() {
    let keys = "v x n n n n v x x v x v x o h i i r y space space v o o h I";
    for (tuning, _) in Library::load(None).tunings.iter() {
        let mut program = {
            let library = Library::load(None);
            Program::open(Some("C7alt"), tuning.id(), library, Spelling::Plain).unwrap()
        };
        program.update(Event::Resize { columns: 80, rows: 24 });
        for key in keys.split_whitespace() {
            press(&mut program, key);
            let text = text_of(&drawn(&mut program, 80, 24));
            let strings = text.lines().filter(|line| line.contains(['┃', '‹']));
            let count = strings.filter(|line| line.contains(['┼', '┤', '├', '╪'])).count();
            assert_eq!(count, tuning.string_count(), "{} {key}\n{text}", tuning.id());
        }
    }
}

/// Every theme with colours, at every depth that changes them.
#[test]
fn themes() {
    for (name, depth, snapshot) in [
        ("dark", Depth::Full, "dark_full_80x24"),
        ("dark", Depth::TwoHundredFiftySix, "dark_256_80x24"),
        ("dark", Depth::Sixteen, "dark_16_80x24"),
        ("light", Depth::Full, "light_full_80x24"),
        ("high-contrast", Depth::Full, "high_contrast_full_80x24"),
    ] {
        let mut program = opened();
        program.use_theme(Theme::built_in(name, depth).unwrap());
        press(&mut program, "space");
        assert_snapshot!(snapshot, styled_text(&drawn(&mut program, 80, 24)));
    }
}

#[test]
fn the_neck_is_drawn_as_its_player_has_settled_it() {
    let settings = Settings {
        left_handed: true,
        upside_down: true,
        labels: "member".parse().unwrap(),
        ..Settings::default()
    };
    let mut program = opened();
    program.use_settings(&settings);
    let text = text_of(&drawn(&mut program, 80, 24));
    assert!(text.contains("shown: member"), "{text}");
    let strings: Vec<&str> = text.lines().filter(|line| line.contains('┃')).collect();
    assert!(strings[0].trim_end().ends_with('6'), "{text}");
    assert!(strings[0].find('┃') > strings[0].find('┼'), "{text}");
}

#[test]
fn nothing_is_drawn_on_nothing() {
    assert_eq!(drawn(&mut opened(), 0, 0).content, []);
    assert_eq!(drawn(&mut opened(), 80, 0).content, []);
    assert_eq!(drawn(&mut opened(), 0, 24).content, []);
}

#[test]
fn a_tiny_screen_shows_the_chord_and_its_pair() {
    let text = |columns, rows| text_of(&drawn(&mut opened(), columns, rows));
    assert_eq!(text(1, 1), "G\n");
    assert_eq!(text(20, 5), "Gmaj7♯11\nG & A\nmore from 40×15 on\n\n\n");
    let too_small = "Gmaj7♯11\nG & A\nmore from 40×15 on\n";
    for (columns, rows) in [(39, 15), (40, 14)] {
        let blank = "\n".repeat(usize::from(rows) - 3);
        assert_eq!(text(columns, rows), format!("{too_small}{blank}"));
    }
}

#[test]
fn the_least_screen_has_pairs_neck_and_footer() {
    let text = text_of(&drawn(&mut opened(), 40, 15));
    for wanted in ["Gmaj7♯11   G Lydian", "▸ G & A", " 1 E (E) ", " 6 E (E) ", "? help"] {
        assert!(text.contains(wanted), "{wanted}\n{text}");
    }
}

#[test]
fn a_huge_screen_shows_the_whole_neck_once() {
    let text = text_of(&drawn(&mut opened(), 500, 200));
    assert!(text.contains("frets 1–22 of 22"));
    assert_eq!(text.matches("leaves out  rubs").count(), 1);
    assert!(text.lines().last().unwrap().starts_with(" ? help"));
}
