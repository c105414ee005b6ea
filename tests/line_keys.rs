//! What each key does to the line screen: short triples of before, keys typed, after.
//!
//! Every triple begins with a line of F & G over Dm7, made with its key from the explorer. What is
//! told is a word or two of the screen, or the names of the notes.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/key_table.rs"]
mod key_table;
#[path = "support/line_reader.rs"]
mod line_reader;
#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use fretloom::tui::command::{COMMANDS, Command, LineCommand, Section};
use fretloom::tui::mouse::Pointed;
use key_table::{KeyTable, Triple, copied};
use line_reader::{here, notes, on, place, rule_row, told};
use player::Player;

/// The names of the first eight notes.
fn first(player: &Player) -> String {
    notes(player).split(' ').take(8).collect::<Vec<_>>().join(" ")
}

/// Which note the cursor is at, from 1, and its name.
fn at(player: &Player) -> String {
    let here = player.program.line().note().unwrap();
    let index = player.program.line().notes().iter().position(|told| told == here).unwrap();
    format!("{} {:#}", index + 1, here.named_pitch())
}

/// How it is struck.
fn stroke(player: &Player) -> String {
    here(player).split(" · ").last().unwrap().to_owned()
}

/// Which way to finger the line is told of.
fn way(player: &Player) -> String {
    told(player)
        .split_once(": ")
        .filter(|(way, _)| way.starts_with("way"))
        .unwrap_or_default()
        .0
        .to_owned()
}

/// A part of the line that says what the phrase is.
fn part(player: &Player, index: usize) -> String {
    player.line(1).split(" · ").nth(index).unwrap_or_default().to_owned()
}

fn pair(player: &Player) -> String {
    part(player, 0)
}

fn pattern(player: &Player) -> String {
    part(player, 1)
}

/// When the note at the cursor begins.
fn when(player: &Player) -> String {
    let line = player.program.line();
    let quarters = line.note().unwrap().note.onset;
    let (bar, beat) = ((quarters.to_f64() / 4.0).floor(), quarters.to_f64() % 4.0);
    let and = if beat.fract() == 0.0 { "" } else { "&" };
    format!("{}.{}{and}", bar + 1.0, beat.floor() + 1.0)
}

/// The last two notes of a line that has free notes at its end.
fn last(player: &Player) -> String {
    let notes = player.program.line().notes();
    let free = notes.iter().rev().take_while(|told| told.triad.is_none()).count();
    let names = notes[notes.len() - free..].iter().map(|told| format!("{:#}", told.named_pitch()));
    names.collect::<Vec<_>>().join(" ")
}

/// The phrases that are written out.
fn phrases(player: &Player) -> String {
    let line = player.line(2);
    if line.starts_with(['▸', '1']) { line } else { String::new() }
}

fn rhythm(player: &Player) -> String {
    part(player, 2)
}

fn travel(player: &Player) -> String {
    part(player, 3)
}

fn manner(player: &Player) -> String {
    part(player, 4)
}

fn bars(player: &Player) -> String {
    part(player, 5)
}

fn tempo(player: &Player) -> String {
    part(player, 6)
}

/// What is being typed, after what it is.
fn typed(player: &Player) -> String {
    let line = player.line(0);
    if line.starts_with("write to ") { line } else { String::new() }
}

fn labels(player: &Player) -> String {
    let rule = player.line(rule_row(player));
    rule.split(" ─ ").nth(2).unwrap_or_default().trim_matches([' ', '─']).to_owned()
}

/// What is aimed at, at the end of the same line.
fn aims(player: &Player) -> String {
    let rule = player.line(rule_row(player));
    rule.split("aims at ").nth(1).unwrap_or_default().trim_matches([' ', '─']).to_owned()
}

/// Which notes are accented, from 1.
fn accents(player: &Player) -> String {
    let loud = player.program.line().notes().iter().zip(1..).filter(|(told, _)| told.note.accent);
    loud.map(|(_, number)| number.to_string()).collect::<Vec<_>>().join(" ")
}

