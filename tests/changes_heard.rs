//! A tune that is played: the bars follow what is heard, and its stabs are heard and seen.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/changes_reader.rs"]
mod changes_reader;
#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use changes_reader::{bar, chord, opened, shape};
use neck_reader::DrawnNeck;
use player::Player;

/// The tune goes at 120, a bar in two seconds: the bars follow what is heard, and go round.
#[test]
fn the_bars_follow_what_is_heard() {
    let mut player = opened();
    player.press("space");
    player.wait(100);
    assert!(bar(&player).starts_with("1 Dm7"), "{}", bar(&player));
    player.wait(2_000);
    assert!(bar(&player).starts_with("2 G7"), "{}", bar(&player));
    player.wait(7_000);
    assert_eq!(chord(&player), "A7");
    player.wait(3_000);
    assert!(bar(&player).starts_with("1 Dm7"), "{}", bar(&player));
    assert!(player.shows("▸ playing, round 2"), "{}", player.screen());
    assert!(*player.loudest.lock().unwrap() > 0.01);
    // A change is heard as it goes on.
    player.press("p");
    player.wait(1_000);
    assert!(player.shows("▸ playing"));
    player.press("esc");
    assert!(!player.shows("▸ playing"));
}

/// The words of the stabs that are heard, each with its triad and its frets.
fn stabs(player: &Player) -> Vec<(String, Vec<u8>)> {
    let screen = player.screen();
    let told = screen.lines().find_map(|line| line.trim().strip_prefix("stabs: "));
    let stab = |told: &str| {
        let mut words = told.split_whitespace();
        let triad = words.next().unwrap().to_owned();
        (triad, words.next().unwrap().split('-').map(|fret| fret.parse().unwrap()).collect())
    };
    told.map(|told| told.split(" · ").map(stab).collect()).unwrap_or_default()
}

/// While the pairs are comped the stabs of the bar are told and lie on the neck: both triads, each
/// sounding its own notes; a silent one leaves the shape in hand.
#[test]
fn the_stabs_that_are_heard_are_seen() {
    let mut player = opened();
    assert_eq!(stabs(&player), []);
    let hand = shape(&player);
    player.press("space");
    player.wait(100);
    // Strings 4, 3 and 2 of a guitar; triads by hand.
    let open = [50, 55, 59];
    let triads = [("Dm", [2, 5, 9]), ("Em", [4, 7, 11])];
    let told = stabs(&player);
    assert_eq!(told.len(), 2, "{}", player.screen());
    assert!(player.shows("on beat 1 · ") && player.shows(" on beat 2&"), "{}", player.screen());
    for (triad, notes) in triads {
        let (_, frets) = told.iter().find(|(name, _)| name == triad).unwrap();
        let mut sounds: Vec<u8> =
            frets.iter().zip(open).map(|(fret, open)| (open + fret) % 12).collect();
        sounds.sort_unstable();
        assert_eq!(sounds, notes, "{triad}");
    }
    let places = told.iter().flat_map(|(_, frets)| [4, 3, 2].into_iter().zip(frets.clone()));
    let held = DrawnNeck::read(&player.buffer()).unwrap().held;
    assert_eq!(held, places.collect(), "{}", player.screen());
    player.press("f5");
    assert_eq!((stabs(&player), shape(&player)), (Vec::new(), hand));
    assert!(player.shows("the stabs are silent"), "{}", player.screen());
    assert!(player.shows("string 4 "), "{}", player.screen());
}

/// Where no stabs can be held the screen says what fails and which keys help, and how something is
/// heard at all.
#[test]
fn why_no_stabs_are_heard_is_told() {
    let mut player = opened();
    player.press("/");
    player.paste("4-3-2 5-7");
    player.press("enter space");
    player.wait(100);
    let screen = player.screen();
    let told: String =
        screen.lines().skip_while(|line| !line.contains("no stabs here: ")).take(3).collect();
    assert!(told.contains("t takes other strings, / other frets"), "{screen}");
    assert!(
        told.contains("f6 lets the chords sound") || told.contains("F6 lets the chords sound"),
        "{screen}"
    );
    assert!(!told.contains("--"), "{screen}");
    assert!(player.shows("▸ playing"));
    assert!(*player.loudest.lock().unwrap() < 0.001);
    player.press("f6");
    player.wait(1_000);
    assert!(*player.loudest.lock().unwrap() > 0.01);
    assert!(!player.shows("lets the chords sound"));
}

/// Each track by itself: stabs, chords, click.
#[test]
fn stabs_and_chords_are_heard_alone() {
    let loudest = |keys: &str| {
        let mut player = opened();
        player.press(keys);
        player.press("space");
        player.wait(1_500);
        *player.loudest.lock().unwrap()
    };
    for (keys, is_heard) in [("", true), ("f5", false), ("f5 f6", true), ("f5 f7", true)] {
        assert_eq!(loudest(keys) > 0.01, is_heard, "{keys}");
    }
}
