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
