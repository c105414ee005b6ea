//! Reads the line screen: its notes, and what stands around its neck.

#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use crate::player::Player;

/// The names of the notes, in ASCII.
pub(crate) fn notes(player: &Player) -> String {
    let name = |told: &fretloom::answer::ToldNote| format!("{:#}", told.named_pitch());
    player.program.line().notes().iter().map(name).collect::<Vec<_>>().join(" ")
}

/// The row of the line between the tab and the neck.
pub(crate) fn rule_row(player: &Player) -> usize {
    player.screen().lines().position(|line| line.starts_with("─ ")).unwrap()
}

/// The line that says all of the note at the cursor.
pub(crate) fn here(player: &Player) -> String {
    player.line(rule_row(player) + 9)
}

/// Where that note lies.
pub(crate) fn on(player: &Player) -> String {
    here(player).split(" · ").nth(1).unwrap().to_owned()
}

/// The line below the one that says all of the note at the cursor.
pub(crate) fn told(player: &Player) -> String {
    player.line(rule_row(player) + 10)
}

/// Where the line is, or the phrase in hand.
pub(crate) fn place(player: &Player) -> String {
    let rule = player.line(rule_row(player));
    rule.trim_matches('─').split(" ─ ").next().unwrap().trim().to_owned()
}