/// The chords, and the key where it is not their own.
fn top(player: &Player) -> String {
    let line = player.line(0);
    let words = line.split("   ").take_while(|words| !words.contains("Guitar"));
    words.collect::<Vec<_>>().join(" ").trim().to_owned()
}

/// What the line does in its first bar, and in its last, which has one held note.
const SAYS: &str = "F & G over Dm7: F in root position, G in second inversion down.";
const LAST: &str = "F & G over Dm7: one note of F.";
/// F A C A, B G D, F: 1232 of F in root position, then 321 of G as near as may be, D G B.
const FIRST: &str = "F3 A3 C4 A3 B3 G3 D3 F3";

/// Every command. Notes are worked out by hand from F A C and G B D in the order of the pattern.
#[rustfmt::skip]
const TRIPLES: &[Triple<LineCommand>] = &[
    (LineCommand::ToExplore, top, ("", "Dm7"), "3", "Dm7 D Dorian, the notes of C major"),
    (LineCommand::ToExplore, top, ("", "Dm7"), "esc", "Dm7 D Dorian, the notes of C major"),
    (LineCommand::ToChanges, top, ("", "Dm7"), "4", "a tune without a name 4 bars"),
    (LineCommand::Play, top, ("", "Dm7"), "space", "Dm7 ▸ playing"),
    (LineCommand::Play, top, ("space", "Dm7 ▸ playing"), "space", "Dm7"),
    (LineCommand::EditChords, top, ("", "Dm7"), "c C 7 enter", "C7"),
    (LineCommand::EditPattern, pattern, ("", "1232 321"), "e 1 2 3 enter", "123"),
    (LineCommand::EditRhythm, rhythm, ("", "eighths"), "E 4 enter", "quarters"),
    (LineCommand::EditTargets, aims, ("", ""), "g 3 @ 3 . 1 enter", "3@3.1"),
    (LineCommand::EditWhere, place, ("", "strings 4-3-2"), "/ V enter", "position V"),
    (LineCommand::NextNote, at, ("", "1 F3"), "right", "2 A3"),
    (LineCommand::NextNote, told, ("end", LAST), "right", "this is the last note"),
    (LineCommand::PreviousNote, at, ("right right", "3 C4"), "left", "2 A3"),
    (LineCommand::NextBar, at, ("", "1 F3"), "pagedown", "8 F3"),
    (LineCommand::PreviousBar, at, ("pagedown right", "9 A3"), "pageup", "8 F3"),
    (LineCommand::PreviousBar, at, ("pagedown", "8 F3"), "pageup", "1 F3"),
    (LineCommand::FirstNote, at, ("end", "20 F3"), "home", "1 F3"),
    (LineCommand::LastNote, at, ("", "1 F3"), "end", "20 F3"),
    (LineCommand::PairNoteUp, first, ("right", FIRST), "up", "F3 B3 C4 A3 B3 G3 D3 F3"),
    (LineCommand::PairNoteDown, first, ("right", FIRST), "down", "F3 G3 C4 A3 B3 G3 D3 F3"),
    (LineCommand::PairNoteDown, first, ("", FIRST), "down", "D3 A3 C4 A3 B3 G3 D3 F3"),
    (LineCommand::StepUp, first, ("right right", FIRST), "u", "F3 A3 D4 A3 B3 G3 D3 F3"),
    (LineCommand::StepUp, first, ("right right", FIRST), "u u", "F3 A3 E4 A3 B3 G3 D3 F3"),
    (LineCommand::StepDown, first, ("", FIRST), "d", "E3 A3 C4 A3 B3 G3 D3 F3"),
    (LineCommand::HalfStepUp, first, ("right right", FIRST), "U", "F3 A3 Db4 A3 B3 G3 D3 F3"),
    (LineCommand::HalfStepDown, first, ("right", FIRST), "D", "F3 Ab3 C4 A3 B3 G3 D3 F3"),
    (LineCommand::OtherString, on, ("right right", "string 3 fret 5"), "o", "string 4 fret 10"),
    (LineCommand::OtherString, told, ("", SAYS), "o", "string 4 is the only one with this note here"),
    (LineCommand::Pin, told, ("", SAYS), "i", "pinned to string 4"),
    (LineCommand::Pin, told, ("i", "pinned to string 4"), "i", "on any string again"),
    (LineCommand::SoundOn, first, ("right", FIRST), "y", "F3 A3 A3 B3 G3 D3 F3 A3"),
    (LineCommand::Accent, accents, ("right", ""), "a", "2"),
    (LineCommand::Accent, accents, ("right a", "2"), "a", ""),
    (LineCommand::Slur, stroke, ("right right", "up stroke"), "l", "hammered on"),
    (LineCommand::Slur, stroke, ("right right l", "hammered on"), "l", "up stroke"),
    (LineCommand::Silence, first, ("right", FIRST), "delete", "F3 C4 A3 B3 G3 D3 F3 A3"),
    (LineCommand::NextPhrase, at, ("", "1 F3"), "8", "17 F3"),
    (LineCommand::PreviousPhrase, at, ("8 right", "18 A3"), "*", "17 F3"),
    (LineCommand::PreviousPhrase, at, ("8", "17 F3"), "*", "1 F3"),
    (LineCommand::CutHere, pair, ("8", "[F] & (G)"), "C", "phrase 2 alone: [F] & (G)"),
    (LineCommand::CutHere, pair, ("8 C", "phrase 2 alone: [F] & (G)"), "C", "whole line: [F] & (G)"),
    (LineCommand::JoinBefore, phrases, ("8 C", "1 F & G → ♭3 of Dm7 ✓  ▸2 F & G 1232 321 → ♭3 of Dm7 ✓"), "G", "▸1 F & G → ♭3 of Dm7 ✓"),
    (LineCommand::Answer, phrases, ("8", ""), "A", "1 F & G → ♭3 of Dm7 ✓  ▸2 F & G answer of 1 → ♭3 of Dm7 ✓"),
    (LineCommand::Answer, phrases, ("8 A", "1 F & G → ♭3 of Dm7 ✓  ▸2 F & G answer of 1 → ♭3 of Dm7 ✓"), "A", "1 F & G → ♭3 of Dm7 ✓  ▸2 F & G 1232 321 → ♭3 of Dm7 ✓"),
    (LineCommand::Later, when, ("8", "3.3&"), "L", "3.4"),
    (LineCommand::Earlier, when, ("8 L", "3.4"), "K K", "3.3"),
    (LineCommand::Wide, phrases, ("8", ""), "W", "1 F & G → ♭3 of Dm7 ✓  ▸2 F & G 1232 321 wide → ♭3 of Dm7 ✓"),
    (LineCommand::EditNotes, last, ("8", ""), "I B 3 : 4 space C 4 enter", "B3 C4"),
    (LineCommand::NextPair, pair, ("", "[F] & (G)"), "p", "[Dm] & (C)"),
    (LineCommand::PreviousPair, pair, ("p", "[Dm] & (C)"), "P", "[F] & (G)"),
    (LineCommand::NextPattern, pattern, ("", "1232 321"), "f", "123 4321"),
    (LineCommand::PreviousPattern, pattern, ("f", "123 4321"), "F", "1232 321"),
    (LineCommand::NextRhythm, rhythm, ("", "eighths"), "r", "triplets"),
    (LineCommand::PreviousRhythm, rhythm, ("r", "triplets"), "R", "eighths"),
    (LineCommand::NextTravel, travel, ("", "linked up"), "j", "linked down"),
    (LineCommand::PreviousTravel, travel, ("j", "linked down"), "k", "linked up"),
    (LineCommand::NextStart, manner, ("", "music"), "s", "from root position"),
    (LineCommand::PreviousStart, manner, ("s", "from root position"), "S", "music"),
    (LineCommand::Style, manner, ("", "music"), "x", "exercise"),
    (LineCommand::AtChange, manner, ("x", "exercise"), "X", "exercise, begins again"),
    (LineCommand::NextStrings, place, ("", "strings 4-3-2"), "t", "strings 5-4-3"),
    (LineCommand::PreviousStrings, place, ("t", "strings 5-4-3"), "T", "strings 4-3-2"),
    (LineCommand::NextView, place, ("", "strings 4-3-2"), "v", "position II, strings 4-3-2"),
    (LineCommand::PreviousView, place, ("v", "position II, strings 4-3-2"), "V", "strings 4-3-2"),
    (LineCommand::NextChoice, place, ("v", "position II, strings 4-3-2"), "1", "position III, strings 4-3-2"),
    (LineCommand::PreviousChoice, place, ("v 1", "position III, strings 4-3-2"), "2", "position II, strings 4-3-2"),
    (LineCommand::NextStrings, place, ("8 C", "phrase 2 as the line: strings 4-3-2"), "t", "phrase 2 alone: strings 5-4-3"),
    (LineCommand::PreviousStrings, place, ("8 C t", "phrase 2 alone: strings 5-4-3"), "T", "phrase 2 as the line: strings 4-3-2"),
    (LineCommand::NextView, place, ("8 C", "phrase 2 as the line: strings 4-3-2"), "v", "phrase 2 alone: position II, strings 4-3-2"),
    (LineCommand::NextView, place, ("8 C v v v", "phrase 2 alone: two a string, run 1"), "v", "phrase 2 as the line: strings 4-3-2"),
    (LineCommand::PreviousView, place, ("8 C v", "phrase 2 alone: position II, strings 4-3-2"), "V", "phrase 2 as the line: strings 4-3-2"),
    (LineCommand::NextChoice, place, ("8 C v", "phrase 2 alone: position II, strings 4-3-2"), "1", "phrase 2 alone: position III, strings 4-3-2"),
    (LineCommand::PreviousChoice, place, ("8 C v 1", "phrase 2 alone: position III, strings 4-3-2"), "2", "phrase 2 alone: position II, strings 4-3-2"),
    (LineCommand::EditWhere, place, ("8 C", "phrase 2 as the line: strings 4-3-2"), "/ V enter", "phrase 2 alone: position V"),
    (LineCommand::EditWhere, place, ("8 C / V enter", "phrase 2 alone: position V"), "/ backspace enter", "phrase 2 as the line: strings 4-3-2"),
    (LineCommand::CutHere, place, ("8 C t", "phrase 2 alone: strings 5-4-3"), "C", "whole line: strings 4-3-2"),
    (LineCommand::NextView, phrases, ("8 C t", "1 F & G → ♭3 of Dm7 ✓  ▸2 F & G 1232 321 on 5-4-3 → ♭3 of Dm7 ✓"), "v", "1 F & G → ♭3 of Dm7 ✓  ▸2 F & G 1232 321 in II on 5-4-3 → ♭3 of Dm7 ✓"),
    (LineCommand::MoreBars, bars, ("", "4 bars 4/4"), "b", "5 bars 4/4"),
    (LineCommand::FewerBars, bars, ("", "4 bars 4/4"), "B", "3 bars 4/4"),
    (LineCommand::NextMeter, bars, ("", "4 bars 4/4"), "m", "4 bars 3/4"),
    (LineCommand::PreviousMeter, bars, ("m", "4 bars 3/4"), "O", "4 bars 4/4"),
    (LineCommand::Faster, tempo, ("", "♩=120"), "+", "♩=124"),
    (LineCommand::Slower, tempo, ("", "♩=120"), "-", "♩=116"),
    (LineCommand::NextKey, top, ("", "Dm7"), "7", "Dm7 in G, key 2 of 12"),
    (LineCommand::PreviousKey, top, ("7 7", "Dm7 in C, key 3 of 12"), "& &", "Dm7"),
    (LineCommand::OtherWay, way, ("", ""), "h", "way 2 of 5"),
    (LineCommand::WayBefore, way, ("h", "way 2 of 5"), "H", "way 1 of 5"),
    (LineCommand::Labels, labels, ("", "order in bar 1"), "n", "note in bar 1"),
    (LineCommand::WriteFile, typed, ("", ""), "w", "write to line.mid"),
    (LineCommand::CopyTab, copied, ("", ""), "N", "Dm7 · F & G · 1232 321"),
    (LineCommand::CopyPhrases, copied, ("", ""), "Q", "[1]"),
    (LineCommand::CopyTab, copied, ("7", ""), "N", "Dm7 in G · B♭ & C · 1232 321"),
];

