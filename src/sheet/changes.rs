//! A chart with its plan on pages: four bars a line, chord, pair and scale in each.

use super::assignment::assignment;
use super::care;
use super::heading::{Heading, tuning_lines};
use super::idea::put_notes;
use super::idea_look::IdeaLook;
use crate::answer::{BarChord, ChangesAnswer, ChangesBar, ChangesChord, Sounding, TuningAnswer};
use crate::engraving::Answers;
use crate::picture::page::{
    Extent, Face, Figure, Flow, Item, Line, MusicSign, Outline, Pages, Paper, Point, SignKind,
    Text, points,
};
use crate::words::counted;

const BARS_A_LINE: usize = 4;
const ROW_MM: f64 = 20.0;
const CHORD_SIZE: f64 = points(14.0);
const PAIR_SIZE: f64 = points(10.5);
const SCALE_SIZE: f64 = points(8.0);
/// What would be smaller stands on two lines.
const LEAST_SCALE_SIZE: f64 = points(7.0);
const NUMBER_SIZE: f64 = points(7.5);
const SECTION_SIZE: f64 = points(11.0);

/// A chart with its plan, to be handed out.
#[derive(Clone, Debug)]
pub struct PlanSheet {
    /// What somebody has noted of it, each by itself.
    pub notes: Vec<String>,
    /// The tuning of the neck that it is for.
    pub tuning: TuningAnswer,
    /// The chart and its plan.
    pub answer: ChangesAnswer,
}

/// The plan of a chart.
#[must_use]
pub fn changes(answer: &ChangesAnswer, tuning: &TuningAnswer, paper: Paper) -> Pages {
    let mut flow = heading(answer, tuning).begin(paper);
    put_chart(&mut flow, answer, Answers::Shown);
    care::put(&mut flow);
    flow.pages()
}

/// The plan of a chart for a reader: without answers its chords, with room for what is played over them.
#[must_use]
pub fn plan(sheet: &PlanSheet, look: &IdeaLook) -> Pages {
    let heading = heading(&sheet.answer, &sheet.tuning);
    let mut flow = heading.flow(look.paper);
    flow.put(assignment(look, flow.width_mm()), 0.0);
    flow.put(heading.figure(flow.width_mm(), look.line.answers), 3.0);
    put_notes(&mut flow, &sheet.notes);
    put_chart(&mut flow, &sheet.answer, look.line.answers);
    care::put(&mut flow);
    flow.pages()
}

fn put_chart(flow: &mut Flow, answer: &ChangesAnswer, answers: Answers) {
    let chart = Chart { answer, answers, cell: flow.width_mm() / BARS_A_LINE as f64 };
    let mut section = None;
    let bars = answer.bars.as_slice();
    for part in bars.chunk_by(|one, next| one.section == next.section && one.number != 0) {
        let name = part.first().and_then(|bar| bar.section.as_deref());
        if let Some(name) = name.filter(|name| Some(*name) != section) {
            // A name does not stand alone at the end of a page.
            if flow.left_mm() < ROW_MM + 14.0 {
                flow.turn();
            }
            flow.put(boxed(name, flow.width_mm()), 5.0);
        }
        section = name;
        for row in part.chunks(BARS_A_LINE) {
            flow.put(chart.line(row), 2.0);
        }
    }
}

/// A chart as it is drawn.
struct Chart<'a> {
    answer: &'a ChangesAnswer,
    answers: Answers,
    /// How wide a bar is.
    cell: f64,
}

fn heading(answer: &ChangesAnswer, tuning: &TuningAnswer) -> Heading {
    let chart = &answer.chart;
    let words = [
        answer.key.map(|key| key.to_string()),
        Some(chart.bars.meter().to_string()),
        chart.tempo.map(|tempo| format!("♩ = {tempo}")),
        chart.feel.clone(),
        Some(counted(answer.best().pairs.len(), "different pair")),
    ];
    let words: Vec<String> = words.into_iter().flatten().collect();
    let locked = answer.region.map(|region| {
        let strings = region.strings().map(|strings| format!("strings {strings}, "));
        let frets = region.frets();
        let last = frets.last().min(tuning.tuning.last_fret());
        let (strings, first) = (strings.unwrap_or_default(), frets.first());
        format!("the hand stays on {strings}frets {first} to {last}")
    });
    Heading {
        title: chart.title.clone().unwrap_or_else(|| "Changes".to_owned()),
        scale: None,
        triads: Vec::new(),
        says: [words.join(", ")].into_iter().chain(locked).collect(),
        tuning: tuning_lines::<0>(tuning, []),
    }
}

/// The name of a section in a box.
fn boxed(name: &str, room: f64) -> Figure {
    let size = SECTION_SIZE.min((room - 4.0) / Face::Bold.width_mm(name, 1.0).max(0.1));
    let text = Text::new(Point::new(1.5, size + 0.4), name, Face::Bold, size);
    let around = Extent { left: 0.15, top: 0.15, right: text.width_mm() + 3.0, bottom: size * 1.5 };
    let outline = Outline::rectangle(around).drawn(0.3);
    let (width_mm, height_mm) = (around.right, around.bottom);
    Figure { items: vec![Item::Outline(outline), Item::Text(text)], width_mm, height_mm }
}

