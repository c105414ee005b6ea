//! What each key does to the keepers screen: short triples of before, keys typed, after.
//!
//! Every triple begins with the keepers of one file, on the sixth of May. What is told is a word or two of
//! the screen.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "keepers/folder.rs"]
#[allow(dead_code, reason = "each test program uses its own part of this")]
mod folder;
#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use std::collections::HashSet;

use folder::Folder;
use fretloom::tui::command::{COMMANDS, Command, KeepersCommand, Section};
use fretloom::tui::gesture::GESTURES;
use fretloom::tui::key::Key;
use fretloom::tui::keys::Keys;
use fretloom::tui::mouse::Pointed;
use player::{OPENED, Player};

/// What a triple looks at.
type Told = fn(&Player) -> String;

/// One command: what is looked at; keys that lead to the state before, with its words; keys; words.
type Triple = (KeepersCommand, Told, (&'static str, &'static str), &'static str, &'static str);

const FILE: &str = include_str!("keepers/format-1.toml");

/// The screen on the keepers of the file.
fn opened() -> (Folder, Player) {
    let folder = Folder::holding(FILE);
    let mut player = Player::keeping_in(folder.path());
    player.press(";");
    (folder, player)
}

/// Number and kind of the keeper that is marked.
fn marked(player: &Player) -> String {
    let screen = player.screen();
    let line = screen.lines().find_map(|line| line.strip_prefix(" ▸ ")).unwrap_or_default();
    line.split_whitespace().take(2).collect::<Vec<_>>().join(" ")
}

/// The numbers in their order, a mark before that of the marked one.
fn ids(player: &Player) -> String {
    let screen = player.screen();
    let lines = screen.lines().skip(2).take_while(|line| !line.starts_with('─'));
    let id = |line: &str| {
        let mark = if line.starts_with(" ▸") { "▸" } else { "" };
        let words = line.trim_start_matches([' ', '▸']);
        Some(format!("{mark}{}", words.split_whitespace().next()?))
    };
    lines.filter_map(id).collect::<Vec<_>>().join(" ")
}

/// What the last key had to tell.
fn told(player: &Player) -> String {
    let screen = player.screen();
    let mut lines = screen.lines().skip_while(|line| !line.starts_with('─')).skip(1);
    let line = lines.next().unwrap_or_default().trim().to_owned();
    let words = ["keeper ", "it ", "kept ", "no ", "taken ", "the list ", "nothing "];
    if words.iter().any(|word| line.starts_with(word)) { line } else { String::new() }
}

/// What stands in the line of the marked keeper between its pair and the word never.
fn tempo(player: &Player) -> String {
    let screen = player.screen();
    let line = screen.lines().find_map(|line| line.strip_prefix(" ▸ ")).unwrap_or_default();
    let words: Vec<&str> = line.split_whitespace().collect();
    let never = words.iter().position(|word| *word == "never");
    let before = never.and_then(|at| words.get(at - 1)).copied().unwrap_or_default();
    if before.parse::<u16>().is_ok() { before.to_owned() } else { String::new() }
}

fn top(player: &Player) -> String {
    player.line(0)
}

#[rustfmt::skip]
const TRIPLES: &[Triple] = &[
    (KeepersCommand::ToScreenBefore, top, ("", "Keepers   5 kept"), "esc", OPENED),
    (KeepersCommand::NextKeeper, marked, ("", "1 pair"), "down", "2 shape"),
    (KeepersCommand::NextKeeper, marked, ("end", "7 plan"), "j", "7 plan"),
    (KeepersCommand::PreviousKeeper, marked, ("down", "2 shape"), "up", "1 pair"),
    (KeepersCommand::PreviousKeeper, marked, ("", "1 pair"), "up", "1 pair"),
    (KeepersCommand::PageDown, marked, ("", "1 pair"), "pagedown", "7 plan"),
    (KeepersCommand::PageUp, marked, ("end", "7 plan"), "pageup", "1 pair"),
    (KeepersCommand::FirstKeeper, marked, ("end", "7 plan"), "home", "1 pair"),
    (KeepersCommand::LastKeeper, marked, ("", "1 pair"), "end", "7 plan"),
    (KeepersCommand::Listen, top, ("", "Keepers   5 kept"), "l", "Listen   1 of 9"),
    (KeepersCommand::Open, top, ("", "Keepers   5 kept"), "enter", OPENED),
    (KeepersCommand::Delete, ids, ("down", "1 ▸2 3 5 7"), "delete", "1 ▸3 5 7"),
    (KeepersCommand::MoveDown, ids, ("", "▸1 2 3 5 7"), "J", "2 ▸1 3 5 7"),
    (KeepersCommand::MoveDown, ids, ("9 up", "1 2 3 ▸5 7"), "J", "1 2 3 7 ▸5"),
    (KeepersCommand::MoveDown, told, ("end", ""), "J", "it stands at the end of the list"),
    (KeepersCommand::MoveUp, ids, ("down", "1 ▸2 3 5 7"), "K", "▸2 1 3 5 7"),
    (KeepersCommand::MoveUp, told, ("", ""), "K", "it stands at the end of the list"),
    (KeepersCommand::Faster, told, ("", ""), "+", "keeper 1: practice begins at 62"),
    (KeepersCommand::Faster, tempo, ("down", ""), "+", "62"),
    (KeepersCommand::Slower, told, ("", ""), "-", "keeper 1: practice begins at 58"),
];

