//! The whole screen, cell by cell: its text and its styles, kept as snapshots.
//!
//! A snapshot is the debug form of a buffer, since plain text holds no styles. Theme and signs are
//! chosen here, so that the environment does not matter. Sizes that no player works at must not
//! panic either, nor may any keys at any size.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use fretloom::library::Library;
use fretloom::settings::Settings;
use fretloom::tui::event::Event;
use fretloom::tui::explore::Explore;
use fretloom::tui::key::Key;
use fretloom::tui::runtime::App;
use fretloom::tui::text_of;
use fretloom::tui::theme::{Depth, Theme};
use fretloom_theory::Spelling;
use insta::assert_debug_snapshot;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

fn opened() -> Explore {
    let library = Library::load(None);
    let mut explore = Explore::open(None, "guitar-standard", library, Spelling::Plain).unwrap();
    explore.use_theme(Theme::terminal());
    explore
}

fn press(explore: &mut Explore, keys: &str) {
    for key in keys.split_whitespace() {
        explore.update(Event::Key(key.parse().unwrap()));
    }
}

fn drawn(explore: &mut Explore, columns: u16, rows: u16) -> Buffer {
    explore.update(Event::Resize { columns, rows });
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    explore.draw(area, &mut buffer);
    buffer
}

/// The screen at 80×24 and at 120×40 after some keys.
fn both_sizes(keys: &str) -> [Buffer; 2] {
    [(80, 24), (120, 40)].map(|(columns, rows)| {
        let mut explore = opened();
        explore.update(Event::Resize { columns, rows });
        press(&mut explore, keys);
        drawn(&mut explore, columns, rows)
    })
}

#[test]
fn the_opening_screen() {
    let [usual, large] = both_sizes("");
    assert_debug_snapshot!("opening_80x24", usual);
    assert_debug_snapshot!("opening_120x40", large);
}

#[test]
fn climbing_with_degrees_on_locked_strings() {
    let [usual, large] = both_sizes("space space n l");
    assert_debug_snapshot!("climbing_80x24", usual);
    assert_debug_snapshot!("climbing_120x40", large);
}

#[test]
fn a_chord_typed_with_an_error() {
    let [usual, large] = both_sizes("c C m q");
    assert_debug_snapshot!("typing_80x24", usual);
    assert_debug_snapshot!("typing_120x40", large);
}

#[test]
fn the_help_page() {
    let [usual, large] = both_sizes("?");
    assert_debug_snapshot!("help_80x24", usual);
    assert_debug_snapshot!("help_120x40", large);
}

#[test]
fn the_list_of_tunings() {
    let [usual, large] = both_sizes("g down");
    assert_debug_snapshot!("tunings_80x24", usual);
    assert_debug_snapshot!("tunings_120x40", large);
}

/// The screen on an instrument after some keys.
fn on(tuning: &str, keys: &str, columns: u16, rows: u16) -> Buffer {
    let library = Library::load(None);
    let mut explore = Explore::open(None, tuning, library, Spelling::Plain).unwrap();
    explore.use_theme(Theme::terminal());
    explore.update(Event::Resize { columns, rows });
    press(&mut explore, keys);
    drawn(&mut explore, columns, rows)
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
        assert_debug_snapshot!(format!("{name}_80x24"), on(tuning, keys, 80, 24));
    }
    assert_debug_snapshot!("banjo_120x40", on("banjo-open-g", "i", 120, 40));
    assert_debug_snapshot!("twelve_strings_120x40", on(TWELVE_STRINGS, "", 120, 40));
}

#[test]
fn the_views() {
    for (name, keys) in [
        ("view_position", "v x n n n"),
        ("view_strings", "v v x x x x"),
        ("view_across", "v v v n n n n"),
        ("view_two", "v v v v x n n n n"),
        ("other_place", "o h"),
    ] {
        assert_debug_snapshot!(format!("{name}_80x24"), on("guitar-standard", keys, 80, 24));
    }
    let view = on("guitar-standard", "v v v", 120, 40);
    assert_debug_snapshot!("view_across_120x40", view);
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
        let mut explore = {
            let library = Library::load(None);
            Explore::open(Some("C7alt"), tuning.id(), library, Spelling::Plain).unwrap()
        };
        explore.update(Event::Resize { columns: 80, rows: 24 });
        for key in keys.split_whitespace() {
            press(&mut explore, key);
            let text = text_of(&drawn(&mut explore, 80, 24));
            let strings = text.lines().filter(|line| line.contains(['┃', '‹']));
            let count = strings.filter(|line| line.contains(['┼', '┤', '├', '╪'])).count();
            assert_eq!(count, tuning.string_count(), "{} {key}\n{text}", tuning.id());
        }
    }
}