const TABLE: KeyTable<LineCommand> =
    KeyTable { section: Section::Line, command: Command::Line, triples: TRIPLES };

#[test]
fn every_key_does_what_it_says() {
    TABLE.assert_holds(|| ((), Player::after("Dm7", "3")));
}

#[test]
fn every_command_has_a_triple_that_presses_its_key() {
    TABLE.assert_is_whole();
}

/// The line of the pair is there again when one comes back, with what was changed.
#[test]
fn a_line_waits_while_one_is_elsewhere() {
    let mut player = Player::after("Dm7", "3 right up 3 n");
    assert!(player.line(0).contains("D Dorian"));
    player.press("3");
    assert_eq!(at(&player), "2 B3");
    assert!(pattern(&player).starts_with("1232"));
    // Another pair has a line of its own, in the same manner; taken back, the old one is there.
    player.press("f 3 down 3");
    assert_eq!((pair(&player), pattern(&player)), ("[Dm] & (C)".into(), "123 4321".into()));
    player.press("z z z");
    assert_eq!((pair(&player), pattern(&player)), ("[F] & (G)".into(), "123 4321".into()));
}

/// By hand: phrase 2 begins on the and of 1 in bar 2, an eighth after the landing. A beat later there
/// is a beat of rest before it, and the landing is as long as it was; back again there is none.
#[test]
fn a_phrase_that_begins_later_leaves_a_breath() {
    let mut player = Player::after("Dm7", "3 c");
    player.paste("Dm7 | G7 | Cmaj7");
    player.press("enter 8");
    let before_and_at = |player: &Player| {
        let notes = player.program.line().notes();
        let at = notes.iter().position(|told| told.note.phrase == 1).unwrap();
        (notes[at - 1].note.end().to_f64(), notes[at].note.onset.to_f64())
    };
    assert_eq!(before_and_at(&player), (4.5, 4.5));
    player.press("L L");
    assert_eq!(before_and_at(&player), (4.5, 5.5));
    player.press("K K");
    assert_eq!(before_and_at(&player), (4.5, 4.5));
}

