//! `listen`

use fretloom_theory::{Chord, NoteName, Scale};
use serde::Serialize;

use super::AsJson;
use super::ascii::Ascii;
use super::keepers::day;
use super::practice::why;
use crate::answer::{AskedAnswer, EarName, ListeningAnswer};

#[derive(Serialize)]
struct Listening<'a> {
    day: String,
    questions: Vec<Question<'a>>,
}

/// What sounds, and so which choice is right, is for the ear alone.
#[derive(Serialize)]
struct Question<'a> {
    /// The id of the keeper.
    keeper: u32,
    title: String,
    /// Null where neither chord nor scale says a root.
    key: Option<Ascii<NoteName>>,
    /// Semitones above the key in which it was kept.
    up: u8,
    /// Null for a scale by itself.
    chord: Option<Ascii<&'a Chord>>,
    scale: Ascii<&'a Scale>,
    /// `pair`, `qualities` or `left-out`.
    asked: &'static str,
    choices: Vec<Ascii<&'a EarName>>,
    /// `due`, `next` or `new`.
    why: &'static str,
    since: Option<String>,
    done: bool,
}

impl<'a> Question<'a> {
    fn new(answer: &'a AskedAnswer) -> Question<'a> {
        let (asking, question) = (&answer.asking, &answer.question);
        let (why, since) = why(asking.why);
        let harmony = &question.harmony;
        Question {
            keeper: asking.keeper.number(),
            title: answer.keeper.title(),
            key: answer.key.map(Ascii),
            up: asking.key.semitones(),
            chord: harmony.chord().map(|typed| Ascii(&typed.read.chord)),
            scale: Ascii(harmony.scale().scale()),
            asked: asking.asked.word(),
            choices: question.choices().iter().map(|choice| Ascii(&choice.says)).collect(),
            why,
            since: day(since),
            done: asking.is_done,
        }
    }
}

impl AsJson for ListeningAnswer {
    fn as_json(&self) -> impl Serialize {
        Listening {
            day: self.day.to_string(),
            questions: self.questions.iter().map(Question::new).collect(),
        }
    }
}
