//! What each key does to the explorer: short triples of before, keys typed, after.
//!
//! Keys are written as in the key files and separated by spaces. The state is told in a few words
//! of [`Told`], so that a triple reads as a sentence.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/neck_reader.rs"]
mod neck_reader;

use std::collections::HashSet;
use std::fmt::Debug;
use std::ops::RangeInclusive;

use fretloom::library::Library;
use fretloom::tui::command::{COMMANDS, Command, CommandRow, Keys, Section};
use fretloom::tui::event::Event;
use fretloom::tui::explore::Explore;
use fretloom::tui::key::Key;
use fretloom::tui::mouse::{Pointed, Pointer};
use fretloom::tui::runtime::{App, Effect};
use fretloom::tui::text_of;
use fretloom::tui::theme::Theme;
use fretloom_theory::Spelling;
use neck_reader::DrawnNeck;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// An explorer with a keyboard, and the effects it has asked for.
struct Player {
    explore: Explore,
    columns: u16,
    rows: u16,
    effects: Vec<Effect>,
}

impl Player {
    fn with(chord: &str) -> Player {
        let library = Library::load(None);
        let open = Explore::open(Some(chord), "guitar-standard", library, Spelling::Plain);
        let mut explore = open.unwrap();
        explore.use_theme(Theme::monochrome());
        let mut player = Player { explore, columns: 0, rows: 0, effects: Vec::new() };
        player.resize(80, 24);
        player
    }

    fn after(chord: &str, keys: &str) -> Player {
        let mut player = Player::with(chord);
        player.press(keys);
        player
    }

    fn press(&mut self, keys: &str) {
        for key in keys.split_whitespace() {
            let key: Key = key.parse().unwrap();
            self.effects.extend(self.explore.update(Event::Key(key)));
        }
    }

    fn paste(&mut self, text: &str) {
        self.effects.extend(self.explore.update(Event::Paste(text.to_owned())));
    }

    /// Points at where a text begins on the screen, some columns on.
    fn point(&mut self, text: &str, on: u16, what: Pointed) {
        let screen = self.screen();
        let (row, line) = screen.lines().enumerate().find(|(_, line)| line.contains(text)).unwrap();
        let column = line.split_once(text).unwrap().0.chars().count();
        let (column, row) = (u16::try_from(column).unwrap() + on, u16::try_from(row).unwrap());
        self.effects.extend(self.explore.update(Event::Mouse(Pointer { column, row, what })));
    }

    fn resize(&mut self, columns: u16, rows: u16) {
        (self.columns, self.rows) = (columns, rows);
        self.effects.extend(self.explore.update(Event::Resize { columns, rows }));
    }

    fn buffer(&self) -> Buffer {
        let area = Rect::new(0, 0, self.columns, self.rows);
        let mut buffer = Buffer::empty(area);
        self.explore.draw(area, &mut buffer);
        buffer
    }

    fn screen(&self) -> String {
        text_of(&self.buffer())
    }

    fn shows(&self, text: &str) -> bool {
        self.screen().contains(text)
    }

    /// A line of the screen, without the spaces before it.
    fn line(&self, row: usize) -> String {
        self.screen().lines().nth(row).unwrap_or_default().trim().to_owned()
    }

    /// What the line that a list marks begins with.
    fn marked(&self) -> String {
        let screen = self.screen();
        let marked = screen.lines().find_map(|line| line.trim_start().strip_prefix("▸ "));
        let words = marked.unwrap_or_default();
        words.split("  ").next().unwrap_or_default().to_owned()
    }

    /// The frets that the drawn neck numbers, as `1-11`.
    fn frets(&self) -> String {
        let frets = self.frets_drawn();
        format!("{}-{}", frets.start(), frets.end())
    }

    fn frets_drawn(&self) -> RangeInclusive<u8> {
        DrawnNeck::read(&self.buffer()).unwrap().frets
    }

    fn chord(&self) -> String {
        let answer = self.explore.pairs().chord.as_ref().unwrap();
        answer.chord.to_string()
    }

    fn scale(&self) -> String {
        self.explore.pairs().scale.as_ref().unwrap().scale.to_string()
    }

    fn pair(&self) -> String {
        self.explore.pair().unwrap().name.clone()
    }

    /// The shape in hand as `A 7-6-5`.
    fn shape(&self) -> String {
        let shape = self.explore.shape().unwrap();
        format!("{:#} {}", shape.triad, shape.frets.map(|fret| fret.to_string()).join("-"))
    }

    fn strings(&self) -> String {
        self.explore.strings().unwrap().to_string()
    }

    fn tuning(&self) -> String {
        self.explore.neck().tuning().id().to_owned()
    }
}

/// What a triple looks at.
type Told = fn(&Player) -> String;

/// One command: what is looked at; its words before; the keys; its words after.
struct Triple {
    command: (Section, Command),
    told: Told,
    /// Keys that lead to the state before, and what is told of it.
    before: (&'static str, &'static str),
    keys: &'static str,
    after: &'static str,
}

const fn triple(
    section: Section,
    command: Command,
    told: Told,
    before: (&'static str, &'static str),
    keys: &'static str,
    after: &'static str,
) -> Triple {
    Triple { command: (section, command), told, before, keys, after }
}

