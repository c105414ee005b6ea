//! The drawn neck on a page.
//!
//! The notes of the first triad stand in black squares, those of the second in white circles; a root has
//! a second line around it. So nobody needs colours, and a copier that knows only black and white
//! loses nothing.

use fretloom_fretboard::{Fret, Inlay};
use fretloom_theory::WhichTriad;

use super::fret_widths::FretWidths;
use super::lie::Handed;
use super::mark::{Mark, MarkRole, Presence};
use super::neck::{NeckPicture, NeckString};
use super::page::{Dash, Extent, Face, Figure, Item, Line, Outline, Point, Shade, Text, points};

/// How large a neck is drawn.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NeckSize {
    /// How wide it may be at most, in millimetres.
    pub width_mm: f64,
    /// How far strings are apart, in millimetres.
    pub string_gap_mm: f64,
}

/// The rows of the fret numbers and of the inlays, beyond the marks on the outer strings.
const NUMBERS_MM: f64 = 3.0;
const INLAYS_MM: f64 = 2.4;
const INLAY_MM: f64 = 0.7;
const NUMBER_SIZE: f64 = points(7.5);
const NAME_SIZE: f64 = points(9.0);
/// No cell is wider: a few frets do not fill a page.
const WIDEST_CELL_MM: f64 = 13.0;
const LARGEST_MARK_MM: f64 = 5.4;
const STRING_MM: f64 = 0.2;
const WIRE_MM: f64 = 0.25;
const NUT_MM: f64 = 1.1;
const CAPO_MM: f64 = 2.2;

impl NeckPicture {
    /// The picture with all its frets, as wide as they need up to a limit.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::picture::{NeckPicture, NeckSize};
    /// use fretloom_fretboard::{Neck, Tuning};
    ///
    /// let neck = Neck::new(Tuning::read("E A D G B E").unwrap());
    /// let picture = NeckPicture::new(&neck, Vec::new());
    /// let figure = picture.figure(NeckSize { width_mm: 180.0, string_gap_mm: 6.0 });
    /// assert!(figure.width_mm <= 180.0);
    /// assert!(figure.height_mm > 5.0 * 6.0);
    /// ```
    #[must_use]
    pub fn figure(&self, size: NeckSize) -> Figure {
        let board = Board::new(self, size);
        let mut drawing = Drawing { picture: self, board, items: Vec::new() };
        drawing.wood();
        drawing.strings();
        self.marks.iter().for_each(|mark| drawing.mark(mark));
        Figure {
            width_mm: drawing.board.width(),
            height_mm: drawing.board.height(self.strings.len()),
            items: drawing.items,
        }
    }
}

/// Where everything goes, for a right-handed picture.
struct Board {
    handed: Handed,
    gap: f64,
    /// Where the open notes stand.
    open: f64,
    /// The nut or the wire before the first fret, then the wire of each fret shown.
    wires: Vec<f64>,
    first: u8,
    mark: f64,
}

impl Board {
    fn new(picture: &NeckPicture, size: NeckSize) -> Board {
        let name = |string: &NeckString| Face::Plain.width_mm(&name_of(string), NAME_SIZE);
        let names = picture.strings.iter().map(name).fold(0.0, f64::max);
        let largest = (size.string_gap_mm - 2.0 * ROOT_RING_MM - 0.4).clamp(1.0, LARGEST_MARK_MM);
        let open = names + 1.5 + largest / 2.0 + ROOT_RING_MM;
        let nut = open + largest / 2.0 + ROOT_RING_MM + 1.0;
        let wires = wires(picture, nut, (size.width_mm - nut - 2.0).max(1.0));
        let cells = wires.windows(2).map(|two| two[1] - two[0]);
        let narrowest = cells.fold(f64::INFINITY, f64::min);
        let mark = largest.min(narrowest - 2.0 * ROOT_RING_MM - 0.4).max(1.0);
        let (handed, gap, first) =
            (picture.handed, size.string_gap_mm, picture.first_fret.number());
        Board { handed, gap, open, wires, first, mark }
    }

