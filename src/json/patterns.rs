//! `patterns`

use fretloom_theory::Stroke;
use serde::Serialize;

use super::AsJson;
use crate::answer::{PatternAnswer, PatternsAnswer};

#[derive(Serialize)]
struct Patterns<'a> {
    patterns: Vec<Pattern<'a>>,
}

#[derive(Serialize)]
struct Pattern<'a> {
    id: &'a str,
    name: &'a str,
    figures: String,
    /// How many values of a rhythm it takes.
    length: usize,
    source: String,
    /// Null where nothing is said.
    note: Option<&'a str>,
    /// After how many bars of eighths in 4/4 it comes round; null after more than anybody plays.
    bars: Option<u64>,
    /// How each value is struck, `down` or `up`; null where nothing is.
    strokes: Vec<Option<&'static str>>,
}

impl<'a> Pattern<'a> {
    fn new(answer: &'a PatternAnswer) -> Pattern<'a> {
        let pattern = &answer.pattern;
        Pattern {
            id: &pattern.id,
            name: &pattern.name,
            figures: pattern.figures.to_string(),
            length: pattern.figures.length(),
            source: pattern.source.to_string(),
            note: pattern.note.as_deref(),
            bars: answer.comes_round.map(|round| round.bars),
            strokes: answer.strokes.iter().map(|stroke| stroke.map(Stroke::word)).collect(),
        }
    }
}

impl AsJson for PatternsAnswer {
    fn as_json(&self) -> impl Serialize {
        Patterns { patterns: self.patterns.iter().map(Pattern::new).collect() }
    }
}