const CHORD: Told = Player::chord;
const SCALE: Told = Player::scale;
const PAIR: Told = Player::pair;
const SHAPE: Told = Player::shape;
const STRINGS: Told = Player::strings;
const TUNING: Told = Player::tuning;
const FRETS: Told = Player::frets;
const MARKED: Told = Player::marked;
/// What the rule over the neck says is looked at.
const LOOKS: Told = |player| {
    let screen = player.screen();
    let rule = screen.lines().find(|line| line.starts_with("─ frets")).unwrap_or_default();
    rule.split(" ─ ").nth(2).unwrap_or_default().to_owned()
};
/// The line above the footer.
const TOLD: Told = |player| player.line(usize::from(player.rows) - 2);
const FINGERS: Told = |player| {
    let fingers = player.explore.shape().unwrap().fingers.unwrap();
    fingers.map(|finger| finger.to_string()).join("-")
};
const CAPO: Told = |player| player.explore.neck().tuning().capo().to_string();
const FIRST_STRING: Told = |player| {
    let numbers = player.screen().lines().position(|line| line.starts_with("─ frets"));
    player.line(numbers.unwrap() + 2)
};
const EFFECTS: Told = |player| format!("{:?}", player.effects);
const LABELS: Told = |player| player.explore.labels().word().to_owned();
const TOP: Told = |player| player.line(0);
const COUNT: Told = |player| player.explore.pairs().pairs.len().to_string();
const LOCK: Told = |player| player.shows("locked to 4-3-2").to_string();
/// The name of the pair's first triad, which the two spellings write differently over A altered.
const FIRST_NAME: Told = |player| player.explore.pair().unwrap().first.name.to_string();

const OPENED: &str =
    "Gmaj7♯11   G Lydian, D major a fifth up          Guitar, standard  E A D G B E";