    fn width(&self) -> f64 {
        self.wires.last().copied().unwrap_or(self.open) + 2.0
    }

    fn height(&self, strings: usize) -> f64 {
        self.y(strings.saturating_sub(1)) + self.reach() + INLAYS_MM
    }

    /// How far a mark reaches from its string.
    fn reach(&self) -> f64 {
        self.mark / 2.0 + ROOT_RING_MM + 0.2
    }

    fn nut(&self) -> f64 {
        self.wires.first().copied().unwrap_or(self.open)
    }

    /// To the right of the left edge, or of the right one to the left.
    fn x(&self, x: f64) -> f64 {
        match self.handed {
            Handed::Right => x,
            Handed::Left => self.width() - x,
        }
    }

    fn y(&self, row: usize) -> f64 {
        NUMBERS_MM + self.reach() + self.gap * row as f64
    }

    /// The wire that closes a fret's cell; `None` where it is not shown.
    fn wire(&self, fret: Fret) -> Option<f64> {
        let index = (fret.number() + 1).checked_sub(self.first)?;
        self.wires.get(usize::from(index)).copied()
    }

    /// The middle of a fret's cell.
    fn middle(&self, fret: Fret) -> Option<f64> {
        let index = usize::from(fret.number().checked_sub(self.first)?);
        Some((self.wires.get(index)? + self.wires.get(index + 1)?) / 2.0)
    }
}

/// How far the second line of a root lies from its mark.
const ROOT_RING_MM: f64 = 0.5;

/// `1 E`
fn name_of(string: &NeckString) -> String {
    format!("{} {}", string.number, string.name)
}

/// From the nut, or the wire before the first fret, on.
fn wires(picture: &NeckPicture, nut: f64, room: f64) -> Vec<f64> {
    let (first, last) = (picture.first_fret.number(), picture.last_fret.number());
    let before = first.saturating_sub(1);
    let count = f64::from(last.saturating_sub(before));
    let distance = |fret: u8| match picture.fret_widths {
        FretWidths::Even => f64::from(fret),
        FretWidths::True => picture.frets.get(usize::from(fret)).map_or(0.0, |fret| fret.wire_mm),
    };
    let span = distance(last) - distance(before);
    let length = room.min(count * WIDEST_CELL_MM);
    let at = |fret: u8| {
        let along = if span > 0.0 { (distance(fret) - distance(before)) / span } else { 0.0 };
        nut + along * length
    };
    (before..=last.max(before)).map(at).collect()
}

struct Drawing<'a> {
    picture: &'a NeckPicture,
    board: Board,
    items: Vec<Item>,
}

