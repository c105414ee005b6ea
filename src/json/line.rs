//! `line`

use fretloom_fretboard::Fingering;
use fretloom_theory::{
    BarLabel, ChordSymbol, Degree, Meter, NoteName, Pattern, Quarters, Role, Scale, Slur,
    SpelledTriad, Stroke, WhichTriad,
};
use serde::Serialize;

use super::AsJson;
use super::ascii::Ascii;
use super::at_place::AtPlace;
use super::tunings::Tuning;
use crate::answer::{
    InKey, KeyLine, LineAnswer, LineChord, LinePhrase, LineTarget, LineWay, LinesAnswer, NamedPair,
    ToldNote,
};

#[derive(Serialize)]
struct Lines<'a> {
    #[serde(flatten)]
    first: Option<Line<'a>>,
    /// Absent where there is one key.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    keys: Vec<Key<'a>>,
}

#[derive(Serialize)]
struct Line<'a> {
    tuning: Tuning<'a>,
    /// What the chart is called; null without one.
    title: Option<&'a str>,
    tempo: f64,
    meter: Option<Ascii<Meter>>,
    bars: Vec<f64>,
    chords: Vec<Chord<'a>>,
    scales: Vec<ScaleOver<'a>>,
    phrases: Vec<Phrase<'a>>,
    notes: Vec<Note>,
    /// Absent where one way is asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    ways: Vec<Way<'a>>,
    comes_round: Option<ComesRound>,
}

/// The line in one of several keys.
#[derive(Serialize)]
struct Key<'a> {
    key: Ascii<NoteName>,
    /// `here`, `moved`, `octaves` or `anew`.
    how: &'static str,
    /// Octaves from where it would be nearest to the last key; 0 but for `octaves`.
    octaves: i8,
    chords: Vec<Chord<'a>>,
    scales: Vec<ScaleOver<'a>>,
    phrases: Vec<Phrase<'a>>,
    notes: Vec<Note>,
}

#[derive(Serialize)]
struct Chord<'a> {
    onset: f64,
    symbol: Ascii<&'a ChordSymbol>,
}

/// The scale and the pair over a chord.
#[derive(Serialize)]
struct ScaleOver<'a> {
    onset: f64,
    scale: Ascii<&'a Scale>,
    pair: Ascii<NamedPair>,
}

#[derive(Serialize)]
struct Phrase<'a> {
    phrase: usize,
    bar: u64,
    /// Pair and pattern are null where the notes were entered one by one.
    pair: Option<Ascii<NamedPair>>,
    pattern: Option<Ascii<&'a Pattern>>,
    /// As it is typed after `--target`; null where it aims at nothing.
    target: Option<Ascii<LineTarget>>,
}

#[derive(Serialize)]
struct Note {
    onset: f64,
    duration: f64,
    midi: u8,
    note: Ascii<NoteName>,
    degree: Ascii<Degree>,
    triad: &'static str,
    /// The triad itself; null for a free note.
    of: Option<Ascii<SpelledTriad>>,
    phrase: usize,
    group: usize,
    #[serde(flatten)]
    at: AtPlace,
    /// The onsets of the bars into which it is tied; null where it is not.
    tie: Option<Vec<f64>>,
    accent: bool,
    /// How it is slurred to: `hammer-on`, `pull-off`; null where it is picked.
    slur: Option<&'static str>,
    /// Null where it is slurred to.
    stroke: Option<&'static str>,
}

/// One of several ways to play the line.
#[derive(Serialize)]
struct Way<'a> {
    cost: f64,
    why: Ascii<&'a Fingering>,
    notes: Vec<AtPlace>,
}

#[derive(Serialize)]
struct ComesRound {
    bars: u64,
    times: u64,
}

