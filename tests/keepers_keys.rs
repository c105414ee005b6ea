//! What each key does to the keepers screen: short triples of before, keys typed, after.
//!
//! Every triple begins with the keepers of one file, on the sixth of May. What is told is a word or two of
//! the screen.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "keepers/folder.rs"]
#[allow(dead_code, reason = "each test program uses its own part of this")]
mod folder;
#[path = "support/key_table.rs"]
mod key_table;
#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use folder::Folder;
use fretloom::tui::command::{COMMANDS, Command, KeepersCommand, PracticeCommand, Section};
use fretloom::tui::gesture::GESTURES;
use fretloom::tui::keys::Keys;
use fretloom::tui::mouse::Pointed;
use key_table::{KeyTable, Told, Triple};
use player::{OPENED, Player};

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
const TRIPLES: &[Triple<KeepersCommand>] = &[
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
    (KeepersCommand::EditName, told, ("down", ""), "r b r i d g e enter", "keeper 2: it is called bridge"),
    (KeepersCommand::EditNotes, told, ("down", ""), "n s l o w enter", "keeper 2: its notes are changed"),
    (KeepersCommand::EditTags, told, ("down", ""), "t g i g enter", "keeper 2: it has the tag gig"),
    (KeepersCommand::EditHow, told, ("down", ""), "e h e r e enter", "keeper 2: its keys are changed"),
    (KeepersCommand::Find, ids, ("", "▸1 2 3 5 7"), "/ b a n j o enter", "▸3"),
    (KeepersCommand::FindKind, ids, ("", "▸1 2 3 5 7"), "c m 7 b 5 enter", "▸1 2 3 5"),
    (KeepersCommand::NextTag, ids, ("", "▸1 2 3 5 7"), "T", "▸1"),
    (KeepersCommand::NextOrder, top, ("", "Keepers   5 kept"), "s", "Keepers   5 kept   what is due first"),
    (KeepersCommand::NextOrder, ids, ("end", "1 2 3 5 ▸7"), "s s", "▸7 5 3 2 1"),
    (KeepersCommand::PreviousOrder, top, ("", "Keepers   5 kept"), "S", "Keepers   5 kept   by chord"),
    (KeepersCommand::ShowAll, ids, ("T", "▸1"), "a", "▸1 2 3 5 7"),
    (KeepersCommand::Practise, top, ("", "Keepers   5 kept"), "space", "Practice   turn 1 of 10   0 of 20 min                     ♩=64  click: 2 and 4"),
    (KeepersCommand::PractiseThis, top, ("down", "Keepers   5 kept"), "P", "Practice   turn 1 of 3   0 of 20 min                      ♩=60  click: 2 and 4"),
    (KeepersCommand::MoveDown, ids, ("", "▸1 2 3 5 7"), "J", "2 ▸1 3 5 7"),
    (KeepersCommand::MoveDown, ids, ("9 up", "1 2 3 ▸5 7"), "J", "1 2 3 7 ▸5"),
    (KeepersCommand::MoveDown, told, ("end", ""), "J", "it stands at the end of the list"),
    (KeepersCommand::MoveUp, ids, ("down", "1 ▸2 3 5 7"), "K", "▸2 1 3 5 7"),
    (KeepersCommand::MoveUp, told, ("", ""), "K", "it stands at the end of the list"),
    (KeepersCommand::Faster, told, ("", ""), "+", "keeper 1: practice begins at 62"),
    (KeepersCommand::Faster, tempo, ("down", ""), "+", "62"),
    (KeepersCommand::Slower, told, ("", ""), "-", "keeper 1: practice begins at 58"),
];

const TABLE: KeyTable<KeepersCommand> =
    KeyTable { section: Section::Keepers, command: Command::Keepers, triples: TRIPLES };

#[test]
fn every_key_does_what_it_says() {
    TABLE.assert_holds(opened);
}

