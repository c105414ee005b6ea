//! What each key does while something is to be named by ear.
//!
//! Every test begins with the keepers of one file, on the seventh of May. Which choice is right is asked of the
//! answer that the screen asks too; what sounds by it is held to its notes in `tests/listening.rs`.

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
use fretloom::answer::{AskedAnswer, ListeningAnswer};
use fretloom::practice::{Chance, PracticeRules};
use fretloom::sound::{Frames, PlayerState, SoundError};
use fretloom::store::{Asked, KeeperId, TriedBy, Try, Verdict};
use fretloom::tui::command::{COMMANDS, Command, ListenCommand, Section};
use fretloom::tui::event::{Event, SoundNews};
use fretloom::tui::gesture::GESTURES;
use fretloom::tui::key::Key;
use fretloom::tui::keys::Keys;
use fretloom::tui::mouse::Pointed;
use jiff::civil::{Date, date};
use neck_reader::DrawnNeck;
use player::Player;

const FILE: &str = include_str!("keepers/format-1.toml");
const TODAY: Date = date(2026, 5, 7);

/// The screen with the first question, and all questions of the day.
fn listening() -> (Folder, Player, Vec<AskedAnswer>) {
    let folder = Folder::holding(FILE);
    let questions = asked(&folder);
    let mut player = Player::keeping_in(folder.path());
    player.at("2026-05-07T09:00[UTC]");
    player.press("; l");
    (folder, player, questions)
}

fn asked(folder: &Folder) -> Vec<AskedAnswer> {
    ListeningAnswer::new(&folder.load().list, &PracticeRules::default(), TODAY, &[]).questions
}

/// The key of the right choice, and that of a wrong one.
fn keys(asked: &AskedAnswer) -> (String, String) {
    let right = asked.question.right();
    let wrong = (right + 1) % asked.question.choices().len();
    ((right + 1).to_string(), (wrong + 1).to_string())
}

fn tries(folder: &Folder, id: KeeperId) -> Vec<Try> {
    let all = folder.load().list;
    all.into_iter().find(|keeper| keeper.id == id).unwrap().practice.tries
}

fn top(player: &Player) -> String {
    player.line(0)
}

#[test]
fn nothing_sounds_before_it_is_asked_for() {
    let (folder, mut player, questions) = listening();
    assert_eq!(questions.len(), 10);
    assert_eq!(top(&player), "Listen   1 of 10");
    assert!(player.shows("over "), "{}", player.screen());
    assert_eq!(player.sounds(), "Silent");
    let (right, _) = keys(&questions[0]);
    player.press(&right);
    assert!(player.shows("Space lets it be heard first"), "{}", player.screen());
    assert_eq!(folder.keepers(), FILE, "nothing is recorded");
    player.press("space");
    player.wait(4_000);
    assert_eq!(player.sounds(), "Playing");
    assert!(top(&player).ends_with("▸ playing"), "{}", top(&player));
    assert!(*player.loudest.lock().unwrap() > 0.05);
    // It ends by itself: eighteen quarter notes at 120.
    player.wait(9_000);
    assert_eq!(top(&player), "Listen   1 of 10");
}

/// The drone is silent elsewhere until it is asked for; here it is what a pair is heard against.
#[test]
fn the_drone_sounds_here_and_can_be_silenced() {
    let (_folder, mut player, _) = listening();
    player.press("space");
    // The first bar is the drone alone.
    player.wait(1_500);
    assert!(*player.loudest.lock().unwrap() > 0.01);
    player.press("f6");
    assert!(player.shows("the drone is silent"), "{}", player.screen());
    player.press("f6");
    assert!(player.shows("the drone sounds"), "{}", player.screen());
    player.press("esc esc 3 f6");
    assert!(player.shows("the drone sounds"), "it was silent there: {}", player.screen());
}

#[test]
fn a_right_answer_shows_the_neck_and_is_recorded() {
    let (folder, mut player, questions) = listening();
    let (right, _) = keys(&questions[0]);
    let first = &questions[0];
    assert!(DrawnNeck::read(&player.buffer()).is_none(), "the neck would tell");
    player.press(&format!("space {right}"));
    let screen = player.screen();
    assert!(screen.contains("this sounded, and you named it"), "{screen}");
    assert!(screen.contains("Right: ") && screen.contains("the answer is recorded"), "{screen}");
    assert!(DrawnNeck::read(&player.buffer()).is_some(), "{screen}");
    let tried = tries(&folder, first.keeper.id).pop().unwrap();
    let expected = Try {
        on: TODAY,
        unit: first.asking.unit(),
        tempo: None,
        verdict: Verdict::Got,
        next: Some(date(2026, 5, 8)),
    };
    assert_eq!(tried, expected);
    assert_eq!(tried.unit.by, TriedBy::Ear(first.asking.asked));
    // One answer is enough.
    player.press(&right);
    assert!(player.shows("it is answered: Space goes on"), "{}", player.screen());
    assert_eq!(tries(&folder, first.keeper.id).len(), first.keeper.practice.tries.len() + 1);
    player.press("space");
    assert_eq!(
        top(&player).split("   ").take(3).collect::<Vec<_>>()[1..],
        ["2 of 10", "1 at once"]
    );
    assert!(top(&player).ends_with("▸ playing"), "what comes next is heard at once");
}

