//! Figures one below the other, on as many pages as they take.

use super::extent::Point;
use super::figure::Figure;
use super::font::{Face, points};
use super::item::{Item, Text};
use super::pages::{Page, Pages};
use super::paper::Paper;
use super::shade::Shade;

/// How much of every edge of a page stays white, in millimetres.
pub const MARGIN_MM: f64 = 15.0;

/// The room that the line at the foot of a page takes.
const FOOT_MM: f64 = 8.0;
const FOOT_SIZE: f64 = points(8.0);
/// How far the last line of all stands over the foot.
const OVER_FOOT_MM: f64 = 4.2;

/// Pages as they are filled from top to bottom. A figure is never cut: where it does not fit any more
/// it begins a page.
///
/// # Example
///
/// ```
/// use fretloom::picture::page::{Face, Figure, Flow, Paper};
/// let mut flow = Flow::new(Paper::A4, "G & A", "standard tuning");
/// let heading = || Figure::line("the whole neck", Face::Plain, 4.0);
/// (0..3).for_each(|_| flow.put(heading().over(Figure::space(100.0, 110.0), 2.0), 5.0));
/// assert_eq!(flow.pages().pages.len(), 2);
/// ```
#[derive(Clone, Debug)]
pub struct Flow {
    paper: Paper,
    title: String,
    foot: String,
    last: String,
    full: Vec<Vec<Item>>,
    items: Vec<Item>,
    /// How far down the page that is being filled is full.
    y: f64,
}

impl Flow {
    /// Empty pages with a title, and with what every page says at its foot.
    #[must_use]
    pub fn new(paper: Paper, title: &str, foot: &str) -> Flow {
        let (title, foot) = (title.to_owned(), foot.to_owned());
        let (last, full, items) = (String::new(), Vec::new(), Vec::new());
        Flow { paper, title, foot, last, full, items, y: MARGIN_MM }
    }

    /// How wide a figure may be.
    #[must_use]
    pub fn width_mm(&self) -> f64 {
        self.paper.size_mm().0 - 2.0 * MARGIN_MM
    }

    /// How high a figure may be.
    #[must_use]
    pub fn height_mm(&self) -> f64 {
        self.paper.size_mm().1 - 2.0 * MARGIN_MM - FOOT_MM
    }

    /// How much of the page is still free.
    #[must_use]
    pub fn left_mm(&self) -> f64 {
        MARGIN_MM + self.height_mm() - self.y
    }

    /// Puts a figure below what is there, so far from it.
    pub fn put(&mut self, figure: Figure, gap_mm: f64) {
        let is_first = self.items.is_empty();
        let gap = if is_first { 0.0 } else { gap_mm };
        if !is_first && gap + figure.height_mm > self.left_mm() {
            self.turn();
            return self.put(figure, gap_mm);
        }
        let at = Point::new(MARGIN_MM, self.y + gap);
        self.items.extend(figure.items.into_iter().map(|item| item.moved(at)));
        self.y = at.y + figure.height_mm;
    }

    /// What stands over the foot of the last page.
    pub fn end_with(&mut self, line: &str) {
        line.clone_into(&mut self.last);
    }

    /// Begins another page, unless the one that is being filled is empty.
    pub fn turn(&mut self) {
        if !self.items.is_empty() {
            self.full.push(std::mem::take(&mut self.items));
            self.y = MARGIN_MM;
        }
    }

    /// The pages, each with its foot and its number; at least one.
    #[must_use]
    pub fn pages(mut self) -> Pages {
        if !self.items.is_empty() || self.full.is_empty() {
            self.full.push(std::mem::take(&mut self.items));
        }
        let count = self.full.len();
        let mut pages = Vec::with_capacity(count);
        for (items, number) in std::mem::take(&mut self.full).into_iter().zip(1..) {
            let items = items.into_iter().chain(self.foot(number, count)).collect();
            pages.push(Page { paper: self.paper, items });
        }
        Pages { title: self.title, pages }
    }

    fn foot(&self, number_of_page: usize, count: usize) -> Vec<Item> {
        let (width, height) = self.paper.size_mm();
        let line = height - MARGIN_MM;
        let number = if count > 1 { format!("{number_of_page} of {count}") } else { String::new() };
        let number =
            Text::ending(Point::new(width - MARGIN_MM, line), &number, Face::Plain, FOOT_SIZE);
        let room = self.width_mm() - number.width_mm() - 5.0;
        let foot = shortened(&self.foot, Face::Plain, FOOT_SIZE, room);
        let foot = Text::new(Point::new(MARGIN_MM, line), &foot, Face::Plain, FOOT_SIZE);
        let last = if number_of_page == count { self.last.as_str() } else { "" };
        let last = shortened(last, Face::Plain, FOOT_SIZE, self.width_mm());
        let at = Point::new(MARGIN_MM, line - OVER_FOOT_MM);
        let last = Text::new(at, &last, Face::Plain, FOOT_SIZE);
        let texts = [last, foot.shaded(Shade::Grey), number.shaded(Shade::Grey)];
        texts.into_iter().filter(|text| !text.text.is_empty()).map(Item::Text).collect()
    }
}

/// As much of a text as fits, with dots for what does not.
pub(super) fn shortened(text: &str, face: Face, size_mm: f64, width_mm: f64) -> String {
    if face.width_mm(text, size_mm) <= width_mm {
        return text.to_owned();
    }
    let mut kept: Vec<char> = text.chars().collect();
    while kept.pop().is_some() {
        let line: String = kept.iter().chain(&['…']).collect();
        if face.width_mm(&line, size_mm) <= width_mm {
            return line;
        }
    }
    String::new()
}