impl Drawing<'_> {
    fn point(&self, x: f64, y: f64) -> Point {
        Point::new(self.board.x(x), y)
    }

    fn line(&mut self, from: (f64, f64), to: (f64, f64), width_mm: f64) -> &mut Self {
        let (from, to) = (self.point(from.0, from.1), self.point(to.0, to.1));
        self.items.push(Item::Line(Line::new(from, to, width_mm)));
        self
    }

    /// Numbers, wires, nut and inlays.
    fn wood(&mut self) {
        let bottom = self.board.y(self.picture.strings.len().saturating_sub(1));
        let shown = self.picture.first_fret.number()..=self.picture.last_fret.number();
        for fret in shown.filter_map(Fret::new) {
            let Some(middle) = self.board.middle(fret) else { continue };
            let at = self.point(middle, NUMBERS_MM - 0.6);
            let number = Text::centred(at, &fret.to_string(), Face::Plain, NUMBER_SIZE);
            self.items.push(Item::Text(number));
            if let Some(wire) = self.board.wire(fret) {
                self.wire(fret, wire);
            }
            self.inlay(fret, middle, bottom + self.board.reach() + INLAYS_MM / 2.0);
        }
        let nut = self.board.nut();
        for (row, string) in self.picture.strings.iter().enumerate() {
            if self.picture.first_fret.number() > 1 {
                self.between_strings(row, nut, WIRE_MM, |_| true);
            } else if string.starts_at.is_open() {
                self.between_strings(row, nut - NUT_MM / 2.0 + WIRE_MM / 2.0, NUT_MM, |other| {
                    other.starts_at.is_open()
                });
            }
        }
    }

    /// A wire over the strings that sound there.
    fn wire(&mut self, fret: Fret, wire: f64) {
        for (row, string) in self.picture.strings.iter().enumerate() {
            if fret >= string.sounds_from() {
                self.between_strings(row, wire, WIRE_MM, |other| fret >= other.sounds_from());
            }
        }
    }

    /// A line across the strings from this row to the next, where that one has a part in it too.
    fn between_strings(
        &mut self,
        row: usize,
        x: f64,
        width_mm: f64,
        has: impl Fn(&NeckString) -> bool,
    ) {
        if self.picture.strings.get(row + 1).is_some_and(has) {
            let (top, bottom) = (self.board.y(row), self.board.y(row + 1));
            self.line((x, top - STRING_MM / 2.0), (x, bottom + STRING_MM / 2.0), width_mm);
        }
    }

    fn inlay(&mut self, fret: Fret, x: f64, y: f64) {
        let inlay = self.picture.frets.get(usize::from(fret.number())).map(|fret| fret.inlay);
        let apart: &[f64] = match inlay {
            Some(Inlay::Single) => &[0.0],
            Some(Inlay::Double) => &[-1.1, 1.1],
            Some(Inlay::Plain) | None => &[],
        };
        for by in apart {
            let dot = Outline::circle(self.point(x + by, y), INLAY_MM).filled(Shade::Grey);
            self.items.push(Item::Outline(dot));
        }
    }

    fn strings(&mut self) {
        let end = self.board.width() - 2.0;
        for (row, string) in self.picture.strings.iter().enumerate() {
            let y = self.board.y(row);
            let baseline = y + Face::Plain.cap_height() * NAME_SIZE / 2.0;
            let shade = if string.is_quiet { Shade::Grey } else { Shade::Black };
            let at = self.point(0.0, baseline);
            let name = match self.board.handed {
                Handed::Right => Text::new(at, &name_of(string), Face::Plain, NAME_SIZE),
                Handed::Left => Text::ending(at, &name_of(string), Face::Plain, NAME_SIZE),
            };
            self.items.push(Item::Text(name.shaded(shade)));
            let from = match self.board.wire(string.sounds_from()) {
                _ if string.sounds_from().is_open() => self.board.nut(),
                Some(wire) => wire,
                // Scrolled past, or beyond what is shown.
                None if string.sounds_from() < self.picture.first_fret => self.board.nut(),
                None => continue,
            };
            let (from, to) = (self.point(from, y), self.point(end, y));
            let dash = if string.is_quiet { Dash::Dashed } else { Dash::Solid };
            self.items.push(Item::Line(Line { shade, dash, ..Line::new(from, to, STRING_MM) }));
            self.stop(string, row);
        }
    }

    /// What stops a string: a capo, or a nut of its own.
    fn stop(&mut self, string: &NeckString, row: usize) {
        let Some(wire) = self.board.wire(string.sounds_from()) else { return };
        let (y, half) = (self.board.y(row), self.board.gap * 0.4);
        if !string.capo.is_open() && string.capo == string.sounds_from() {
            self.line((wire - 1.5, y - half), (wire - 1.5, y + half), CAPO_MM);
        } else if !string.starts_at.is_open() {
            self.line((wire, y - half), (wire, y + half), NUT_MM);
        }
    }

    fn mark(&mut self, mark: &Mark) {
        let row = self.picture.strings.iter().position(|string| string.number == mark.place.string);
        let (Some(row), Some(x)) = (row, self.x_of(mark)) else { return };
        let centre = self.point(x, self.board.y(row));
        let items = mark_items(mark, centre, self.board.mark);
        if items.is_empty() {
            return;
        }
        let of = match mark.role {
            MarkRole::Triad(WhichTriad::First) => ", first triad",
            MarkRole::Triad(WhichTriad::Second) => ", second triad",
            MarkRole::LeftOut => ", left out",
        };
        let fret = mark.place.fret;
        let says = format!("{}: string {}, fret {fret}{of}", mark.label, mark.place.string);
        self.items.push(Item::Group { says, items });
    }

    fn x_of(&self, mark: &Mark) -> Option<f64> {
        let string =
            self.picture.strings.iter().find(|string| string.number == mark.place.string)?;
        if mark.place.fret == string.sounds_from() || mark.place.fret.is_open() {
            return Some(self.board.open);
        }
        self.board.middle(mark.place.fret)
    }
}