#[test]
fn every_key_does_what_it_says() {
    for (command, told, (lead, before), keys, after) in TRIPLES {
        let (_folder, mut player) = opened();
        player.press(lead);
        assert_eq!(told(&player), *before, "{command:?} after {lead:?}");
        player.press(keys);
        assert_eq!(told(&player), *after, "{command:?}: {lead:?}, then {keys:?}");
    }
}

#[test]
fn every_command_has_a_triple_that_presses_a_key_of_it() {
    let (keys, _) = Keys::built_in();
    for row in COMMANDS.iter().filter(|row| row.section == Section::Keepers) {
        let of_row = |triple: &&Triple| Command::Keepers(triple.0) == row.command;
        let typed: HashSet<Key> = TRIPLES
            .iter()
            .filter(of_row)
            .flat_map(|triple| triple.3.split_whitespace())
            .map(|key| key.parse().unwrap())
            .collect();
        assert!(keys.of(row).iter().any(|key| typed.contains(key)), "{}", row.name);
    }
}

/// What a keeper is, and when it was practised, stands in its line; below the list, what it holds.
#[test]
fn a_keeper_is_told_in_a_line_and_in_full() {
    let (_folder, mut player) = opened();
    let words = |player: &Player, row: usize| {
        player.line(row).split_whitespace().map(str::to_owned).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(words(&player, 1), "no. what chord pair tempo last due called");
    // Of what was tried, the third try is due first: on the sixth.
    assert_eq!(words(&player, 2), "▸ 1 pair Gmaj7♯11 G & A 92 today now bridge, se…");
    assert_eq!(words(&player, 3), "2 shape G7 G 9-7-8 never");
    assert_eq!(words(&player, 5), "5 line Dm7 | G7 F & G never");
    assert!(player.shows("G & A over Gmaj7♯11 · G Lydian"), "{}", player.screen());
    assert!(player.shows("practised 4 times, last today, best at 92  ▁█"));
    assert!(player.shows("tags: ballad, slow"));
    assert!(player.shows("Leave the 7 to the bass."));
    player.press("down");
    assert!(player.shows("never practised"), "{}", player.screen());
}

/// What the shell or another program keeps is there when the screen comes to the front again.
#[test]
fn what_others_keep_is_seen() {
    let (folder, mut player) = opened();
    folder.store().add(folder::pair("Dm7"), folder::TODAY).unwrap();
    player.press("end esc ;");
    assert!(top(&player).starts_with("Keepers   6 kept"), "{}", player.screen());
    assert_eq!(marked(&player), "7 plan");
    player.press("end");
    assert_eq!(marked(&player), "8 pair");
}

#[test]
fn an_empty_list_says_how_something_is_kept() {
    let folder = Folder::new();
    let mut player = Player::keeping_in(folder.path());
    player.press(";");
    assert!(player.shows("Nothing is kept yet."), "{}", player.screen());
    let mut player = Player::after("Dm7", ";");
    assert!(player.shows("There is no folder"), "{}", player.screen());
    player.press("down up end esc");
    assert!(top(&player).starts_with("Dm7"));
}

/// What the file has to tell is told where its keepers are.
#[test]
fn a_file_of_a_newer_version_and_a_broken_one_are_told() {
    let folder = Folder::holding(&FILE.replace("format = 1", "format = 9"));
    let mut player = Player::keeping_in(folder.path());
    player.press(";");
    assert!(player.shows("the keepers are of format 9, expected 1"), "{}", player.screen());
    let folder = Folder::holding("[[keeper]\n");
    let mut player = Player::keeping_in(folder.path());
    player.press(";");
    assert!(player.shows("the keepers could not be read"), "{}", player.screen());
    player.press("esc ;");
    assert!(player.shows("the keepers could not be read"), "{}", player.screen());
}

#[test]
fn a_keeper_is_clicked_and_the_wheel_goes_on() {
    let (_folder, mut player) = opened();
    player.point("ladder", 0, Pointed::Click);
    assert_eq!(marked(&player), "3 ladder");
    player.point("shape", 0, Pointed::WheelDown);
    assert_eq!(marked(&player), "5 line");
    player.point("shape", 40, Pointed::WheelUp);
    assert_eq!(marked(&player), "3 ladder");
    let gestures = GESTURES.iter().filter(|row| row.spot.screen() == Some(Section::Keepers));
    assert_eq!(gestures.count(), 3);
}

/// Who left the program here comes back here.
#[test]
fn the_screen_is_there_tomorrow() {
    let (folder, mut player) = opened();
    player.press("end");
    let session = player.program.session();
    let mut next = Player::keeping_in(folder.path());
    next.program.take_up(&session);
    next.at("2026-05-07T09:00[UTC]");
    assert!(top(&next).starts_with("Keepers   5 kept"), "{}", next.screen());
}

#[test]
fn every_size_can_be_drawn() {
    let (_folder, mut player) = opened();
    for columns in [0, 1, 2, 10, 39, 40, 60, 80, 200] {
        for rows in [0, 1, 2, 3, 4, 5, 6, 8, 12, 24, 60] {
            player.resize(columns, rows);
            let _ = player.screen();
        }
    }
}

/// What is kept on each screen, told only when it is there, opens as it was on another instrument and
/// over another chord.
#[test]
fn what_is_kept_on_a_screen_opens_as_it_was() {
    for (keys, what, elsewhere) in [
        ("c D m 7 enter down v x x n", "pair", "v v S down space t"),
        ("c G 7 enter v v space space", "ladder", "V space"),
        ("l space", "ladder", "l t"),
        ("P 5 - 9 enter c E m 7 b 5 enter v v v space n n", "pair", "P enter v space"),
        ("3 f r right up t home", "line", "p F t b 7 C"),
        ("3 c D m 7 | G 7 enter v 7 p home", "line", "v c C enter"),
        ("4 p right i h", "plan", "c C | F enter t t"),
    ] {
        let folder = Folder::new();
        let mut player = Player::keeping_in(folder.path());
        player.press(keys);
        // What is shown until the next key is not kept.
        player.press("? esc");
        let (before, screen) = (player.program.session(), player.screen());
        player.press("!");
        let kept = folder.load();
        assert_eq!(kept.list.len(), 1, "{keys}");
        let keeper = &kept.list[0];
        assert_eq!(keeper.kept.what.word(), what, "{keys}");
        let told = format!("kept as 1: {}", keeper.title());
        assert!(player.shows(&told), "{keys}: {told}\n{}", player.screen());
        player.press(elsewhere);
        // Another tuning, with the capo on.
        player.press("; ; esc 4 esc g down down down enter i i c F 7 enter ; enter");
        let after = player.program.session();
        assert_eq!(player.screen(), screen, "{keys}");
        assert_eq!((&after.tuning, &after.capo), (&before.tuning, &before.capo), "{keys}");
        let of = |session: &fretloom::store::Session| match what {
            "line" => format!("{:?}", session.line),
            "plan" => format!("{:?}", session.changes),
            _ => format!("{:?} {:?} {:?}", session.pair, session.view, session.rung),
        };
        assert_eq!(of(&after), of(&before), "{keys}");
    }
}

#[test]
fn the_shape_in_hand_is_kept_with_its_fingers() {
    let folder = Folder::new();
    let mut player = Player::keeping_in(folder.path());
    player.press("space space h G");
    let held = player.named_shape().unwrap();
    let kept = &folder.load().list[0].kept;
    let fretloom::store::KeptThing::Shape(shape) = &kept.what else { panic!("{kept:?}") };
    assert_eq!(shape.triad(), format!("{:#}", held.triad));
    assert_eq!(shape.places(), held.shape.places());
    assert_eq!(Some(shape.fingers().to_vec()), held.shape.fingers().map(Vec::from));
    assert_eq!(kept.pair.as_deref(), Some("G & A"));
    player.press("t t c D m 7 enter ; enter");
    assert_eq!(player.named_shape().unwrap(), held);
}

/// A keeper of an instrument that the program does not know any more opens on that instrument.
#[test]
fn a_keeper_brings_its_instrument_along() {
    let (_folder, mut player) = opened();
    player.press("down down enter");
    assert_eq!(player.tuning(), "banjo-open-g");
    player.press("; up enter");
    assert_eq!(player.program.neck().tuning().to_string(), "D2 A2 D3 G3 B3 D4");
    assert_eq!(player.program.neck().tuning().capo().fret().number(), 2);
    assert_eq!((player.chord(), player.pair()), ("G7".to_owned(), "G & F".to_owned()));
    // A line that was typed into the file has no screen to be made on.
    player.press("; end up enter");
    assert!(player.shows("it was kept without the screen"), "{}", player.screen());
    player.press("down enter");
    assert!(player.shows("Slow lamp"), "{}", player.screen());
}

/// Whatever was done is taken back, to the word, and done again.
#[test]
fn what_was_done_is_taken_back() {
    for keys in ["delete", "J", "+", "delete delete", "down K delete", "+ + -", "end delete"] {
        let (folder, mut player) = opened();
        let before = folder.load();
        player.press(keys);
        let after = folder.load();
        assert_ne!(before, after, "{keys}");
        player.press("z z z");
        assert_eq!(folder.load(), before, "{keys}");
        player.press("Z Z Z");
        assert_eq!(folder.load(), after, "{keys}");
    }
    let folder = Folder::new();
    let mut player = Player::keeping_in(folder.path());
    player.press("! down ! z");
    assert_eq!(folder.ids(), [1]);
    assert!(player.shows("keeper 2 is removed again"), "{}", player.screen());
    player.press("Z");
    assert_eq!(folder.ids(), [1, 2]);
    assert!(player.shows("keeper 2 is there again"), "{}", player.screen());
    // The chord before is taken back between.
    player.press("z z z ;");
    assert!(player.shows("Nothing is kept yet. ! on any other screen"), "{}", player.screen());
}

/// What another program has changed meanwhile is not removed unseen.
#[test]
fn a_keeper_that_was_changed_meanwhile_is_removed_at_the_second_try() {
    let (folder, mut player) = opened();
    let id = folder.load().list[0].id;
    let change = fretloom::store::KeeperChange::Tag("mine".to_owned());
    folder.store().change(id, &change, folder::TODAY).unwrap();
    player.press("delete");
    assert_eq!(folder.ids(), [1, 2, 3, 5, 7]);
    assert!(player.shows("keeper 1 stays: another fretloom has changed it"), "{}", player.screen());
    assert!(player.shows("mine"), "{}", player.screen());
    player.press("delete");
    assert_eq!(folder.ids(), [2, 3, 5, 7]);
    // One that is gone is told.
    let seen = folder.load().list[0].clone();
    folder.store().remove(&seen, folder::TODAY).unwrap();
    player.press("delete");
    assert!(player.shows("keeper 2 is gone: another fretloom removed it"), "{}", player.screen());
    player.press("z");
    assert_eq!(folder.ids(), [1, 3, 5, 7]);
}

/// What cannot be written is told, and stays as it was.
#[test]
fn a_file_that_cannot_be_changed_is_told() {
    let folder = Folder::holding(&FILE.replace("format = 1", "format = 9"));
    let mut player = Player::keeping_in(folder.path());
    player.press("!");
    assert!(player.shows("they are left to the newer fretloom"), "{}", player.screen());
    player.press("; delete");
    assert!(player.shows("they are left to the newer fretloom"), "{}", player.screen());
    assert_eq!(folder.ids(), [1, 2, 3, 5, 7]);
}

/// Who keeps something and leaves at once has kept it.
#[test]
fn what_waits_is_done_at_the_end() {
    use fretloom::tui::event::Event;
    use fretloom::tui::runtime::App;
    let folder = Folder::new();
    let mut player = Player::keeping_in(folder.path());
    for key in ["!", "down", "!"] {
        player.program.update(Event::Key(key.parse().unwrap()));
    }
    assert_eq!(folder.ids(), [] as [u32; 0]);
    assert_eq!(player.program.finish_keeping(), [] as [String; 0]);
    assert_eq!(folder.ids(), [1, 2]);
}
