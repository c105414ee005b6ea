//! Tablature below the staff.

use std::collections::BTreeMap;

use fretloom_fretboard::StringNumber;
use fretloom_theory::{Slur, Stroke, WhichTriad};

use super::look::{EngravingLook, NoteGroup};
use super::music::Music;
use super::set_piece::SetPiece;
use super::staff::{SPACE, STAFF_LINE};
use super::tie::curve;
use crate::picture::page::{
    Extent, Face, Item, Line, MusicSign, Outline, Point, Shade, SignKind, Text, points,
};
use crate::picture::triad_figure;

/// Frets are read while both hands play.
const FRET_SIZE: f64 = points(10.5);
const FINGER_SIZE: f64 = points(8.0);
const GROUP_SIZE: f64 = points(8.5);
const NAME_SIZE: f64 = points(8.0);
/// How far strings are apart.
const STRING_GAP: f64 = 3.9;
/// How far the row of strokes stands above the first string, and how high it is.
const ABOVE_FIRST: f64 = 2.0;
const STROKES: f64 = 3.6;
const STROKE_SPACE: f64 = 1.4;

/// How wide the widest fret of a piece is; nothing where there is no tablature.
pub(super) fn widest_fret(music: &Music<'_>, piece: &SetPiece) -> f64 {
    if !music.has_tab {
        return 0.0;
    }
    let frets = piece.heads.iter().filter_map(|head| fret(music, head.note));
    frets.map(|fret| Face::Bold.width_mm(&fret, FRET_SIZE)).fold(0.0, f64::max)
}

fn fret(music: &Music<'_>, note: usize) -> Option<String> {
    let place = music.notes.get(note)?.1.place?;
    Some(music.neck.tab_number(place).to_string())
}

/// The tablature of a line as it is drawn.
pub(super) struct Tab<'a> {
    music: &'a Music<'a>,
    /// Where the first string lies.
    top: f64,
    pub(super) items: Vec<Item>,
    /// The middle of each fret that stands there, by its note.
    frets: BTreeMap<usize, Point>,
    last_on: BTreeMap<StringNumber, Point>,
}