/// A change whose note is a rest in the pattern of the moment is told, and comes back with its note.
#[test]
fn a_change_without_its_note_is_told() {
    let told = "one of your changes has no note to go to here";
    let mut player = Player::after("Dm7", "3 right u");
    assert!(!player.shows(told));
    player.press("e 1 - enter");
    assert!(player.shows(told), "{}", player.screen());
    player.press("z");
    assert!(!player.shows(told), "{}", player.screen());
}

/// A change is a step of its own, and taking it back leaves the rest.
#[test]
fn changes_are_taken_back_one_by_one() {
    let mut player = Player::after("Dm7", "3 right up right down y");
    assert_ne!(first(&player), FIRST);
    player.press("z z z");
    assert_eq!(first(&player), FIRST);
    player.press("Z");
    assert_eq!(first(&player), "F3 B3 C4 A3 B3 G3 D3 F3");
    // A key that changes nothing is no step.
    player.press("left left left left z");
    assert_eq!(first(&player), FIRST);
}

/// What was changed stays in its place in the bar while the phrase is made anew around it.
#[test]
fn a_change_outlives_the_pattern() {
    let mut player = Player::after("Dm7", "3 right U e 1 2 3 enter");
    assert!(first(&player).starts_with("F3 Bb3 C4"), "{}", first(&player));
    player.press("e 3 2 1 enter");
    assert!(first(&player).starts_with("C4 Bb3 F3"), "{}", first(&player));
}

