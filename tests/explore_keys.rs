//! What each key does to the explorer: short triples of before, keys typed, after.
//!
//! Keys are written as in the key files and separated by spaces. The state is told in a few words
//! of [`Told`], so that a triple reads as a sentence.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use std::collections::HashSet;
use std::fmt::Debug;

use fretloom::tui::command::{COMMANDS, Command, CommandRow, Keys, Section};
use fretloom::tui::runtime::Effect;
use player::{HELP_FIRST, HELP_TOP, OPENED, Player};

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
const LOOKS: Told = Player::looks;
const TOLD: Told = Player::told;
const FINGERS: Told = Player::fingers;
const CAPO: Told = Player::capo;
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

/// Every command at least once, on Gmaj7♯11; the keys beside the words of before lead there.
#[rustfmt::skip]
const TRIPLES: &[Triple] = {
    use Command::*;
    use Section::{Always, Everywhere, Explore, List, Picking, Typing};
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
        triple(Explore, FreeMouse, TOLD, ("M M", "the mouse selects text"), "M", "the mouse chooses what it points at"),
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
        triple(Always, QuitAtOnce, EFFECTS, ("c C", "[]"), "ctrl-c", "[Quit]"),
        triple(Always, QuitAtOnce, EFFECTS, ("?", "[]"), "ctrl-c", "[Quit]"),
        triple(Always, Suspend, EFFECTS, ("", "[]"), "ctrl-z", "[Suspend]"),
        triple(Always, Suspend, EFFECTS, ("c C", "[]"), "ctrl-z", "[Suspend]"),
    ]
};

const SHAPE_COPIED: &str = "[G] root position · frets 5-4-3 · position III · fingers 3-2-1 · 59 mm
Gmaj7♯11 · G Lydian · [G] & (A) · E2 A2 D3 G3 B3 E4
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
const HELP_BELOW: &str = "l                   stay on these strings, the others quiet, or not";

const FIRST_PAIR: &str = "G & A";
const STANDARD: &str = "Guitar, standard";
const PICKING: &str = "Tunings, or type one:";
const USUAL_FINGERS: &str =
    "4 ways, 3 places · one finger a fret in position III, without the fourth finger";
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
    assert_round("v", 5, Player::looks);
    assert_round("V", 5, Player::looks);
    assert_round("h", 4, Player::fingers);
    assert_round("o", 3, Player::shape);
}
