//! Playing on the screens, by a clock of the test's own: what is heard when, and what follows it.
//!
//! The line is F & G over Dm7 in eighths at 120: four bars of two seconds, and after an eighth of rest a
//! note each 250 ms.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use fretloom::settings::Settings;
use fretloom::sound::{
    CountIn, Frames, Level, Player as _, PlayerState, SoundChoices, SoundError, Untaken,
};
use fretloom::tui::event::{Event, SoundNews};
use player::Player;

/// How often the program is told, in milliseconds.
const TICK: u64 = 20;

/// The line screen after some keys.
fn line(keys: &str) -> Player {
    let mut player = Player::after("Dm7", "3");
    player.press(keys);
    player
}

/// Which note the cursor is at, from 1.
fn at(player: &Player) -> usize {
    let here = player.program.line().note().unwrap();
    1 + player.program.line().notes().iter().position(|told| told == here).unwrap()
}

/// The time after which the cursor comes to another note, and which one that is.
fn next_step(player: &mut Player) -> (u64, usize) {
    let before = at(player);
    for waited in 1..1_000 {
        player.wait(TICK);
        if at(player) != before {
            return (waited * TICK, at(player));
        }
    }
    panic!("the cursor stays at {before}");
}

/// When the cursor comes to the next notes, in milliseconds from now.
fn steps(player: &mut Player, count: usize) -> Vec<u64> {
    let mut now = 0;
    let mut one = || {
        now += next_step(player).0;
        now
    };
    (0..count).map(|_| one()).collect()
}

/// They come at these times; told up to a tick later, and a tick of rounding.
fn assert_about(heard: &[u64], expected: &[u64]) {
    let near = |(heard, expected): (&u64, &u64)| (*expected..=expected + 2 * TICK).contains(heard);
    assert_eq!(heard.len(), expected.len());
    assert!(heard.iter().zip(expected).all(near), "{heard:?} for {expected:?}");
}

/// On the page of sound, a row from the top is changed so many times.
fn changed(row: usize, times: usize) -> String {
    format!("Y {} {} esc", "down ".repeat(row), "right ".repeat(times))
}

const CLICK: usize = 3;
const SWING: usize = 4;
const COUNT_IN: usize = 5;
const LOOP: usize = 6;

#[test]
fn the_cursor_is_at_each_note_at_its_time() {
    let mut player = line("end space");
    player.wait(TICK);
    assert_eq!(at(&player), 1);
    assert_about(&steps(&mut player, 8), &[480, 730, 980, 1_230, 1_480, 1_730, 1_980, 2_230]);
    assert_eq!(at(&player), 9);
}

#[test]
fn a_loop_goes_round() {
    let mut player = line("space");
    player.wait(7_900);
    assert_eq!(at(&player), 20);
    assert!(player.line(0).contains("▸ playing "), "{}", player.line(0));
    player.wait(120);
    assert_eq!(at(&player), 1);
    assert!(player.line(0).contains("▸ playing, round 2"), "{}", player.line(0));
    player.wait(16_000);
    assert!(player.line(0).contains("▸ playing, round 4"));
    assert_eq!(at(&player), 1);
}

#[test]
fn without_a_loop_it_ends_and_the_cursor_stays() {
    let mut player = line(&changed(LOOP, 1));
    player.press("space");
    player.wait(12_000);
    assert_eq!(player.sound.state(), PlayerState::Ended);
    assert_eq!(at(&player), 20);
    assert!(!player.shows("▸ playing"));
}

#[test]
fn space_stops_at_once_and_leaves_the_cursor() {
    let mut player = line("space");
    player.wait(1_100);
    let heard = at(&player);
    assert_eq!(heard, 4);
    player.press("space");
    assert!(!player.shows("▸ playing"));
    player.wait(20);
    assert_eq!(player.sound.state(), PlayerState::Silent);
    player.wait(3_000);
    assert_eq!(at(&player), heard);
    // It begins at the top again.
    player.press("space");
    player.wait(40);
    assert_eq!(at(&player), 1);
}

/// At 2:1 the second eighth of a beat comes after two thirds of it: 333 of 500 ms.
#[test]
fn the_cursor_swings_as_the_line_does() {
    let mut player = line(&changed(SWING, 4));
    player.press("space");
    assert_about(&steps(&mut player, 4), &[500, 833, 1_000, 1_333]);
}

