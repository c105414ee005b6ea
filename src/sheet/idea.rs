//! One page, one idea: a pair over a chord, or a line over several, for a music stand.

use fretloom_fretboard::{FretRange, HandPosition, Neck};

use super::assignment::assignment;
use super::boxes::{Boxed, put_boxes, put_row};
use super::care;
use super::heading::Heading;
use super::idea_look::IdeaLook;
use super::line::{music, put_music};
use crate::answer::{
    self, HeldShape, InKey, KeyCycle, LadderAnswer, LineChords, LinesAnswer, PairPlace,
};
use crate::engraving::Answers;
use crate::picture::page::{Face, Figure, Flow, Item, Line, Pages, Point, Text, points};
use crate::picture::{Labels, NeckPicture, NeckSize};
use crate::score_file::ScoreWriteError;

/// What a sheet is made of.
#[derive(Clone, Debug)]
pub struct Idea {
    /// What it is about.
    pub heading: Heading,
    /// What somebody has noted of it, each by itself.
    pub notes: Vec<String>,
    /// The neck that it is for.
    pub neck: Neck,
    /// Both triads on the neck; none for a line over several chords.
    pub picture: Option<NeckPicture>,
    /// Both triads under the hand where it stays.
    pub position: Option<UnderHand>,
    /// Shapes of them.
    pub shapes: IdeaShapes,
    /// A line of them.
    pub line: Option<LinesAnswer>,
    /// The chord with its pair, where it is to be played in the twelve keys.
    pub keys: Option<LineChords>,
    /// How line or shape came onto this neck.
    pub how: InKey,
}

/// What lies under a hand.
#[derive(Clone, Debug)]
pub struct UnderHand {
    /// Where the hand is.
    pub position: HandPosition,
    /// The notes of both triads there, with their fingers.
    pub places: Vec<PairPlace>,
    /// What stands in the marks where fingers are not shown.
    pub labels: Labels,
}

/// Shapes on a sheet.
#[derive(Clone, Debug)]
pub enum IdeaShapes {
    /// None.
    Nothing,
    /// The lowest of a ladder, as many as fit side by side.
    Lowest(LadderAnswer),
    /// All of a ladder.
    Whole(LadderAnswer),
    /// One, as the hand holds it.
    Held(HeldShape),
}

const SMALL: f64 = points(9.0);
const KEY_SIZE: f64 = points(10.0);
const STRING_GAP_MM: f64 = 5.6;
/// How wide the neck under one hand is drawn.
const POSITION_MM: f64 = 72.0;

/// The page, or several where one does not do.
///
/// # Errors
///
/// Where no values say the notes of the line.
pub fn idea(idea: &Idea, look: &IdeaLook) -> Result<Pages, ScoreWriteError> {
    let mut flow = idea.heading.flow(look.paper);
    flow.put(assignment(look, flow.width_mm()), 0.0);
    flow.put(idea.heading.figure(flow.width_mm(), look.line.answers), 3.0);
    put_notes(&mut flow, &idea.notes);
    if let Some(picture) = &idea.picture {
        let picture = shown(picture.clone(), look);
        let size = NeckSize { width_mm: flow.width_mm(), string_gap_mm: STRING_GAP_MM };
        flow.put(picture.figure(size), 3.0);
    }
    put_shapes(&mut flow, idea, look);
    put_words(&mut flow, idea);
    if let Some(line) = &idea.line {
        put_music(&mut flow, line, look.line, look.spelling)?;
    }
    if let Some(chords) = &idea.keys {
        flow.put(keys(chords, look, flow.width_mm()), 4.0);
    }
    put_grids(&mut flow, idea, look);
    care::put(&mut flow);
    Ok(flow.pages())
}

/// What somebody has noted.
pub(super) fn put_notes(flow: &mut Flow, notes: &[String]) {
    for note in notes.iter().flat_map(|note| note.lines()).filter(|line| !line.trim().is_empty()) {
        flow.put(Figure::paragraph(note, Face::Plain, SMALL, flow.width_mm()), 1.0);
    }
}

/// A neck for this hand, empty where it is to be filled in.
fn shown(picture: NeckPicture, look: &IdeaLook) -> NeckPicture {
    let mut picture = picture.for_hand(look.handed);
    if look.line.answers == Answers::Blank {
        picture.marks.clear();
    }
    picture
}

/// The neck under one hand, and beside it or below it shapes.
fn put_shapes(flow: &mut Flow, idea: &Idea, look: &IdeaLook) {
    let position = idea.position.as_ref();
    let position = position.map(|hand| hand.figure(&idea.neck, look)).unwrap_or_default();
    let shown = |boxed: Boxed| boxed.shown(look.line.fingers, look.line.answers);
    let rungs = |ladder: &LadderAnswer| -> Vec<Boxed> {
        let rungs = ladder.rungs.iter();
        rungs.map(|rung| shown(Boxed::of_shape(&idea.heading, rung))).collect()
    };
    let boxed = match &idea.shapes {
        IdeaShapes::Nothing => Vec::new(),
        IdeaShapes::Lowest(ladder) => rungs(ladder),
        IdeaShapes::Held(held) => vec![shown(Boxed::of_held(&idea.heading, held))],
        IdeaShapes::Whole(ladder) => {
            put_boxes(flow, &idea.neck, &rungs(ladder), look.handed);
            Vec::new()
        }
    };
    put_row(flow, position, &idea.neck, &boxed, look.handed);
}