impl<'a> Tab<'a> {
    /// Below what ends there.
    pub(super) fn below(music: &'a Music<'a>, bottom: f64) -> Tab<'a> {
        Tab {
            music,
            top: bottom + STROKES + ABOVE_FIRST,
            items: Vec::new(),
            frets: BTreeMap::new(),
            last_on: BTreeMap::new(),
        }
    }

    fn strings(&self) -> Vec<StringNumber> {
        let mut strings: Vec<StringNumber> =
            self.music.written.tuning.strings().map(|(number, _)| number).collect();
        strings.sort_unstable();
        strings
    }

    fn y(&self, string: StringNumber) -> f64 {
        self.top + f64::from(string.number() - 1) * STRING_GAP
    }

    fn bottom(&self) -> f64 {
        self.top + self.strings().len().saturating_sub(1) as f64 * STRING_GAP
    }

    /// The strings from their names to the end of the line.
    pub(super) fn lines(&mut self, width: f64, names: f64) {
        let tuning = &self.music.written.tuning;
        for (number, open) in tuning.strings() {
            let y = self.y(number);
            let line = Line::new(Point::new(names, y), Point::new(width, y), STAFF_LINE);
            self.items.push(Item::Line(line));
            let at = Point::new(names - 1.0, y + Face::Plain.cap_height() * NAME_SIZE / 2.0);
            let name = open.note().name().to_string();
            self.items.push(Item::Text(Text::ending(at, &name, Face::Plain, NAME_SIZE)));
        }
    }

    /// A bar line through all strings.
    pub(super) fn bar_line(&mut self, x: f64, width_mm: f64) {
        let half = STAFF_LINE / 2.0;
        let (top, bottom) = (self.top - half, self.bottom() + half);
        let line = Line::new(Point::new(x, top), Point::new(x, bottom), width_mm);
        self.items.push(Item::Line(line));
    }

    /// The frets of a piece whose heads begin at `x`, with their strokes and fingers.
    pub(super) fn piece(&mut self, piece: &SetPiece, x: f64, look: &EngravingLook) {
        if piece.is_tied_to {
            return;
        }
        let middle = x + piece.head_width() / 2.0;
        for head in &piece.heads {
            self.fret(head.note, middle);
        }
        let first = piece.heads.first().and_then(|head| self.music.notes.get(head.note));
        self.items.extend(first.and_then(|(_, beside)| self.stroke(beside.stroke, middle)));
        if look.fingers {
            self.fingers(piece, middle);
        }
    }

    fn fret(&mut self, note: usize, middle: f64) {
        let Some((_, beside)) = self.music.notes.get(note) else { return };
        let (Some(place), Some(fret)) = (beside.place, fret(self.music, note)) else { return };
        let centre = Point::new(middle, self.y(place.string));
        let at = centre.moved(Point::new(0.0, Face::Bold.cap_height() * FRET_SIZE / 2.0));
        let text = Text::centred(at, &fret, Face::Bold, FRET_SIZE);
        let half = (text.width_mm() / 2.0 + 0.25, FRET_SIZE * 0.40);
        let around = Extent {
            left: middle - half.0,
            top: centre.y - half.1,
            right: middle + half.0,
            bottom: centre.y + half.1,
        };
        self.slur(note, place.string, centre);
        self.items.push(Item::Outline(Outline::rectangle(around).filled(Shade::White)));
        self.items.push(Item::Text(text));
        self.frets.insert(note, centre);
        self.last_on.insert(place.string, centre);
    }

    /// A slur leads from the fret before on the same string; its letter stands where a stroke would.
    fn slur(&mut self, note: usize, string: StringNumber, to: Point) {
        let Some(slur) = self.music.slurs.get(note).and_then(|slurs| slurs.to) else { return };
        let above = |point: Point, by: f64| point.moved(Point::new(by, -1.7));
        let from = self.last_on.get(&string).copied();
        let from = from.unwrap_or(Point::new(to.x - 6.0, to.y));
        self.items.push(curve(above(from, 0.6), above(to, -0.6), true));
        let at = Point::new(to.x, self.top - ABOVE_FIRST - 0.4);
        let letter = match slur {
            Slur::HammerOn => "h",
            Slur::PullOff => "p",
        };
        self.items.push(Item::Text(Text::centred(at, letter, Face::Plain, FINGER_SIZE)));
    }

    fn stroke(&self, stroke: Option<Stroke>, middle: f64) -> Option<Item> {
        let kind = match stroke? {
            Stroke::Down => SignKind::DownStroke,
            Stroke::Up => SignKind::UpStroke,
        };
        let width = kind.advance() * STROKE_SPACE;
        let at = Point::new(middle - width / 2.0, self.top - ABOVE_FIRST - 0.4);
        Some(Item::Sign(MusicSign::new(at, kind, STROKE_SPACE)))
    }

    /// Of several notes the fingers stand one below the other, that of the highest string number last.
    fn fingers(&mut self, piece: &SetPiece, middle: f64) {
        let mut fingers: Vec<(StringNumber, u8)> = Vec::new();
        for head in &piece.heads {
            let Some((_, beside)) = self.music.notes.get(head.note) else { continue };
            let finger = beside.place.zip(beside.finger);
            fingers.extend(finger.map(|(place, finger)| (place.string, finger.number())));
        }
        fingers.sort_unstable();
        let mut y = self.fingers_at();
        for (_, finger) in fingers {
            let text =
                Text::centred(Point::new(middle, y), &finger.to_string(), Face::Plain, FINGER_SIZE);
            self.items.push(Item::Text(text));
            y += FINGER_SIZE;
        }
    }

    /// The baseline of the first row of fingers.
    fn fingers_at(&self) -> f64 {
        self.bottom() + 2.3 + FINGER_SIZE
    }

    /// What ends lowest so far.
    pub(super) fn lowest(&self) -> f64 {
        let extents = self.items.iter().filter_map(Item::extent);
        extents.map(|extent| extent.bottom).fold(self.bottom() + 1.6, f64::max)
    }

    /// Which triad notes belong to: its shape, its name and a line to its last note.
    pub(super) fn groups(&mut self, groups: &[NoteGroup], width: f64) {
        let y = self.lowest() + 1.2;
        let mut groups: Vec<&NoteGroup> = groups.iter().collect();
        groups.sort_by_key(|group| group.first);
        let starts: Vec<f64> = groups.iter().filter_map(|group| self.start(group)).collect();
        for group in groups {
            let noted = || (group.first..=group.last).filter_map(|note| self.frets.get(&note));
            let from = noted().map(|at| at.x).fold(f64::INFINITY, f64::min);
            let to = noted().map(|at| at.x).fold(f64::NEG_INFINITY, f64::max);
            if from <= to {
                let next = starts.iter().copied().filter(|start| *start > from + 0.01);
                // No name goes beyond the end of the line.
                self.group(group, (from, to), next.fold(width + 1.1, f64::min), y);
            }
        }
    }

    /// Where the first note of a group stands on this line.
    fn start(&self, group: &NoteGroup) -> Option<f64> {
        let noted = (group.first..=group.last).filter_map(|note| self.frets.get(&note));
        noted.map(|at| at.x).reduce(f64::min)
    }

    /// Its name is left out where it does not fit before the next group.
    fn group(&mut self, group: &NoteGroup, (from, to): (f64, f64), next: f64, y: f64) {
        let size = 2.2;
        let left = from - size / 2.0;
        let figure = triad_figure(group.which, size);
        let mark = figure.items.into_iter().map(|item| item.moved(Point::new(left, y)));
        let baseline = y + size / 2.0 + Face::Plain.cap_height() * GROUP_SIZE / 2.0;
        let name = Text::new(
            Point::new(left + size + 0.7, baseline),
            &group.name,
            Face::Plain,
            GROUP_SIZE,
        );
        let fits = name.at.x + name.width_mm() + 0.6 < next - size / 2.0;
        let after = if fits { name.at.x + name.width_mm() } else { left + size };
        self.items.extend(mark);
        if fits {
            self.items.push(Item::Text(name));
        }
        let line_from = after + 0.8;
        let middle = y + size / 2.0;
        if to > line_from + 1.0 {
            let hook = match group.which {
                WhichTriad::First => 0.9,
                WhichTriad::Second => 0.0,
            };
            let line = |x1: f64, y1: f64, x2: f64, y2: f64| {
                Item::Line(Line::new(Point::new(x1, y1), Point::new(x2, y2), 0.12 * SPACE))
            };
            self.items.push(line(line_from, middle, to, middle));
            self.items.push(line(to, middle, to, middle - hook));
        }
    }
}