/// A bar of four beats at 120: the cursor waits for two seconds.
#[test]
fn a_count_in_is_told_and_the_cursor_waits() {
    let mut player = line(&changed(COUNT_IN, 1));
    player.press("end space");
    for beat in 1..=4 {
        player.wait(TICK);
        let counted = format!("▸ counting in: {beat}");
        assert!(player.line(0).contains(&counted), "{}", player.line(0));
        player.wait(500 - TICK);
    }
    player.wait(TICK);
    assert_eq!(at(&player), 1);
    assert!(player.shows("▸ playing"));
    // Only the first time round.
    player.wait(8_000);
    assert!(player.line(0).contains("▸ playing, round 2"));
}

/// `-` takes four beats a minute: fifteen of them make 60.
#[test]
fn a_change_of_tempo_is_heard_at_once_and_from_the_same_moment() {
    let mut player = line("space");
    player.wait(1_010);
    assert_eq!(at(&player), 4);
    player.press(&"- ".repeat(15));
    assert!(player.shows("♩=60"));
    // The next note is due in 240 ms, of which a part still goes by at 120: an eighth lasts 500 now.
    let heard = steps(&mut player, 3);
    assert!((240..=300).contains(&heard[0]), "{heard:?}");
    assert!((heard[2] - heard[1]).abs_diff(500) <= TICK, "{heard:?}");
}

#[test]
fn another_note_or_pattern_goes_on_where_the_music_is() {
    let mut player = line("space");
    player.wait(3_100);
    player.press("f");
    player.wait(1_000);
    assert!(player.shows("▸ playing"));
    let onset = player.program.line().note().unwrap().note.onset.to_f64();
    assert!((7.5..=8.2).contains(&onset), "{onset} beats after 4.1 s");
    player.press("u");
    player.wait(400);
    assert!(player.sound.state().is_sounding());
}

/// A line with fewer bars than have been heard goes on from its beginning.
#[test]
fn what_is_shorter_now_begins_again() {
    let mut player = line("space");
    player.wait(7_000);
    player.press("B B B");
    assert!(player.shows("1 bar 4/4"), "{}", player.screen());
    player.wait(500);
    let onset = player.program.line().note().unwrap().note.onset.to_f64();
    assert!(onset < 1.0, "{onset}");
    assert!(player.shows("▸ playing"));
}

#[test]
fn whoever_leaves_the_screen_hears_it_end() {
    for leave in ["3", "esc", "<"] {
        let mut player = line("space");
        player.wait(500);
        player.press(leave);
        player.wait(40);
        let ended = player.sound.state() == PlayerState::Silent;
        assert_eq!(ended, !player.shows("▸ playing"), "{leave}");
        if !player.screen().contains("♩=") {
            assert!(ended, "{leave}");
        }
    }
    // Help and lists lie over it, and it goes on.
    let mut player = line("space ?");
    player.wait(500);
    assert_eq!(player.sound.state(), PlayerState::Playing);
    player.press("esc");
    assert!(player.shows("▸ playing"));
}

#[test]
fn each_part_is_silenced_by_a_key_and_says_so() {
    let told = [
        ("f5", "the line is silent", "the line sounds"),
        ("f6", "the drone sounds", "the drone is silent"),
        ("f7", "the click sounds", "the click is silent"),
    ];
    for (key, first, second) in told {
        let mut player = line(key);
        assert!(player.shows(first), "{key}: {}", player.screen());
        player.press(key);
        assert!(player.shows(second), "{key}: {}", player.screen());
    }
}

/// How loud it is: the greatest sample of half a second.
fn loudest(keys: &str) -> f32 {
    let mut player = line(keys);
    player.press("space");
    player.wait(500);
    *player.loudest.lock().unwrap()
}

#[test]
fn a_silent_line_is_not_heard_and_a_drone_is_when_asked_for() {
    assert!(loudest("") > 0.01);
    assert!(loudest("f5") < 1e-6);
    assert!(loudest("f5 f6") > 0.001);
    // Two clicks on every beat of a second.
    assert!(loudest(&format!("f5 {}", changed(CLICK, 2))) > 0.001);
}

