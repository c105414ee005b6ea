//! What each key does to the changes screen: short triples of before, keys typed, after.
//!
//! Every triple begins with the changes of a tune that is typed there. What is told is a word or two
//! of the screen.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/changes_reader.rs"]
mod changes_reader;
#[path = "support/key_table.rs"]
mod key_table;
#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use std::collections::HashSet;

use changes_reader::{bar, chord, opened, pair, place, rule_row, scale, shape};
use fretloom::tui::command::{ChangesCommand, Command, Section};
use fretloom::tui::gesture::GESTURES;
use fretloom::tui::mouse::Pointed;
use key_table::{KeyTable, Triple, copied};
use player::Player;

fn labels(player: &Player) -> String {
    let rule = player.line(rule_row(player));
    rule.split("shown: ").nth(1).unwrap_or_default().trim_matches([' ', '─']).to_owned()
}

fn wished(player: &Player) -> String {
    let line = player.line(1);
    let words = line.split("wished: ").nth(1).unwrap_or_default();
    words.split(" · ").next().unwrap_or_default().to_owned()
}

fn plan(player: &Player) -> String {
    player.line(1).split("plan ").nth(1).unwrap_or_default().split(',').next().unwrap().to_owned()
}

fn top(player: &Player) -> String {
    player.line(0).split("   ").take(2).collect::<Vec<_>>().join(" ")
}

fn playing(player: &Player) -> String {
    player.line(0).split("   ").find(|words| words.starts_with('▸')).unwrap_or_default().to_owned()
}

fn tempo(player: &Player) -> String {
    let words = player.line(0);
    words.split([' ', ',']).find(|word| word.starts_with('♩')).unwrap_or_default().to_owned()
}

/// What the last key had to tell.
fn told(player: &Player) -> String {
    player.line(rule_row(player) + 9)
}

