//! A chart with its plan on pages: four bars a line, chord, pair and scale in each.

use super::care;
use super::heading::{Heading, tuning_lines};
use crate::answer::{BarChord, ChangesAnswer, ChangesBar, Sounding, TuningAnswer};
use crate::picture::page::{
    Extent, Face, Figure, Item, Line, MusicSign, Outline, Pages, Paper, Point, SignKind, Text,
    points,
};
use crate::words::counted;

const BARS_A_LINE: usize = 4;
const ROW_MM: f64 = 19.0;
const CHORD_SIZE: f64 = points(14.0);
const PAIR_SIZE: f64 = points(10.5);
const SCALE_SIZE: f64 = points(8.0);
const NUMBER_SIZE: f64 = points(7.5);
const SECTION_SIZE: f64 = points(11.0);

/// The plan of a chart.
#[must_use]
pub fn changes(answer: &ChangesAnswer, tuning: &TuningAnswer, paper: Paper) -> Pages {
    let mut flow = heading(answer, tuning).begin(paper);
    let cell = flow.width_mm() / BARS_A_LINE as f64;
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
            flow.put(line(answer, row, cell), 2.5);
        }
    }
    care::put(&mut flow);
    flow.pages()
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

fn line(answer: &ChangesAnswer, bars: &[ChangesBar], cell: f64) -> Figure {
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
        figure.items.extend(in_bar(answer, bar, left, cell));
    }
    figure.items.push(bar_line(cell * bars.len() as f64));
    figure
}

fn bar_line(x: f64) -> Item {
    Item::Line(Line::new(Point::new(x, 1.0), Point::new(x, ROW_MM - 1.0), 0.3))
}

/// The chords of a bar over their beats.
fn in_bar(answer: &ChangesAnswer, bar: &ChangesBar, left: f64, cell: f64) -> Vec<Item> {
    if let Some(unread) = &bar.unread {
        let size = fitting(unread.text(), Face::Plain, PAIR_SIZE, cell - 4.0);
        let at = Point::new(left + 2.0, 9.0);
        return vec![
            Item::Text(Text::new(at, unread.text(), Face::Plain, size)),
            Item::Text(Text::new(
                at.moved(Point::new(0.0, 6.0)),
                "cannot be read",
                Face::Plain,
                SCALE_SIZE,
            )),
        ];
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
        items.extend(in_chord(answer, chord, x, room));
    }
    items
}

/// Symbol over pair over scale, as large as fits.
fn in_chord(answer: &ChangesAnswer, chord: &BarChord, x: f64, room: f64) -> Vec<Item> {
    let index = chord.sounding.chord();
    let planned = index.and_then(|index| answer.best().chords.get(index));
    let lines = match planned {
        Some(planned) => [
            (planned.chord().to_string(), Face::Bold, CHORD_SIZE, 8.2),
            (planned.pair.to_string(), Face::Plain, PAIR_SIZE, 13.0),
            (planned.over().scale().to_string(), Face::Plain, SCALE_SIZE, 16.8),
        ]
        .to_vec(),
        None => vec![("N.C.".to_owned(), Face::Bold, PAIR_SIZE, 8.2)],
    };
    let text = |(text, face, size, y): (String, Face, f64, f64)| {
        let size = fitting(&text, face, size, room);
        Item::Text(Text::new(Point::new(x, y), &text, face, size))
    };
    lines.into_iter().map(text).collect()
}

/// A size no larger than wanted in which a text fits a room.
fn fitting(text: &str, face: Face, wanted: f64, room: f64) -> f64 {
    wanted.min(room.max(1.0) / face.width_mm(text, 1.0).max(0.1))
}