impl Chart<'_> {
    fn line(&self, bars: &[ChangesBar]) -> Figure {
        let cell = self.cell;
        let mut figure = Figure::space(cell * bars.len() as f64, ROW_MM);
        for (bar, index) in bars.iter().zip(0..) {
            let left = cell * f64::from(index);
            figure.items.push(bar_line(left));
            let number = Text::new(
                Point::new(left + 1.2, NUMBER_SIZE),
                &bar.number.to_string(),
                Face::Plain,
                NUMBER_SIZE,
            );
            figure.items.push(Item::Text(number));
            figure.items.extend(self.in_bar(bar, left));
        }
        figure.items.push(bar_line(cell * bars.len() as f64));
        figure
    }

    /// The chords of a bar over their beats.
    fn in_bar(&self, bar: &ChangesBar, left: f64) -> Vec<Item> {
        let cell = self.cell;
        if let Some(unread) = &bar.unread {
            return not_read(unread.text(), left, cell);
        }
        if let [BarChord { sounding: Sounding::GoesOn(_), .. }] = bar.chords.as_slice() {
            let (kind, space) = (SignKind::RepeatBar, 1.6);
            let at = Point::new(left + (cell - kind.advance() * space) / 2.0, 11.0);
            return vec![Item::Sign(MusicSign::new(at, kind, space))];
        }
        let length = bar.until.checked_sub(bar.from).unwrap_or_default().to_f64().max(0.001);
        let place = |at: fretloom_theory::Quarters| {
            let into = at.checked_sub(bar.from).unwrap_or_default().to_f64();
            left + 2.0 + (cell - 3.0) * into / length
        };
        let mut items = Vec::new();
        for chord in &bar.chords {
            let (x, room) = (place(chord.from), place(chord.until) - place(chord.from) - 1.5);
            items.extend(self.in_chord(chord, x, room));
        }
        items
    }

    /// Symbol over pair over scale, as large as fits; or room to write the two.
    fn in_chord(&self, chord: &BarChord, x: f64, room: f64) -> Vec<Item> {
        let index = chord.sounding.chord();
        let planned = index.and_then(|index| self.answer.best().chords.get(index));
        let text = |text: &str, face, size, y| {
            let size = fitting(text, face, size, room);
            Item::Text(Text::new(Point::new(x, y), text, face, size))
        };
        let Some(planned) = planned else { return vec![text("N.C.", Face::Bold, PAIR_SIZE, 8.2)] };
        let symbol = text(&planned.chord().to_string(), Face::Bold, CHORD_SIZE, 8.2);
        if self.answers == Answers::Blank {
            let line = |y: f64| {
                let right = x + room.max(1.0);
                Item::Line(Line::new(Point::new(x, y), Point::new(right, y), 0.2))
            };
            return vec![symbol, line(13.0), line(17.6)];
        }
        let pair = text(&planned.pair.to_string(), Face::Plain, PAIR_SIZE, 13.0);
        let scale = scale_in_cell(planned, room);
        let scale = scale.iter().zip([16.4, 19.4]);
        let scale = scale.map(|(words, y)| text(words, Face::Plain, SCALE_SIZE, y));
        [symbol, pair].into_iter().chain(scale).collect()
    }
}

/// The scale; where that has no room, without the root that it shares with its chord, and on two lines.
fn scale_in_cell(planned: &ChangesChord, room: f64) -> Vec<String> {
    let scale = planned.over().scale();
    let whole = scale.to_string();
    let is_narrow = Face::Plain.width_mm(&whole, SCALE_SIZE) > room;
    let root = format!("{} ", scale.root());
    let kind = match whole.strip_prefix(&root) {
        Some(kind) if is_narrow && planned.chord().root() == scale.root() => kind.to_owned(),
        _ => whole,
    };
    let is_small = fitting(&kind, Face::Plain, SCALE_SIZE, room) < LEAST_SCALE_SIZE;
    match kind.split_once(' ').filter(|_| is_small) {
        Some((first, rest)) => vec![first.to_owned(), rest.to_owned()],
        None => vec![kind],
    }
}

fn bar_line(x: f64) -> Item {
    Item::Line(Line::new(Point::new(x, 1.0), Point::new(x, ROW_MM - 1.0), 0.3))
}

fn not_read(text: &str, left: f64, cell: f64) -> Vec<Item> {
    let size = fitting(text, Face::Plain, PAIR_SIZE, cell - 4.0);
    let at = Point::new(left + 2.0, 9.0);
    let below = at.moved(Point::new(0.0, 6.0));
    let texts = [
        Text::new(at, text, Face::Plain, size),
        Text::new(below, "cannot be read", Face::Plain, SCALE_SIZE),
    ];
    texts.map(Item::Text).to_vec()
}

/// A size no larger than wanted in which a text fits a room.
fn fitting(text: &str, face: Face, wanted: f64, room: f64) -> f64 {
    wanted.min(room.max(1.0) / face.width_mm(text, 1.0).max(0.1))
}
