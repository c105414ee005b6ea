//! One page, one idea: a pair over a chord, or a line over several, for a music stand.

use fretloom_fretboard::Neck;
use fretloom_theory::Spelling;

use super::boxes::{Boxed, put_row};
use super::care;
use super::heading::Heading;
use super::line::{LineLook, music, put_music};
use crate::answer::{InKey, KeyCycle, LadderAnswer, LinesAnswer};
use crate::engraving::Answers;
use crate::library::Reader;
use crate::picture::page::{Face, Figure, Flow, Item, Line, Pages, Paper, Point, Text, points};
use crate::picture::{Handed, NeckPicture, NeckSize};
use crate::score_file::ScoreWriteError;

/// What a sheet is made of.
#[derive(Clone, Debug)]
pub struct Idea {
    /// What it is about.
    pub heading: Heading,
    /// The neck that it is for.
    pub neck: Neck,
    /// Both triads on the neck; none for a line over several chords.
    pub picture: Option<NeckPicture>,
    /// Both triads up some strings.
    pub ladder: Option<LadderAnswer>,
    /// A line of them.
    pub line: LinesAnswer,
    /// How the line came onto this neck.
    pub how: InKey,
}

/// What is shown of it, and for whom.
#[derive(Clone, PartialEq, Debug)]
pub struct IdeaLook {
    /// Whom it is for, where that is known.
    pub reader: Option<Reader>,
    /// For which hand.
    pub handed: Handed,
    /// What is shown of the line, and whether anything is shown at all.
    pub line: LineLook,
    /// How triads are written.
    pub spelling: Spelling,
    /// The paper.
    pub paper: Paper,
}

const SMALL: f64 = points(9.0);
const KEY_SIZE: f64 = points(10.0);

/// The page, or several where one does not do.
///
/// # Errors
///
/// Where no values say the notes of the line.
pub fn idea(idea: &Idea, look: &IdeaLook) -> Result<Pages, ScoreWriteError> {
    let tuning = idea.heading.tuning.first().map(String::as_str).unwrap_or_default();
    let name = idea.heading.name();
    let mut flow = Flow::new(look.paper, &name, &format!("{name} · {tuning}"));
    flow.put(assignment(look, flow.width_mm()), 0.0);
    flow.put(idea.heading.figure(flow.width_mm()), 3.0);
    let size = NeckSize { width_mm: flow.width_mm(), string_gap_mm: 5.6 };
    if let Some(picture) = &idea.picture {
        let mut picture = picture.clone().for_hand(look.handed);
        if look.line.answers == Answers::Blank {
            picture.marks.clear();
        }
        flow.put(picture.figure(size), 3.0);
    }
    if let Some(ladder) = &idea.ladder {
        put_ladder(&mut flow, idea, ladder, look);
    }
    let words = idea.line_words().filter(|_| idea.picture.is_some());
    if let Some(words) = words {
        flow.put(Figure::paragraph(&words, Face::Plain, SMALL, flow.width_mm()), 3.0);
    }
    if let Some(remark) = idea.remark() {
        flow.put(Figure::paragraph(&remark, Face::Plain, SMALL, flow.width_mm()), 3.0);
    }
    put_music(&mut flow, &idea.line, look.line, look.spelling)?;
    if idea.picture.is_some() {
        flow.put(keys(idea, look, flow.width_mm()), 4.0);
    }
    put_grids(&mut flow, idea, look);
    care::put(&mut flow);
    Ok(flow.pages())
}

/// Room for name, date and tempo.
fn assignment(look: &IdeaLook, width_mm: f64) -> Figure {
    let height = SMALL * 1.6;
    let mut figure = Figure::space(width_mm, height);
    let name = look.reader.as_ref().map(|reader| reader.name.as_str()).unwrap_or_default();
    let fields = [("name", 0.0, 0.46, name), ("date", 0.49, 0.72, ""), ("tempo", 0.75, 1.0, "")];
    for (word, from, to, filled) in fields {
        let (left, right) = (from * width_mm, to * width_mm);
        let label = Text::new(Point::new(left, SMALL), word, Face::Plain, SMALL);
        let line_from = left + label.width_mm() + 2.0;
        let line =
            Line::new(Point::new(line_from, height - 0.5), Point::new(right, height - 0.5), 0.2);
        figure.items.push(Item::Text(label));
        figure.items.push(Item::Line(line));
        let room = right - line_from - 2.0;
        let size = SMALL.min(room / Face::Bold.width_mm(filled, 1.0).max(0.1));
        let filled = Text::new(Point::new(line_from + 1.0, SMALL), filled, Face::Bold, size);
        figure.items.push(Item::Text(filled));
    }
    figure.items.retain(|item| !matches!(item, Item::Text(text) if text.text.is_empty()));
    figure
}

