//! One line of music as it is drawn: staff, what stands over it, tablature.

use std::collections::BTreeMap;

use fretloom_theory::Quarters;

use super::bar_columns::{BarColumns, CHORD_SIZE};
use super::beam::{align, beams, groups};
use super::chord::{Stem, StemAt, flags, heads, rest, stem_at, stem_line, stem_of};
use super::look::{Answers, EngravingLook};
use super::music::{Music, SetBar};
use super::set_piece::SetPiece;
use super::spacing::Spacing;
use super::staff::{SPACE, STAFF_MM, THICK_BAR, THIN_BAR, lines, time_signature};
use super::tab::Tab;
use super::tie::{bends_up, curve};
use super::tuplet::tuplet;
use crate::picture::page::{
    Extent, Face, Figure, Item, Line, MusicSign, Point, SignKind, Text, points,
};

const NUMBER_SIZE: f64 = points(7.5);
const WORDS_SIZE: f64 = points(8.5);
/// Room for the names of the strings.
const NAMES: f64 = 5.5;

/// How wide clef, key and meter at the beginning of a line are.
pub(super) fn head_width(music: &Music<'_>, bar: usize) -> f64 {
    let mut head = Vec::new();
    put_head(music, bar, &mut head)
}

/// Puts clef, key and, at the very beginning, meter; gives where they end.
fn put_head(music: &Music<'_>, bar: usize, items: &mut Vec<Item>) -> f64 {
    let mut x = NAMES + 1.0;
    let clef = music.clef.item(x);
    x = clef.extent().map_or(x, |extent| extent.right) + 1.2;
    items.push(clef);
    if let Some(first) = music.bars.get(bar) {
        let (signs, width) = music.clef.signature(first.key, None, x);
        items.extend(signs);
        x += if width > 0.0 { width + 1.2 } else { 0.0 };
        if bar == 0 {
            let (digits, width) = time_signature(first.bar.meter, x);
            items.extend(digits);
            x += width + 0.6;
        }
    }
    x
}

/// A line of music.
pub(super) struct LineDrawing<'a> {
    music: &'a Music<'a>,
    look: &'a EngravingLook,
    /// What keeps clear of one another above and below the staff.
    items: Vec<Item>,
    /// The heads whose notes go on: where they end, and which way their ties bend.
    going_on: BTreeMap<(usize, i32), (Point, bool)>,
    /// Pieces for the tablature, with where their heads begin.
    placed: Vec<(&'a SetPiece, f64)>,
    bar_lines: Vec<(f64, f64)>,
    /// Each bar's index, left edge and width.
    bars: Vec<(usize, f64, f64)>,
    chords: Vec<(f64, String)>,
    /// When something begins to sound in a bar of several voices.
    sounding: Vec<Quarters>,
    width: f64,
}