/// The shape that the marks of a triad have, by itself.
#[must_use]
pub fn triad_figure(which: WhichTriad, size_mm: f64) -> Figure {
    let centre = Point::new(size_mm / 2.0, size_mm / 2.0);
    let items = vec![Item::Outline(filled(which, centre, size_mm))];
    Figure { items, width_mm: size_mm, height_mm: size_mm }
}

/// A mark with its label, around its centre.
pub(super) fn mark_items(mark: &Mark, centre: Point, size: f64) -> Vec<Item> {
    let MarkRole::Triad(which) = mark.role else {
        let width = Face::Plain.width_mm(&mark.label, size * 0.6);
        let around = square(centre, width.max(size * 0.6)).filled(Shade::White);
        return vec![Item::Outline(around), label(mark, centre, size, Shade::Grey)];
    };
    if mark.presence == Presence::Hidden {
        return vec![Item::Outline(Outline::circle(centre, 0.6).filled(Shade::Grey))];
    }
    let mut items = Vec::new();
    if mark.is_root || mark.is_held {
        let around = size + 2.0 * ROOT_RING_MM;
        let pen = if mark.is_held { 0.5 } else { 0.25 };
        items.push(shape(which, centre, around).filled(Shade::White).drawn(pen));
    }
    let ink = match which {
        WhichTriad::First => Shade::White,
        WhichTriad::Second => Shade::Black,
    };
    items.push(filled(which, centre, size));
    let mut items: Vec<Item> = items.into_iter().map(Item::Outline).collect();
    items.push(label(mark, centre, size, ink));
    if mark.presence == Presence::Stretched {
        let (half, below) = (size / 2.0, size / 2.0 + 0.75);
        let at = |x| centre.moved(Point::new(x, below));
        items.push(Item::Line(Line::new(at(-half), at(half), 0.35)));
    }
    if mark.stays {
        let (half, above) = (size / 2.0, -size / 2.0 - 0.75);
        let at = |x| centre.moved(Point::new(x, above));
        items.push(Item::Line(Line { dash: Dash::Dashed, ..Line::new(at(-half), at(half), 0.35) }));
    }
    items
}

fn filled(which: WhichTriad, centre: Point, size: f64) -> Outline {
    match which {
        WhichTriad::First => shape(which, centre, size).filled(Shade::Black),
        WhichTriad::Second => shape(which, centre, size).filled(Shade::White).drawn(0.3),
    }
}

fn shape(which: WhichTriad, centre: Point, size: f64) -> Outline {
    match which {
        // A square looks larger than a circle that is as wide.
        WhichTriad::First => square(centre, size * 0.94),
        WhichTriad::Second => Outline::circle(centre, size / 2.0),
    }
}

fn square(centre: Point, size: f64) -> Outline {
    let half = size / 2.0;
    Outline::rectangle(Extent {
        left: centre.x - half,
        top: centre.y - half,
        right: centre.x + half,
        bottom: centre.y + half,
    })
}

/// What stands in a mark, as large as fits.
fn label(mark: &Mark, centre: Point, size: f64, shade: Shade) -> Item {
    let face = Face::Bold;
    let width = face.width_mm(&mark.label, 1.0);
    let font = if width > 0.0 { (size * 0.86 / width).min(size * 0.66) } else { size };
    let at = centre.moved(Point::new(0.0, face.cap_height() * font / 2.0));
    Item::Text(Text::centred(at, &mark.label, face, font).shaded(shade))
}