#[rustfmt::skip]
const TRIPLES: &[Triple<ChangesCommand>] = &[
    (ChangesCommand::ToExplore, top, ("", "a tune without a name 6 bars"), "4", "Dm7 D Dorian, the notes of C major"),
    (ChangesCommand::ToExplore, top, ("", "a tune without a name 6 bars"), "esc", "Dm7 D Dorian, the notes of C major"),
    (ChangesCommand::Play, playing, ("", ""), "space", "▸ playing"),
    (ChangesCommand::Play, playing, ("space", "▸ playing"), "space", ""),
    (ChangesCommand::ExploreChord, top, ("right", "a tune without a name 6 bars"), "e", "G7 G Mixolydian, the notes of C major"),
    (ChangesCommand::MakeLine, top, ("right", "a tune without a name 6 bars"), "3", "G7 "),
    (ChangesCommand::LineOn, top, ("right", "a tune without a name 6 bars"), "L", "G7 | Cmaj7 | Cmaj7 "),
    (ChangesCommand::LineThrough, top, ("right", "a tune without a name 6 bars"), "W", "[A] Dm7 | G7 | Cmaj7 | Cmaj7 | [B] Em7b5 A7 | Dm7 "),
    (ChangesCommand::EditChords, top, ("", "a tune without a name 6 bars"), "c C | F enter", "a tune without a name 2 bars"),
    (ChangesCommand::EditBar, bar, ("", "1 Dm7"), "enter A m 7 space D 7 enter", "1 Am7 D7"),
    (ChangesCommand::EditWhere, place, ("", "strings 4-3-2, frets 1–12"), "/ V space 3 - 2 - 1 enter", "position V, strings 3-2-1"),
    (ChangesCommand::EditWishes, wished, ("right", ""), "w n e v e r space F enter", "never F@2.1"),
    (ChangesCommand::NextChord, chord, ("", "Dm7"), "right", "G7"),
    (ChangesCommand::NextChord, chord, ("end", "Dm7"), "right", "Dm7"),
    (ChangesCommand::PreviousChord, chord, ("down", "Em7♭5"), "left", "Cmaj7"),
    (ChangesCommand::PreviousChord, bar, ("", "1 Dm7"), "left", "6 Dm7"),
    (ChangesCommand::NextRow, bar, ("right", "2 G7"), "down", "6 Dm7"),
    (ChangesCommand::NextRow, told, ("down h h h h h h h h", "the first plan again"), "down", "this is the last row"),
    (ChangesCommand::PreviousRow, bar, ("down", "5 Em7♭5 A7"), "up", "1 Dm7"),
    (ChangesCommand::NextSection, bar, ("", "1 Dm7"), "pagedown", "5 Em7♭5 A7"),
    (ChangesCommand::PreviousSection, bar, ("end", "6 Dm7"), "pageup", "5 Em7♭5 A7"),
    (ChangesCommand::PreviousSection, bar, ("down", "5 Em7♭5 A7"), "pageup", "1 Dm7"),
    (ChangesCommand::FirstBar, bar, ("down", "5 Em7♭5 A7"), "home", "1 Dm7"),
    (ChangesCommand::LastBar, bar, ("", "1 Dm7"), "end", "6 Dm7"),
    (ChangesCommand::NextPair, pair, ("", "Dm & Em"), "p", "Em & F *"),
    (ChangesCommand::PreviousPair, pair, ("p", "Em & F *"), "P", "Dm & Em *"),
    (ChangesCommand::NextScale, scale, ("", "D Dorian"), "s", "D Aeolian *"),
    (ChangesCommand::PreviousScale, scale, ("s", "D Aeolian *"), "S", "D Dorian *"),
    (ChangesCommand::Pin, pair, ("", "Dm & Em"), "i", "Dm & Em *"),
    (ChangesCommand::Release, pair, ("p", "Em & F *"), "delete", "Dm & Em"),
    (ChangesCommand::NextShape, shape, ("", "Dm 3-2-3"), "u", "Em 5-4-5 *"),
    (ChangesCommand::PreviousShape, shape, ("u", "Em 5-4-5 *"), "d", "Dm 3-2-3 *"),
    (ChangesCommand::HoldShape, shape, ("", "Dm 3-2-3"), "l", "Dm 3-2-3 *"),
    (ChangesCommand::OtherPlan, plan, ("", ""), "h", "2 of 8"),
    (ChangesCommand::PlanBefore, plan, ("h", "2 of 8"), "H", "1 of 8"),
    (ChangesCommand::NextStrings, place, ("", "strings 4-3-2, frets 1–12"), "t", "strings 5-4-3, frets 1–12"),
    (ChangesCommand::PreviousStrings, place, ("", "strings 4-3-2, frets 1–12"), "T", "strings 3-2-1, frets 1–12"),
    (ChangesCommand::NextView, place, ("", "strings 4-3-2, frets 1–12"), "v", "position II, strings 4-3-2, frets 1–12"),
    (ChangesCommand::NextChoice, place, ("v", "position II, strings 4-3-2, frets 1–12"), "1", "position III, strings 4-3-2, frets 1–12"),
    (ChangesCommand::PreviousChoice, place, ("v 1", "position III, strings 4-3-2, frets 1–12"), "2", "position II, strings 4-3-2, frets 1–12"),
    (ChangesCommand::Open, top, ("", "a tune without a name 6 bars"), "o n i n e enter", "Nine Doors and a Stair in C minor, ♩=104, slow swing, 24 bars"),
    (ChangesCommand::Save, top, ("", "a tune without a name 6 bars"), "x", "save as tune.toml"),
    (ChangesCommand::SaveAs, top, ("y T w o space D o o r s enter", "Two Doors 6 bars"), "X", "save as two-doors.toml"),
    (ChangesCommand::New, top, ("", "a tune without a name 6 bars"), "A C | F enter", "a tune without a name 2 bars"),
    (ChangesCommand::EditTitle, top, ("", "a tune without a name 6 bars"), "y X enter", "X 6 bars"),
    (ChangesCommand::EditKey, top, ("", "a tune without a name 6 bars"), "K D m enter", "a tune without a name in D minor, 6 bars"),
    (ChangesCommand::CopyChart, copied, ("", ""), "N", "[[section]]"),
    (ChangesCommand::WriteComping, top, ("", "a tune without a name 6 bars"), "C", "stabs to tune-stabs.mid"),
    (ChangesCommand::MoreBars, bar, ("", "1 Dm7"), "b", "2 %"),
    (ChangesCommand::FewerBars, bar, ("", "1 Dm7"), "B", "1 G7"),
    (ChangesCommand::Faster, tempo, ("", ""), "+", "♩=124"),
    (ChangesCommand::Slower, tempo, ("+", "♩=124"), "- -", "♩=116"),
    (ChangesCommand::Labels, labels, ("", "note"), "n", "degree"),
];

