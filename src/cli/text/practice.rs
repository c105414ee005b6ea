//! What is to be practised today.

use super::table::{row, table};
use crate::answer::{PracticeAnswer, TurnAnswer};
use crate::practice::{LadderRules, PracticeRules, Spacing, Why};
use crate::words::counted;

/// `practice`
pub(in crate::cli) fn practice(answer: &PracticeAnswer) -> String {
    let (rules, turns) = (&answer.rules, &answer.turns);
    if turns.is_empty() {
        return format!("{}: nothing is due; fretloom keepers lists what is kept\n", answer.day);
    }
    let minutes = turns.len() * usize::from(rules.turn_minutes);
    let each = counted(rules.turn_minutes.into(), "minute");
    let mut text = format!(
        "{}: {}, {} in turns of {each}\n\n",
        answer.day,
        counted(turns.len(), "turn"),
        counted(minutes, "minute"),
    );
    let head = row(["", "called", "key", "strings", "from", "why", ""]);
    let mut rows = vec![head];
    for (number, turn) in (1..).zip(turns) {
        if turn.turn.after_rest {
            rows.push(row(["", "a rest"]));
        }
        rows.push(turn_row(number, turn));
    }
    text += &table(&rows);
    text + "\n" + &in_words(rules) + CARE
}

/// What the player should know who practises.
const CARE: &str = "Warm up, rest, stop when it hurts, and ask a teacher or a doctor then.\n";

fn turn_row(number: usize, answer: &TurnAnswer) -> Vec<String> {
    let turn = &answer.turn;
    let title = answer.keeper.title();
    let title = title.split_whitespace().collect::<Vec<_>>().join(" ");
    let why = why_in_words(turn.why);
    let limit = turn.unit.limit.map(|limit| format!("; {limit}")).unwrap_or_default();
    vec![
        number.to_string(),
        title,
        answer.key.map(|key| key.to_string()).unwrap_or_default(),
        turn.unit.strings.map(|strings| strings.to_string()).unwrap_or_default(),
        turn.tempo.to_string(),
        why + &limit,
        if turn.is_done { "✓".to_owned() } else { String::new() },
    ]
}

/// Why something is on today's list.
pub(super) fn why_in_words(why: Why) -> String {
    match why {
        Why::Due(since) => format!("due {since}"),
        Why::Next => "comes next".to_owned(),
        Why::New => "new".to_owned(),
    }
}

/// The numbers of tempos and gaps as sentences.
fn in_words(rules: &PracticeRules) -> String {
    let LadderRules { good, up, back, top, .. } = rules.ladder;
    let Spacing { first_days, growth, longest_days } = rules.spacing;
    format!(
        "Tempo: after {} in a row {up} faster, up to {top}; after one that was not, {back} slower. End on \
         a good one.\nWhat was got comes back after {}, then each time after {growth} times as many, {} at \
         most; what was not comes back after {}.\n",
        counted_tries(good),
        counted(first_days.into(), "day"),
        counted(longest_days.into(), "day"),
        counted(first_days.into(), "day"),
    )
}

fn counted_tries(good: u8) -> String {
    if good == 1 { "a good try".to_owned() } else { format!("{good} good tries") }
}
