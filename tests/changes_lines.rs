//! Lines over the bars of a tune, and the way back to it.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/changes_reader.rs"]
mod changes_reader;
#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use changes_reader::{bar, opened, pair};
use player::Player;

/// Each chord of a line from here on has the pair that the plan has for it; and there is a way back.
#[test]
fn a_line_goes_over_the_pairs_of_the_plan() {
    let mut player = opened();
    player.press("down p");
    let settled = pair(&player);
    let [first, second] = player.program.changes().chord().unwrap().pair.names();
    player.press("L");
    assert!(player.line(1).contains(&format!("[{first}] & ({second})")), "{}", player.screen());
    assert!(player.line(0).starts_with("[B] Em7b5 A7 | Dm7"), "{}", player.line(0));
    player.press("4");
    assert_eq!(pair(&player), settled);
    player.press("home right p");
    let settled = pair(&player);
    player.press("e");
    assert_eq!(format!("{} *", player.pair()), settled);
    player.press("4");
    assert!(bar(&player).starts_with("2 G7"), "{}", bar(&player));
}

/// A line has 64 bars at most: of a longer tune the first, and the screen says so.
#[test]
fn a_line_over_a_long_tune_says_where_it_ends() {
    for (bars, says) in [(64, false), (65, true)] {
        let mut player = Player::after("Dm7", "4 c");
        player.paste(&["Dm7", "G7"].repeat(bars)[..bars].join(" | "));
        player.press("enter W");
        let told = format!("a line over the first 64 of these {bars} bars");
        assert_eq!(player.shows(&told), says, "{}", player.screen());
    }
}

/// Beats that chords do not share evenly, other meters, rests.
#[test]
fn a_line_has_the_bars_of_the_tune() {
    for (typed, line) in [
        ("C / / F | F | N.C. | G", "C / / F | F | N.C. | G"),
        ("C F | % | N.C.", "C F | C F | N.C."),
        ("3/4 C F | G / C", "3/4 C F | G / C"),
        ("C F | F G", "C F | F G"),
    ] {
        let mut player = opened();
        player.press("c");
        player.paste(typed);
        player.press("enter L");
        let first = player.line(0);
        assert!(first.starts_with(&format!("{line}  ")), "{typed}: {first}");
    }
}
