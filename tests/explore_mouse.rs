//! What the mouse does to the explorer: each gesture of the table, and that nothing can be pointed
//! at but what is drawn.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use fretloom::tui::command::{COMMANDS, CommandRow, Section};
use fretloom::tui::gesture::{GESTURES, Gesture, Spot};
use fretloom::tui::key::{Glyphs, Key};
use fretloom::tui::keys::Keys;
use fretloom::tui::mouse::Pointed;
use fretloom::tui::program::Effect;
use player::{HELP_FIRST, HELP_TOP, OPENED, Player};

/// What a case looks at.
type Told = fn(&Player) -> String;

/// One gesture: what is looked at; its words before; where the mouse is; its words after.
struct Case {
    gesture: (Spot, Pointed),
    /// Of a screen of 24 rows.
    columns: u16,
    /// How often it is done.
    times: u8,
    told: Told,
    /// Keys that lead to the state before, and what is told of it.
    before: (&'static str, &'static str),
    /// A text on the screen, and how many columns from where it begins.
    at: (&'static str, u16),
    after: &'static str,
}

const fn case(
    spot: Spot,
    what: Pointed,
    told: Told,
    before: (&'static str, &'static str),
    at: (&'static str, u16),
    after: &'static str,
) -> Case {
    Case { gesture: (spot, what), columns: 80, times: 1, told, before, at, after }
}

const fn twice(
    spot: Spot,
    told: Told,
    before: (&'static str, &'static str),
    at: (&'static str, u16),
    after: &'static str,
) -> Case {
    Case { times: 2, ..case(spot, Pointed::Click, told, before, at, after) }
}

/// On a screen that has room for the scales beside the pairs.
const fn beside(
    spot: Spot,
    what: Pointed,
    told: Told,
    before: (&'static str, &'static str),
    at: (&'static str, u16),
    after: &'static str,
) -> Case {
    Case { columns: 160, ..case(spot, what, told, before, at, after) }
}

const PAIR: Told = Player::pair;
const SCALE: Told = Player::scale;
const SHAPE: Told = Player::shape;
const STRINGS: Told = Player::strings;
const LOOKS: Told = Player::looks;
const FRETS: Told = Player::frets;
const MARKED: Told = Player::marked;
const TUNING: Told = Player::tuning;
const CAPO: Told = Player::capo;
const CHORD: Told = Player::chord;
const TOLD: Told = Player::told;
const TOP: Told = |player| player.line(0);
const SECOND: Told = |player| player.line(1);
const EFFECTS: Told = |player| format!("{:?}", player.effects);

/// Every gesture at least once, on Gmaj7♯11; the keys beside the words of before lead there.
#[rustfmt::skip]
const CASES: &[Case] = {
    use Pointed::{Click, WheelDown, WheelUp};
    use Spot::{Footer, Line, List, Neck, Note, Pair, Pairs, Scale, Scales, StringName};
    &[
        case(Pair, Click, PAIR, ("", "G & A"), ("Em & F♯m", 3), "Em & F#m"),
        case(Pair, Click, TOLD, ("", USUAL_FINGERS), ("G & F♯m", 0), "stays: G B D A C♯"),
        case(Pair, Click, TOLD, ("z", "nothing to take back"), ("▸ G & A", 0), USUAL_FINGERS),
        case(Pairs, WheelDown, PAIR, ("", "G & A"), ("Em & F♯m", 3), "G & F#m"),
        case(Pairs, WheelDown, PAIR, ("", "G & A"), ("leaves out  why", 0), "G & F#m"),
        case(Pairs, WheelDown, TOLD, ("", USUAL_FINGERS), ("Em & F♯m", 3), "stays: G B D A C♯"),
        case(Pairs, WheelUp, PAIR, ("", "G & A"), ("Em & F♯m", 3), "C#dim & D"),
        beside(Scale, Click, SCALE, ("", "G Lydian"), ("G Lydian ♯2", 0), "G Lydian ♯2"),
        beside(Scales, WheelDown, SCALE, ("", "G Lydian"), ("scales of", 0), "G Lydian augmented"),
        beside(Scales, WheelUp, SCALE, ("s", "G Lydian augmented"), ("G Lydian  ", 0), "G Lydian"),
        case(Note, Click, SHAPE, ("", "G 5-4-3"), ("4 D [D]", 47), "A 7-6-5"),
        case(Note, Click, STRINGS, ("", "4-3-2"), ("6 E (E)", 23), "6-5-4"),
        case(StringName, Click, STRINGS, ("", "4-3-2"), ("1 E (E)", 0), "3-2-1"),
        case(StringName, Click, LOOKS, ("", "strings 4-3-2"), ("3 G•[G]", 0), "locked to 4-3-2"),
        case(StringName, Click, LOOKS, ("l", "locked to 4-3-2"), ("3 G", 0), "strings 4-3-2"),
        case(Neck, WheelDown, FRETS, ("", "1-11"), ("3 G•[G]", 20), "2-12"),
        case(Neck, WheelDown, FRETS, ("", "1-11"), ("3 G•[G]", 0), "2-12"),
        case(Neck, WheelUp, FRETS, ("right right", "3-13"), ("3 G•[G]", 20), "2-12"),
        case(Line, Click, MARKED, ("e", "G Lydian"), ("G Lydian augmented", 2), "G Lydian augmented"),
        case(Line, Click, SCALE, ("e", "G Lydian"), ("G Lydian augmented", 2), "G Lydian"),
        case(Line, Click, SCALE, ("e down", "G Lydian"), ("G Lydian augmented", 60), "G Lydian"),
        twice(Line, SCALE, ("e down", "G Lydian"), ("G Lydian augmented", 60), "G Lydian augmented"),
        twice(Line, SCALE, ("e", "G Lydian"), ("G Lydian augmented", 60), "G Lydian augmented"),
        case(Line, Click, MARKED, ("g", STANDARD), ("Guitar, drop D", 0), "Guitar, drop D"),
        twice(Line, TUNING, ("g", "guitar-standard"), ("Guitar, drop D", 0), "guitar-drop-d"),
        case(Line, Click, MARKED, ("tab c a p o", "capo up"), ("capo down", 0), "capo down"),
        twice(Line, CAPO, ("tab c a p o", "no capo"), ("▸ capo up", 0), "capo at 1"),
        twice(Line, EFFECTS, ("tab q u i t", "[]"), ("▸ quit", 0), "[Quit]"),
        case(List, WheelDown, MARKED, ("e", "G Lydian"), ("G Lydian", 2), "G Lydian augmented"),
        case(List, WheelDown, MARKED, ("e", "G Lydian"), ("Scales that fit", 0), "G Lydian augmented"),
        case(List, WheelDown, MARKED, ("g", STANDARD), ("Guitar, drop D", 0), "Guitar, drop D"),
        case(List, WheelDown, MARKED, ("tab c a p o", "capo up"), ("capo down", 0), "capo down"),
        case(List, WheelDown, SECOND, ("?", HELP_FIRST), (HELP_FIRST, 0), HELP_SECOND),
        case(List, WheelUp, MARKED, ("e down", "G Lydian augmented"), ("G Lydian", 2), "G Lydian"),
        case(List, WheelUp, MARKED, ("g", STANDARD), (STANDARD, 0), STANDARD),
        case(List, WheelUp, SECOND, ("? down", HELP_SECOND), ("the next pair", 0), HELP_FIRST),
        case(Footer, Click, TOP, ("", OPENED), ("? help", 0), HELP_TOP),
        case(Footer, Click, PAIR, ("", "G & A"), ("↓ pair", 5), "G & F#m"),
        case(Footer, Click, TOLD, ("", USUAL_FINGERS), ("↓ pair", 0), "stays: G B D A C♯"),
        case(Footer, Click, TOP, ("c B b m a", "chord Bbma"), ("Tab suggestion", 1), "chord Bbmaj7"),
        case(Footer, Click, CHORD, ("c D m 7", "Gmaj7♯11"), ("Enter take it", 3), "Dm7"),
        case(Footer, Click, TOP, ("e", "Scales that fit Gmaj7♯11"), ("Esc back", 0), OPENED),
        case(Footer, Click, TUNING, ("g down", "guitar-standard"), ("Enter take it", 0), "guitar-drop-d"),
        case(Footer, Click, TOP, ("?", HELP_TOP), ("Esc back", 7), OPENED),
    ]
};

const USUAL_FINGERS: &str =
    "4 fingerings, 3 places on the neck · one finger a fret in position III, no";
const STANDARD: &str = "Guitar, standard";
const HELP_SECOND: &str = "Tab  :              every command, to be found by its name";

#[test]
fn every_case_holds() {
    for Case { gesture, columns, times, told, before: (lead, before), at: (text, on), after } in
        CASES
    {
        let mut player = Player::with("Gmaj7#11");
        player.resize(*columns, 24);
        player.press(lead);
        assert_eq!(told(&player), *before, "{gesture:?} after {lead:?}");
        let place = player.place_of(text, *on);
        for _ in 0..*times {
            player.point_at(place.0, place.1, gesture.1);
        }
        assert_eq!(told(&player), *after, "{gesture:?}: {lead:?}, then at {text:?}");
    }
}

/// Is it a gesture of another screen alone?
fn is_elsewhere(row: &Gesture) -> bool {
    let elsewhere =
        [Section::Line, Section::Changes, Section::Keepers, Section::Listen, Section::Practice];
    row.spot.screen().is_some_and(|screen| elsewhere.contains(&screen))
}

/// And among its cases one that tells of a change.
#[test]
fn every_gesture_of_the_table_does_something() {
    // Those of the other screens stand in tests/line_keys.rs, changes_keys.rs and keepers_keys.rs.
    for row in GESTURES.iter().filter(|row| !is_elsewhere(row)) {
        let mut cases = CASES.iter().filter(|case| case.gesture == (row.spot, row.what));
        assert!(cases.any(|case| case.before.1 != case.after), "{}", row.label());
    }
}

#[test]
fn help_shows_every_gesture_and_finds_it() {
    let mut player = Player::after("Gmaj7#11", "? c l i c k");
    player.resize(80, 40);
    let help = player.screen();
    assert!(help.contains(Gesture::HEADING), "{help}");
    for row in GESTURES.iter().filter(|row| !is_elsewhere(row)) {
        let line = help.lines().find(|line| line.contains(&row.label()));
        assert_eq!(line.is_some(), row.what == Pointed::Click, "{}", row.label());
        assert!(line.is_none_or(|line| line.ends_with(row.help)), "{line:?}");
    }
}

/// A click on a pair marks and tells what stays, cell by cell as a key does, and is taken back.
#[test]
fn a_click_on_a_pair_is_a_key_to_the_last_cell() {
    let mut player = Player::with("Gmaj7#11");
    player.point("G & F♯m", 3, Pointed::Click);
    assert_eq!(player.buffer(), Player::after("Gmaj7#11", "down").buffer());
    player.point("4 D [D]", 47, Pointed::Click);
    assert!(!player.shows("stays:"));
    player.press("z z");
    assert_eq!((player.pair().as_str(), player.shape().as_str()), ("G & A", "G 5-4-3"));
    player.press("z");
    assert_eq!(player.told(), "nothing to take back");
}

/// What a row shows is what is pointed at: a copy of its pair, or the scale with the pair in use.
#[test]
fn a_click_on_what_is_chosen_already_leaves_it_chosen() {
    let mut player = Player::after("C7b9", "m");
    let before = player.pair();
    player.point(&format!("▸ {}", before.replace('b', "♭")), 3, Pointed::Click);
    assert_eq!(player.pair(), before);
    let mut player = Player::with("Gmaj7#11");
    player.resize(160, 24);
    player.press("down down");
    let before = player.pair();
    player.point("▸ G Lydian", 0, Pointed::Click);
    assert_eq!(player.pair(), before);
}

/// With keys the marked line goes to the middle again, however it came to be marked.
#[test]
fn a_key_ends_what_the_mouse_has_begun() {
    let keys = "g down down down down down down down down down down down down";
    let mut clicked = Player::after("Gmaj7#11", keys);
    clicked.point_at(5, 2, Pointed::Click);
    clicked.press("down up");
    let name = clicked.marked();
    let mut pressed = Player::after("Gmaj7#11", "g");
    while pressed.marked() != name {
        pressed.press("down");
    }
    assert_eq!(clicked.buffer(), pressed.buffer());
}

/// A click beside everything leaves the screen as it is, and what was told on it.
#[test]
fn where_nothing_is_to_be_chosen_a_click_does_nothing() {
    let nowhere = [
        ("", "Gmaj7♯11"),
        ("down", "leaves out  why"),
        ("z", "also serves"),
        ("", "─ frets"),
        ("", "┃"),
        ("c D m 7", "Em & F♯m"),
        ("c D m 7", "1 E (E)"),
        ("w 7", "─ frets"),
        ("e", "Scales that fit"),
        ("g b a n j o", "Tunings, or type one"),
        ("g b a n j o", "steps"),
        ("g b a n j o", "1 of"),
        ("g z z z", "no tuning has that name"),
        ("tab z z z", "no command has that name"),
        ("?", "the next pair"),
        ("?", "Every key"),
        ("?", "lines 1"),
    ];
    for (lead, text) in nowhere {
        let mut player = Player::after("Gmaj7#11", lead);
        let before = player.buffer();
        player.point(text, 0, Pointed::Click);
        assert_eq!(player.buffer(), before, "{lead:?} at {text:?}");
        assert!(player.effects.is_empty(), "{lead:?} at {text:?}");
    }
    let mut below_the_lines = Player::after("Gmaj7#11", "e down");
    let before = below_the_lines.buffer();
    below_the_lines.point_at(5, 15, Pointed::Click);
    assert_eq!(below_the_lines.buffer(), before);
}

/// Lists with their lines at sizes from the least on; the first row that may hold one.
const LISTS: [(&str, usize); 5] =
    [("e", 1), ("g", 1), ("g b a n j o", 1), ("tab", 1), ("S down down down down down down", 3)];
const SIZES: [(u16, u16); 4] = [(80, 24), (120, 40), (40, 15), (20, 5)];

/// The rows of a screen that show lines of a list, with what stands in each.
fn lines_of(screen: &str, first: usize) -> Vec<(u16, String)> {
    let is_line = |line: &str| {
        let words = line.strip_prefix("   ").or_else(|| line.strip_prefix(" ▸ "));
        words.is_some_and(|words| words.starts_with(char::is_alphanumeric))
    };
    let rows = screen.lines().enumerate().skip(first).skip_while(|(_, line)| !is_line(line));
    let heading = |line: &str| line.starts_with("   pair  ");
    let rows = rows.take_while(|(_, line)| is_line(line)).filter(|(_, line)| !heading(line));
    rows.map(|(row, line)| (u16::try_from(row).unwrap(), name(line))).collect()
}

fn name(line: &str) -> String {
    let words: String = line.chars().skip(3).collect();
    words.split("  ").next().unwrap().to_owned()
}

/// A click marks what is drawn on its row, and leaves it there; a second one takes it.
#[test]
fn a_click_means_the_line_that_is_drawn_there() {
    let mut clicked = 0;
    for ((lead, first), (columns, rows)) in
        LISTS.into_iter().flat_map(|list| SIZES.map(|size| (list, size)))
    {
        let mut start = Player::with("Gmaj7#11");
        start.resize(columns, rows);
        start.press(lead);
        let explorer = first > 1;
        for (row, name) in lines_of(&start.screen(), first) {
            let mut player = Player::with("Gmaj7#11");
            player.resize(columns, rows);
            player.press(lead);
            if name == player.marked() || explorer && !player.shows("─ frets") {
                continue;
            }
            player.point_at(columns - 1, row, Pointed::Click);
            let told = format!("{lead:?} at {columns}×{rows}, row {row}\n{}", player.screen());
            assert_eq!(player.marked(), name, "{told}");
            // A neck with more strings leaves less room for the list of tunings.
            if !lead.starts_with('g') {
                let line = player.screen().lines().nth(usize::from(row)).unwrap().to_owned();
                assert!(line.starts_with(" ▸ "), "{told}");
                player.point_at(3, row, Pointed::Click);
                assert_eq!(player.line(0) == start.line(0), explorer, "{told}");
            }
            clicked += 1;
        }
    }
    assert!(clicked > 100, "{clicked}");
}

/// Every entry of the footer, at its first and its last column, is the key that it names; between
/// two entries there is nothing.
#[test]
fn the_footer_presses_the_keys_that_it_names() {
    let (keys, _) = Keys::built_in();
    for (lead, section) in [
        ("", Section::Explore),
        ("c C", Section::Typing),
        ("w 7", Section::Typing),
        ("e down", Section::List),
        ("g down", Section::Picking),
        ("tab c", Section::Picking),
        ("? down", Section::Picking),
    ] {
        let start = wide(lead);
        let footer = start.line(29);
        let mut entries = 0;
        for row in COMMANDS.iter().filter(|row| belongs(row, section)) {
            let key: Key = keys.of(row)[0];
            let entry = format!("{} {}", key.label(Glyphs::Unicode), row.label);
            if !footer.split("  ").any(|found| found == entry) {
                continue;
            }
            let pressed = wide(&format!("{lead} {key}"));
            let [first, width] = [column_of(&start, &entry), entry.chars().count()];
            let at = |on: usize| u16::try_from(first + on).unwrap();
            for on in [0, width - 1] {
                let mut clicked = wide(lead);
                clicked.point_at(at(on), 29, Pointed::Click);
                assert_eq!(clicked.buffer(), pressed.buffer(), "{lead:?}: {entry}");
                assert_eq!(EFFECTS(&clicked), EFFECTS(&pressed), "{lead:?}: {entry}");
            }
            let mut beside = wide(lead);
            beside.point_at(at(width), 29, Pointed::Click);
            assert_eq!(beside.buffer(), start.buffer(), "{lead:?} beside {entry}");
            entries += 1;
        }
        assert!(entries > 1, "{lead:?}: {footer}");
    }
}

/// Where an entry begins in the last row.
fn column_of(player: &Player, entry: &str) -> usize {
    let screen = player.screen();
    let before = screen.lines().last().unwrap().split_once(&format!(" {entry}")).unwrap().0;
    before.chars().count() + 1
}

/// A player at a screen where every entry of the footer has room.
fn wide(lead: &str) -> Player {
    let mut player = Player::with("Gmaj7#11");
    player.resize(240, 30);
    player.press(lead);
    player
}

fn belongs(row: &CommandRow, section: Section) -> bool {
    let everywhere = row.section == Section::Everywhere && section == Section::Explore;
    !row.label.is_empty() && (row.section == section || everywhere)
}

#[test]
fn quit_in_the_footer_quits() {
    let mut player = wide("");
    player.point("q quit", 2, Pointed::Click);
    assert!(matches!(player.effects[..], [Effect::Quit]));
}

/// Sizes at which hardly anything is drawn, every cell of them and those beyond their edges.
#[test]
fn pointing_at_any_cell_of_a_tiny_screen_never_panics() {
    let leads = ["", "c", "w", "e", "g", "tab", "?", "S", "v"];
    for (lead, (columns, rows)) in leads
        .into_iter()
        .flat_map(|lead| [(0, 0), (1, 1), (2, 2), (20, 5), (41, 15)].map(|size| (lead, size)))
    {
        let mut player = Player::with("Gmaj7#11");
        player.resize(columns, rows);
        for row in 0..=rows {
            player.press("esc esc esc");
            player.press(lead);
            for column in (0..=columns).step_by(3) {
                for what in [Pointed::WheelDown, Pointed::Click, Pointed::WheelUp] {
                    player.point_at(column, row, what);
                }
                assert_eq!(player.buffer().area.as_size(), (columns, rows).into());
            }
        }
    }
}
