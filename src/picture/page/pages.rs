//! Pages.

use super::item::Item;
use super::paper::Paper;

/// A printed page.
#[derive(Clone, PartialEq, Debug)]
pub struct Page {
    /// How large the paper is.
    pub paper: Paper,
    /// What is drawn, a later thing over an earlier one.
    pub items: Vec<Item>,
}

/// Pages that belong together, in order.
///
/// # Example
///
/// ```
/// use fretloom::export::svg;
/// use fretloom::picture::page::{Face, Item, Page, Pages, Paper, Point, Text, points};
///
/// let text = Text::new(Point { x: 20.0, y: 30.0 }, "G & A", Face::Bold, points(14.0));
/// let page = Page { paper: Paper::A4, items: vec![Item::Text(text)] };
/// let pages = Pages { title: "G & A".to_owned(), pages: vec![page] };
/// assert!(svg::page(&pages.pages[0], &pages.title).contains(">G &amp; A</text>"));
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Pages {
    /// What they are about, for whoever lists files.
    pub title: String,
    /// The pages, at least one.
    pub pages: Vec<Page>,
}

impl Pages {
    /// The pages of several things one after another, each with its own feet; nothing where there are none.
    #[must_use]
    pub fn joined(all: impl IntoIterator<Item = Pages>) -> Option<Pages> {
        let join = |before: Pages, next: Pages| Pages {
            title: format!("{}; {}", before.title, next.title),
            pages: before.pages.into_iter().chain(next.pages).collect(),
        };
        all.into_iter().reduce(join)
    }
}
