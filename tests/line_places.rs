//! Phrases that have a place of their own on the neck: the keys of the place move the one in hand.

#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/line_reader.rs"]
mod line_reader;
#[path = "support/neck_reader.rs"]
mod neck_reader;
#[path = "support/player.rs"]
mod player;

use fretloom::tui::program::Effect;
use line_reader::{notes, on, place, rule_row, told};
use player::Player;

/// The strings that the notes of a phrase lie on, from 1, in order.
fn strings_of(player: &mut Player, phrase: usize) -> Vec<String> {
    player.press("home");
    let mut strings = std::collections::BTreeSet::new();
    for _ in 0..player.program.line().notes().len() {
        if player.program.line().note().unwrap().note.phrase == phrase {
            strings.insert(on(player).split(' ').nth(1).unwrap().to_owned());
        }
        player.press("right");
    }
    strings.into_iter().collect()
}

/// The keys of the place move one phrase alone; elsewhere they move the others, and leave it where it
/// is. Taken back it goes along again.
#[test]
fn a_phrase_has_a_place_of_its_own() {
    let mut player = Player::after("Dm7", "3 8 C T");
    let high = strings_of(&mut player, 1);
    assert!(high.iter().all(|string| "321".contains(string)), "{high:?}");
    let others = strings_of(&mut player, 0);
    assert!(others.iter().all(|string| "432".contains(string)), "{others:?}");
    assert!(others.contains(&"4".to_owned()), "{others:?}");
    player.press("home t");
    assert_eq!(place(&player), "whole line: strings 5-4-3");
    let high = strings_of(&mut player, 1);
    assert!(high.iter().all(|string| "321".contains(string)), "{high:?}");
    let low = strings_of(&mut player, 0);
    assert!(low.iter().all(|string| "543".contains(string)), "{low:?}");
    assert!(low.contains(&"5".to_owned()), "{low:?}");
    player.press("home 8");
    assert_eq!(place(&player), "phrase 2 alone: strings 3-2-1");
    player.press("z home 8");
    assert_eq!(place(&player), "phrase 2 alone: strings 3-2-1");
    player.press("z home 8");
    assert_eq!(place(&player), "phrase 2 as the line: strings 4-3-2");
    player.press("Z home 8");
    assert_eq!(place(&player), "phrase 2 alone: strings 3-2-1");
}

/// The neck shows which strings the phrase in hand stays on, and says it of no other.
#[test]
fn the_neck_shows_the_strings_of_the_phrase_in_hand() {
    let mut player = Player::after("Dm7", "3 8 C t");
    let string = |player: &Player, start: &str| {
        let rule = rule_row(player);
        player.screen().lines().skip(rule).find(|line| line.starts_with(start)).unwrap().to_owned()
    };
    assert!(string(&player, "  2 B").contains('╌') && string(&player, "  5 A").contains('─'));
    player.press("home");
    assert!(string(&player, "  2 B").contains('─') && string(&player, "  5 A").contains('╌'));
}

/// Where the phrase cannot be, what fails is said, and the phrase stays where it was.
#[test]
fn a_place_that_cannot_be_loses_nothing() {
    for (keys, words) in [
        ("1 - 1 enter", "phrase 2: "),
        ("X X X enter", "there is no position XXX"),
        ("9 - 8 - 7 enter", "there are no strings 9-8-7"),
        ("q enter", "expected a position"),
    ] {
        let mut player = Player::after("Dm7", "3 8 C v");
        let before = (notes(&player), place(&player));
        player.press("/ end ctrl-u");
        player.press(keys);
        let screen = player.screen();
        assert!(screen.lines().take(4).any(|line| line.contains(words)), "{keys}: {screen}");
        player.press("esc");
        assert_eq!((notes(&player), place(&player)), before, "{keys}");
    }
}

/// A place on the way that cannot be is passed over, with what fails there. E2 lies on no string but
/// the lowest.
#[test]
fn places_that_are_passed_over_are_told() {
    let player = Player::after("Dm7", "3 8 C / 6 - 5 - 4 enter I E 2 : 4 enter T");
    assert_eq!(place(&player), "phrase 2 alone: all strings");
    assert!(told(&player).starts_with("not on 5-4-3: "), "{}", player.screen());
}

/// An answer is where its question is, until it says otherwise; what is copied says it by itself.
#[test]
fn an_answer_is_where_its_question_is() {
    let mut player = Player::after("Dm7", "3 C / 5 - 4 - 3 enter 8 A");
    assert_eq!(place(&player), "phrase 2 as phrase 1: strings 5-4-3");
    player.press("Q");
    let copied = |player: &Player| match player.effects.iter().next_back() {
        Some(Effect::Copy(clip)) => clip.text().to_owned(),
        other => panic!("{other:?}"),
    };
    assert_eq!(copied(&player).matches("strings = \"5-4-3\"").count(), 2, "{}", copied(&player));
    player.press("T");
    assert_eq!(place(&player), "phrase 2 alone: strings 4-3-2");
    player.press("Q");
    assert_eq!(copied(&player).matches("strings = \"4-3-2\"").count(), 1, "{}", copied(&player));
    // Once it answers none it stays where it is.
    player.press("t A");
    assert_eq!(place(&player), "phrase 2 alone: strings 5-4-3");
}

/// Its place is there tomorrow; on an instrument that does not have it, the phrase goes along.
#[test]
fn the_place_of_a_phrase_is_there_tomorrow() {
    let today = Player::after("Dm7", "3 8 C v home 8");
    let mut tomorrow = Player::with("Gmaj7#11");
    tomorrow.program.take_up(&today.program.session());
    tomorrow.press("8");
    assert_eq!(tomorrow.screen(), today.screen());
    assert_eq!(place(&tomorrow), "phrase 2 alone: position II, strings 4-3-2");
    // Another instrument, and a chain that is not there: each costs its place alone.
    let own = "view = \"position\"\nposition = \"II\"\nstrings = \"4-3-2\"\n";
    for foreign in [
        "view = \"position\"\nposition = \"XXXIV\"\nstrings = \"9-8-7\"\n",
        "frets = \"33-36\"\n",
        "view = \"across\"\nchoice = 900\n",
    ] {
        let mut session = today.program.session();
        let line = session.line.as_mut().unwrap();
        let phrases = line.phrases.take().unwrap();
        assert!(phrases.contains(own), "{phrases}");
        line.phrases = Some(phrases.replace(own, foreign));
        let mut elsewhere = Player::with("Gmaj7#11");
        elsewhere.program.take_up(&session);
        elsewhere.press("8");
        assert_eq!(place(&elsewhere), "phrase 2 as the line: strings 4-3-2", "{foreign}");
    }
}
