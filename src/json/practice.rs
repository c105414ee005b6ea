//! `practice`

use fretloom_theory::NoteName;
use jiff::civil::Date;
use serde::Serialize;

use super::AsJson;
use super::ascii::Ascii;
use super::keepers::{day, numbers};
use crate::answer::{PracticeAnswer, TurnAnswer};
use crate::practice::Why;

#[derive(Serialize)]
struct Practice {
    day: String,
    minutes: usize,
    turns: Vec<Turn>,
}

#[derive(Serialize)]
struct Turn {
    /// The id of the keeper.
    keeper: u32,
    title: String,
    /// Null for a plan, which has a key of its own.
    key: Option<Ascii<NoteName>>,
    /// Semitones above the key in which it was kept.
    up: u8,
    strings: Option<Vec<u8>>,
    limit: Option<&'static str>,
    /// `due`, `next` or `new`.
    why: &'static str,
    since: Option<String>,
    tempo: u16,
    minutes: u8,
    after_rest: bool,
    done: bool,
}

impl Turn {
    fn new(answer: &TurnAnswer, minutes: u8) -> Turn {
        let turn = &answer.turn;
        let (why, since) = why(turn.why);
        Turn {
            keeper: turn.keeper.number(),
            title: answer.keeper.title(),
            key: answer.key.map(Ascii),
            up: turn.unit.key.semitones(),
            strings: turn.unit.strings.map(numbers),
            limit: turn.unit.limit.map(|limit| limit.word()),
            why,
            since: day(since),
            tempo: turn.tempo.a_minute(),
            minutes,
            after_rest: turn.after_rest,
            done: turn.is_done,
        }
    }
}

/// The word of a reason, and since when something is due.
pub(super) fn why(why: Why) -> (&'static str, Option<Date>) {
    match why {
        Why::Due(since) => ("due", Some(since)),
        Why::Next => ("next", None),
        Why::New => ("new", None),
    }
}

impl AsJson for PracticeAnswer {
    fn as_json(&self) -> impl Serialize {
        let minutes = self.rules.turn_minutes;
        Practice {
            day: self.day.to_string(),
            minutes: self.turns.len() * usize::from(minutes),
            turns: self.turns.iter().map(|turn| Turn::new(turn, minutes)).collect(),
        }
    }
}