const TABLE: KeyTable<ChangesCommand> =
    KeyTable { section: Section::Changes, command: Command::Changes, triples: TRIPLES };

#[test]
fn every_key_does_what_it_says() {
    TABLE.assert_holds(|| ((), opened()));
}

#[test]
fn every_command_has_a_triple_that_presses_its_key() {
    TABLE.assert_is_whole();
}

#[test]
fn help_has_every_key_of_the_screen() {
    TABLE.assert_help_is_whole(opened());
}

/// A pair that is kept all the way round is named where the tune begins.
#[test]
fn the_first_chord_says_its_pair() {
    let mut player = Player::after("Dm7", "4 c");
    player.paste("Dm7 | % | Dm7");
    player.press("enter");
    let rows: Vec<String> =
        player.screen().lines().take(rule_row(&player)).map(str::to_owned).collect();
    let under = rows.iter().position(|row| row.contains("▸ 1 Dm7") || row.contains("▸1 Dm7"));
    let pairs = &rows[under.unwrap() + 1];
    let (named, kept) = pairs.trim().split_once("   ").unwrap();
    assert!(named.contains(" & "), "{pairs}");
    assert_eq!(kept.split_whitespace().collect::<Vec<_>>(), ["=", "="], "{pairs}");
}

/// Whatever the tune, the strings and the frets: the shape in hand is one of its pair, and lies where
/// the hand was locked; what is said of the way to the next shape is counted again from its frets.
#[test]
fn the_hand_never_leaves_its_place() {
    for (typed, strings, frets) in [
        ("4-3-2 1-12", [4, 3, 2], 1..=12),
        ("5-10 4-3-2", [4, 3, 2], 5..=10),
        ("V 3-2-1", [3, 2, 1], 4..=9),
    ] {
        let mut player = opened();
        player.press("/");
        player.paste(typed);
        player.press("enter");
        for _ in 0..8 {
            let chord = player.program.changes().chord().unwrap().clone();
            let shape = chord.hand.unwrap().shape;
            let [first, second] = chord.pair.names().map(|name| name.triad());
            assert!([first, second].contains(&shape.shape.triad()));
            for place in shape.shape.places() {
                assert!(strings.contains(&place.string.number()), "{typed}: {place:?}");
                assert!(frets.contains(&place.fret.number()), "{typed}: {place:?}");
            }
            let before = shape.frets.map(|fret| i16::from(fret.number()));
            let screen = player.screen();
            let said = screen.lines().find(|line| line.starts_with(" string ")).unwrap();
            player.press("right");
            let next = player.program.changes().chord().unwrap().hand.unwrap().shape;
            let after = next.frets.map(|fret| i16::from(fret.number()));
            for (index, (was, is)) in before.iter().zip(after).enumerate() {
                let voice = said.split(" · ").nth(index).unwrap_or_default();
                let counted = match is - was {
                    0 => "stays".to_owned(),
                    1 => "up a fret (".to_owned(),
                    -1 => "down a fret (".to_owned(),
                    up @ 2.. => format!("up {up} frets ("),
                    down => format!("down {} frets (", -down),
                };
                assert!(voice.contains(&counted), "{typed}: {said}: {was} to {is}");
            }
        }
    }
}

/// What is settled is marked, outlives other bars that change, and is taken back step by step.
#[test]
fn what_the_player_settles_wins() {
    let mut player = opened();
    player.press("right p");
    let settled = pair(&player);
    assert!(settled.ends_with(" *"), "{settled}");
    player.press("left enter D b 7 enter right");
    assert_eq!(pair(&player), settled);
    player.press("left b right");
    assert_eq!((chord(&player), pair(&player)), ("G7".to_owned(), settled.clone()));
    player.press("t");
    assert_eq!(pair(&player), settled);
    player.press("delete");
    assert_ne!(pair(&player), settled);
    player.press("z");
    assert_eq!(pair(&player), settled);
    player.press("z z z z home");
    assert_eq!(chord(&player), "Dm7");
    player.press("right");
    assert!(!pair(&player).ends_with('*'), "{}", pair(&player));
}