/// What the line is made of, and how it came here.
fn put_words(flow: &mut Flow, idea: &Idea) {
    let words = idea.line_words().filter(|_| idea.picture.is_some());
    for words in words.into_iter().chain(idea.remark()) {
        flow.put(Figure::paragraph(&words, Face::Plain, SMALL, flow.width_mm()), 3.0);
    }
}

impl UnderHand {
    fn figure(&self, neck: &Neck, look: &IdeaLook) -> Figure {
        let size = NeckSize { width_mm: POSITION_MM, string_gap_mm: STRING_GAP_MM };
        let title = Figure::line(&format!("position {}", self.position), Face::Bold, SMALL);
        title.over(shown(self.picture(neck, look.line.fingers), look).figure(size), 0.5)
    }

    /// The frets that the hand reaches, with its fingers or with other labels in the marks.
    #[must_use]
    pub fn picture(&self, neck: &Neck, fingers: bool) -> NeckPicture {
        let labels = if fingers { Labels::Finger } else { self.labels };
        let first = self.position.number();
        let fretted = self.places.iter().map(|at| at.fret.number()).filter(|fret| *fret > 0);
        let (low, high) =
            fretted.fold((first, first + 3), |(low, high), fret| (low.min(fret), high.max(fret)));
        let frets = [low, high].map(fretloom_fretboard::Fret::new);
        let range = match frets {
            [Some(low), Some(high)] => FretRange::new(low, high),
            _ => None,
        };
        let picture = NeckPicture::new(neck, answer::marks(&self.places, labels));
        range.map_or(picture.clone(), |range| picture.within(range))
    }
}

impl Idea {
    /// What a player should know of how it came onto this instrument.
    #[must_use]
    pub fn remark(&self) -> Option<String> {
        let (what, anew) = match self.shapes {
            IdeaShapes::Held(_) => ("shape", "The shape is another one in the same inversion"),
            _ => ("line", "The line is made anew for this instrument"),
        };
        match self.how {
            InKey::Here | InKey::Moved => None,
            InKey::MadeAnew => Some(format!("{anew}, since the other does not fit there.")),
            InKey::Octaves(octaves) => {
                let far = match octaves.unsigned_abs() {
                    1 => "an octave".to_owned(),
                    count => format!("{count} octaves"),
                };
                let way = if octaves > 0 { "higher" } else { "lower" };
                Some(format!("The {what} sounds {far} {way}, where this instrument has it."))
            }
        }
    }

    /// What the line is made of: `♩ = 80, 4/4; 1232 321 in the rhythm 8`.
    #[must_use]
    pub fn line_words(&self) -> Option<String> {
        self.line.as_ref()?.lines.first().map(|key| music(&key.answer))
    }

    /// Its chord with its pair in the twelve keys, in the cycle of fourths.
    #[must_use]
    pub fn in_every_key(&self) -> Vec<(String, String)> {
        self.keys.as_ref().map(in_every_key).unwrap_or_default()
    }
}

fn in_every_key(chords: &LineChords) -> Vec<(String, String)> {
    let moved = |semitones| {
        let moved = chords.up(semitones);
        let chord = moved.chords().first()?;
        let symbol = chord.over.chord().map(ToString::to_string).unwrap_or_default();
        Some((symbol, chord.pair.to_string()))
    };
    KeyCycle::Fourths.semitones_up().into_iter().filter_map(moved).collect()
}

/// The same chord and pair in the twelve keys, in cycle order; or room to write the pairs.
fn keys(chords: &LineChords, look: &IdeaLook, width_mm: f64) -> Figure {
    const COLUMNS: usize = 4;
    let column = width_mm / COLUMNS as f64;
    let mut figure = Figure::line("in the cycle of fourths", Face::Plain, SMALL);
    let top = figure.height_mm + 1.0;
    let row = KEY_SIZE * 1.7;
    for ((symbol, pair), index) in in_every_key(chords).into_iter().zip(0_usize..) {
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
    let size = NeckSize { width_mm: flow.width_mm(), string_gap_mm: 4.6 };
    for _ in 0..2 {
        let empty = NeckPicture::new(&idea.neck, Vec::new()).for_hand(look.handed);
        let figure = empty.figure(size);
        if figure.height_mm + 4.0 <= flow.left_mm() {
            flow.put(figure, 4.0);
        }
    }
}