#[test]
fn a_wrong_answer_is_told_heard_and_asked_again() {
    let (folder, mut player, questions) = listening();
    let (_, wrong) = keys(&questions[0]);
    player.press(&format!("space {wrong}"));
    let screen = player.screen();
    assert!(screen.contains("you named this") && screen.contains("this sounded"), "{screen}");
    assert!(
        screen.contains("It was ") && screen.contains("It comes again in a moment."),
        "{screen}"
    );
    let first = &questions[0];
    let tried = tries(&folder, first.keeper.id).pop().unwrap();
    assert_eq!((tried.verdict, tried.next), (Verdict::Again, Some(date(2026, 5, 8))));
    player.wait(20_000);
    assert_eq!(player.sounds(), "Ended");
    player.press("m");
    assert_eq!(player.sounds(), "Playing", "what was named is heard");
    player.wait(20_000);
    player.press("h");
    assert_eq!(player.sounds(), "Playing", "what sounded is heard");
    for asked in &questions[1..3] {
        player.press(&format!("space {}", keys(asked).0));
    }
    player.press("space");
    assert!(player.shows("Once more: "), "{}", player.screen());
    player.press(&keys(first).0);
    player.press("space");
    assert!(top(&player).contains("4 of 10   2 at once, 1 later"), "{}", top(&player));
}

#[test]
fn a_walk_ends_with_what_became_of_every_question() {
    let (folder, mut player, questions) = listening();
    // The first is missed three times, all others are right.
    player.press(&format!("space {}", keys(&questions[0]).1));
    let order = [1, 2, 0, 3, 4, 0, 5, 6, 7, 8, 9];
    for place in order {
        let (right, wrong) = keys(&questions[place]);
        player.press(&format!("space {}", if place == 0 { wrong } else { right }));
    }
    assert!(!player.shows("It comes again"), "{}", player.screen());
    player.press("space");
    let screen = player.screen();
    assert!(
        top(&player).starts_with("Listen   10 questions done   9 at once, 1 not yet"),
        "{screen}"
    );
    assert_eq!(screen.matches("at once, due tomorrow").count(), 9, "{screen}");
    assert_eq!(screen.matches("not yet, due tomorrow").count(), 1, "{screen}");
    assert_eq!(player.sounds(), "Stopping");
    let before = FILE.matches("by = \"ear\"").count();
    assert_eq!(folder.keepers().matches("by = \"ear\"").count(), before + 12);
    // Answers mean nothing now; whoever wants more gets other sounds.
    player.press("1");
    assert!(player.shows("nothing is asked any more"), "{}", player.screen());
    player.press("h m space");
    assert!(top(&player).starts_with("Listen   1 of 10"), "{}", player.screen());
    // Tomorrow's walk passes over nothing; today's over what was got.
    player.press("esc l");
    assert!(top(&player).starts_with("Listen   1 of 1"), "{}", player.screen());
    assert!(asked(&folder).iter().filter(|asked| asked.asking.is_done).count() == 9);
}

/// Where no sound can be played nothing can be named, and no guess is recorded.
#[test]
fn what_could_not_be_heard_is_not_answered() {
    let (folder, mut player, questions) = listening();
    player.press("space");
    let news = SoundNews {
        state: PlayerState::Failed(SoundError::ServerEnded),
        position: Frames(0),
        way: None,
    };
    player.tell(Event::Sound(news));
    player.press(&keys(&questions[0]).0);
    assert!(player.shows("lets it be heard first"), "{}", player.screen());
    assert_eq!(folder.keepers(), FILE);
}

/// Whatever is pressed, in whatever order, the screen can be drawn and the file can be read.
#[test]
fn any_keys_leave_a_screen_and_a_file() {
    const KEYS: [&str; 20] = [
        "space", "space", "space", "1", "2", "3", "4", "5", "6", "7", "h", "m", "esc", "l", "l",
        ";", "z", "Z", "Y", "f6",
    ];
    let (folder, mut player, _) = listening();
    let mut chance = Chance::new(5);
    let mut answered = 0;
    for step in 0..600 {
        let key = KEYS[chance.below(KEYS.len())];
        player.press(key);
        // Lists that were laid over it are left again.
        if step % 40 == 39 {
            player.press("esc esc f3 esc f3 l");
        }
        if step % 5 == 0 {
            player.wait(u64::try_from(chance.below(60)).unwrap() * 20);
        }
        let sizes = [(80, 24), (40, 15), (39, 9), (120, 40), (20, 5)];
        let (columns, rows) = sizes[chance.below(sizes.len())];
        player.resize(columns, rows);
        answered += usize::from(player.shows("this sounded"));
    }
    assert!(answered > 15, "{answered}");
    assert_eq!(folder.ids(), [1, 2, 3, 5, 7]);
    assert_eq!(folder.said(), [] as [&str; 0]);
}