/// A shape that the player has chosen stays where it is while others follow, goes along with its chord,
/// and is taken back.
#[test]
fn a_shape_is_chosen_in_place() {
    let mut player = opened();
    player.press("right");
    let first = shape(&player);
    let mut seen = vec![first.clone()];
    for _ in 0..12 {
        player.press("u");
        let now = shape(&player);
        assert!(now.ends_with(" *"), "{now}");
        let hand = player.program.changes().chord().unwrap().hand.unwrap();
        for place in hand.shape.shape.places() {
            assert!([2, 3, 4].contains(&place.string.number()), "{now}");
            assert!((1..=12).contains(&place.fret.number()), "{now}");
        }
        assert!(player.shows(" *"), "{}", player.screen());
        // From the shape before and to the next one, as the plan has it now.
        let plan = player.program.changes().plan().unwrap();
        let [here, next] = [1, 2].map(|chord| plan.chords[chord].hand.unwrap());
        assert_eq!(next.before.unwrap(), here.shape);
        seen.push(now);
    }
    seen.sort();
    seen.dedup();
    assert!(seen.len() > 4, "{seen:?}");
    let held = shape(&player);
    // Bars that come before it do not take it from its chord.
    player.press("home b");
    assert_eq!((bar(&player), chord(&player)), ("2 %".to_owned(), "Dm7".to_owned()));
    player.press("right");
    assert_eq!((chord(&player), shape(&player)), ("G7".to_owned(), held.clone()));
    let mut tomorrow = Player::with("Dm7");
    tomorrow.program.take_up(&player.program.session());
    tomorrow.resize(80, 24);
    assert_eq!(shape(&tomorrow), held);
    // On other strings it is none, on its own it is there again.
    player.press("t");
    assert!(!shape(&player).ends_with('*'), "{}", shape(&player));
    player.press("T l");
    assert!(!shape(&player).ends_with('*') && pair(&player).ends_with('*'));
    player.press("z");
    assert_eq!(shape(&player), held);
    player.press("p");
    assert!(!shape(&player).ends_with('*'));
    player.press("z delete");
    assert!(!shape(&player).ends_with('*') && !pair(&player).ends_with('*'));
    player.press("/");
    for _ in 0..30 {
        player.press("backspace");
    }
    player.press("enter u");
    assert!(player.shows("the hand is anywhere: t locks it to strings"), "{}", player.screen());
}

/// The mistake is told while it is typed; the tune stays what it was.
#[test]
fn a_bar_that_cannot_be_read_says_why_and_changes_nothing() {
    for (keys, words) in [
        ("enter H 7", "at character 1: expected a note letter"),
        ("enter C space x", "at character 3: expected"),
        ("enter : | 3 C", "expected"),
        ("c C | | | F", "at character"),
        ("/ 3 0", "expected"),
    ] {
        let mut player = opened();
        let before = bar(&player);
        player.press(keys);
        let screen = player.screen();
        assert!(screen.lines().take(4).any(|line| line.contains(words)), "{keys}: {screen}");
        player.press("enter");
        assert!(player.screen().lines().take(4).any(|line| line.contains(words)), "{keys}");
        player.press("esc");
        assert_eq!(bar(&player), before, "{keys}");
    }
}

/// The bars stand there at once; their pairs come when they have been found.
#[test]
fn bars_do_not_wait_for_their_plan() {
    use fretloom::tui::event::Event;
    use fretloom::tui::program::Effect;
    use fretloom::tui::runtime::App;
    let mut player = opened();
    player.press("enter B b 7");
    let mut effects = player.program.update(Event::Key("enter".parse().unwrap()));
    assert!(bar(&player).starts_with("1 B♭7"), "{}", player.screen());
    assert!(player.shows("planning…"), "{}", player.screen());
    assert!(player.program.changes().chord().is_none());
    let Some(Effect::Work(job)) = effects.pop() else { panic!("{effects:?}") };
    player.program.finish(job.run());
    assert!(!player.shows("planning…"));
    assert_eq!(player.program.changes().chord().unwrap().chord().to_string(), "B♭7");
}

/// On every instrument the screen has its bars and its strings, at 80×24.
#[test]
fn every_instrument_has_its_hand() {
    let library = fretloom::library::Library::load(None);
    for (tuning, _) in library.tunings.iter() {
        let mut player = Player::on("Dm7", tuning.id());
        player.press("4 t");
        let screen = player.screen();
        let strings = screen.lines().filter(|line| line.contains(['┼', '┤', '├', '╪'])).count();
        assert_eq!(strings, tuning.string_count(), "{}\n{screen}", tuning.id());
        assert!(player.shows("▸1 Dm7"), "{}\n{screen}", tuning.id());
    }
}