impl<'a> LineDrawing<'a> {
    pub(super) fn new(
        music: &'a Music<'a>,
        columns: &[BarColumns],
        spacing: &Spacing,
        look: &'a EngravingLook,
    ) -> LineDrawing<'a> {
        let mut line = LineDrawing {
            music,
            look,
            items: Vec::new(),
            going_on: BTreeMap::new(),
            placed: Vec::new(),
            bar_lines: Vec::new(),
            bars: Vec::new(),
            chords: Vec::new(),
            sounding: Vec::new(),
            width: 0.0,
        };
        let mut x = put_head(music, spacing.bars.start, &mut line.items);
        for index in spacing.bars.clone() {
            let (Some(bar), Some(columns)) = (music.bars.get(index), columns.get(index)) else {
                continue;
            };
            let is_first = index == spacing.bars.start;
            let width = columns.width(spacing.ease);
            line.bars.push((index, x, width));
            line.bar(bar, index, x, columns, spacing.ease, is_first);
            x += width;
            line.bar_line(index, x);
        }
        line.end_ties(x);
        line.width = x;
        line
    }

    fn bar(
        &mut self,
        bar: &'a SetBar,
        index: usize,
        left: f64,
        columns: &BarColumns,
        ease: f64,
        is_first: bool,
    ) {
        if !is_first {
            self.changes(bar, index, left);
        }
        let places = columns.places(ease);
        let x_of = |at: Quarters| {
            let column = columns.moments.iter().position(|moment| *moment == at);
            left + column.and_then(|column| places.get(column)).copied().unwrap_or_default()
        };
        for (at, symbol) in &bar.chords {
            self.chords.push((x_of(*at), symbol.to_string()));
        }
        if self.look.answers == Answers::Blank {
            return;
        }
        let several = bar.voices.len() > 1;
        for (voice, number) in bar.voices.iter().zip(0..) {
            let of_voice = match (several, number) {
                (false, _) => None,
                (true, 0) => Some(Stem::Up),
                (true, _) => Some(Stem::Down),
            };
            let xs: Vec<f64> = match voice.as_slice() {
                // The rest of a whole bar stands in its middle.
                [rest] if rest.heads.is_empty() && rest.piece.value.is_none() => {
                    let middle = columns.lead + (columns.width(ease) - columns.lead) / 2.0;
                    vec![left + middle - rest.head_width() / 2.0]
                }
                pieces => pieces.iter().map(|piece| x_of(piece.piece.from)).collect(),
            };
            let beside = beside_first(bar, voice, number);
            let shown: Vec<f64> = xs.iter().zip(&beside).map(|(x, by)| x + by).collect();
            self.sounding = if several { sounding(bar) } else { Vec::new() };
            self.voice(voice, &shown, of_voice);
            self.placed.extend(voice.iter().zip(xs));
        }
    }

    /// A new key and a new meter within a line.
    fn changes(&mut self, bar: &SetBar, index: usize, left: f64) {
        let mut x = left + 1.2;
        if bar.new_key {
            let before = index.checked_sub(1).and_then(|index| self.music.bars.get(index));
            let before = before.map(|before| before.key);
            let (signs, width) = self.music.clef.signature(bar.key, before, x);
            self.items.extend(signs);
            x += width + 1.2;
        }
        if bar.new_meter {
            self.items.extend(time_signature(bar.bar.meter, x).0);
        }
    }

    fn voice(&mut self, pieces: &'a [SetPiece], xs: &[f64], wanted: Option<Stem>) {
        let mut drawn: Vec<Extent> = Vec::with_capacity(pieces.len());
        let mut ways = Vec::with_capacity(pieces.len());
        for group in groups(pieces) {
            let (Some(of_group), Some(xs)) = (pieces.get(group.clone()), xs.get(group)) else {
                continue;
            };
            let stem = wanted.unwrap_or_else(|| stem_of(of_group.iter()));
            drawn.extend(self.group(of_group, xs, stem, wanted));
            ways.extend(of_group.iter().map(|_| stem));
        }
        self.tuplets(pieces, &drawn, &ways);
    }

    /// Pieces under one beam, or one by itself; gives what each covers.
    fn group(
        &mut self,
        pieces: &'a [SetPiece],
        xs: &[f64],
        stem: Stem,
        wanted: Option<Stem>,
    ) -> Vec<Extent> {
        let stems = pieces.iter().zip(xs).map(|(piece, x)| stem_at(piece, *x, stem));
        let mut stems: Vec<Option<StemAt>> = stems.collect();
        if pieces.len() > 1 {
            let mut all: Vec<StemAt> = stems.iter().copied().flatten().collect();
            if all.len() == pieces.len() {
                align(&mut all, pieces, stem);
                self.items.extend(beams(&all, pieces, stem));
                stems = all.into_iter().map(Some).collect();
            }
        }
        let mut covered = Vec::with_capacity(pieces.len());
        for ((piece, x), at) in pieces.iter().zip(xs).zip(stems) {
            let items = self.piece(piece, *x, at, stem, wanted);
            let extent = items.iter().filter_map(Item::extent).reduce(Extent::and);
            covered.push(extent.unwrap_or(Extent {
                left: *x,
                top: 0.0,
                right: *x,
                bottom: STAFF_MM,
            }));
            self.items.extend(items);
        }
        covered
    }

    fn piece(
        &mut self,
        piece: &SetPiece,
        x: f64,
        at: Option<StemAt>,
        stem: Stem,
        wanted: Option<Stem>,
    ) -> Vec<Item> {
        if piece.heads.is_empty() {
            // Where another voice sounds, or rests too, nobody misses a rest.
            let is_missed =
                wanted != Some(Stem::Down) && !self.sounding.contains(&piece.piece.from);
            return if is_missed { rest(piece, x) } else { Vec::new() };
        }
        let mut items = heads(piece, x, stem);
        if let Some(at) = at {
            items.push(stem_line(at));
            if piece.beams.is_empty() {
                items.extend(flags(piece, at, stem));
            }
        }
        self.ties(piece, x, stem);
        items.extend(self.accent(piece, x, &items));
        items
    }

    /// An accent over all that is there.
    fn accent(&self, piece: &SetPiece, x: f64, items: &[Item]) -> Option<Item> {
        let is_accented = |note: usize| self.music.notes.get(note).is_some_and(|(_, at)| at.accent);
        if piece.is_tied_to || !piece.heads.iter().any(|head| is_accented(head.note)) {
            return None;
        }
        let top = items.iter().filter_map(Item::extent).map(|extent| extent.top);
        let top = top.fold(0.0, f64::min) - 0.5 * SPACE;
        let width = SignKind::Accent.advance() * SPACE;
        let at = Point::new(x + (piece.head_width() - width) / 2.0, top);
        Some(Item::Sign(MusicSign::new(at, SignKind::Accent, SPACE)))
    }

    fn ties(&mut self, piece: &SetPiece, x: f64, stem: Stem) {
        let Some(struck) = piece.piece.struck else { return };
        let up = bends_up(stem);
        let beside = if up { -0.45 * SPACE } else { 0.45 * SPACE };
        for head in &piece.heads {
            let y = super::staff::y_of_step(head.step) + beside;
            if piece.is_tied_to {
                let to = Point::new(x + 0.1, y);
                let from = self.going_on.remove(&(struck, head.step));
                let (from, up) = from.unwrap_or((Point::new(x - 4.0, y), up));
                let to = Point::new(to.x, from.y);
                self.items.push(curve(from, to, up));
            }
            if piece.is_tied_on {
                let from = Point::new(x + piece.head_width() + 0.1, y);
                self.going_on.insert((struck, head.step), (from, up));
            }
        }
    }

    /// What goes on on the next line.
    fn end_ties(&mut self, right: f64) {
        for (from, up) in std::mem::take(&mut self.going_on).into_values() {
            let to = Point::new(right.max(from.x + 1.0), from.y);
            self.items.push(curve(from, to, up));
        }
    }

    fn tuplets(&mut self, pieces: &[SetPiece], drawn: &[Extent], ways: &[Stem]) {
        let mut first = None;
        for (index, piece) in pieces.iter().enumerate() {
            let Some(place) = piece.piece.tuplet else { continue };
            if place.is_first {
                first = Some(index);
            }
            let Some(from) = first.filter(|_| place.is_last) else { continue };
            let around = drawn.get(from..=index).unwrap_or(&[]).iter().copied();
            let above = ways.get(from).is_none_or(|stem| *stem == Stem::Up);
            if let Some(around) = around.reduce(Extent::and) {
                let around = self.clear_of_ties(around, above);
                self.items.extend(tuplet(place.tuplet.actual, around, above));
            }
            first = None;
        }
    }

    /// Beams and ties reach further than the notes that they join.
    fn clear_of_ties(&self, around: Extent, above: bool) -> Extent {
        let over = self.items.iter().filter_map(Item::extent);
        let over = over.filter(|other| other.left < around.right && other.right > around.left);
        if above {
            let top = over.map(|other| other.top).fold(around.top.min(0.0), f64::min);
            Extent { top, ..around }
        } else {
            let bottom = over.map(|other| other.bottom).fold(around.bottom.max(STAFF_MM), f64::max);
            Extent { bottom, ..around }
        }
    }

    fn bar_line(&mut self, index: usize, x: f64) {
        let begins = self.music.bars.get(index + 1);
        if begins.is_none() {
            self.bar_lines.push((x - THICK_BAR / 2.0, THICK_BAR));
            self.bar_lines.push((x - THICK_BAR - 0.55 * SPACE, THIN_BAR));
        } else {
            self.bar_lines.push((x - THIN_BAR / 2.0, THIN_BAR));
            if begins.is_some_and(|next| next.section.is_some()) {
                self.bar_lines.push((x - THIN_BAR - 0.45 * SPACE, THIN_BAR));
            }
        }
    }

    /// All of it, with the room that it takes.
    pub(super) fn figure(mut self) -> Figure {
        self.number();
        self.put_chords();
        let mut all = lines(self.width);
        all.iter_mut().for_each(|item| begin_at(item, NAMES));
        for (x, width_mm) in &self.bar_lines {
            let line = Line::new(Point::new(*x, 0.0), Point::new(*x, STAFF_MM), *width_mm);
            all.push(Item::Line(line));
        }
        let below = self.items.iter().filter_map(Item::extent).map(|extent| extent.bottom);
        let bottom = below.fold(STAFF_MM, f64::max) + 0.8;
        let mut tab = Tab::below(self.music, bottom);
        if self.music.has_tab {
            self.put_tab(&mut tab);
        }
        let words_at = tab.lowest() + 1.5;
        all.append(&mut self.items);
        all.append(&mut tab.items);
        all.extend(self.words(words_at));
        let around = all.iter().filter_map(Item::extent).reduce(Extent::and);
        let (top, bottom) = around.map_or((0.0, 0.0), |around| (around.top, around.bottom));
        let items = all.into_iter().map(|item| item.moved(Point::new(0.0, -top))).collect();
        Figure { items, width_mm: self.width, height_mm: bottom - top }
    }

    /// The number of the first bar, over the clef.
    fn number(&mut self) {
        let first = self.bars.first().and_then(|(index, ..)| self.music.bars.get(*index));
        let Some(first) = first.filter(|_| self.music.bars.len() > 1) else { return };
        let number = first.bar.label.to_string();
        let width = NAMES + Face::Plain.width_mm(&number, NUMBER_SIZE);
        let y = self.top_over(NAMES, width) - 0.8;
        let number = Text::new(Point::new(NAMES, y), &number, Face::Plain, NUMBER_SIZE);
        self.items.push(Item::Text(number));
    }

    /// The chord symbols on one line, over all that stands below them.
    fn put_chords(&mut self) {
        let chords = std::mem::take(&mut self.chords);
        let text = |(x, symbol): &(f64, String), y: f64| {
            Text::new(Point::new(*x, y), symbol, Face::Bold, CHORD_SIZE)
        };
        let tops = chords.iter().map(|chord| {
            let right = chord.0 + text(chord, 0.0).width_mm();
            self.top_over(chord.0 - 0.5, right + 0.5)
        });
        let y = tops.fold(-1.2, f64::min) - 1.8;
        let texts: Vec<Item> = chords.iter().map(|chord| Item::Text(text(chord, y))).collect();
        self.items.extend(texts);
    }

    /// How high what stands between two edges reaches, the staff at least.
    fn top_over(&self, left: f64, right: f64) -> f64 {
        let extents = self.items.iter().filter_map(Item::extent);
        let over = extents.filter(|extent| extent.left < right && extent.right > left);
        over.map(|extent| extent.top).fold(0.0, f64::min)
    }

    fn put_tab(&mut self, tab: &mut Tab<'_>) {
        tab.lines(self.width, NAMES);
        tab.bar_line(NAMES + THIN_BAR / 2.0, THIN_BAR);
        self.bar_lines.iter().for_each(|(x, width_mm)| tab.bar_line(*x, *width_mm));
        for (piece, x) in &self.placed {
            tab.piece(piece, *x, self.look);
        }
        if self.look.answers == Answers::Shown {
            tab.groups(&self.look.groups, self.width);
        }
    }

    /// What is said of each bar, below it.
    fn words(&self, y: f64) -> Vec<Item> {
        let mut items = Vec::new();
        for (index, left, width) in &self.bars {
            let words = self.look.words.iter().filter(|words| words.bar == *index);
            for words in words {
                let room = width - 3.0;
                let text = Figure::paragraph(&words.text, Face::Plain, WORDS_SIZE, room);
                let at = Point::new(left + 1.0, y);
                items.extend(text.items.into_iter().map(|item| item.moved(at)));
            }
        }
        items
    }
}