/// Taking back what was done takes back what was recorded.
#[test]
fn an_answer_can_be_taken_back() {
    let (folder, mut player, questions) = listening();
    let id = questions[0].keeper.id;
    let before = tries(&folder, id);
    player.press(&format!("space {}", keys(&questions[0]).0));
    assert_eq!(tries(&folder, id).len(), before.len() + 1);
    player.press("z");
    assert_eq!(tries(&folder, id), before);
}

#[test]
fn a_choice_is_clicked() {
    let (_folder, mut player, questions) = listening();
    let choices = questions[0].question.choices();
    let right = choices[questions[0].question.right()].says.to_string();
    player.press("space");
    player.point(&right, 1, Pointed::Click);
    assert!(player.shows("this sounded, and you named it"), "{}", player.screen());
    let gestures = GESTURES.iter().filter(|row| row.spot.screen() == Some(Section::Listen));
    assert_eq!(gestures.count(), 1);
}

#[test]
fn the_question_waits_while_another_screen_is_in_front() {
    let (_folder, mut player, _) = listening();
    player.press("space");
    player.wait(1_000);
    player.press("; ;");
    assert_eq!(top(&player), "Listen   1 of 10");
    assert!(matches!(&*player.sounds(), "Stopping" | "Silent"), "{}", player.sounds());
    player.press("esc");
    assert!(top(&player).starts_with("Keepers"), "{}", player.screen());
}

#[test]
fn where_nothing_can_be_asked_that_is_said() {
    let folder = Folder::new();
    let mut player = Player::keeping_in(folder.path());
    player.press("; l");
    assert!(player.shows("nothing can be named by ear yet"), "{}", player.screen());
}

/// Keys that lead to a state, keys, and what the screen shows then.
type Triple = (ListenCommand, &'static str, &'static str, &'static str);

#[rustfmt::skip]
const TRIPLES: &[Triple] = &[
    (ListenCommand::GoOn, "", "space", "▸ playing"),
    (ListenCommand::GoOn, "1", "enter", "▸ playing"),
    (ListenCommand::Answer(0), "space", "1", "this sounded"),
    (ListenCommand::Answer(1), "space", "2", "this sounded"),
    (ListenCommand::Answer(2), "space", "c", "this sounded"),
    (ListenCommand::Answer(3), "space", "4", "this sounded"),
    (ListenCommand::Answer(4), "space", "e", "this sounded"),
    (ListenCommand::Answer(5), "", "6", "lets it be heard first"),
    (ListenCommand::Answer(6), "", "g", "lets it be heard first"),
    (ListenCommand::HearAgain, "space esc l", "h", "▸ playing"),
    (ListenCommand::HearMine, "", "m", "nothing is named yet"),
    (ListenCommand::ToList, "space", "esc", "Keepers   5 kept"),
];

#[test]
fn every_key_does_what_it_says() {
    for (command, lead, typed, shown) in TRIPLES {
        let (_folder, mut player, _) = listening();
        player.press(lead);
        assert!(!player.shows(shown), "{command:?}: {}", player.screen());
        player.press(typed);
        assert!(player.shows(shown), "{command:?} {typed}: {}", player.screen());
    }
    let (keys, _) = Keys::built_in();
    for row in COMMANDS.iter().filter(|row| row.section == Section::Listen) {
        let of_row = TRIPLES.iter().filter(|triple| Command::Listen(triple.0) == row.command);
        let typed: HashSet<Key> = of_row.map(|triple| triple.2.parse().unwrap()).collect();
        assert!(keys.of(row).iter().any(|key| typed.contains(key)), "{}", row.name);
    }
}

/// Also where a choice has no room.
#[test]
fn every_size_can_be_drawn() {
    let (_folder, mut player, questions) = listening();
    let draw = |player: &mut Player| {
        for columns in [0, 1, 2, 10, 39, 40, 60, 80, 200] {
            for rows in [0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 24, 60] {
                player.resize(columns, rows);
                let _ = player.screen();
                player.point_at(columns / 2, rows / 2, Pointed::WheelDown);
            }
        }
        player.resize(80, 24);
    };
    draw(&mut player);
    for (place, asked) in questions.iter().enumerate() {
        let (right, wrong) = keys(asked);
        player.press(&format!("space {}", if place % 2 == 0 { right } else { wrong }));
        if place < 2 {
            draw(&mut player);
        }
    }
    // What was missed is not got even so; the walk ends all the same.
    for _ in 0..20 {
        player.press("space 1");
    }
    player.press("space");
    draw(&mut player);
    let kinds: HashSet<Asked> = questions.iter().map(|asked| asked.asking.asked).collect();
    assert_eq!(kinds.len(), 3);
}