#[test]
fn every_command_has_a_triple_that_presses_its_key() {
    TABLE.assert_is_whole();
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

/// The screen on the keepers of the file, on the eighth of May, when one of them is due; practising.
fn practising() -> (Folder, Player) {
    let (folder, mut player) = opened();
    player.at("2026-05-08T09:00[UTC]");
    player.press("p");
    (folder, player)
}

/// The same for a command of practice.
type Turned = (PracticeCommand, Told, (&'static str, &'static str), &'static str, &'static str);

#[rustfmt::skip]
const PRACTICE: &[Turned] = &[
    (PracticeCommand::GoOn, stage, ("", "Space begins"), "space", "Space when you have got it"),
    (PracticeCommand::GoOn, tries, ("space", "0 of 0"), "space", "1 of 1"),
    (PracticeCommand::NotThisTime, tries, ("space", "0 of 0"), "backspace", "0 of 1"),
    (PracticeCommand::NextTurn, turn, ("", "1"), "right", "2"),
    (PracticeCommand::PreviousTurn, turn, ("right right", "3"), "left", "2"),
    (PracticeCommand::Stop, stage, ("space", "Space when you have got it"), "s", "Space begins"),
    (PracticeCommand::Click, click, ("", "2 and 4"), "c", "every beat"),
    (PracticeCommand::Leave, top, ("space", "Practice   turn 1 of 10   0 of 20 min"), "esc", "Keepers   5 kept"),
];

fn stage(player: &Player) -> String {
    let screen = player.screen();
    let rule = screen.lines().find(|line| line.starts_with("─ ")).unwrap_or_default();
    rule.trim_matches(['─', ' ']).to_owned()
}

fn tries(player: &Player) -> String {
    let screen = player.screen();
    let line = screen.lines().find_map(|line| line.trim().strip_prefix("got it "));
    line.and_then(|line| line.split(',').next()).unwrap_or_default().to_owned()
}

fn turn(player: &Player) -> String {
    let line = player.line(0);
    let words = line.split("turn ").nth(1).unwrap_or_default();
    words.split_whitespace().next().unwrap_or_default().to_owned()
}

fn click(player: &Player) -> String {
    player.line(0).split("click: ").nth(1).unwrap_or_default().to_owned()
}

#[test]
fn every_key_of_practice_does_what_it_says() {
    let (keys, _) = Keys::built_in();
    for (command, told, (lead, before), typed, after) in PRACTICE {
        let (_folder, mut player) = practising();
        player.press(lead);
        // The first turn says the same at the top, but for the tempo at the right.
        let told = |player: &Player| told(player).split("  ♩").next().unwrap().trim().to_owned();
        let said = told(&player);
        assert!(
            said.starts_with(before),
            "{command:?} after {lead:?}: {said}\n{}",
            player.screen()
        );
        player.press(typed);
        let said = told(&player);
        assert!(said.starts_with(after), "{command:?}: {lead:?}, then {typed:?}: {said}");
        let row = COMMANDS.iter().find(|row| row.command == Command::Practice(*command)).unwrap();
        assert!(keys.of(row).contains(&typed.parse().unwrap()), "{}", row.name);
    }
    let of_practice = COMMANDS.iter().filter(|row| row.section == Section::Practice);
    for row in of_practice {
        assert!(PRACTICE.iter().any(|triple| Command::Practice(triple.0) == row.command));
    }
}

/// What the player of sound is doing, once what sounded before has faded.
fn sounds(player: &mut Player) -> String {
    player.wait(100);
    player.sounds()
}

/// The last try of a keeper, in a few words.
fn last_try(folder: &Folder, id: u32) -> String {
    let keepers = folder.load();
    let keeper = keepers.list.iter().find(|keeper| keeper.id.number() == id).unwrap();
    let Some(tried) = keeper.practice.tries.last() else { return "none".to_owned() };
    let tempo = tried.tempo.map(|tempo| tempo.to_string()).unwrap_or_default();
    let next = tried.next.map(|next| next.to_string()).unwrap_or_default();
    format!("{} {} {tempo} {next}", tried.on, tried.verdict.word())
}

/// Two bars in 4/4 at 64 are counted in for 3.75 seconds, heard for 7.5, answered for 7.5, and judged for 7.5.
#[test]
fn a_try_is_heard_answered_and_judged() {
    let (folder, mut player) = practising();
    assert_eq!(sounds(&mut player), "Silent");
    player.press("space");
    player.wait(5_000);
    assert_eq!(stage(&player), "listen");
    player.wait(7_500);
    assert_eq!(stage(&player), "now you; Space when you have got it");
    assert!(!player.shows("then once more at 64"), "{}", player.screen());
    // A bar before it is judged.
    player.wait(3_500);
    assert!(player.shows("then once more at 64"), "{}", player.screen());
    player.wait(4_000);
    assert_eq!(stage(&player), "got it? Space; else it comes again");
    assert!(*player.loudest.lock().unwrap() > 0.01);
    player.press("space");
    // It was got at 68 when it was due; it is due again, so the gap of one day becomes two.
    assert_eq!(last_try(&folder, 1), "2026-05-08 got 64 2026-05-10");
    assert_eq!((sounds(&mut player), tries(&player)), ("Playing".to_owned(), "1 of 1".to_owned()));
}

/// Not pressed within two bars is not got: it comes again tomorrow, and now slower.
#[test]
fn what_is_not_said_to_be_got_is_tried_again_slower() {
    let (folder, mut player) = practising();
    player.press("space");
    player.wait(27_500);
    assert_eq!(last_try(&folder, 1), "2026-05-08 again 64 2026-05-09");
    assert!(player.shows("♩=60"), "{}", player.screen());
    assert_eq!((sounds(&mut player), tries(&player)), ("Playing".to_owned(), "0 of 1".to_owned()));
    // Three good ones in a row, and it is faster.
    player.press("space space space");
    assert!(player.shows("♩=68"), "{}", player.screen());
    assert_eq!(last_try(&folder, 1), "2026-05-08 got 60 2026-05-09");
    player.press("z");
    assert_eq!(folder.load().list[0].practice.tries.len(), 4 + 3);
}

/// A turn ends on a good try when its two minutes are over; after fifteen a rest is proposed.
#[test]
fn turns_a_rest_and_the_end() {
    let (folder, mut player) = practising();
    player.press("space");
    player.at("2026-05-08T09:01[UTC]");
    player.press("space");
    assert_eq!(turn(&player), "1");
    player.at("2026-05-08T09:02[UTC]");
    player.press("backspace");
    assert_eq!(turn(&player), "1");
    player.press("space");
    assert_eq!((sounds(&mut player), turn(&player)), ("Playing".to_owned(), "2".to_owned()));
    assert_eq!(last_try(&folder, 2), "none");
    player.at("2026-05-08T09:15[UTC]");
    player.press("space");
    assert!(player.shows("Rest a little"), "{}", player.screen());
    assert_eq!(sounds(&mut player), "Silent");
    player.press("space");
    assert_eq!((turn(&player), stage(&player)), ("3".to_owned(), "Space begins".to_owned()));
    assert!(player.shows("15 of 20 min"), "{}", player.screen());
    player.press("right right right right right right right space");
    player.at("2026-05-08T09:20[UTC]");
    player.press("space");
    assert!(
        player.shows("That is all for today: tried 5 times, got 4 of them."),
        "{}",
        player.screen()
    );
    assert_eq!(sounds(&mut player), "Silent");
    player.press("space");
    assert!(top(&player).starts_with("Keepers"), "{}", player.screen());
    // What is done today is not asked for again.
    player.press("p");
    assert_ne!(turn(&player), "1");
}

/// The drone and the click sound while something is practised, and are as they were then.
#[test]
fn what_was_silent_is_silent_again() {
    let (_folder, mut player) = practising();
    let manner = |player: &mut Player| {
        player.press("Y");
        let screen = player.screen();
        player.press("esc");
        screen.lines().skip(1).take(6).collect::<Vec<_>>().join(" ")
    };
    let during = manner(&mut player);
    player.press("space esc");
    let after = manner(&mut player);
    assert_ne!(during, after);
    assert_eq!(sounds(&mut player), "Silent");
    player.press("p esc");
    assert_eq!(manner(&mut player), after);
}

/// Where nothing can be heard the keys alone lead on, and no tempo is recorded that nobody heard.
#[test]
fn without_sound_the_keys_lead_on() {
    use fretloom::sound::{Frames, PlayerState, SoundError};
    use fretloom::tui::event::{Event, SoundNews};
    let (folder, mut player) = practising();
    player.press("space");
    let (state, position) = (PlayerState::Failed(SoundError::ServerEnded), Frames(0));
    player.tell(Event::Sound(SoundNews { state, position, way: None }));
    player.press("space");
    assert_eq!(last_try(&folder, 1), "2026-05-08 got  2026-05-10");
}

/// A tune is played through: its chords with their pairs go by.
#[test]
fn a_tune_is_practised_as_a_whole() {
    let (folder, mut player) = opened();
    player.press("end P space");
    assert!(player.shows("bar 1: Am7"), "{}", player.screen());
    // At 60: four seconds are counted in, then a bar of four, and the next.
    player.wait(9_000);
    assert!(player.shows("bar 2: D7"), "{}", player.screen());
    player.press("space");
    assert!(last_try(&folder, 7).contains("got 60"), "{}", last_try(&folder, 7));
}

/// Who goes elsewhere breaks off what is tried, and finds the turn again.
#[test]
fn a_turn_waits_for_who_goes_elsewhere() {
    let (folder, mut player) = practising();
    player.press("right space ;");
    assert_eq!(sounds(&mut player), "Silent");
    assert_eq!(top(&player), OPENED);
    player.press(";");
    assert_eq!((turn(&player), stage(&player)), ("2".to_owned(), "Space begins".to_owned()));
    assert_eq!(last_try(&folder, 2), "none");
    for (columns, rows) in [(0, 0), (1, 1), (10, 3), (40, 8), (60, 16), (80, 20), (200, 60)] {
        player.resize(columns, rows);
        let _ = player.screen();
    }
}

/// What is looked for is listed as it is typed; Esc lists what was there before. Both are found tomorrow, and taken back.
#[test]
fn what_is_looked_for_is_listed_as_it_is_typed() {
    let (folder, mut player) = opened();
    player.press("/ b r i d g e");
    assert_eq!(ids(&player), "▸1");
    assert!(player.shows("words that all stand somewhere in it") && player.shows(" find bridge"));
    player.press("esc");
    assert_eq!(ids(&player), "▸1 2 3 5 7");
    player.press("c m 7 b q");
    assert!(player.shows("expected"), "{}", player.screen());
    player.press("enter backspace 5 enter");
    assert!(top(&player).contains("serves m7b5"), "{}", player.screen());
    // F & G lie in C melodic minor, the scale of Am7b5; G & A in D melodic minor.
    assert_eq!(ids(&player), "▸1 2 3 5");
    let session = player.program.session();
    player.press("z");
    assert_eq!(ids(&player).replace('▸', ""), "1 2 3 5 7");
    let mut next = Player::keeping_in(folder.path());
    next.program.take_up(&session);
    next.at("2026-05-07T09:00[UTC]");
    assert!(top(&next).contains("serves m7b5"), "{}", next.screen());
    assert_eq!(ids(&next), "▸1 2 3 5");
}

/// Names, notes of several lines and tags are typed in place, and taken back one by one.
#[test]
fn what_is_typed_is_kept_and_taken_back() {
    let (folder, mut player) = opened();
    let first = |folder: &Folder| folder.load().list[0].clone();
    let before = first(&folder);
    player.press("n");
    assert!(player.shows("Begin on the low inversion. / Leave the 7"), "{}", player.screen());
    player.press("space / space");
    player.paste("softly");
    player.press("enter");
    assert_eq!(first(&folder).notes, format!("{}\nsoftly", before.notes));
    player.press("t");
    player.paste(", gig, slow");
    player.press("enter r ctrl-u enter");
    let after = first(&folder);
    assert_eq!(
        (after.tags, after.name),
        (vec!["ballad".into(), "slow".into(), "gig".into()], None)
    );
    player.press("z z z");
    assert_eq!(first(&folder), before);
    player.press("r esc n enter t enter");
    assert_eq!(first(&folder), before);
    assert!(player.shows("made again") || !player.shows("is called"));
}

/// Keys, string sets and limits are typed in one line, in any order.
#[test]
fn how_something_is_practised_is_typed() {
    let (folder, mut player) = opened();
    let record = |folder: &Folder| folder.load().list[0].practice.clone();
    let before = record(&folder);
    player.press("e");
    assert!(
        player.shows(" practise 1 fourths 4-3-2 3-2-1 rests-compulsory"),
        "{}",
        player.screen()
    );
    player.press("ctrl-u");
    player.paste("one-position 5-4-3 two");
    assert!(player.shows("found \"two\", expected here, fourths"), "{}", player.screen());
    player.press("enter");
    assert_eq!(record(&folder), before);
    player.press("ctrl-w");
    player.paste("tones");
    player.press("enter");
    let after = record(&folder);
    assert_eq!(after.keys.as_deref(), Some("tones"));
    assert_eq!(after.sets, ["5-4-3".parse().unwrap()]);
    assert_eq!(after.limits, [fretloom::store::Limit::OnePosition]);
    player.press("z z z");
    assert_eq!(record(&folder), before);
}