/// Every command at least once, on Gmaj7♯11; the keys beside the words of before lead there.
#[rustfmt::skip]
const TRIPLES: &[Triple] = {
    use Command::*;
    use Section::{Everywhere, Explore, List, Picking, Typing};
    &[
        triple(Explore, EditChord, TOP, ("", OPENED), "c", "chord Gmaj7#11"),
        triple(Explore, EditChord, TOP, ("", OPENED), "enter", "chord Gmaj7#11"),
        triple(Explore, NextPair, PAIR, ("", "G & A"), "down", "G & F#m"),
        triple(Explore, NextPair, PAIR, ("up", "C#dim & D"), "j", "G & A"),
        triple(Explore, PreviousPair, PAIR, ("", "G & A"), "up", "C#dim & D"),
        triple(Explore, PreviousPair, PAIR, ("down", "G & F#m"), "k", "G & A"),
        triple(Explore, NextScale, SCALE, ("", "G Lydian"), "s s s s s", "G Lydian"),
        triple(Explore, PreviousScale, SCALE, ("s", "G Lydian augmented"), "S", "G Lydian"),
        triple(Explore, Climb, SHAPE, ("", "G 5-4-3"), "space", "A 7-6-5"),
        triple(Explore, Climb, SHAPE, ("", "G 5-4-3"), "u u", "G 9-7-8"),
        triple(Explore, Descend, SHAPE, ("space", "A 7-6-5"), "backspace", "G 5-4-3"),
        triple(Explore, Descend, SHAPE, ("space space", "G 9-7-8"), "d", "A 7-6-5"),
        triple(Explore, FirstTriad, SHAPE, ("", "G 5-4-3"), "1", "G 9-7-8"),
        triple(Explore, SecondTriad, SHAPE, ("", "G 5-4-3"), "2 b", "A 11-9-10"),
        triple(Explore, NextStrings, STRINGS, ("", "4-3-2"), "t", "5-4-3"),
        triple(Explore, NextStrings, STRINGS, ("", "4-3-2"), "t t t", "3-2-1"),
        triple(Explore, PreviousStrings, STRINGS, ("", "4-3-2"), "T", "3-2-1"),
        triple(Explore, PreviousStrings, STRINGS, ("", "4-3-2"), "T T", "6-5-4"),
        triple(Explore, LockStrings, LOCK, ("", "false"), "l", "true"),
        triple(Explore, LockStrings, LOCK, ("l", "true"), "l", "false"),
        triple(Explore, Labels, LABELS, ("", "note"), "n", "degree"),
        triple(Explore, Labels, LABELS, ("n", "degree"), "n", "member"),
        triple(Explore, Labels, LABELS, ("n n", "member"), "n", "finger"),
        triple(Explore, Labels, LABELS, ("n n n", "finger"), "n", "note"),
        triple(Explore, Labels, LABELS, ("v n n n", "finger"), "n", "order"),
        triple(Explore, Spelling, FIRST_NAME, ("c A 7 a l t enter down", "C♯+"), "p", "D♭+"),
        triple(Explore, Spelling, FIRST_NAME, ("c A 7 a l t enter down p", "D♭+"), "p", "C♯+"),
        triple(Explore, ChooseTuning, TOP, ("", OPENED), "g", PICKING),
        triple(Explore, ScrollRight, FRETS, ("", "1-11"), "right .", "3-13"),
        triple(Explore, ScrollLeft, FRETS, ("right right", "3-13"), "left", "2-12"),
        triple(Explore, ScrollLeft, FRETS, ("", "1-11"), ",", "1-11"),
        triple(Explore, ToNut, FRETS, ("end", "12-22"), "home", "1-11"),
        triple(Explore, ToNut, FRETS, ("right", "2-12"), "0", "1-11"),
        triple(Explore, ToEnd, FRETS, ("", "1-11"), "end right", "12-22"),
        triple(Explore, ToEnd, FRETS, ("", "1-11"), "9", "12-22"),
        triple(Explore, MovePair, PAIR, ("c C 7 b 9 enter", "C & Gb"), "m", "Eb & A"),
        triple(Explore, MovePair, PAIR, ("c C 7 b 9 enter m", "Eb & A"), "m", "C & Gb"),
        triple(Explore, MovePair, PAIR, ("", "G & A"), "m", "G & A"),
        triple(Explore, EditWish, TOP, ("", OPENED), "w", "wish"),
        triple(Explore, Families, COUNT, ("", "7"), "f", "10"),
        triple(Explore, Families, COUNT, ("f f f", "12"), "f", "7"),
        triple(Explore, ChooseScale, MARKED, ("", FIRST_PAIR), "e", "G Lydian"),
        triple(Typing, Accept, COUNT, ("w 7 , - 1", "7"), "enter", "1"),
        triple(Typing, Accept, COUNT, ("w - 1 enter w backspace backspace", "1"), "enter", "7"),
        triple(Typing, Accept, TOP, ("w x", "wish x"), "enter", "wish x"),
        triple(List, Accept, SCALE, ("e down", "G Lydian"), "enter", "G Lydian augmented"),
        triple(Typing, Accept, CHORD, ("c D m 7", "Gmaj7♯11"), "enter", "Dm7"),
        triple(Typing, Suggestion, TOP, ("c B b m a", "chord Bbma"), "tab", "chord Bbmaj7"),
        triple(Typing, Suggestion, TOP, ("c D", "chord D"), "down tab", "chord Dmaj7#11"),
        triple(Typing, Suggestion, TOP, ("w 7", "wish 7"), "tab", "wish 7"),
        triple(Typing, Cancel, TOP, ("c D m 7", "chord Dm7"), "esc", OPENED),
        triple(List, Down, MARKED, ("e", "G Lydian"), "down", "G Lydian augmented"),
        triple(List, Down, MARKED, ("e space space", "G chromatic"), "j", "G chromatic"),
        triple(List, Up, MARKED, ("e down", "G Lydian augmented"), "up", "G Lydian"),
        triple(List, Up, MARKED, ("e", "G Lydian"), "k", "G Lydian"),
        triple(List, PageDown, MARKED, ("e", "G Lydian"), "pagedown", "G chromatic"),
        triple(List, PageDown, MARKED, ("e", "G Lydian"), "space", "G chromatic"),
        triple(Picking, PageDown, SECOND, ("?", HELP_FIRST), "pagedown up", HELP_BELOW),
        triple(List, PageUp, MARKED, ("e space", "G chromatic"), "pageup", "G Lydian"),
        triple(Picking, Accept, TOP, ("?", HELP_TOP), "enter", OPENED),
        triple(List, Cancel, SCALE, ("e down", "G Lydian"), "esc", "G Lydian"),
        triple(List, Cancel, TOP, ("e", "Scales that fit Gmaj7♯11"), "q", OPENED),
        triple(Picking, Cancel, TOP, ("?", HELP_TOP), "esc", OPENED),
        triple(Picking, Cancel, TOP, ("? q esc", HELP_TOP), "esc", OPENED),
        triple(Picking, Down, MARKED, ("g", STANDARD), "down", "Guitar, drop D"),
        triple(Picking, Up, MARKED, ("g down", "Guitar, drop D"), "up", STANDARD),
        triple(Picking, Up, MARKED, ("g", STANDARD), "up", STANDARD),
        triple(Picking, PageDown, MARKED, ("g", STANDARD), "pagedown", "Guitar, whole step down"),
        triple(Picking, PageUp, MARKED, ("g pagedown", "Guitar, whole step down"), "pageup", STANDARD),
        triple(Picking, Accept, TUNING, ("g down", "guitar-standard"), "enter", "guitar-drop-d"),
        triple(Picking, Accept, TUNING, ("g b a n j o", "guitar-standard"), "enter", "banjo-open-g"),
        triple(Picking, Cancel, TUNING, ("g down", "guitar-standard"), "esc", "guitar-standard"),
        triple(Picking, Cancel, MARKED, ("g b a n j o", "Banjo, open G"), "esc", STANDARD),
        triple(Picking, Cancel, TOP, ("g b a n j o esc", PICKING), "esc", OPENED),
        triple(Explore, NextView, LOOKS, ("", "strings 4-3-2"), "v", "position III"),
        triple(Explore, NextView, LOOKS, ("v v v v", "two a string 4-3-2, 1 of 10"), "v", "strings 4-3-2"),
        triple(Explore, PreviousView, LOOKS, ("v v", "strings 4-3-2 alone"), "V", "position III"),
        triple(Explore, NextChoice, LOOKS, ("v", "position III"), "x", "position IV"),
        triple(Explore, NextChoice, LOOKS, ("v v x", "strings 5-4-3 alone"), "x x x", "strings 3-2 alone"),
        triple(Explore, NextChoice, LOOKS, ("v v v", "across, chain 1 of 8"), "x", "across, chain 2 of 8"),
        triple(Explore, NextChoice, TOLD, ("", USUAL_FINGERS), "x", NO_CHOICES),
        triple(Explore, PreviousChoice, LOOKS, ("v", "position III"), "X X X", "position XXII"),
        triple(Explore, OtherFingers, FINGERS, ("", "3-2-1"), "h", "4-3-2"),
        triple(Explore, OtherPlace, SHAPE, ("", "G 5-4-3"), "o", "G 10-9-7"),
        triple(Explore, OtherPlace, SHAPE, ("o o", "G 15-14-12"), "o", "G 5-4-3"),
        triple(Explore, CapoUp, CAPO, ("", "no capo"), "i i", "capo at 2"),
        triple(Explore, CapoUp, CAPO, ("i", "capo at 1"), "+", "capo at 2"),
        triple(Explore, CapoDown, CAPO, ("i i", "capo at 2"), "I", "capo at 1"),
        triple(Explore, CapoDown, CAPO, ("i", "capo at 1"), "-", "no capo"),
        triple(Explore, LeftHanded, FIRST_STRING, ("", RIGHT), "r", LEFT),
        triple(Explore, LeftHanded, FIRST_STRING, ("r", LEFT), "r", RIGHT),
        triple(Explore, UpsideDown, FIRST_STRING, ("", RIGHT), "y", UPSIDE_DOWN),
        triple(Explore, UpsideDown, FIRST_STRING, ("y", UPSIDE_DOWN), "y", RIGHT),
        triple(Explore, Undo, PAIR, ("down down", "A & Bm"), "z", "G & F#m"),
        triple(Explore, Undo, TOLD, ("", USUAL_FINGERS), "z", "nothing to take back"),
        triple(Explore, Redo, PAIR, ("down down z z", "G & A"), "Z Z", "A & Bm"),
        triple(Explore, Back, CHORD, ("c D m 7 enter", "Dm7"), "<", "Gmaj7♯11"),
        triple(Explore, Back, PAIR, ("down c D m 7 enter", "F & G"), "<", "G & F#m"),
        triple(Explore, Forward, PAIR, ("c D m 7 enter down <", "G & A"), ">", "Dm & C"),
        triple(Explore, Forward, TOLD, ("", USUAL_FINGERS), ">", "this is the last chord"),
        triple(Explore, Palette, MARKED, ("", FIRST_PAIR), "tab", "help"),
        triple(Explore, Palette, CAPO, ("tab c a p o", "no capo"), "enter : c a p o enter", "capo at 2"),
        triple(Explore, FreeMouse, TOLD, ("M M", "the mouse selects text"), "M", "the mouse chooses pairs, notes and strings"),
        triple(Explore, CopyShape, COPIED, ("", ""), "H", SHAPE_COPIED),
        triple(Explore, CopyNeck, TOLD, ("", USUAL_FINGERS), "N", "copied the neck, 9 lines"),
        triple(Explore, ToHand, FRETS, ("end", "12-22"), "8", "2-12"),
        triple(Explore, ToHand, FRETS, ("space end", "12-22"), "8", "4-14"),
        triple(Explore, FretWidths, FIRST_STRING, ("", RIGHT), "W", TRUE_WIDTHS),
        triple(Explore, FretWidths, FIRST_STRING, ("W", TRUE_WIDTHS), "W", RIGHT),
        triple(Explore, LeftOut, FIRST_STRING, ("", RIGHT), "L", WITH_LEFT_OUT),
        triple(Explore, LeftOut, FIRST_STRING, ("L", WITH_LEFT_OUT), "L", RIGHT),
        triple(Explore, NextPair, TOLD, ("", USUAL_FINGERS), "down", "stays: G B D A C♯"),
        triple(Explore, Labels, TOLD, ("down", "stays: G B D A C♯"), "n", USUAL_FINGERS),
        triple(Everywhere, Help, TOP, ("", OPENED), "?", HELP_TOP),
        triple(Everywhere, Help, TOP, ("", OPENED), "f1", HELP_TOP),
        triple(Everywhere, Quit, EFFECTS, ("", "[]"), "q", "[Quit]"),
        triple(Everywhere, QuitAtOnce, EFFECTS, ("c C", "[]"), "ctrl-c", "[Quit]"),
        triple(Everywhere, QuitAtOnce, EFFECTS, ("?", "[]"), "ctrl-c", "[Quit]"),
        triple(Everywhere, Suspend, EFFECTS, ("", "[]"), "ctrl-z", "[Suspend]"),
        triple(Everywhere, Suspend, EFFECTS, ("c C", "[]"), "ctrl-z", "[Suspend]"),
    ]
};