impl<'a> Line<'a> {
    fn new(answer: &'a LineAnswer) -> Line<'a> {
        let (question, ways) = (&answer.question, answer.ways.as_slice());
        let bars = question.chords.bars();
        let listed = if question.ways > 1 { ways } else { &[] };
        Line {
            tuning: Tuning::new(&answer.tuning),
            title: question.chords.title(),
            tempo: question.tempo.a_minute(),
            meter: bars.bar(0).map(|bar| Ascii(bar.meter)),
            bars: bar_onsets(answer),
            chords: chords(answer),
            scales: scales(answer),
            phrases: phrases(answer),
            notes: notes(answer),
            ways: listed.iter().map(Way::new).collect(),
            comes_round: answer
                .comes_round()
                .map(|round| ComesRound { bars: round.bars, times: round.times }),
        }
    }
}

impl<'a> Key<'a> {
    fn new(line: &'a KeyLine) -> Key<'a> {
        let (how, octaves) = match line.how {
            InKey::Here => ("here", 0),
            InKey::Moved => ("moved", 0),
            InKey::Octaves(octaves) => ("octaves", octaves),
            InKey::MadeAnew => ("anew", 0),
        };
        let answer = &line.answer;
        Key {
            key: Ascii(line.key),
            how,
            octaves,
            chords: chords(answer),
            scales: scales(answer),
            phrases: phrases(answer),
            notes: notes(answer),
        }
    }
}

/// When each bar begins.
fn bar_onsets(answer: &LineAnswer) -> Vec<f64> {
    let (bars, end) = (answer.question.chords.bars(), answer.end());
    let begun = (0..).map_while(|index| bars.bar(index)).map(|bar| bar.from);
    begun.take_while(|from| *from < end).map(Quarters::to_f64).collect()
}

fn chords(answer: &LineAnswer) -> Vec<Chord<'_>> {
    let changes = answer.question.chords.symbols().changes().iter();
    changes.map(|(onset, symbol)| Chord { onset: onset.to_f64(), symbol: Ascii(symbol) }).collect()
}

fn scales(answer: &LineAnswer) -> Vec<ScaleOver<'_>> {
    answer.question.chords.chords().iter().map(ScaleOver::new).collect()
}

fn phrases(answer: &LineAnswer) -> Vec<Phrase<'_>> {
    (1..).zip(&answer.phrases).map(|(number, told)| Phrase::new(number, told)).collect()
}

fn notes(answer: &LineAnswer) -> Vec<Note> {
    let Some(way) = answer.ways.first() else { return Vec::new() };
    let note = |(index, told): (usize, &ToldNote)| Note::new(told, way, index);
    answer.notes.iter().enumerate().filter_map(note).collect()
}

impl<'a> ScaleOver<'a> {
    fn new(chord: &'a LineChord) -> ScaleOver<'a> {
        let (onset, scale) = (chord.from.to_f64(), Ascii(chord.over.scale()));
        ScaleOver { onset, scale, pair: Ascii(chord.pair) }
    }
}

impl<'a> Phrase<'a> {
    fn new(phrase: usize, told: &'a LinePhrase) -> Phrase<'a> {
        let bar = match told.bar {
            BarLabel::Number(number) => number,
            BarLabel::Text(_) => 0,
        };
        let of_pair = told.of_pair.as_ref();
        let pair = of_pair.map(|of_pair| Ascii(of_pair.pair));
        let pattern = of_pair.map(|of_pair| Ascii(&of_pair.pattern));
        Phrase { phrase, bar, pair, pattern, target: told.target.map(Ascii) }
    }
}

impl Note {
    fn new(told: &ToldNote, way: &LineWay, index: usize) -> Option<Note> {
        let at = way.way.notes.get(index)?;
        let note = &told.note;
        let ties = || told.ties.iter().map(|tie| tie.to_f64()).collect();
        Some(Note {
            onset: note.onset.to_f64(),
            duration: note.duration.to_f64(),
            midi: note.pitch.midi(),
            note: Ascii(told.name),
            degree: Ascii(told.degree),
            triad: match note.role {
                Role::Triad(WhichTriad::First) => "first",
                Role::Triad(WhichTriad::Second) => "second",
                Role::Free => "free",
            },
            of: told.triad.map(Ascii),
            phrase: note.phrase + 1,
            group: note.group + 1,
            at: AtPlace::new(at),
            tie: (!told.ties.is_empty()).then(ties),
            accent: note.accent,
            slur: way.slurs.get(index).copied().flatten().map(|slur| match slur {
                Slur::HammerOn => "hammer-on",
                Slur::PullOff => "pull-off",
            }),
            stroke: way.strokes.get(index).copied().flatten().map(Stroke::word),
        })
    }
}

impl<'a> Way<'a> {
    fn new(way: &'a LineWay) -> Way<'a> {
        Way {
            cost: way.way.cost(),
            why: Ascii(&way.way.fingering),
            notes: way.way.notes.iter().map(AtPlace::new).collect(),
        }
    }
}

impl AsJson for LinesAnswer {
    fn as_json(&self) -> impl Serialize {
        let several = self.lines.len() > 1;
        let keys = self.lines.iter().filter(|_| several);
        Lines {
            first: self.lines.first().map(|line| Line::new(&line.answer)),
            keys: keys.map(Key::new).collect(),
        }
    }
}