#[test]
fn searching_for_a_tuning() {
    let [usual, large] = both_sizes("g b a n j o down");
    assert_debug_snapshot!("search_80x24", usual);
    assert_debug_snapshot!("search_120x40", large);
}

#[test]
fn monochrome() {
    let mut explore = opened();
    explore.use_theme(Theme::monochrome());
    press(&mut explore, "space");
    assert_debug_snapshot!("monochrome_80x24", drawn(&mut explore, 80, 24));
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
        let mut explore = opened();
        explore.use_theme(Theme::built_in(name, depth).unwrap());
        press(&mut explore, "space");
        assert_debug_snapshot!(snapshot, drawn(&mut explore, 80, 24));
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
    let mut explore = opened();
    explore.use_settings(&settings);
    let text = text_of(&drawn(&mut explore, 80, 24));
    assert!(text.contains("shown: member"), "{text}");
    let strings: Vec<&str> = text.lines().filter(|line| line.contains('┃')).collect();
    assert!(strings[0].trim_end().ends_with('6'), "{text}");
    assert!(strings[0].find('┃') > strings[0].find('┼'), "{text}");
}

#[test]
fn ascii() {
    let mut explore = opened();
    explore.use_ascii();
    press(&mut explore, "space");
    let buffer = drawn(&mut explore, 80, 24);
    assert!(text_of(&buffer).is_ascii());
    assert_debug_snapshot!("ascii_80x24", buffer);
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

/// A small generator, so that the same keys come in every run.
struct XorShift(u64);

impl XorShift {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, count: u64) -> u64 {
        self.next() % count
    }

    fn one_of<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[usize::try_from(self.below(all.len() as u64)).unwrap()]
    }
}

/// Every key of the table, letters of chords, and keys that mean nothing.
const KEYS: &str = "? q c enter down j up k s S space backspace u d 1 a 2 b t T l n p g v V x X h o i I + - r y w e f m right . \
                    left , home 0 end 9 esc pagedown pageup f1 ctrl-z ctrl-c delete tab backtab \
                    C F A B m 7 # 5 / alt-x shift-left f12 é 漢";

const PASTES: [&str; 5] = ["Dm7", "C7alt\n", "\u{1b}[31m", "漢字 e\u{301}\u{200d}", "Bbmaj7#11/D"];

fn random_event(random: &mut XorShift, keys: &[Key]) -> Event {
    match random.below(40) {
        0 => Event::Resize { columns: size(random, 140), rows: size(random, 50) },
        1 => Event::Paste((*random.one_of(&PASTES)).to_owned()),
        _ => Event::Key(*random.one_of(keys)),
    }
}

/// Often tiny, as those are the sizes where things go wrong.
fn size(random: &mut XorShift, most: u64) -> u16 {
    let most = *random.one_of(&[3, 20, most]);
    u16::try_from(random.below(most)).unwrap()
}

#[test]
fn twenty_thousand_random_events_end_in_a_state_that_can_be_drawn() {
    let keys: Vec<Key> = KEYS.split_whitespace().map(|key| key.parse().unwrap()).collect();
    let mut random = XorShift(0x5eed);
    let mut explore = opened();
    let (mut columns, mut rows) = (80, 24);
    for count in 0..20_000 {
        let event = random_event(&mut random, &keys);
        if let Event::Resize { columns: now_columns, rows: now_rows } = event {
            (columns, rows) = (now_columns, now_rows);
        }
        explore.update(event);
        if count % 10 == 0 {
            drawn(&mut explore, columns, rows);
        }
    }
    press(&mut explore, "esc esc");
    let text = text_of(&drawn(&mut explore, 80, 24));
    assert!(text.contains("? help  c chord"), "{text}");
}