const HELP_TOP: &str = "Every key, or type a word:";
const HELP_FIRST: &str = "Chord, pairs and neck";
const SHAPE_COPIED: &str = "[G] root position · frets 5-4-3 · fingers 3-2-1 · 59 mm · position III
 1 E |---|
 2 B |-3-|
 3 G |-4-|
 4 D |-5-|
 5 A |---|
 6 E |---|
";
/// What the last key has copied.
const COPIED: Told = |player| match player.effects.last() {
    Some(Effect::Copy(clip)) => clip.text().to_owned(),
    _ => String::new(),
};
const SECOND: Told = |player| player.line(1);
/// First on the help page after a page down and a line up.
const HELP_BELOW: &str = "h                 other fingers for the shape in hand";

const FIRST_PAIR: &str = "G & A";
const STANDARD: &str = "Guitar, standard";
const PICKING: &str = "Tunings, or type one:";
const USUAL_FINGERS: &str =
    "one finger a fret in position III, without the fourth finger · 4 ways, 3 places";
const NO_CHOICES: &str = "the whole neck has no choices: v takes a view";
/// The row on top of the neck, whichever string it is.
const RIGHT: &str = "1 E (E) ┃─────┼─────┼─[G]─┼─────┼─(A)─┼─────┼─[B]─┼─────┼(C♯)─┼─[D]─┼─────›";
const LEFT: &str = "‹─────┼─[D]─┼─(C♯)┼─────┼─[B]─┼─────┼─(A)─┼─────┼─[G]─┼─────┼─────┃ (E) E  1";
const TRUE_WIDTHS: &str =
    "1 E (E) ┃───────┼───────┼─[G]──┼──────┼─(A)──┼─────┼─[B]─┼────┼(C♯)┼[D]─┼────›";