/// Quiet at first: 10 dB and more below the loudest.
#[test]
fn it_starts_quietly() {
    let loud = loudest("f6 f7");
    assert!(loud < 0.32, "{loud}");
}

#[test]
fn levels_and_choices_are_there_tomorrow() {
    let today = line("Y right right down left m down down right down right down right down right");
    let page = today.screen();
    let mut tomorrow = Player::with("Gmaj7#11");
    tomorrow.program.take_up(&today.program.session());
    tomorrow.press("Y down down down down down down");
    assert_eq!(tomorrow.screen(), page);
    for chosen in ["2 and 4", "5:4", "one bar", "once"] {
        assert!(page.contains(chosen), "{page}");
    }
}

#[test]
fn it_begins_as_the_player_has_settled_it() {
    let mut player = Player::after("Dm7", "3");
    let sound = SoundChoices {
        swing: "2:1".parse().unwrap(),
        count_in: CountIn::OneBar,
        drone: true,
        line_level: Level::new(25).unwrap(),
        ..SoundChoices::default()
    };
    player.program.use_settings(&Settings { sound, ..Settings::default() });
    player.press("Y");
    let page = player.screen();
    for settled in ["line, shapes   25", "swing         2:1", "count-in      one bar"] {
        assert!(page.contains(settled), "{page}");
    }
    assert!(!page.contains("silent"), "{page}");
}

#[test]
fn the_page_says_how_to_begin_and_how_it_is_heard() {
    let player = line("Y");
    assert!(player.shows("Begin quietly"), "{}", player.screen());
    let mut player = line("space Y");
    let news =
        |state| Event::Sound(SoundNews { state, position: Frames(0), way: Some("a horn".into()) });
    player.tell(news(PlayerState::Playing));
    assert!(player.shows("Heard through a horn."), "{}", player.screen());
    player.tell(news(PlayerState::Failed(SoundError::ServerEnded)));
    assert!(player.shows("Not heard: the sound server has ended"), "{}", player.screen());
}

#[test]
fn where_nothing_can_be_played_one_line_says_why_and_what_to_do() {
    let mut player = line("space");
    let tried = ["sound server", "pacat", "pw-cat", "aplay"].map(|what| Untaken {
        what: what.to_owned(),
        why: "is nowhere on this machine, wherever one looks for it".to_owned(),
    });
    let state = PlayerState::Failed(SoundError::NoWay(tried.to_vec()));
    player.tell(Event::Sound(SoundNews { state, position: Frames(0), way: None }));
    assert!(player.shows("no sound can be played here"), "{}", player.screen());
    assert!(player.shows("--wav"), "{}", player.screen());
    assert!(!player.line(0).contains("▸"), "{}", player.line(0));
    // It can be asked for again.
    player.press("space");
    assert!(player.shows("▸ to be played") || player.shows("▸ playing"));
}

/// What the process was told to do by Ctrl-Z has ended the sound.
#[test]
fn what_was_silenced_from_outside_is_not_playing() {
    let mut player = line("space");
    player.wait(300);
    player.sound.silence();
    player.tell_of_sound();
    assert!(!player.line(0).contains("▸"), "{}", player.line(0));
    player.press("space");
    player.wait(40);
    assert!(player.shows("▸ playing"));
}

#[test]
fn shapes_and_pairs_are_struck_together_and_in_turn() {
    let mut player = Player::with("Gmaj7#11");
    player.press("5");
    assert!(player.shows("struck together"), "{}", player.screen());
    assert_eq!(player.sound.state(), PlayerState::Playing);
    player.press("5");
    assert!(player.shows("one note after another; once more"));
    player.press("space 5");
    assert!(player.shows("struck together"));
    player.press("6");
    assert!(player.shows("struck together"));
    // Both shapes have been heard by then.
    player.wait(20_000);
    assert_eq!(player.sound.state(), PlayerState::Ended);
    // A choice of the explorer is no reason to end what rings.
    player.press("5 down");
    assert!(player.sound.state().is_sounding());
    player.press("3");
    player.wait(40);
    assert_eq!(player.sound.state(), PlayerState::Silent);
}
