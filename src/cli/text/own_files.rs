//! The player's own files in words.

use super::table::{row, table};
use crate::answer::{CheckAnswer, SettingsAnswer};
use crate::sound::Ways;

/// A problem a line; a sentence where there is none.
pub(in crate::cli) fn check(answer: &CheckAnswer) -> String {
    if answer.problems.is_empty() {
        return "nothing is wrong in your files\n".to_owned();
    }
    let lines = answer.problems.iter().take(MANY).map(|problem| format!("{problem}\n"));
    let mut text: String = lines.collect();
    if let Some(more @ 1..) = answer.problems.len().checked_sub(MANY) {
        text += &format!("and {more} more; --json lists them all\n");
    }
    text
}

/// Nobody mends more of them before looking again.
const MANY: usize = 100;

/// Where the file is, what is in force, and how sound is played.
pub(in crate::cli) fn settings(answer: &SettingsAnswer) -> String {
    let file = match (&answer.file, answer.exists) {
        (None, _) => "there is no folder for settings; FRETLOOM_CONFIG may name one".to_owned(),
        (Some(file), true) => file.display().to_string(),
        (Some(file), false) => {
            format!("{} is not there; fretloom settings --write begins one", file.display())
        }
    };
    let rows: Vec<Vec<String>> =
        answer.settings.iter().map(|one| row([one.name, &one.value])).collect();
    format!("{file}\n\n{}\n{}", table(&rows), sound(&answer.sound))
}

/// How sound is played, and a line for each way that is not taken.
fn sound(ways: &Ways) -> String {
    let used = match &ways.in_use {
        Some(way) => format!("sound is played by {way}\n"),
        None => "no sound can be played here; fretloom line --wav FILE writes a line to a file\n"
            .to_owned(),
    };
    ways.untaken.iter().fold(used, |text, other| format!("{text}  {other}\n"))
}
