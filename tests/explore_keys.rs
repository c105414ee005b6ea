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

use fretloom::tui::command::{
    COMMANDS, Command, CommandRow, ExploreCommand, ListCommand, ProgramCommand, Section,
    SoundCommand, TypingCommand,
};
use fretloom::tui::keys::Keys;
use fretloom::tui::program::Effect;
use player::{HELP_FIRST, HELP_TOP, OPENED, Player};

/// What a triple looks at.
type Told = fn(&Player) -> String;

/// One command of a section: what is looked at; its words before; the keys; its words after.
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

const fn explore(
    command: ExploreCommand,
    told: Told,
    before: (&'static str, &'static str),
    keys: &'static str,
    after: &'static str,
) -> Triple {
    triple(Section::Explore, Command::Explore(command), told, before, keys, after)
}

const fn program(
    section: Section,
    command: ProgramCommand,
    told: Told,
    before: (&'static str, &'static str),
    keys: &'static str,
    after: &'static str,
) -> Triple {
    triple(section, Command::Program(command), told, before, keys, after)
}

const fn typing(
    command: TypingCommand,
    told: Told,
    before: (&'static str, &'static str),
    keys: &'static str,
    after: &'static str,
) -> Triple {
    triple(Section::Typing, Command::Typing(command), told, before, keys, after)
}

const fn sound(
    command: SoundCommand,
    told: Told,
    before: (&'static str, &'static str),
    keys: &'static str,
    after: &'static str,
) -> Triple {
    triple(Section::Sound, Command::Sound(command), told, before, keys, after)
}