#[test]
fn bars_are_clicked_and_the_wheel_goes_on() {
    let mut player = opened();
    player.point("G7", 0, Pointed::Click);
    assert_eq!(chord(&player), "G7");
    player.point("A7", 0, Pointed::Click);
    assert_eq!(chord(&player), "A7");
    // Its number belongs to a bar.
    player.point("3 Cmaj7", 0, Pointed::Click);
    assert_eq!(chord(&player), "Cmaj7");
    player.point("3 Cmaj7", 2, Pointed::WheelDown);
    assert!(bar(&player).starts_with("4 %"));
    player.point("3 Cmaj7", 12, Pointed::WheelUp);
    assert!(bar(&player).starts_with("3 Cmaj7"));
    let gestures = GESTURES.iter().filter(|row| row.spot.screen() == Some(Section::Changes));
    assert_eq!(gestures.count(), 4);
}

/// A click takes what a large window lists, as its key does; a heading is none of it.
#[test]
fn what_is_listed_is_clicked() {
    let mut player = opened();
    player.resize(120, 40);
    player.point("scales of Dm7", 0, Pointed::Click);
    assert_eq!(listed(&player), ["D Dorian", "Dm & Em", "1"]);
    player.point("F & G  ", 0, Pointed::Click);
    assert_eq!(pair(&player), "F & G *");
    player.point("D Aeolian  ", 3, Pointed::Click);
    assert_eq!(scale(&player), "D Aeolian *");
    let (column, row) = player.place_of("h plan", 5);
    player.point_at(column, row + 3, Pointed::Click);
    assert_eq!((plan(&player), listed(&player)[2].clone()), ("3 of 8".to_owned(), "3".to_owned()));
    player.press("z z z");
    assert_eq!((scale(&player), pair(&player)), ("D Dorian".to_owned(), "Dm & Em".to_owned()));
}

/// In a small window under a long tune the way of the fingers is told whole, and each sentence begins a
/// row.
#[test]
fn sentences_begin_rows_and_the_way_is_told_whole() {
    let mut player = Player::after("Dm7", "4 c");
    player.paste(
        "Cm6 | Fm7 | Bb7 | Ebmaj7 | Abmaj7 | Dm7b5 | G7b9 | Cm6 | Cm(maj7) | Am7b5 | Abmaj7 | G7#5 | \
         Fm7 Db7 | Cm | Fm7 | Dm7b5 | Ebmaj7 | Ab7 | Dm7b5 | G7alt",
    );
    player.press("enter / 4 - 3 - 2 enter");
    let mut ways = 0;
    for _ in 0..21 {
        let screen = player.screen();
        let words: Vec<&str> =
            screen.lines().skip(rule_row(&player) + 9).map(str::trim).take(6).collect();
        ways += words.iter().filter(|line| line.starts_with("string 4 ")).count();
        let told = words.join("\n");
        assert_eq!(told.matches("next ").count(), told.matches("\nnext ").count(), "{screen}");
        let way = told.split_once("string 4 ").unwrap().1.split_once("\nnow ").unwrap().0;
        assert!(way.contains("· 2 ") && !way.contains('…'), "{screen}");
        player.press("right");
    }
    assert_eq!(ways, 21);
}

/// What stands in the field of all bars is the tune, however long it is and however its parts begin.
#[test]
fn all_bars_are_taken_as_they_stand() {
    let long = ["Dm7", "G7 C7", "Cmaj7"].repeat(100).join(" | ");
    let forms = [
        "Dm7 | G7 | Cmaj7 | A7 | Fmaj7",
        "|: Dm7 | G7 | C | C :|3 |: F | F | G7 | G7 :| |: C | C | C | C :|",
        "pickup=1 | G7 | [A] C | C | C | C | F | [B] 3/4 Dm7 | G7 | C | C | C",
        "|: Dm7 | G7 |1. Cmaj7 | A7 :|2. Cmaj7 | % | Fm6 | C",
        &long,
    ];
    for form in forms {
        let mut player = Player::after("Dm7", "4 c");
        player.paste(form);
        player.press("enter");
        player.press("N");
        let before = copied(&player);
        player.press("c");
        assert!(!player.shows("expected"), "{}", player.screen());
        player.press("enter");
        assert_eq!(player.line(0).split("   ").next(), Some("a tune without a name"), "{form}");
        player.press("N");
        assert_eq!(copied(&player), before);
    }
}