/// The lowest shapes of the ladder, as many as fit side by side.
fn put_ladder(flow: &mut Flow, idea: &Idea, ladder: &LadderAnswer, look: &IdeaLook) {
    let boxed: Vec<Boxed> = ladder
        .rungs
        .iter()
        .map(|rung| {
            Boxed::of_shape(&idea.heading, rung).shown(look.line.fingers, look.line.answers)
        })
        .collect();
    put_row(flow, &idea.neck, &boxed, look.handed);
}

impl Idea {
    /// What a player should know of how the line came onto this instrument.
    #[must_use]
    pub fn remark(&self) -> Option<String> {
        match self.how {
            InKey::Here | InKey::Moved => None,
            InKey::MadeAnew => Some(
                "The line is made anew for this instrument, since the other does not fit there."
                    .to_owned(),
            ),
            InKey::Octaves(octaves) => {
                let far = match octaves.unsigned_abs() {
                    1 => "an octave".to_owned(),
                    count => format!("{count} octaves"),
                };
                let way = if octaves > 0 { "higher" } else { "lower" };
                Some(format!("The line sounds {far} {way}, where this instrument has it."))
            }
        }
    }

    /// What the line is made of: `♩ = 80, 4/4; 1232 321 in the rhythm 8`.
    #[must_use]
    pub fn line_words(&self) -> Option<String> {
        self.line.lines.first().map(|key| music(&key.answer))
    }

    /// Its chord with its pair in the twelve keys, in the cycle of fourths.
    #[must_use]
    pub fn in_every_key(&self) -> Vec<(String, String)> {
        let Some(first) = self.line.lines.first() else { return Vec::new() };
        let chords = &first.answer.question.chords;
        let moved = |semitones| {
            let moved = chords.up(semitones);
            let chord = moved.chords().first()?;
            let symbol = chord.over.chord().map(ToString::to_string).unwrap_or_default();
            Some((symbol, chord.pair.to_string()))
        };
        KeyCycle::Fourths.semitones_up().into_iter().filter_map(moved).collect()
    }
}

/// The same chord and pair in the twelve keys, in cycle order; or room to write the pairs.
fn keys(idea: &Idea, look: &IdeaLook, width_mm: f64) -> Figure {
    const COLUMNS: usize = 4;
    let column = width_mm / COLUMNS as f64;
    let mut figure = Figure::line("in the cycle of fourths", Face::Plain, SMALL);
    let top = figure.height_mm + 1.0;
    let row = KEY_SIZE * 1.7;
    for ((symbol, pair), index) in idea.in_every_key().into_iter().zip(0_usize..) {
        let at = Point::new(
            column * (index % COLUMNS) as f64,
            top + row * (index / COLUMNS) as f64 + KEY_SIZE,
        );
        let size = fitting(&format!("{symbol}  {pair}"), column - 3.0);
        let symbol = Text::new(at, &symbol, Face::Bold, size);
        let after = at.moved(Point::new(symbol.width_mm() + 1.5, 0.0));
        figure.items.push(Item::Text(symbol));
        figure.items.push(match look.line.answers {
            Answers::Shown => Item::Text(Text::new(after, &pair, Face::Plain, size)),
            Answers::Blank => {
                Item::Line(Line::new(after, Point::new(at.x + column - 3.0, after.y), 0.2))
            }
        });
    }
    figure.width_mm = width_mm;
    figure.height_mm = top + row * 3.0;
    figure
}

fn fitting(text: &str, room: f64) -> f64 {
    KEY_SIZE.min(room / Face::Bold.width_mm(text, 1.0).max(0.1))
}

/// Empty necks for a pencil, as many as the page has room for, at most two.
fn put_grids(flow: &mut Flow, idea: &Idea, look: &IdeaLook) {
    const CARE_MM: f64 = 10.0;
    let size = NeckSize { width_mm: flow.width_mm(), string_gap_mm: 4.6 };
    for _ in 0..2 {
        let empty = NeckPicture::new(&idea.neck, Vec::new()).for_hand(look.handed);
        let figure = empty.figure(size);
        if figure.height_mm + 4.0 + CARE_MM <= flow.left_mm() {
            flow.put(figure, 4.0);
        }
    }
}
