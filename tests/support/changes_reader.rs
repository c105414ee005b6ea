//! Reads the changes screen: the bar, the chord, the pair and the shape in hand.

#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use crate::player::Player;

const TUNE: &str = "[A] Dm7 | G7 | Cmaj7 | % | [B] Em7b5 A7 | Dm7";

/// A tune of two sections that is typed on the changes screen.
pub(crate) fn opened() -> Player {
    let mut player = Player::after("Dm7", "4 c");
    player.paste(TUNE);
    player.press("enter");
    player
}

/// The row in which the neck is ruled off.
pub(crate) fn rule_row(player: &Player) -> usize {
    player.screen().lines().position(|line| line.starts_with("─ ")).unwrap()
}

/// The bar in hand and its chords, after the mark.
pub(crate) fn bar(player: &Player) -> String {
    let screen = player.screen();
    let marked =
        screen.lines().take(rule_row(player)).skip(1).find_map(|line| line.split_once('▸'));
    let words = marked.map(|(_, words)| words.trim_start()).unwrap_or_default();
    let end = words
        .char_indices()
        .skip(2)
        .find(|(at, sign)| sign.is_ascii_digit() && words[..*at].ends_with("    "));
    let words = &words[..end.map_or(words.len(), |(at, _)| at)];
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The chord in hand.
pub(crate) fn chord(player: &Player) -> String {
    player.line(1).split("   ").next().unwrap_or_default().to_owned()
}

/// The scale in force.
pub(crate) fn scale(player: &Player) -> String {
    player.line(1).split("   ").nth(1).unwrap_or_default().to_owned()
}

/// The pair in hand; a star after it where it is settled.
pub(crate) fn pair(player: &Player) -> String {
    let chord = player.program.changes().chord().unwrap();
    let settled = chord.settled.as_ref().is_some_and(|settled| settled.pair.is_some());
    format!("{:#}{}", chord.pair, if settled { " *" } else { "" })
}

/// The shape in hand; a star after it where it is settled.
pub(crate) fn shape(player: &Player) -> String {
    let hand = player.program.changes().chord().unwrap().hand.unwrap();
    let frets = hand.shape.frets.map(|fret| fret.to_string()).join("-");
    format!("{:#} {frets}{}", hand.shape.triad, if hand.is_settled { " *" } else { "" })
}

/// The words of the line above the neck.
pub(crate) fn place(player: &Player) -> String {
    let rule = player.line(rule_row(player));
    rule.trim_matches('─').split(" ─ ").next().unwrap().trim().to_owned()
}