/// What the lists of a large window mark: a scale and a pair side by side, and below them a plan.
fn listed(player: &Player) -> [String; 3] {
    let screen = player.screen();
    let lists = screen.lines().skip_while(|line| !line.contains("scales of"));
    let (mut above, mut below) = (Vec::new(), Vec::new());
    let mut are_plans = false;
    for line in lists {
        are_plans |= line.contains("h plan");
        for (at, text) in line.match_indices('▸').map(|(at, _)| (at, &line[at + 3..])) {
            let first = text.trim().split("  ").next().unwrap().to_owned();
            if are_plans { &mut below } else { &mut above }.push((at, first));
        }
    }
    above.sort();
    let marked: Vec<String> = above.into_iter().chain(below).map(|(_, first)| first).collect();
    marked.try_into().unwrap()
}

/// What there is to choose from stands in a large window; each key moves the mark of its list.
#[test]
fn lists_move_with_their_keys() {
    let mut player = opened();
    assert!(!player.shows("scales of Dm7"));
    player.resize(120, 40);
    assert!(player.shows("s scales of Dm7") && player.shows("p pair"), "{}", player.screen());
    assert_eq!(listed(&player), ["D Dorian", "Dm & Em", "1"]);
    player.press("s");
    assert_eq!(listed(&player)[0], "D Aeolian");
    player.press("S p");
    assert_eq!(format!("{} *", listed(&player)[1]), pair(&player));
    player.press("h h");
    assert_eq!(listed(&player)[2], "3");
    // The bars in which a plan differs from the first one, counted again; each bar is a chord here
    // but the third, which goes on, and the fifth, which has two.
    let bars = [1..=1, 2..=2, 3..=4, 5..=5, 5..=5, 6..=6];
    let plans = |player: &mut Player, number: usize| {
        // Elsewhere and back: the first plan again.
        player.press("t T");
        player.press(&"h ".repeat(number));
        let plan = player.program.changes().plan().unwrap();
        plan.chords.iter().map(|chord| chord.pair.pair()).collect::<Vec<_>>()
    };
    let first = plans(&mut player, 0);
    for number in 1..8 {
        let other = plans(&mut player, number);
        let both = first.iter().zip(&other).zip(bars.clone());
        let differ = both.filter(|((one, other), _)| !one.is_same_couple(**other));
        let differ: HashSet<u64> = differ.flat_map(|(_, bars)| bars).collect();
        let screen = player.screen();
        let told = screen.lines().rev().find_map(|line| line.split_once('▸')).unwrap().1;
        let told = told.split("  ").last().unwrap();
        let told = told.split(", ").flat_map(|range| {
            let (from, to) = range.split_once('–').unwrap_or((range, range));
            from.parse::<u64>().unwrap()..=to.parse().unwrap()
        });
        assert_eq!(told.collect::<HashSet<u64>>(), differ, "{screen}");
    }
}

/// The other plans are looked for once the chosen one is there, and take nothing from what is heard.
#[test]
fn other_plans_come_after_the_chosen_one() {
    use fretloom::tui::event::Event;
    use fretloom::tui::program::Effect;
    use fretloom::tui::runtime::App;
    let mut player = opened();
    player.resize(120, 40);
    let is_job = |effect: &Effect| matches!(effect, Effect::Work(_));
    player.press("space");
    let mut effects = player.program.update(Event::Key("p".parse().unwrap()));
    let at = effects.iter().rposition(is_job).unwrap();
    assert!(player.shows("planning…"));
    let Effect::Work(job) = effects.remove(at) else { unreachable!() };
    let mut next = player.program.finish(job.run());
    assert!(!player.shows("planning…") && pair(&player).ends_with('*'));
    // What is heard goes on with the plan, and the others are looked for.
    assert_eq!(next.iter().filter(|effect| is_job(effect)).count(), 2);
    let Effect::Work(others) = next.pop().unwrap() else { panic!("{next:?}") };
    assert!(player.program.finish(others.run()).is_empty());
    assert_eq!(listed(&player)[2], "1");
}