const WITH_LEFT_OUT: &str =
    "1 E (E) ┃─────┼─F♯──┼─[G]─┼─────┼─(A)─┼─────┼─[B]─┼─────┼(C♯)─┼─[D]─┼─────›";
const UPSIDE_DOWN: &str =
    "6 E (E) ┃─────┼─────┼─[G]─┼─────┼─(A)─┼─────┼─[B]─┼─────┼(C♯)─┼─[D]─┼─────›";

#[test]
fn every_triple_holds() {
    for Triple { command, told, before: (lead, before), keys, after } in TRIPLES {
        let mut player = Player::after("Gmaj7#11", lead);
        assert_eq!(told(&player), *before, "{command:?} after {lead:?}");
        player.press(keys);
        assert_eq!(told(&player), *after, "{command:?}: {lead:?}, then {keys:?}");
    }
}

#[test]
fn every_command_of_the_table_has_a_triple() {
    let told: HashSet<_> = TRIPLES.iter().map(|triple| triple.command).collect();
    for row in COMMANDS {
        assert!(told.contains(&(row.section, row.command)), "{:?} {}", row.section, row.name);
    }
}

/// A triple whose keys are those of another command would test nothing of its own.
#[test]
fn every_triple_presses_a_key_of_its_command() {
    let (keys, _) = Keys::built_in();
    for Triple { command: (section, command), keys: typed, .. } in TRIPLES {
        let is_meant = |row: &&CommandRow| (row.section, row.command) == (*section, *command);
        let of_command = keys.of(COMMANDS.iter().find(is_meant).unwrap());
        let pressed =
            typed.split_whitespace().any(|key| of_command.contains(&key.parse().unwrap()));
        assert!(pressed, "{section:?} {command:?}: {typed}");
    }
}

/// What is looked at comes back to where it was after a whole round, and not before.
fn assert_round<T: PartialEq + Debug>(key: &str, count: usize, told: impl Fn(&Player) -> T) {
    let mut player = Player::with("Gmaj7#11");
    let start = told(&player);
    for _ in 1..count {
        player.press(key);
        assert_ne!(told(&player), start);
    }
    player.press(key);
    assert_eq!(told(&player), start, "{count} times {key}");
}

#[test]
fn lists_and_ladders_go_round() {
    assert_round("down", 7, Player::pair);
    assert_round("up", 7, Player::pair);
    assert_round("s", 5, Player::scale);
    assert_round("S", 5, Player::scale);
    assert_round("t", 4, Player::strings);
    assert_round("n", 4, |player| player.explore.labels());
    assert_round("v", 5, LOOKS);
    assert_round("V", 5, LOOKS);
    assert_round("h", 4, FINGERS);
    assert_round("o", 3, Player::shape);
}

/// From the lowest shape on, every step of a climb goes up by ear, over all string sets, until the
/// neck ends; then it begins again, and says so. So it goes down too.
#[test]
fn a_climb_goes_over_all_strings_and_never_stops() {
    for (key, there_first) in [("space", "6-5-4"), ("backspace", "3-2-1")] {
        let mut player = Player::with("Gmaj7#11");
        while !player.shows("the neck ends here") {
            player.press(key);
        }
        let height = |player: &Player| -> u32 {
            player.explore.shape().unwrap().pitches.iter().map(|pitch| u32::from(*pitch)).sum()
        };
        let mut sets = vec![player.strings()];
        assert_eq!(sets[0], there_first);
        loop {
            let before = (height(&player), player.strings());
            player.press(key);
            if player.shows("the neck ends here") {
                break;
            }
            let up = height(&player) >= before.0;
            assert!(up == (key == "space") || height(&player) == before.0, "{}", player.shape());
            if player.strings() != before.1 {
                assert_eq!(
                    TOLD(&player),
                    format!("strings {} end here: on to {}", before.1, player.strings())
                );
                sets.push(player.strings());
            }
        }
        let mut expected = vec!["6-5-4", "5-4-3", "4-3-2", "3-2-1"];
        if key == "backspace" {
            expected.reverse();
        }
        assert_eq!(sets, expected);
    }
}

/// Whatever is in hand: other places sound the same, and other fingers stand on the same frets.
#[test]
fn alternatives_keep_what_they_promise() {
    let mut player = Player::with("Gmaj7#11");
    for _ in 0..12 {
        player.press("space");
        let home = player.explore.shape().unwrap();
        player.press("h");
        assert_eq!(player.explore.shape().unwrap().frets, home.frets);
        player.press("o");
        let mut there = player.explore.shape().unwrap().pitches;
        let mut here = home.pitches;
        there.sort_unstable();
        here.sort_unstable();
        assert_eq!(there, here);
        assert!(hand_is_in_view(&player), "{}", player.screen());
    }
}

#[test]
fn a_search_finds_names_instruments_and_notes() {
    for (typed, first) in [
        ("d a d g a d", "typed"),
        ("d a d g a d down", "Guitar, DADGAD"),
        ("u k u space b a r", "Ukulele, baritone"),
        ("m a n d o c", "Mandocello"),
        ("G 4 space D 3 down", "Banjo, open G"),
        ("d a d g b e down", "Guitar, drop D"),
        ("z z z", ""),
    ] {
        let player = Player::after("C7", &format!("g {typed}"));
        assert_eq!(player.marked(), first, "{typed}\n{}", player.screen());
    }
}