const fn list(
    section: Section,
    command: ListCommand,
    told: Told,
    before: (&'static str, &'static str),
    keys: &'static str,
    after: &'static str,
) -> Triple {
    triple(section, Command::List(command), told, before, keys, after)
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
/// The pair of which a line is made.
const LINE_OF: Told = |player| {
    let pair = player.line(1).split(" · ").next().unwrap_or_default().to_owned();
    if player.shows("order in bar") { pair } else { String::new() }
};
/// The first line of the changes screen.
const TUNE: &str = "a tune without a name   4 bars                   Guitar, standard  E A D G B E";
const EFFECTS: Told = |player| format!("{:?}", player.effects);
const SOUNDS: Told = Player::sounds;
/// The marked row of the page of sound.
const SOUND_ROW: Told = |player| {
    let screen = player.screen();
    let marked = screen.lines().find_map(|line| line.strip_prefix(" ▸ "));
    marked.unwrap_or_default().to_owned()
};
const SILENT: Told = |player| SOUND_ROW(player).ends_with("silent").to_string();
/// What the last key has to tell of sound, if anything.
const SHOWN_BELOW: Told = |player| {
    let screen = player.screen();
    let mut lines = screen.lines().map(str::trim);
    let told = |line: &&str| {
        ["silent", "sounds", "once more", "no folder"].iter().any(|word| line.contains(word))
    };
    lines.find(told).unwrap_or_default().to_owned()
};
const LABELS: Told = |player| player.program.explore().labels().word().to_owned();
const TOP: Told = |player| player.line(0);
const COUNT: Told = |player| player.program.explore().pairs().pairs.len().to_string();
const LOCK: Told = |player| player.shows("locked to 4-3-2").to_string();
/// The name of the pair's first triad, which the two spellings write differently over A altered.
const FIRST_NAME: Told = |player| player.program.explore().pair().unwrap().first.name.to_string();

/// Every command at least once, on Gmaj7♯11; the keys beside the words of before lead there.
#[rustfmt::skip]
const TRIPLES: &[Triple] = {
    use ExploreCommand::*;
    use Section::{Always, Everywhere, Explore, List, Picking};
    &[
        explore(EditChord, TOP, ("", OPENED), "c", "chord Gmaj7#11"),
        explore(EditChord, TOP, ("", OPENED), "enter", "chord Gmaj7#11"),
        explore(NextPair, PAIR, ("", "G & A"), "down", "G & F#m"),
        explore(NextPair, PAIR, ("up", "C#dim & D"), "j", "G & A"),
        explore(PreviousPair, PAIR, ("", "G & A"), "up", "C#dim & D"),
        explore(PreviousPair, PAIR, ("down", "G & F#m"), "k", "G & A"),
        explore(NextScale, SCALE, ("", "G Lydian"), "s s s s s", "G Lydian"),
        explore(PreviousScale, SCALE, ("s", "G Lydian augmented"), "S", "G Lydian"),
        explore(Climb, SHAPE, ("", "G 5-4-3"), "space", "A 7-6-5"),
        explore(Climb, SHAPE, ("", "G 5-4-3"), "u u", "G 9-7-8"),
        explore(MakeLine, LINE_OF, ("", ""), "3", "[G] & (A)"),
        explore(ToChanges, TOP, ("", OPENED), "4", TUNE),
        explore(Descend, SHAPE, ("space", "A 7-6-5"), "backspace", "G 5-4-3"),
        explore(Descend, SHAPE, ("space space", "G 9-7-8"), "d", "A 7-6-5"),
        explore(FirstTriad, SHAPE, ("", "G 5-4-3"), "1", "G 9-7-8"),
        explore(SecondTriad, SHAPE, ("", "G 5-4-3"), "2 b", "A 11-9-10"),
        explore(NextStrings, STRINGS, ("", "4-3-2"), "t", "5-4-3"),
        explore(NextStrings, STRINGS, ("", "4-3-2"), "t t t", "3-2-1"),
        explore(PreviousStrings, STRINGS, ("", "4-3-2"), "T", "3-2-1"),
        explore(PreviousStrings, STRINGS, ("", "4-3-2"), "T T", "6-5-4"),
        explore(LockStrings, LOCK, ("", "false"), "l", "true"),
        explore(LockStrings, LOCK, ("l", "true"), "l", "false"),
        explore(Labels, LABELS, ("", "note"), "n", "degree"),
        explore(Labels, LABELS, ("n", "degree"), "n", "member"),
        explore(Labels, LABELS, ("n n", "member"), "n", "finger"),
        explore(Labels, LABELS, ("n n n", "finger"), "n", "note"),
        explore(Labels, LABELS, ("v n n n", "finger"), "n", "order"),
        explore(Spelling, FIRST_NAME, ("c B b 7 a l t enter", "E"), "p", "F♭"),
        explore(Spelling, FIRST_NAME, ("c B b 7 a l t enter p", "F♭"), "p", "E"),
        explore(ChooseTuning, TOP, ("", OPENED), "g", PICKING),
        explore(ScrollRight, FRETS, ("", "1-11"), "right .", "3-13"),
        explore(ScrollLeft, FRETS, ("right right", "3-13"), "left", "2-12"),
        explore(ScrollLeft, FRETS, ("", "1-11"), ",", "1-11"),
        explore(ToNut, FRETS, ("end", "12-22"), "home", "1-11"),
        explore(ToNut, FRETS, ("right", "2-12"), "0", "1-11"),
        explore(ToEnd, FRETS, ("", "1-11"), "end right", "12-22"),
        explore(ToEnd, FRETS, ("", "1-11"), "9", "12-22"),
        explore(MovePair, PAIR, ("c C 7 b 9 enter", "C & Gb"), "m", "Eb & A"),
        explore(MovePair, PAIR, ("c C 7 b 9 enter m", "Eb & A"), "m", "C & Gb"),
        explore(MovePair, PAIR, ("", "G & A"), "m", "G & A"),
        explore(Details, TOP, ("", OPENED), "D", "G & A over Gmaj7♯11 in G Lydian"),
        explore(EditWish, TOP, ("", OPENED), "w", "wish"),
        explore(EditWhere, TOP, ("", OPENED), "P", "where"),
        explore(EditWhere, TOP, ("P V space 3 - 2 - 1 enter", OPENED), "/", "where V 3-2-1"),
        typing(TypingCommand::Accept, LOOKS, ("P V", "strings 4-3-2"), "enter", "position V"),
        typing(TypingCommand::Accept, LOOKS, ("P V enter P space", "position V"), "enter", "strings 4-3-2"),
        typing(TypingCommand::Accept, SHAPE, ("P 5 - 8 x", "G 5-4-3"), "backspace enter", "G 7-5-5"),
        explore(Families, COUNT, ("", "7"), "f", "10"),
        explore(Families, COUNT, ("f f f", "12"), "f", "7"),
        explore(ChooseScale, MARKED, ("", FIRST_PAIR), "e", "G Lydian"),
        typing(TypingCommand::Accept, COUNT, ("w 7 , - 1", "7"), "enter", "1"),
        typing(TypingCommand::Accept, COUNT, ("w - 1 enter w backspace backspace", "1"), "enter", "7"),
        typing(TypingCommand::Accept, TOP, ("w x", "wish x"), "enter", "wish x"),
        list(List, ListCommand::Accept, SCALE, ("e down", "G Lydian"), "enter", "G Lydian augmented"),
        typing(TypingCommand::Accept, CHORD, ("c D m 7", "Gmaj7♯11"), "enter", "Dm7"),
        typing(TypingCommand::Suggestion, TOP, ("c B b m a", "chord Bbma"), "tab", "chord Bbmaj7"),
        typing(TypingCommand::Suggestion, TOP, ("c D", "chord D"), "down tab", "chord Dmaj7#11"),
        typing(TypingCommand::Suggestion, TOP, ("w 7", "wish 7"), "tab", "wish 7"),
        typing(TypingCommand::Cancel, TOP, ("c D m 7", "chord Dm7"), "esc", OPENED),
        list(List, ListCommand::Down, MARKED, ("e", "G Lydian"), "down", "G Lydian augmented"),
        list(List, ListCommand::Down, MARKED, ("e space space", "G chromatic"), "j", "G chromatic"),
        list(List, ListCommand::Up, MARKED, ("e down", "G Lydian augmented"), "up", "G Lydian"),
        list(List, ListCommand::Up, MARKED, ("e", "G Lydian"), "k", "G Lydian"),
        list(List, ListCommand::PageDown, MARKED, ("e", "G Lydian"), "pagedown", "G chromatic"),
        list(List, ListCommand::PageDown, MARKED, ("e", "G Lydian"), "space", "G chromatic"),
        list(Picking, ListCommand::PageDown, SECOND, ("?", HELP_FIRST), "pagedown up", HELP_BELOW),
        list(List, ListCommand::PageUp, MARKED, ("e space", "G chromatic"), "pageup", "G Lydian"),
        list(Picking, ListCommand::Accept, TOP, ("?", HELP_TOP), "enter", OPENED),
        list(List, ListCommand::Cancel, SCALE, ("e down", "G Lydian"), "esc", "G Lydian"),
        list(List, ListCommand::Cancel, TOP, ("e", "Scales that fit Gmaj7♯11"), "q", OPENED),
        list(Picking, ListCommand::Cancel, TOP, ("?", HELP_TOP), "esc", OPENED),
        list(Picking, ListCommand::Cancel, TOP, ("? q esc", HELP_TOP), "esc", OPENED),
        list(Picking, ListCommand::Down, MARKED, ("g", STANDARD), "down", "Guitar, drop D"),
        list(Picking, ListCommand::Up, MARKED, ("g down", "Guitar, drop D"), "up", STANDARD),
        list(Picking, ListCommand::Up, MARKED, ("g", STANDARD), "up", STANDARD),
        list(Picking, ListCommand::PageDown, MARKED, ("g", STANDARD), "pagedown", "Guitar, whole step down"),
        list(Picking, ListCommand::PageUp, MARKED, ("g pagedown", "Guitar, whole step down"), "pageup", STANDARD),
        list(Picking, ListCommand::Accept, TUNING, ("g down", "guitar-standard"), "enter", "guitar-drop-d"),
        list(Picking, ListCommand::Accept, TUNING, ("g b a n j o", "guitar-standard"), "enter", "banjo-open-g"),
        list(Picking, ListCommand::Cancel, TUNING, ("g down", "guitar-standard"), "esc", "guitar-standard"),
        list(Picking, ListCommand::Cancel, MARKED, ("g b a n j o", "Banjo, open G"), "esc", STANDARD),
        list(Picking, ListCommand::Cancel, TOP, ("g b a n j o esc", PICKING), "esc", OPENED),
        explore(NextView, LOOKS, ("", "strings 4-3-2"), "v", "position III"),
        explore(NextView, LOOKS, ("v v v v", "two a string 4-3-2, 3 of 10"), "v", "strings 4-3-2"),
        explore(PreviousView, LOOKS, ("v v", "strings 4-3-2 alone"), "V", "position III"),
        explore(NextChoice, LOOKS, ("v", "position III"), "x", "position IV"),
        explore(NextChoice, LOOKS, ("v v x", "strings 5-4-3 alone"), "x x x", "strings 3-2 alone"),
        explore(NextChoice, LOOKS, ("v v v", "across, chain 1 of 8"), "x", "across, chain 2 of 8"),
        explore(NextChoice, TOLD, ("", USUAL_FINGERS), "x", NO_CHOICES),
        explore(PreviousChoice, LOOKS, ("v", "position III"), "X X X", "position XXII"),
        explore(OtherFingers, FINGERS, ("", "3-2-1"), "h", "4-3-2"),
        explore(OtherPlace, SHAPE, ("", "G 5-4-3"), "o", "G 10-9-7"),
        explore(OtherPlace, SHAPE, ("o o", "G 15-14-12"), "o", "G 5-4-3"),
        explore(CapoUp, CAPO, ("", "no capo"), "i i", "capo at 2"),
        explore(CapoUp, CAPO, ("i", "capo at 1"), "+", "capo at 2"),
        explore(CapoDown, CAPO, ("i i", "capo at 2"), "I", "capo at 1"),
        explore(CapoDown, CAPO, ("i", "capo at 1"), "-", "no capo"),
        explore(LeftHanded, FIRST_STRING, ("", RIGHT), "r", LEFT),
        explore(LeftHanded, FIRST_STRING, ("r", LEFT), "r", RIGHT),
        explore(UpsideDown, FIRST_STRING, ("", RIGHT), "y", UPSIDE_DOWN),
        explore(UpsideDown, FIRST_STRING, ("y", UPSIDE_DOWN), "y", RIGHT),
        program(Explore, ProgramCommand::Undo, PAIR, ("down down", "A & Bm"), "z", "G & F#m"),
        program(Explore, ProgramCommand::Undo, TOLD, ("", USUAL_FINGERS), "z", "nothing to take back"),
        program(Explore, ProgramCommand::Redo, PAIR, ("down down z z", "G & A"), "Z Z", "A & Bm"),
        program(Explore, ProgramCommand::Back, CHORD, ("c D m 7 enter", "Dm7"), "<", "Gmaj7♯11"),
        program(Explore, ProgramCommand::Back, PAIR, ("down c D m 7 enter", "F & G"), "<", "G & F#m"),
        program(Explore, ProgramCommand::Forward, PAIR, ("c D m 7 enter down <", "G & A"), ">", "Dm & C"),
        program(Explore, ProgramCommand::Forward, TOLD, ("", USUAL_FINGERS), ">", "this is the last chord"),
        program(Explore, ProgramCommand::Palette, MARKED, ("", FIRST_PAIR), "tab", "help"),
        program(Explore, ProgramCommand::Palette, CAPO, ("tab c a p o", "no capo"), "enter : c a p o enter", "capo at 2"),
        program(Explore, ProgramCommand::FreeMouse, TOLD, ("M M", "the mouse selects text"), "M", "the mouse chooses what it points at"),
        explore(CopyShape, COPIED, ("", ""), "H", SHAPE_COPIED),
        explore(CopyNeck, TOLD, ("", USUAL_FINGERS), "N", "copied the neck, 9 lines"),
        explore(ToHand, FRETS, ("end", "12-22"), "8", "2-12"),
        explore(ToHand, FRETS, ("space end", "12-22"), "8", "4-14"),
        explore(FretWidths, FIRST_STRING, ("", RIGHT), "W", TRUE_WIDTHS),
        explore(FretWidths, FIRST_STRING, ("W", TRUE_WIDTHS), "W", RIGHT),
        explore(LeftOut, FIRST_STRING, ("", RIGHT), "L", WITH_LEFT_OUT),
        explore(LeftOut, FIRST_STRING, ("L", WITH_LEFT_OUT), "L", RIGHT),
        explore(NextPair, TOLD, ("", USUAL_FINGERS), "down", "stays: G B D A C♯"),
        explore(Labels, TOLD, ("down", "stays: G B D A C♯"), "n", USUAL_FINGERS),
        program(Everywhere, ProgramCommand::Help, TOP, ("", OPENED), "?", HELP_TOP),
        program(Everywhere, ProgramCommand::Help, TOP, ("", OPENED), "f1", HELP_TOP),
        program(Everywhere, ProgramCommand::Sound, TOP, ("", OPENED), "Y", "How it sounds"),
        program(Everywhere, ProgramCommand::Sound, TOP, ("", OPENED), "f2", "How it sounds"),
        program(Everywhere, ProgramCommand::SilenceLine, SHOWN_BELOW, ("", ""), "f5", "the line is silent"),
        program(Everywhere, ProgramCommand::SilenceDrone, SHOWN_BELOW, ("", ""), "f6", "the drone sounds"),
        program(Everywhere, ProgramCommand::SilenceClick, SHOWN_BELOW, ("", ""), "f7", "the click sounds"),
        explore(PlayShape, SOUNDS, ("", "Silent"), "5", "Playing"),
        explore(PlayShape, SHOWN_BELOW, ("5", "struck together; once more: one note after another"), "K", "one note after another; once more: together"),
        explore(PlayPair, SOUNDS, ("", "Silent"), "6", "Playing"),
        explore(KeepShape, SHOWN_BELOW, ("", ""), "G", "there is no folder for what is kept, expected XDG_DATA_HOME to name one"),
        sound(SoundCommand::Play, SOUNDS, ("Y", "Silent"), "space", "Playing"),
        sound(SoundCommand::More, SOUND_ROW, ("Y down down down", "click on      no beat"), "right", "click on      2 and 4"),
        sound(SoundCommand::Less, SOUND_ROW, ("Y down down down", "click on      no beat"), "left", "click on      every beat"),
        sound(SoundCommand::Silence, SILENT, ("Y", "false"), "m", "true"),
        sound(SoundCommand::Down, MARKED, ("Y", "line, shapes"), "down", "drone"),
        sound(SoundCommand::Up, MARKED, ("Y down", "drone"), "up", "line, shapes"),
        sound(SoundCommand::Close, TOP, ("Y", "How it sounds"), "esc", OPENED),
        program(Everywhere, ProgramCommand::Keep, SHOWN_BELOW, ("", ""), "!", "there is no folder for what is kept, expected XDG_DATA_HOME to name one"),
        program(Everywhere, ProgramCommand::Keepers, TOP, ("", OPENED), ";", "Keepers"),
        program(Everywhere, ProgramCommand::Keepers, TOP, ("f3", "Keepers"), ";", OPENED),
        program(Everywhere, ProgramCommand::Quit, EFFECTS, ("", "[]"), "q", "[Quit]"),
        program(Always, ProgramCommand::QuitAtOnce, EFFECTS, ("c C", "[]"), "ctrl-c", "[Quit]"),
        program(Always, ProgramCommand::QuitAtOnce, EFFECTS, ("?", "[]"), "ctrl-c", "[Quit]"),
        program(Always, ProgramCommand::Suspend, EFFECTS, ("", "[]"), "ctrl-z", "[Suspend]"),
        program(Always, ProgramCommand::Suspend, EFFECTS, ("c C", "[]"), "ctrl-z", "[Suspend]"),
    ]
};

const SHAPE_COPIED: &str =
    "[G] root position · frets 5-4-3 on strings 4-3-2 · position III · fingers 3-2-1 · 59 mm
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
const HELP_BELOW: &str = "T                   the set before";

const FIRST_PAIR: &str = "G & A";
const STANDARD: &str = "Guitar, standard";
const PICKING: &str = "Tunings, or type one:";
const USUAL_FINGERS: &str =
    "4 fingerings, 3 places on the neck · one finger a fret in position III, no";
const NO_CHOICES: &str = "the whole neck has no choices: v takes a view";
/// The row on top of the neck, whichever string it is.
const RIGHT: &str = "1 E (E) ┃─────┼─────┼•[G]─┼─────┼•(A)─┼─────┼─[B]─┼─────┼(C♯)─┼─[D]─┼─────›";
const LEFT: &str = "‹─────┼─[D]─┼─(C♯)┼─────┼─[B]─┼─────┼─(A)•┼─────┼─[G]•┼─────┼─────┃ (E) E  1";
const TRUE_WIDTHS: &str =
    "1 E (E) ┃───────┼───────┼─•[G]─┼──────┼─•(A)─┼─────┼─[B]─┼────┼(C♯)┼[D]─┼────›";
const WITH_LEFT_OUT: &str =
    "1 E (E) ┃─────┼─F♯──┼•[G]─┼─────┼•(A)─┼─────┼─[B]─┼─────┼(C♯)─┼─[D]─┼─────›";
const UPSIDE_DOWN: &str =
    "6 E (E) ┃─────┼─────┼•[G]─┼─────┼•(A)─┼─────┼─[B]─┼─────┼(C♯)─┼─[D]─┼─────›";

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
    // Those of other screens stand in tests/line_keys.rs, changes_keys.rs and keepers_keys.rs.
    let elsewhere =
        [Section::Line, Section::Changes, Section::Keepers, Section::Listen, Section::Practice];
    for row in COMMANDS.iter().filter(|row| !elsewhere.contains(&row.section)) {
        assert!(told.contains(&(row.listed, row.command)), "{:?} {}", row.listed, row.name);
    }
}

/// A triple whose keys are those of another command would test nothing of its own.
#[test]
fn every_triple_presses_a_key_of_its_command() {
    let (keys, _) = Keys::built_in();
    for Triple { command: (section, command), keys: typed, .. } in TRIPLES {
        let is_meant = |row: &&CommandRow| (row.listed, row.command) == (*section, *command);
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
    assert_round("n", 4, |player| player.program.explore().labels());
    assert_round("v", 5, Player::looks);
    assert_round("V", 5, Player::looks);
    assert_round("h", 4, Player::fingers);
    assert_round("o", 3, Player::shape);
}