/// Chords are typed; each keeps the pair that was chosen for it.
#[test]
fn chords_keep_their_pairs() {
    let mut player = Player::after("Dm7", "3 p c");
    player.paste("Dm7 | G7 | Cmaj7");
    player.press("enter");
    assert_eq!(pair(&player), "[Dm] & (C)");
    player.press("pagedown p");
    let second = pair(&player);
    player.press("c");
    player.paste("G7 | Dm7");
    player.press("enter home");
    assert_eq!(pair(&player), second);
}

#[test]
fn what_cannot_be_made_says_why_and_changes_nothing() {
    for (keys, words) in [
        ("c H 7 enter", "expected a note letter"),
        ("e 1 9 enter", "expected"),
        ("e ( ) enter", "expected"),
        ("E 5 enter", "expected"),
        ("g 3 @ 9 . 1 enter", "4"),
        ("g 3 @ x enter", "expected"),
        ("/ X X X enter", "expected"),
        ("/ 3 0 enter", "expected"),
    ] {
        let mut player = Player::after("Dm7", "3");
        let before = notes(&player);
        player.press(keys);
        assert!(
            player.screen().lines().take(4).any(|line| line.contains(words)),
            "{keys}: {}",
            player.screen()
        );
        player.press("esc");
        assert_eq!(notes(&player), before, "{keys}");
    }
}