#[test]
fn a_tuning_can_be_typed_in_the_search() {
    let mut player = Player::after("C7", "g");
    player.paste("D A D G B E");
    assert!(player.shows("octaves inferred"));
    assert!(
        player.shows("shapes stay on 5-4-3 4-3-2 3-2-1 · change on 6-5-4"),
        "{}",
        player.screen()
    );
    player.press("enter");
    assert_eq!(player.explore.neck().tuning().to_string(), "D2 A2 D3 G3 B3 E4");
    player.press("g");
    assert_eq!(player.marked(), "typed");
}

/// Drop D leaves strings 4-3-2 alone; seven strings add one, and 4-3-2 sounds as before.
#[test]
fn the_hand_goes_to_its_counterpart() {
    for name in ["d r o p space d", "7 space s t r i n g s"] {
        let mut player = Player::after("Gmaj7#11", "space space");
        let before = (player.shape(), player.strings());
        player.press(&format!("g {name} enter"));
        assert_ne!(player.tuning(), "guitar-standard");
        assert_eq!((player.shape(), player.strings()), before);
    }
}

#[test]
fn the_capo_is_named_with_its_shapes_and_goes_with_the_player() {
    let mut player = Player::after("Gmaj7#11", "i i");
    assert!(player.shows("capo 2 · shapes of F & G"));
    player.press("g d r o p enter");
    assert_eq!(CAPO(&player), "capo at 2");
    player.press("I I I");
    assert_eq!(CAPO(&player), "no capo");
}

#[test]
fn a_partial_capo_stays_partial_even_when_it_was_off() {
    let mut player = Player::with("Gmaj7#11");
    let capo = fretloom_fretboard::Capo::read("2", Some("5-4-3")).unwrap();
    player.explore.put_capo(capo).unwrap();
    assert!(player.shows("capo 2 on 5-4-3"));
    player.press("I I i i i");
    assert_eq!(CAPO(&player), "capo at 3 on 5-4-3");
}

/// How the neck lies is the player's own, and no tuning changes it.
#[test]
fn the_neck_stays_turned_when_the_tuning_changes() {
    let player = Player::after("Gmaj7#11", "r y g b a n j o enter");
    let lie = neck_reader::Lie { left_handed: true, upside_down: true };
    let read = DrawnNeck::read_lying(&player.buffer(), lie).unwrap();
    assert_eq!((player.tuning().as_str(), read.strings), ("banjo-open-g", 5));
    assert_eq!(read.names, ["D4", "B3", "G3", "D3", "G4"]);
}

/// On a bass four frets at the nut are beyond a hand or nearly so.
#[test]
fn a_wide_stretch_is_told_with_a_line_of_care() {
    let mut player = Player::after("Gmaj7#11", "g b a s s enter");
    let is_wide = |player: &Player| player.shows(" mm, wide ·");
    let mut presses = 0;
    while !is_wide(&player) && presses < 60 {
        player.press("space");
        presses += 1;
    }
    let shape = player.explore.shape().unwrap();
    // The default hand reaches 120 mm; from four fifths of that on a stretch is wide.
    assert!(shape.stretch_mm >= 96.0, "{}", player.screen());
    while player.shows("end here") || player.shows("ends here") {
        player.press("n");
    }
    assert!(player.shows("a wide stretch: warm up, rest, stop when it hurts"));
}

/// What a view shows is in view, and all else is no mark.
#[test]
fn a_view_shows_its_places_and_no_others() {
    for views in ["v", "v v", "v v v", "v v v v"] {
        let mut player = Player::after("Gmaj7#11", views);
        for _ in 0..7 {
            let read = DrawnNeck::read(&player.buffer()).unwrap();
            let places = player.explore.view_places().unwrap().iter();
            let places = places.map(|place| (place.string, place.fret));
            let in_view = |fret: u8| fret == 0 || read.frets.contains(&fret);
            let wanted: HashSet<(u8, u8)> = places.filter(|(_, fret)| in_view(*fret)).collect();
            let marks: HashSet<_> = read.marks.iter().map(|m| (m.string, m.fret)).collect();
            assert_eq!(marks, wanted, "{}", player.screen());
            assert!(!wanted.is_empty());
            player.press("x");
        }
    }
}

#[test]
fn inversions_of_one_triad_go_round_and_stay_with_it() {
    for (key, triad) in [("1", "G "), ("2", "A ")] {
        let mut player = Player::after("Gmaj7#11", key);
        let start = player.shape();
        let mut seen = HashSet::new();
        while seen.insert(player.shape()) {
            assert!(player.shape().starts_with(triad), "{}", player.shape());
            player.press(key);
        }
        assert_eq!(player.shape(), start);
        assert!(seen.len() >= 3, "{seen:?}");
    }
}

/// Is every fret of the shape in hand on the drawn neck?
fn hand_is_in_view(player: &Player) -> bool {
    let shown = player.frets_drawn();
    let shape = player.explore.shape().unwrap();
    shape.frets.iter().all(|fret| *fret == 0 || shown.contains(fret))
}

#[test]
fn the_neck_follows_the_hand() {
    for columns in [60, 70, 80, 110] {
        for key in ["space", "backspace", "1", "2", "down", "s", "t", "n"] {
            let mut player = Player::with("Gmaj7#11");
            player.resize(columns, 24);
            for _ in 0..30 {
                player.press(key);
                assert!(hand_is_in_view(&player), "{columns} columns, {key}\n{}", player.screen());
            }
        }
    }
}

