//! Pages as PDF.
//!
//! Everything is vectors. Text can be selected and searched: its fonts are embedded, and what each
//! glyph means is said. Signs of music are outlines, each written once. The same pages are the same
//! bytes: there is no date and no number by chance in the file.

mod fonts;
mod object;
mod page;

use pdf_writer::{Filter, Finish, Pdf, Rect, Ref, TextStr};

use crate::picture::page::Pages;
use fonts::Fonts;
use object::{Numbers, compressed, to_points};
use page::{Signs, content};

/// Pages as a file.
///
/// # Example
///
/// ```
/// use fretloom::export::pdf;
/// use fretloom::picture::page::{Flow, Paper};
/// let file = pdf::pages(&Flow::new(Paper::Letter, "G & A", "").pages());
/// assert!(file.starts_with(b"%PDF-1.7"));
/// ```
#[must_use]
pub fn pages(pages: &Pages) -> Vec<u8> {
    let mut numbers = Numbers::new();
    let mut pdf = Pdf::new();
    let (catalog, tree, info) = (numbers.next(), numbers.next(), numbers.next());
    let fonts = Fonts::of(pages, &mut numbers);
    let signs = Signs::of(pages, &mut numbers);
    let ids: Vec<(Ref, Ref)> =
        pages.pages.iter().map(|_| (numbers.next(), numbers.next())).collect();
    pdf.catalog(catalog).pages(tree).viewer_preferences().display_doc_title(true);
    let count = i32::try_from(ids.len()).unwrap_or(i32::MAX);
    pdf.pages(tree).kids(ids.iter().map(|(page, _)| *page)).count(count);
    pdf.document_info(info)
        .title(TextStr(&pages.title))
        .producer(TextStr(concat!("fretloom ", env!("CARGO_PKG_VERSION"))));
    for (page, (id, content_id)) in pages.pages.iter().zip(&ids) {
        let (width, height) = page.paper.size_mm();
        let mut written = pdf.page(*id);
        written.parent(tree).media_box(Rect::new(0.0, 0.0, to_points(width), to_points(height)));
        let mut resources = written.resources();
        fonts.name_in(&mut resources);
        signs.name_in(&mut resources);
        resources.finish();
        written.contents(*content_id);
        drop(written);
        let bytes = compressed(&content(page, &fonts));
        pdf.stream(*content_id, &bytes).filter(Filter::FlateDecode);
    }
    fonts.write(&mut pdf);
    signs.write(&mut pdf);
    pdf.finish()
}
