//! What is said of questions and answers.

use jiff::civil::Date;

use super::super::{day, signs};
use super::state::{Fate, Listen, Question};
use crate::answer::{EarName, EarQuestion, LeftOut, Mistaken};
use crate::store::{Asked, Verdict};
use crate::words::counted;

/// What sounds, for those who hear it for the first time.
pub(super) const FORM: &str = "What sounds: the chord's drone, each triad broken upwards, then both struck \
                               one after the other. Listen for the step between them.";

impl Question {
    /// `Which pair of the chord is it?`
    pub(super) fn asks(&self) -> &'static str {
        match self.asked.question.asked {
            Asked::Pair => "Which pair of the chord is it?",
            Asked::Qualities => "Which quality has each of its triads?",
            Asked::LeftOut => "What does the pair leave out of the scale?",
        }
    }

    /// `over Dm7   D Dorian  D E F G A B C`
    pub(super) fn over(&self) -> String {
        let harmony = &self.asked.question.harmony;
        let notes: Vec<String> = harmony.scale().notes().map(|note| note.to_string()).collect();
        let scale = format!("{}  {}", harmony.scale().scale(), notes.join(" "));
        match harmony.chord() {
            Some(chord) => format!("over {}   {scale}", chord.read.chord),
            None => format!("over {scale}"),
        }
    }

    /// `which pair   F & G over Dm7   at once, due tomorrow`
    pub(super) fn in_a_line(&self, today: Date) -> String {
        let asked = match self.asked.question.asked {
            Asked::Pair => "which pair",
            Asked::Qualities => "the qualities",
            Asked::LeftOut => "what is left out",
        };
        let comes = |due: Option<Date>| {
            due.map(|due| format!(", due {}", day::coming(due, today))).unwrap_or_default()
        };
        let became = match self.fate {
            Fate::Before => "got earlier today".to_owned(),
            Fate::ToCome => "not asked".to_owned(),
            Fate::Got { at_once: true, due } => format!("at once{}", comes(due)),
            Fate::Got { at_once: false, due } => format!("later{}", comes(due)),
            Fate::Missed { due } => format!("not yet{}", comes(due)),
        };
        let over = self.asked.question.harmony.chord().map(|chord| chord.read.chord.to_string());
        let scale = || self.asked.question.harmony.scale().scale().to_string();
        let pair = self.asked.keeper.kept.pair.as_deref().map(signs::pair);
        let pair = pair.map(|pair| format!("{pair} kept")).unwrap_or_default();
        format!("{asked:<18}{:<14}{pair:<18}{became}", over.unwrap_or_else(scale))
    }
}

impl Listen {
    /// `3 of 10   2 at once, 1 later`
    pub(super) fn how_far(&self) -> String {
        let round = &self.round;
        let whole = round.done() + round.to_come();
        let place = (round.done() + 1).min(whole);
        let counts =
            [(round.at_once(), "at once"), (round.later(), "later"), (round.not_yet(), "not yet")];
        let told: Vec<String> = counts
            .iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, word)| format!("{count} {word}"))
            .collect();
        let place = match (whole, round.to_come()) {
            (0, _) => "all were got earlier today".to_owned(),
            (_, 0) => format!("{} done", counted(whole, "question")),
            _ => format!("{place} of {whole}"),
        };
        format!("{place}   {}", told.join(", "))
    }

    /// What an answer was: right, or what was taken for what.
    pub(super) fn told(&self) -> Vec<String> {
        let Some((question, choice)) = self.now().zip(self.answered) else { return Vec::new() };
        let question = &question.asked.question;
        match question.mistaken(choice) {
            None => vec![right(question)],
            Some(mistaken) => vec![wrong(question, &mistaken), self.comes_again().to_owned()],
        }
    }

    fn comes_again(&self) -> &'static str {
        match self.round.clone().after(Verdict::Again).not_yet() {
            missed if missed > self.round.not_yet() => "It comes again on another day.",
            _ => "It comes again in a moment.",
        }
    }
}

/// `Right: F & G, without E 9.`
fn right(question: &EarQuestion) -> String {
    match question.heard() {
        Some(heard) => {
            let without = EarName::LeftOut(heard.left_out.clone());
            let said = sounded(question);
            match question.asked {
                Asked::LeftOut => format!("Right: {said}."),
                Asked::Pair | Asked::Qualities => {
                    format!("Right: {said}; it leaves out {without}.")
                }
            }
        }
        None => String::new(),
    }
}

/// What sounded, and by what it differs from what was named.
fn wrong(question: &EarQuestion, mistaken: &Mistaken<'_>) -> String {
    let named = mistaken.said.pair.name();
    let notes = |notes: &[LeftOut]| EarName::LeftOut(notes.to_vec()).to_string();
    let differs = match mistaken.heard_only.is_empty() {
        true => format!("{named} has the same six notes, shared out otherwise"),
        false => format!(
            "{named} has {} in place of {}",
            notes(&mistaken.said_only),
            notes(&mistaken.heard_only)
        ),
    };
    let said = sounded(question);
    match question.asked {
        Asked::Pair => format!("It was {said}. {differs}."),
        Asked::Qualities => format!("It was {said}. {named} would be {}.", mistaken.said.says),
        Asked::LeftOut => format!("It was {said}. {differs}."),
    }
}

/// What is right, with the pair that sounded.
fn sounded(question: &EarQuestion) -> String {
    let right = question.choices().get(question.right());
    let (Some(right), Some(heard)) = (right, question.heard()) else { return String::new() };
    match question.asked {
        Asked::Pair => right.says.to_string(),
        Asked::Qualities => format!("{}: {}", right.says, heard.name()),
        Asked::LeftOut => format!("{}, which {} leaves out", right.says, heard.name()),
    }
}