#[test]
fn the_neck_stays_where_the_player_scrolled_it() {
    let mut player = Player::after("Gmaj7#11", "end n l");
    assert_eq!(player.frets(), "12-22");
    player.press("home");
    assert_eq!(player.frets(), "1-11");
}

#[test]
fn a_narrower_window_keeps_the_hand_in_view() {
    let mut player = Player::after("Gmaj7#11", "space space space");
    assert_eq!((player.shape().as_str(), player.frets().as_str()), ("A 11-9-10", "1-11"));
    player.resize(60, 24);
    assert_eq!(player.frets(), "4-11");
}

#[test]
fn a_chord_typed_well_starts_at_its_first_pair() {
    let player = Player::after("Gmaj7#11", "down s c D m 7 enter");
    assert_eq!(player.chord(), "Dm7");
    assert_eq!(player.scale(), "D Dorian");
    assert_eq!(player.explore.pair().unwrap().rank, 1);
    assert!(player.shows("scale 1 of"));
}

#[test]
fn a_chord_typed_badly_stays_in_its_field_and_the_last_good_one_on_the_screen() {
    let mut player = Player::after("Gmaj7#11", "c C q enter");
    assert_eq!(player.line(0), "chord Cq");
    assert!(player.line(1).starts_with("character 2: expected "), "{}", player.line(1));
    assert_eq!(player.chord(), "Gmaj7♯11");
    assert!(player.shows("[G] & (A)"));
    player.press("backspace 7 enter");
    assert_eq!(player.chord(), "C7");
}

#[test]
fn a_chord_that_is_left_changes_nothing() {
    let mut player = Player::after("Gmaj7#11", "down space n");
    let before = player.screen();
    player.press("c D m 7 esc");
    assert_eq!(player.screen(), before);
}

#[test]
fn keys_that_mean_something_elsewhere_are_text_in_the_field() {
    let player = Player::after("Gmaj7#11", "c q ? j s space 1 S");
    assert_eq!(player.line(0), "chord q?js 1S");
    assert_eq!(player.effects, []);
}

#[test]
fn a_paste_goes_into_the_field_and_nowhere_else() {
    let mut player = Player::with("Gmaj7#11");
    let before = player.screen();
    player.paste("q\nDm7");
    assert_eq!((player.screen(), &player.effects[..]), (before, &[][..]));
    player.press("c");
    player.paste("Dm7\n");
    assert_eq!(player.line(0), "chord Dm7");
    player.press("enter");
    assert_eq!(player.chord(), "Dm7");
    player.press("e");
    player.paste("q");
    assert_eq!(player.line(0), "Scales that fit Dm7");
}

#[test]
fn a_tuning_picked_gets_its_own_neck() {
    let player = Player::after("C7", "g down down down down down down enter");
    assert_eq!(player.tuning(), "ukulele-high-g");
    assert_eq!(player.explore.neck().tuning().string_count(), 4);
    assert!(player.shows("Ukulele, high G  G C E A"));
    assert!(hand_is_in_view(&player));
    // The list opens on the tuning in use.
    let again = Player::after("C7", "g down enter g");
    assert_eq!(again.marked(), "Guitar, drop D");
}

#[test]
fn help_ends_on_its_last_line_and_comes_back_at_once() {
    let mut player = Player::after("Gmaj7#11", "?");
    let top = player.screen();
    player.press("pagedown pagedown pagedown pagedown down down");
    assert!(player.shows("warm up, rest, and stop when it hurts"));
    let end = player.screen();
    player.press("up");
    assert_ne!(player.screen(), end, "the first key upwards moves");
    player.press("pageup pageup pageup pageup");
    assert_eq!(player.screen(), top);
    player.press("esc");
    assert_eq!(player.line(0), OPENED);
}

#[test]
fn help_shows_every_command_with_all_its_keys() {
    let (keys, _) = Keys::built_in();
    let mut player = Player::after("Gmaj7#11", "?");
    player.resize(80, 110);
    let help = player.screen();
    for row in COMMANDS {
        let line = help.lines().find(|line| line.ends_with(row.help));
        let line = line.unwrap_or_else(|| panic!("no help on {}", row.name));
        for key in keys.of(row) {
            assert!(line.contains(&key.label(fretloom::tui::key::Glyphs::Unicode)), "{line}");
        }
    }
}

#[test]
fn q_closes_a_list_before_it_quits() {
    let mut player = Player::after("Gmaj7#11", "? esc e q");
    assert_eq!(player.effects, []);
    player.press("q");
    assert_eq!(player.effects, [Effect::Quit]);
}

/// Every command of the explorer that changes something is taken back as a whole, to the last cell,
/// and made again.
#[test]
fn every_change_can_be_taken_back_and_made_again() {
    let changes =
        "down s f m space d 1 2 t l h o n p i r y W L right 9 0 v x v x v x v x V X S up T I";
    let mut player = Player::after("C7b9", "");
    let mut seen = vec![below_told(&player)];
    for key in changes.split(' ') {
        player.press(key);
        if seen.last() != Some(&below_told(&player)) {
            seen.push(below_told(&player));
        }
    }
    player.press("w 7 enter e down enter g d r o p enter c D m 7 enter");
    let end = below_told(&player);
    player.press("z z z z");
    for (step, before) in seen.iter().enumerate().rev() {
        assert_eq!(&below_told(&player), before, "step {step}");
        player.press("z");
    }
    assert_eq!(TOLD(&player), "nothing to take back");
    player.press(&"Z ".repeat(seen.len() + 3));
    assert_eq!(below_told(&player), end);
}

