//! Notes of a few frets as an upright box, as a chord is written: the nut on top, the highest string
//! number at the left.

use fretloom_fretboard::{Neck, Place, StringNumber};
use fretloom_theory::WhichTriad;

use super::lie::Handed;
use super::mark::{Mark, MarkRole};
use super::neck_figure::mark_items;
use super::page::{Face, Figure, Item, Line, Outline, Point, Text, points};

/// How an upright box is drawn.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct BoxLook {
    /// Which triad of a pair the shape belongs to.
    pub which: WhichTriad,
    /// For which hand.
    pub handed: Handed,
    /// How far strings are apart, in millimetres.
    pub string_gap_mm: f64,
    /// Are its notes shown, or is it to be filled in?
    pub is_blank: bool,
}

/// A note of a box: what stands in it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BoxNote {
    /// Where it is played.
    pub place: Place,
    /// A few signs: its finger or its name.
    pub label: String,
    /// Is it the root?
    pub is_root: bool,
}

/// A box shows so many frets at least.
const LEAST_FRETS: u8 = 4;
const NUMBER_SIZE: f64 = points(8.0);
/// The row over the strings that says which are open and which are not played.
const ABOVE_MM: f64 = 4.0;
/// Room for the number of the first fret.
const BESIDE_MM: f64 = 6.0;

/// The box with these notes in it; strings without one are marked as not played.
#[must_use]
pub fn chord_box(neck: &Neck, notes: &[BoxNote], look: BoxLook) -> Figure {
    let strings = neck.tuning().string_count();
    let window = Window::of(neck, notes);
    let sheet = Sheet { strings, window, look };
    let mut items = sheet.grid();
    let all = (1..=strings).filter_map(|number| u8::try_from(number).ok());
    let strings_shown = all.filter_map(StringNumber::new).filter(|_| !look.is_blank);
    for string in strings_shown {
        let mut on_string = notes.iter().filter(|note| note.place.string == string).peekable();
        if on_string.peek().is_none() {
            items.extend(sheet.unplayed(string));
        }
        on_string.for_each(|note| items.push(sheet.note(neck, note)));
    }
    let (width_mm, height_mm) = (sheet.width(), sheet.height());
    Figure { items, width_mm, height_mm }
}

/// The frets that a box shows.
#[derive(Clone, Copy)]
struct Window {
    first: u8,
    count: u8,
}

impl Window {
    fn of(neck: &Neck, notes: &[BoxNote]) -> Window {
        let stopped = |note: &&BoxNote| is_stopped(neck, note.place);
        let frets = || notes.iter().filter(stopped).map(|note| note.place.fret.number());
        let capo = neck.tuning().capo().fret().number();
        let (lowest, highest) = (frets().min().unwrap_or(1), frets().max().unwrap_or(1));
        // With the nut in sight where the shape lies beside it.
        let first = if highest <= capo + LEAST_FRETS { capo + 1 } else { lowest };
        let first = first.min(lowest);
        Window { first, count: (highest + 1 - first).max(LEAST_FRETS) }
    }
}

/// Does a finger hold the string there?
fn is_stopped(neck: &Neck, place: Place) -> bool {
    let open = neck.tuning().strings().find(|(number, _)| *number == place.string);
    open.is_none_or(|(_, open)| place.fret > open.sounds_from())
}

struct Sheet {
    strings: usize,
    window: Window,
    look: BoxLook,
}

impl Sheet {
    fn fret_gap(&self) -> f64 {
        self.look.string_gap_mm * 1.25
    }

    fn width(&self) -> f64 {
        self.look.string_gap_mm * self.strings as f64 + BESIDE_MM
    }

    fn height(&self) -> f64 {
        ABOVE_MM + self.fret_gap() * f64::from(self.window.count) + 1.0
    }

    /// The highest number is at the left, for a left hand at the right.
    fn x(&self, string: StringNumber) -> f64 {
        let number = usize::from(string.number());
        let column = match self.look.handed {
            Handed::Right => self.strings.saturating_sub(number),
            Handed::Left => number.saturating_sub(1),
        };
        BESIDE_MM + self.look.string_gap_mm * (column as f64 + 0.5)
    }

    fn y(&self, wire: u8) -> f64 {
        ABOVE_MM + self.fret_gap() * f64::from(wire)
    }

    fn grid(&self) -> Vec<Item> {
        let gap = self.look.string_gap_mm;
        let (left, right) = (BESIDE_MM + gap / 2.0, BESIDE_MM + gap * (self.strings as f64 - 0.5));
        let line = |from: Point, to: Point, width| Item::Line(Line::new(from, to, width));
        let mut items = Vec::new();
        for wire in 0..=self.window.count {
            let is_nut = wire == 0 && self.window.first == 1;
            let (y, width) = (self.y(wire), if is_nut { 0.9 } else { 0.25 });
            items.push(line(Point::new(left, y), Point::new(right, y), width));
        }
        for string in 0..self.strings {
            let x = left + gap * string as f64;
            let (top, bottom) = (self.y(0), self.y(self.window.count));
            items.push(line(Point::new(x, top), Point::new(x, bottom), 0.2));
        }
        if self.window.first > 1 {
            let y = (self.y(0) + self.y(1)) / 2.0 + Face::Plain.cap_height() * NUMBER_SIZE / 2.0;
            let number = self.window.first.to_string();
            let at = Point::new(BESIDE_MM + gap / 2.0 - gap * 0.55, y);
            items.push(Item::Text(Text::ending(at, &number, Face::Plain, NUMBER_SIZE)));
        }
        items
    }

    /// A cross over a string that is not played.
    fn unplayed(&self, string: StringNumber) -> [Item; 2] {
        let (x, half) = (self.x(string), 0.7);
        let at = |x_by: f64, y_by: f64| Point::new(x + x_by, ABOVE_MM - 2.0 + y_by);
        let strokes = [(at(-half, -half), at(half, half)), (at(-half, half), at(half, -half))];
        strokes.map(|(from, to)| Item::Line(Line::new(from, to, 0.2)))
    }

    fn note(&self, neck: &Neck, note: &BoxNote) -> Item {
        let (string, fret) = (note.place.string, note.place.fret);
        let says = format!("{}: string {string}, fret {fret}", note.label);
        let x = self.x(string);
        let Some(row) = row(neck, note, self.window) else {
            let open = Outline::circle(Point::new(x, ABOVE_MM - 2.0), 1.0).drawn(0.25);
            return Item::Group { says, items: vec![Item::Outline(open)] };
        };
        let centre = Point::new(x, (self.y(row) + self.y(row + 1)) / 2.0);
        let role = MarkRole::Triad(self.look.which);
        let mark =
            Mark { is_root: note.is_root, ..Mark::new(note.place, role, note.label.clone()) };
        let size = self.look.string_gap_mm - 1.2;
        Item::Group { says, items: mark_items(&mark, centre, size) }
    }
}

/// The cell of a note below the top of its box; `None` for an open string.
fn row(neck: &Neck, note: &BoxNote, window: Window) -> Option<u8> {
    if !is_stopped(neck, note.place) {
        return None;
    }
    note.place.fret.number().checked_sub(window.first)
}