/// On every instrument the screen has a line, and draws its strings, at 80×24.
#[test]
fn every_instrument_has_its_line() {
    let library = fretloom::library::Library::load(None);
    for (tuning, _) in library.tunings.iter() {
        let mut player = Player::on("Dm7", tuning.id());
        player.press("3 t");
        if player.program.line().note().is_none() {
            // A neck of few notes may have none: then it is said why.
            assert!(player.line(2).contains("expected"), "{}: {}", tuning.id(), player.screen());
            continue;
        }
        let strings = player.screen().lines().filter(|line| line.contains(" |-")).count();
        assert_eq!(strings, tuning.string_count(), "{}: {}", tuning.id(), player.screen());
    }
}

/// Every size is a valid one.
#[test]
fn every_size_can_be_drawn() {
    let mut player = Player::after("Dm7", "3");
    for columns in [0, 1, 7, 39, 40, 79, 80, 133, 240] {
        for rows in [0, 1, 2, 5, 12, 13, 20, 23, 24, 40, 80] {
            player.resize(columns, rows);
            assert_eq!(
                player.screen().lines().count(),
                if columns == 0 { 0 } else { usize::from(rows) }
            );
        }
    }
}

/// A click on a number goes to its note, the wheel from note to note, and the footer presses keys.
#[test]
fn the_mouse_goes_to_notes() {
    let mut player = Player::after("Dm7", "3");
    let (column, row) = player.place_of("3 G |", 0);
    let fret = player.line(usize::from(row)).find("-5-").unwrap();
    player.point_at(column + u16::try_from(fret).unwrap() + 1, row, Pointed::Click);
    assert_eq!(at(&player), "3 C4");
    player.point_at(column + 8, row, Pointed::WheelDown);
    assert_eq!(at(&player), "4 A3");
    player.point_at(column + 8, row, Pointed::WheelUp);
    assert_eq!(at(&player), "3 C4");
    player.point("3 back", 1, Pointed::Click);
    assert!(player.shows("D Dorian, the notes of C major"));
    // What is typed is not lost by a slip.
    let mut player = Player::after("Dm7", "3 c G 7");
    player.point_at(column + 8, row, Pointed::Click);
    assert_eq!(player.line(0), "chords G7");
}