/// The screen of a guitar without the line that tells what the last key did.
fn below_told(player: &Player) -> String {
    let screen = player.screen();
    let told = screen.lines().position(|line| line.starts_with("─ frets")).unwrap() + 10;
    screen.lines().enumerate().filter(|(row, _)| *row != told).map(|(_, line)| line).collect()
}

#[test]
fn a_chord_that_was_typed_is_one_step_and_looking_is_none() {
    let mut player = Player::after("Gmaj7#11", "down c D m 7 enter ? esc e esc g esc w esc z");
    assert_eq!((player.chord().as_str(), player.pair().as_str()), ("Gmaj7♯11", "G & F#m"));
    player.press("z");
    assert_eq!(player.pair(), "G & A");
}

#[test]
fn chords_are_pages_that_keep_their_scale_and_pair() {
    let mut player = Player::after("Gmaj7#11", "s down c D m 7 enter down down c G 7 enter < <");
    let told = |player: &Player| (player.chord(), player.scale(), player.pair());
    let first = told(&player);
    assert_eq!((first.0.as_str(), first.1.as_str()), ("Gmaj7♯11", "G Lydian augmented"));
    player.press("> >");
    assert_eq!(player.chord(), "G7");
    player.press("<");
    assert_eq!(told(&player), ("Dm7".to_owned(), "D Dorian".to_owned(), "Dm & Em".to_owned()));
    player.press("c C 7 enter");
    assert_eq!(told(&Player::after("Gmaj7#11", "s down")), first);
    player.press(">");
    assert_eq!(TOLD(&player), "this is the last chord");
}

/// Letters search the help page, by what a line says and by the command's name; headings stay.
#[test]
fn help_is_searched_by_typing() {
    let player = Player::after("Gmaj7#11", "? c a p o");
    let lines: Vec<String> = (0..6).map(|row| player.line(row)).collect();
    assert_eq!(lines[0], "Every key, or type a word: capo");
    assert_eq!(lines[1], HELP_FIRST);
    assert!(lines[2].ends_with("the capo a fret up, partial or not"), "{}", lines[2]);
    assert!(lines[3].ends_with("the capo a fret down, at last off"), "{}", lines[3]);
    assert_eq!(lines[5], "On the neck");
    let none = Player::after("Gmaj7#11", "? z z z");
    assert!(none.shows("nothing is called so"));
}

/// Whatever the list offers can be found by typing its name, and then stands first.
#[test]
fn every_command_is_found_by_its_name() {
    let there = |row: &&CommandRow| {
        matches!(row.section, Section::Explore | Section::Everywhere)
            && row.command != Command::Palette
    };
    for row in COMMANDS.iter().filter(there) {
        let mut player = Player::after("Gmaj7#11", "tab");
        let name = row.name.replace('-', " ");
        player.paste(&name);
        assert_eq!(player.marked(), name);
    }
}

#[test]
fn the_mouse_chooses_what_it_points_at() {
    let mut player = Player::with("Gmaj7#11");
    player.point("Em & F♯m", 3, Pointed::Click);
    assert_eq!(player.pair(), "Em & F#m");
    player.point("Em & F♯m", 3, Pointed::WheelDown);
    assert_eq!(player.pair(), "D & Em");
    player.press("z z");
    assert_eq!(player.pair(), "G & A");
    player.point("  1 E (E)", 2, Pointed::Click);
    assert_eq!(player.strings(), "3-2-1");
    player.point("  1 E (E)", 2, Pointed::Click);
    assert!(player.shows("locked to 3-2-1"));
    player.point("  3 G [G]", 20, Pointed::WheelDown);
    assert_eq!(player.frets(), "2-12");
    let before = player.screen();
    player.press("?");
    player.point("the next pair", 0, Pointed::Click);
    player.press("esc");
    assert_eq!(player.screen(), before);
}

/// Every note that is drawn is in the shape that a click on it takes, if any close shape has it.
#[test]
fn a_click_on_a_note_takes_a_shape_with_it() {
    let mut taken = 0;
    let drawn = DrawnNeck::read(&Player::with("Gmaj7#11").buffer()).unwrap();
    for mark in &drawn.marks {
        let mut player = Player::with("Gmaj7#11");
        let string = format!(" {} ", mark.string);
        let screen = player.screen();
        let top = screen.lines().position(|line| line.starts_with("─ frets")).unwrap() + 2;
        let row = screen.lines().skip(top).position(|line| line.starts_with(&format!(" {string}")));
        let column = if mark.fret == 0 { 7 } else { 13 + 6 * (u16::from(mark.fret) - 1) };
        let row = u16::try_from(top + row.unwrap()).unwrap();
        player.explore.update(Event::Mouse(Pointer { column, row, what: Pointed::Click }));
        if player.shows("no close shape of the pair has this place") {
            continue;
        }
        let shape = player.explore.shape().unwrap();
        let places: Vec<_> = shape.strings.iter().copied().zip(shape.frets).collect();
        assert!(places.contains(&(mark.string, mark.fret)), "{mark:?}: {places:?}");
        taken += 1;
    }
    // Two places lie in no close shape.
    assert_eq!(taken + 2, drawn.marks.len(), "{taken} of {}", drawn.marks.len());
}
