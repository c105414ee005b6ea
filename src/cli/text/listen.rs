//! What is to be named by ear today.

use super::practice::why_in_words;
use super::table::{row, table};
use crate::answer::{AskedAnswer, ListeningAnswer};
use crate::store::Asked;
use crate::words::counted;

/// `listen`
pub(in crate::cli) fn listen(answer: &ListeningAnswer) -> String {
    let questions = &answer.questions;
    if questions.is_empty() {
        return format!(
            "{}: nothing is to be named by ear; fretloom keepers lists what is kept\n",
            answer.day
        );
    }
    let mut rows = vec![row(["", "called", "over", "to be named", "among", "why", ""])];
    rows.extend((1..).zip(questions).map(|(number, asked)| question_row(number, asked)));
    let count = counted(questions.len(), "question");
    format!("{}: {count} by ear\n\n{}\n{HOW}", answer.day, table(&rows))
}

/// Where they are asked, and when they come back.
const HOW: &str = "The screen of keepers asks them: it plays the drone and both triads, and tells what was right.\n\
                   What was named comes back after the gaps that fretloom practice tells; what was not comes \
                   again.\n";

fn question_row(number: usize, answer: &AskedAnswer) -> Vec<String> {
    let title = answer.keeper.title();
    let harmony = &answer.question.harmony;
    let over = match harmony.chord() {
        Some(chord) => chord.read.chord.to_string(),
        None => harmony.scale().scale().to_string(),
    };
    vec![
        number.to_string(),
        title.split_whitespace().collect::<Vec<_>>().join(" "),
        over,
        asked_in_words(answer.question.asked).to_owned(),
        answer.question.choices().len().to_string(),
        why_in_words(answer.asking.why),
        if answer.asking.is_done { "✓".to_owned() } else { String::new() },
    ]
}

fn asked_in_words(asked: Asked) -> &'static str {
    match asked {
        Asked::Pair => "which pair it is",
        Asked::Qualities => "the quality of each triad",
        Asked::LeftOut => "what it leaves out",
    }
}
