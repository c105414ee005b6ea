//! A line on pages: staff and tablature, in one key or in several.

use fretloom_theory::{ClickBeats, Role, SpelledTriad, Spelling, Swing};

use super::care;
use super::heading::{Heading, tuning_lines};
use crate::answer::{InKey, KeyLine, LineAnswer, LineChord, LinesAnswer, ToldNote};
use crate::engraving::{Answers, BarWords, EngravedLine, EngravingLook, NoteGroup, engrave};
use crate::picture::page::{Face, Figure, Flow, Pages, Paper, points};
use crate::score_file::ScoreWriteError;

/// What is shown of a line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct LineLook {
    /// Are there notes, or room to write them?
    pub answers: Answers,
    /// Are fingers written below the tablature?
    pub fingers: bool,
    /// Is each bar told in a sentence?
    pub sentences: bool,
}

impl LineLook {
    /// Notes with their fingers.
    pub const WHOLE: LineLook =
        LineLook { answers: Answers::Shown, fingers: true, sentences: false };
}

/// Between two lines of music, and what a key has over its first line.
const LINE_GAP: f64 = 7.0;
const KEY_SIZE: f64 = points(11.0);

/// A line, each key played in its first way.
///
/// # Errors
///
/// Where no values say its notes.
pub fn line(
    answer: &LinesAnswer,
    look: LineLook,
    spelling: Spelling,
    paper: Paper,
) -> Result<Pages, ScoreWriteError> {
    let Some(first) = answer.lines.first() else {
        return Ok(Flow::new(paper, "", "").pages());
    };
    let mut flow = heading(&first.answer).begin(paper);
    put_music(&mut flow, answer, look, spelling)?;
    care::put(&mut flow);
    Ok(flow.pages())
}

/// Puts staff and tablature of all keys below what is there.
pub(super) fn put_music(
    flow: &mut Flow,
    answer: &LinesAnswer,
    look: LineLook,
    spelling: Spelling,
) -> Result<(), ScoreWriteError> {
    let Some(written) = answer.written(Swing::STRAIGHT, ClickBeats::Off) else { return Ok(()) };
    let engraving = engraving_look(answer, look, spelling, flow.width_mm());
    let mut keys = answer.lines.iter();
    for (line, index) in engrave(&written, &engraving)?.into_iter().zip(0..) {
        let EngravedLine { section, figure } = line;
        let gap = if index == 0 { 5.0 } else { LINE_GAP };
        let begins = if section.is_some() { keys.next() } else { None };
        let figure = match begins {
            Some(key) => Figure::line(&key_words(key), Face::Bold, KEY_SIZE).over(figure, 1.0),
            None => figure,
        };
        flow.put(figure, gap);
    }
    Ok(())
}

/// `in F, an octave lower`
fn key_words(key: &KeyLine) -> String {
    let how = match key.how {
        InKey::Here | InKey::Moved => String::new(),
        InKey::MadeAnew => ", made anew, since the same line does not fit there".to_owned(),
        InKey::Octaves(octaves) => {
            let far = match octaves.unsigned_abs() {
                1 => "an octave".to_owned(),
                count => format!("{count} octaves"),
            };
            format!(", {far} {}, where it fits", if octaves > 0 { "higher" } else { "lower" })
        }
    };
    format!("in {}{how}", key.key)
}

fn engraving_look(
    answer: &LinesAnswer,
    look: LineLook,
    spelling: Spelling,
    width_mm: f64,
) -> EngravingLook {
    let mut groups = Vec::new();
    let mut before = 0;
    for key in &answer.lines {
        groups.extend(groups_of(&key.answer.notes, before));
        before += key.answer.notes.len();
    }
    let first = answer.lines.first().filter(|_| look.sentences);
    let words = first.map(|first| words_of(&first.answer, spelling)).unwrap_or_default();
    let (answers, fingers) = (look.answers, look.fingers);
    EngravingLook { answers, fingers, groups, words, ..EngravingLook::new(width_mm) }
}

/// Which notes belong to which triad; `before` notes come first.
fn groups_of(notes: &[ToldNote], before: usize) -> Vec<NoteGroup> {
    type Of = (usize, usize, SpelledTriad);
    let mut groups: Vec<(NoteGroup, Of)> = Vec::new();
    for (told, index) in notes.iter().zip(before..) {
        let (Role::Triad(which), Some(triad)) = (told.note.role, told.triad) else { continue };
        let of = (told.note.phrase, told.note.group, triad);
        match groups.last_mut() {
            Some((group, last)) if *last == of => group.last = index,
            _ => {
                let name = triad.to_string();
                groups.push((NoteGroup { first: index, last: index, which, name }, of));
            }
        }
    }
    groups.into_iter().map(|(group, _)| group).collect()
}

fn words_of(answer: &LineAnswer, spelling: Spelling) -> Vec<BarWords> {
    let mut words: Vec<BarWords> = Vec::new();
    for bar in answer.explanation().bars {
        let Some(at) = answer.question.chords.bars().at(bar.from) else { continue };
        let Ok(index) = usize::try_from(at.index) else { continue };
        let text = bar.why(spelling).to_string();
        match words.last_mut() {
            Some(last) if last.bar == index => last.text += &format!(" {text}"),
            _ => words.push(BarWords { bar: index, text }),
        }
    }
    words
}

/// What a line is about, in its first key.
#[must_use]
pub fn line_heading(answer: &LinesAnswer) -> Heading {
    let first = answer.lines.first().map(|key| heading(&key.answer));
    first.unwrap_or_default()
}

/// What a line is about: its chords, each with its scale and its pair.
fn heading(answer: &LineAnswer) -> Heading {
    let mut said: Vec<String> = Vec::new();
    for chord in answer.question.chords.chords() {
        let sentence = told(chord);
        if !said.contains(&sentence) {
            said.push(sentence);
        }
    }
    said.push(music(answer));
    Heading {
        title: title(answer),
        scale: None,
        triads: Vec::new(),
        says: said,
        tuning: tuning_lines::<0>(&answer.tuning, []),
    }
}

/// How many chords a title names.
const TITLE_CHORDS: usize = 8;

/// `Dm7 G7 Cmaj7`
fn title(answer: &LineAnswer) -> String {
    let symbols = answer.question.chords.symbols().changes().iter();
    let mut named: Vec<String> =
        symbols.map(|(_, symbol)| symbol.to_string()).take(TITLE_CHORDS + 1).collect();
    if let Some(last) = named.get_mut(TITLE_CHORDS) {
        "…".clone_into(last);
    }
    named.join(" ")
}

/// `Dm7: D Dorian, F & G`
fn told(chord: &LineChord) -> String {
    let symbol = chord.over.chord().map(ToString::to_string).unwrap_or_default();
    format!("{symbol}: {}, {}", chord.over.scale(), chord.pair)
}

/// `♩ = 120, 4/4; pattern 123 in the rhythm 8`
pub(super) fn music(answer: &LineAnswer) -> String {
    let question = &answer.question;
    let meter = question.chords.bars().bar(0).map(|bar| format!(", {}", bar.meter));
    let of_pair = answer.phrases.iter().find_map(|phrase| phrase.of_pair.as_ref());
    let pattern =
        of_pair.map(|phrase| format!("; {} in the rhythm {}", phrase.pattern, phrase.rhythm));
    let (tempo, meter) = (question.tempo.a_minute().round(), meter.unwrap_or_default());
    format!("♩ = {tempo}{meter}{}", pattern.unwrap_or_default())
}