fn sounding(bar: &SetBar) -> Vec<Quarters> {
    let pieces = bar.voices.iter().flatten().filter(|piece| !piece.heads.is_empty());
    pieces.map(|piece| piece.piece.from).collect()
}

/// How far each piece of a later voice stands to the right, so that its heads do not lie on those of the
/// first.
fn beside_first(bar: &SetBar, voice: &[SetPiece], number: usize) -> Vec<f64> {
    let first = bar.voices.first().filter(|_| number > 0);
    let by = |piece: &SetPiece| {
        let with =
            first.and_then(|first| first.iter().find(|at| at.piece.from == piece.piece.from));
        let spans = with.and_then(SetPiece::span).zip(piece.span());
        let meets = spans.is_some_and(|((low, _), (_, high))| high + 1 >= low);
        let widest = with.map_or(0.0, SetPiece::head_width).max(piece.head_width());
        let has_flag = with.is_some_and(|with| with.flags() > 0 && with.beams.is_empty());
        let flag = if has_flag { 1.1 * SPACE } else { 0.0 };
        let dot = if with.is_some_and(SetPiece::is_dotted) { SPACE } else { 0.0 };
        let sign = piece.heads.iter().any(|head| head.sign.is_some());
        let sign = if sign { 1.3 * SPACE } else { 0.0 };
        if meets { (1.15 * widest + flag + dot + sign) * number as f64 } else { 0.0 }
    };
    voice.iter().map(by).collect()
}

/// A line of the staff begins behind the names of the strings.
fn begin_at(item: &mut Item, left: f64) {
    if let Item::Line(line) = item {
        line.from.x = left;
    }
}
