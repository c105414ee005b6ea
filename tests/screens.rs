//! The whole screen, cell by cell: its text and its styles.
//!
//! The screens that a person should look at are kept as snapshots: the text of a screen with the runs
//! of its styles. What follows from them at other sizes, in other themes, on other instruments and in
//! ASCII is checked by its meaning in `screens/`. Theme and signs are chosen here, so that the
//! environment does not matter. Sizes that no player works at must not panic either; `tests/monkey.rs`
//! sees to keys at any size.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "screens/ascii.rs"]
mod ascii;
#[path = "screens/blocks.rs"]
mod blocks;
#[path = "keepers/folder.rs"]
#[allow(dead_code, reason = "each test program uses its own part of this")]
mod folder;
#[path = "screens/larger.rs"]
mod larger;
#[path = "screens/marks.rs"]
mod marks;
#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "screens/necks.rs"]
mod necks;
#[path = "support/styled_text.rs"]
mod styled_text;
#[path = "screens/themes.rs"]
mod themes;

use folder::Folder;
use fretloom::library::Library;
use fretloom::settings::Settings;
use fretloom::sound::{Frames, PlayerState};
use fretloom::tui::event::{Event, SoundNews};
use fretloom::tui::program::{Effect, Program};
use fretloom::tui::runtime::App;
use fretloom::tui::text_of;
use fretloom::tui::theme::{Depth, Theme};
use fretloom_theory::Spelling;
use insta::assert_snapshot;
use necks::TWELVE_STRINGS;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use styled_text::styled_text;

fn opened() -> Program {
    let library = Library::load(None);
    let mut program = Program::open(None, "guitar-standard", library, Spelling::Plain).unwrap();
    program.use_theme(Theme::terminal());
    program
}

/// Presses keys; what is to be worked out for them is worked out at once.
fn press(program: &mut Program, keys: &str) {
    for key in keys.split_whitespace() {
        let effects = program.update(Event::Key(key.parse().unwrap()));
        work(program, effects);
    }
}

