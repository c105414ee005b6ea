//! What is drawn on a page of a PDF, and the signs of music that all its pages share.

use std::collections::BTreeSet;

use pdf_writer::writers::Resources;
use pdf_writer::{Content, Filter, Pdf, Rect, Ref, Str};

use super::fonts::Fonts;
use super::object::{Numbers, as_name, compressed, to_points};
use crate::picture::page::{
    Dash, Extent, Item, Line, MusicSign, Outline, Page, Pages, Point, Segment, SignKind, Text,
};

/// The signs of music of a file, each an object that pages place.
pub(super) struct Signs {
    signs: Vec<(SignKind, Ref)>,
}

impl Signs {
    pub(super) fn of(pages: &Pages, numbers: &mut Numbers) -> Signs {
        let mut used = BTreeSet::new();
        pages.pages.iter().for_each(|page| look(&page.items, &mut used));
        Signs { signs: used.into_iter().map(|sign| (sign, numbers.next())).collect() }
    }

    pub(super) fn name_in(&self, resources: &mut Resources<'_>) {
        let mut objects = resources.x_objects();
        for (sign, object) in &self.signs {
            objects.pair(as_name(&name(*sign)), *object);
        }
    }

    pub(super) fn write(&self, pdf: &mut Pdf) {
        for (sign, object) in &self.signs {
            let mut content = Content::new();
            // In staff spaces, upwards.
            trace(&mut content, &sign.outline(), |point| (point.x as f32, -point.y as f32));
            content.fill_nonzero();
            let bytes = compressed(content.finish().as_slice());
            let ink = sign.ink().unwrap_or(Extent { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 });
            let [left, bottom, right, top] =
                [ink.left, -ink.bottom, ink.right, -ink.top].map(|edge| edge as f32);
            let mut object = pdf.form_xobject(*object, &bytes);
            object.bbox(Rect::new(left - 0.1, bottom - 0.1, right + 0.1, top + 0.1));
            object.filter(Filter::FlateDecode);
        }
    }
}

fn look(items: &[Item], used: &mut BTreeSet<SignKind>) {
    for item in items {
        match item {
            Item::Sign(sign) => drop(used.insert(sign.kind)),
            Item::Group { items, .. } => look(items, used),
            Item::Line(_) | Item::Outline(_) | Item::Text(_) => {}
        }
    }
}

/// What a page calls a sign.
fn name(sign: SignKind) -> Vec<u8> {
    format!("{sign:?}").replace(['(', ')'], "_").into_bytes()
}

/// The content of a page.
pub(super) fn content(page: &Page, fonts: &Fonts) -> Vec<u8> {
    let mut drawing = Drawing { height: page.paper.size_mm().1, fonts, content: Content::new() };
    page.items.iter().for_each(|item| drawing.item(item));
    drawing.content.finish().as_slice().to_vec()
}

struct Drawing<'a> {
    height: f64,
    fonts: &'a Fonts,
    content: Content,
}

impl Drawing<'_> {
    /// A page of a PDF begins at its lower left corner.
    fn point(&self, point: Point) -> (f32, f32) {
        (to_points(point.x), to_points(self.height - point.y))
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Line(line) => self.line(line),
            Item::Outline(outline) => self.outline(outline),
            Item::Text(text) => self.text(text),
            Item::Sign(sign) => self.sign(sign),
            Item::Group { items, .. } => items.iter().for_each(|item| self.item(item)),
        }
    }

    fn line(&mut self, line: &Line) {
        let ((x1, y1), (x2, y2)) = (self.point(line.from), self.point(line.to));
        let dash: &[f32] = match line.dash {
            Dash::Solid => &[],
            Dash::Dashed => &[3.0, 3.0],
        };
        self.content
            .set_dash_pattern(dash.iter().copied(), 0.0)
            .set_stroke_gray(line.shade.lightness() as f32)
            .set_line_width(to_points(line.width_mm))
            .move_to(x1, y1)
            .line_to(x2, y2)
            .stroke();
    }

    fn outline(&mut self, outline: &Outline) {
        if let Some(shade) = outline.fill {
            self.content.set_fill_gray(shade.lightness() as f32);
        }
        if let Some(paint) = outline.stroke {
            self.content
                .set_dash_pattern([], 0.0)
                .set_stroke_gray(paint.shade.lightness() as f32)
                .set_line_width(to_points(paint.width_mm));
        }
        let height = self.height;
        let to = |point: Point| (to_points(point.x), to_points(height - point.y));
        trace(&mut self.content, &outline.segments, to);
        match (outline.fill, outline.stroke) {
            (Some(_), Some(_)) => self.content.fill_nonzero_and_stroke(),
            (Some(_), None) => self.content.fill_nonzero(),
            (None, Some(_)) => self.content.stroke(),
            (None, None) => self.content.end_path(),
        };
    }

    fn text(&mut self, text: &Text) {
        let Some(font) = self.fonts.name(text.face) else { return };
        let glyphs: Vec<u8> =
            text.text.chars().flat_map(|char| text.face.glyph(char).0.to_be_bytes()).collect();
        let (x, y) = self.point(text.at);
        self.content
            .set_fill_gray(text.shade.lightness() as f32)
            .begin_text()
            .set_font(as_name(&font), to_points(text.size_mm))
            .next_line(x, y)
            .show(Str(&glyphs))
            .end_text();
    }

    fn sign(&mut self, sign: &MusicSign) {
        let ((x, y), space) = (self.point(sign.at), to_points(sign.space_mm));
        self.content
            .save_state()
            .set_fill_gray(sign.shade.lightness() as f32)
            .transform([space, 0.0, 0.0, space, x, y])
            .x_object(as_name(&name(sign.kind)))
            .restore_state();
    }
}

fn trace(content: &mut Content, segments: &[Segment], to: impl Fn(Point) -> (f32, f32)) {
    for segment in segments {
        match segment {
            Segment::Move(point) => {
                let (x, y) = to(*point);
                content.move_to(x, y);
            }
            Segment::Line(point) => {
                let (x, y) = to(*point);
                content.line_to(x, y);
            }
            Segment::Curve(one, other, point) => {
                let ((x1, y1), (x2, y2), (x3, y3)) = (to(*one), to(*other), to(*point));
                content.cubic_to(x1, y1, x2, y2, x3, y3);
            }
            Segment::Close => {
                content.close_path();
            }
        }
    }
}