#[test]
fn help_has_every_key_of_the_screen() {
    let help = TABLE.assert_help_is_whole(Player::after("Dm7", "3"));
    assert!(help.contains("1 2 3: the triad's notes from the lowest"));
    assert!(!help.contains("up the ladder, over all strings"), "the explorer's keys");
}

/// The line as MIDI, as MusicXML and as tablature; nothing that is there is lost unasked.
#[test]
fn the_line_is_written_to_files() {
    let folder = std::env::temp_dir().join(format!("fretloom-line-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let mut player = Player::after("Dm7", "3");
    for (name, begins) in [("a.mid", "MThd"), ("a.musicxml", "<?xml"), ("a.txt", "Dm7 ")] {
        player.press("w");
        player.paste(&folder.join(name).display().to_string());
        player.press("enter");
        assert!(player.shows("written to "), "{}", player.screen());
        let written = std::fs::read(folder.join(name)).unwrap();
        assert!(written.starts_with(begins.as_bytes()), "{name}");
    }
    // The notes of the file are those of the screen.
    let bytes = std::fs::read(folder.join("a.mid")).unwrap();
    let read =
        fretloom::score_file::read(&bytes, &fretloom::score_file::Choice::default()).unwrap();
    let pitches = read.score().parts[0].notes().iter().map(|note| note.pitch().pitch());
    let shown = player.program.line().notes().iter().map(|told| told.note.pitch);
    assert!(pitches.eq(shown));
    std::fs::write(folder.join("mine.mid"), "mine").unwrap();
    player.press("w");
    player.paste(&folder.join("mine.mid").display().to_string());
    player.press("enter");
    assert!(player.shows("once more replaces it"), "{}", player.screen());
    assert_eq!(std::fs::read(folder.join("mine.mid")).unwrap(), b"mine");
    player.press("enter");
    assert!(player.shows("written to "), "{}", player.screen());
    player.press("w");
    player.paste("line.doc");
    assert!(player.shows("expected a name that ends in .mid"), "{}", player.screen());
    std::fs::remove_dir_all(&folder).unwrap();
}

/// A command found by its name in the list of all does what its key does.
#[test]
fn commands_are_found_by_name() {
    for row in COMMANDS.iter().filter(|row| row.section == Section::Line) {
        let mut player = Player::after("Dm7", "3 tab");
        player.paste(&row.title());
        assert_eq!(player.marked(), row.title());
    }
}

/// The line is there tomorrow, and so is the screen.
#[test]
fn the_line_is_there_tomorrow() {
    let mut today = Player::after("Dm7", "3 c");
    today.paste("Dm7 | G7 | Cmaj7 | %");
    today.press("enter f f right up o a pagedown p x r / V enter + n");
    let mut tomorrow = Player::with("Gmaj7#11");
    tomorrow.program.take_up(&today.program.session());
    today.press("home");
    let (was, is) = (today.screen(), tomorrow.screen());
    assert_eq!(is, was);
    assert_eq!(tomorrow.program.session(), today.program.session());
    // Where the explorer was left in front, it is; the line waits behind it.
    today.press("3");
    let mut tomorrow = Player::with("Gmaj7#11");
    tomorrow.program.take_up(&today.program.session());
    assert_eq!(tomorrow.screen(), today.screen());
    tomorrow.press("3");
    assert_eq!(tomorrow.screen(), was);
}

/// F is the ♭3 of Dm7; a fourth up, over Gm7, the line lands on its ♭3, which is B♭.
#[test]
fn in_another_key_the_line_aims_at_degrees() {
    let mut player = Player::after("Dm7", "3 g");
    player.paste("F@2.1");
    player.press("enter");
    assert_eq!(aims(&player), "F@2.1");
    player.press("7");
    assert_eq!(aims(&player), "b3@2.1");
    player.press("&");
    assert_eq!(aims(&player), "F@2.1");
}