fn work(program: &mut Program, effects: Vec<Effect>) {
    for effect in effects {
        if let Effect::Work(job) = effect {
            let effects = program.finish(job.run());
            work(program, effects);
        }
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
const SCREENS: [(&str, &str); 18] = [
    ("explorer", ""),
    ("climbing", "space space n l"),
    ("position", "v x n n n"),
    ("strings", "v v x x x x"),
    ("across", "v v v x n n n n"),
    ("two", "v v v v x n n n n"),
    ("left_out", "L n"),
    ("true_widths", "W L r"),
    ("stays", "down"),
    ("help", "?"),
    ("tunings", "g down"),
    ("search", "g b a n j o down"),
    ("details", "D"),
    ("scales", "e down"),
    ("chord", "c C 7 a l t"),
    ("bad_chord", "c C m q"),
    ("wish", "w 7 , - 1 3"),
    ("chromatic", "S"),
];

/// What has no neck of the explorer: the page of sound and the other screens, and the keys that lead there.
const OTHERS: &[(&str, &str)] = &[
    ("sound", "Y down right f6"),
    ("line", "3"),
    ("line_edited", "3 right up right right o a right l pagedown y"),
    ("line_phrases", "3 c D m 7 | G 7 | C m a j 7 | % enter 8 C W right right right C A"),
    (
        "line_places",
        "3 c D m 7 | G 7 | C m a j 7 | % enter 8 C / V space 3 - 2 - 1 enter g ctrl-u 5 @ 2 . 3 space 7 @ 3 . 1 enter",
    ),
    ("changes", "4 c [ A ] space D m 7 | G 7 | C m a j 7 | % | A m 7 b 5 space D 7 enter right"),
    ("changes_settled", "4 p right i / V space 4 - 3 - 2 enter n"),
    ("changes_wished", "4 w m a j o r space & space m i n o r , n e v e r space F enter right"),
    ("changes_held", "4 right u u u left d right right l"),
    ("changes_mistake", "4 right enter G 7 space | space H 7"),
    ("line_mistake", "3 c D m 7 space | space H 7"),
];

const SIZES: [(u16, u16); 3] = [(80, 24), (120, 40), (200, 60)];

/// Each screen once, in the colours of the dark theme.
#[test]
fn every_screen() {
    for (screen, keys) in SCREENS.into_iter().chain(OTHERS.iter().copied()) {
        keep(
            &format!("{screen}_80x24_dark"),
            in_state("guitar-standard", keys, (80, 24)),
            (80, 24),
        );
    }
}

/// What is kept, and a turn of practice while it is answered.
#[test]
fn what_is_kept_and_practised() {
    let states = [
        ("keepers", "; down up"),
        ("keepers_typed", "; t"),
        ("practice", "; p"),
        ("practice_tune", "; end P"),
        ("practice_over", "; p right right right right right right right right right right"),
    ];
    for (state, keys) in states {
        let folder = Folder::holding(include_str!("keepers/format-1.toml"));
        keep(&format!("{state}_80x24_dark"), keeping(&folder, keys), (80, 24));
    }
    let folder = Folder::new();
    keep("keepers_empty_80x24_dark", keeping(&folder, ";"), (80, 24));
}

/// Ten and a half seconds into a try at 64: the second note of the answer.
#[test]
fn a_try_that_is_answered() {
    let folder = Folder::holding(include_str!("keepers/format-1.toml"));
    let mut program = keeping(&folder, "; p space");
    let (state, position) = (PlayerState::Playing, Frames(48_000 * 25 / 2));
    program.update(Event::Sound(SoundNews { state, position, way: None }));
    keep("practice_answered_80x24_dark", program, (80, 24));
}

/// The program on what is kept in a folder, on the eighth of May.
fn keeping(folder: &Folder, keys: &str) -> Program {
    let mut program = opened();
    program.use_keepers(folder.store());
    program.update(Event::Time("2026-05-08T09:00[UTC]".parse().unwrap()));
    program.update(Event::Resize { columns: 80, rows: 24 });
    press(&mut program, keys);
    program
}

/// A bar and three quarters into the line: three and a half seconds at 120.
#[test]
fn a_line_that_is_played() {
    let mut program = in_state("guitar-standard", "3", (80, 24));
    for effect in program.update(Event::Key("space".parse().unwrap())) {
        let Effect::Work(job) = effect else { panic!("{effect:?}") };
        program.finish(job.run());
    }
    let (state, position) = (PlayerState::Playing, Frames(168_000));
    program.update(Event::Sound(SoundNews { state, position, way: None }));
    keep("line_playing_80x24_dark", program, (80, 24));
}

/// The stabs of a bar while they are heard, and why there are none; half a second into the tune.
#[test]
fn a_tune_that_is_comped() {
    for (name, keys) in
        [("changes_comped", "4"), ("changes_no_stabs", "4 / 5 - 7 space 4 - 3 - 2 enter")]
    {
        let mut program = in_state("guitar-standard", keys, (80, 24));
        press(&mut program, "space");
        let (state, position) = (PlayerState::Playing, Frames(24_000));
        program.update(Event::Sound(SoundNews { state, position, way: None }));
        keep(&format!("{name}_80x24_dark"), program, (80, 24));
    }
}

/// What is asked by ear, before and after a wrong answer, and what became of every question.
#[test]
fn what_is_named_by_ear() {
    let folder = Folder::holding(include_str!("keepers/format-1.toml"));
    // With twenty answers, all the second choice, every question is got or missed three times.
    let to_the_end = format!("f3 l {}space", "space 2 ".repeat(20));
    for (name, keys) in
        [("listen", "f3 l"), ("listen_answered", "f3 l space 1"), ("listen_end", &*to_the_end)]
    {
        let folder = Folder::holding(&folder.keepers());
        let mut program = in_state("guitar-standard", "", (80, 24));
        program.use_keepers(folder.store());
        program.update(Event::Time("2026-05-07T09:00[UTC]".parse().unwrap()));
        press(&mut program, keys);
        keep(&format!("{name}_80x24_dark"), program, (80, 24));
    }
}

/// What larger screens have room for, and the least one.
#[test]
fn the_first_screen_at_other_sizes() {
    for (columns, rows) in [(40, 15), (120, 40), (200, 60)] {
        let program = in_state("guitar-standard", "", (columns, rows));
        keep(&format!("explorer_{columns}x{rows}_dark"), program, (columns, rows));
    }
    let program = in_state("guitar-standard", "v x n n n", (120, 40));
    keep("position_120x40_dark", program, (120, 40));
    let program = in_state("guitar-standard", "3 n n", (120, 40));
    keep("line_120x40_dark", program, (120, 40));
    let program = in_state("guitar-standard", "4 right", (120, 40));
    keep("changes_120x40_dark", program, (120, 40));
    let bars = "4 c D m 7 | G 7 | C m a j 7 | % | C m 7 | F 7 | B b m a j 7 | % | B b m 7 | E b 7 | \
                A b m a j 7 | % | D m 7 b 5 | G 7 | C m 6 | % enter down right h";
    let program = in_state("guitar-standard", bars, (200, 50));
    keep("changes_200x50_dark", program, (200, 50));
    let program = in_state("guitar-standard", "3 8 C f A W", (120, 40));
    keep("line_phrases_120x40_dark", program, (120, 40));
}

/// Without colours and without signs.
#[test]
fn the_first_screen_in_plain_ascii() {
    let mut program = in_state("guitar-standard", "", (80, 24));
    program.use_theme(Theme::monochrome());
    program.use_ascii();
    assert_snapshot!("explorer_80x24_ascii", styled_text(&drawn(&mut program, 80, 24)));
}

/// The neck at its farthest from the usual one.
#[test]
fn a_neck_upside_down_left_handed_behind_a_capo() {
    let size = (80, 24);
    let program = in_state("guitar-standard", "i i i r y", size);
    keep("upside_down_left_handed_capo_80x24_dark", program, size);
}

/// Keeps a screen in the colours of the dark theme.
fn keep(name: &str, mut program: Program, (columns, rows): (u16, u16)) {
    program.use_theme(Theme::built_in("dark", Depth::Full).unwrap());
    assert_snapshot!(name, styled_text(&drawn(&mut program, columns, rows)));
}

/// The program on an instrument after some keys.
fn in_state(tuning: &str, keys: &str, (columns, rows): (u16, u16)) -> Program {
    let library = Library::load(None);
    let mut program = Program::open(None, tuning, library, Spelling::Plain).unwrap();
    program.use_theme(Theme::terminal());
    program.update(Event::Resize { columns, rows });
    press(&mut program, keys);
    program
}

/// The list of pairs gives way, never a string of the neck.
#[test]
fn every_string_is_drawn_at_24_rows() {
    for (tuning, count) in [("guitar-9-string", 9), (TWELVE_STRINGS, 12)] {
        let text = text_of(&drawn(&mut in_state(tuning, "", (80, 24)), 80, 24));
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
            let strings = text.lines().filter(|line| line.contains(['┃', '‹', '›']));
            let count = strings.filter(|line| line.contains(['┼', '┤', '├', '╪'])).count();
            assert_eq!(count, tuning.string_count(), "{} {key}\n{text}", tuning.id());
        }
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
    assert_eq!(text.matches("leaves out  why").count(), 1);
    assert!(text.lines().last().unwrap().starts_with(" ? help"));
}
