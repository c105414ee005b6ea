//! The fonts of printed pages, which are embedded.
//!
//! Text is set without kerning and ligatures, one glyph a character: so its width is the sum of its
//! advances for whoever measures, writes or reads it. A character without a glyph is shown as an
//! upright box.

use std::sync::LazyLock;

use super::extent::{Extent, Point};
use super::segment::Segment;

/// So many points in millimetres: 72 make an inch.
///
/// ```
/// assert_eq!(fretloom::picture::page::points(72.0), 25.4);
/// ```
#[must_use]
pub const fn points(points: f64) -> f64 {
    points * 25.4 / 72.0
}

/// A face of the text font.
///
/// # Example
///
/// ```
/// use fretloom::picture::page::Face;
/// assert!(Face::Bold.width_mm("Gmaj7♯11", 5.0) > Face::Plain.width_mm("Gmaj7♯11", 5.0));
/// assert_eq!(Face::Plain.width_mm("12", 5.0), Face::Plain.width_mm("34", 5.0));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Face {
    /// For reading.
    Plain,
    /// For headings, chord symbols and frets.
    Bold,
}

/// The number of a glyph in its font.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct GlyphNumber(pub u16);

/// What is shown for a character that has no glyph.
const UNKNOWN: char = '▯';

const PLAIN: &[u8] = include_bytes!("../../../assets/fonts/text.ttf");
const BOLD: &[u8] = include_bytes!("../../../assets/fonts/text-bold.ttf");
const MUSIC: &[u8] = include_bytes!("../../../assets/fonts/fretloom-music.otf");

/// Parsed once. They are the program's own, and the tests read them: `None` never happens.
static FONTS: LazyLock<[Option<ttf_parser::Face<'static>>; 3]> =
    LazyLock::new(|| [PLAIN, BOLD, MUSIC].map(|bytes| ttf_parser::Face::parse(bytes, 0).ok()));

impl Face {
    /// Both.
    pub const ALL: [Face; 2] = [Face::Plain, Face::Bold];

    /// The bytes of its font, a TrueType file.
    #[must_use]
    pub const fn bytes(self) -> &'static [u8] {
        match self {
            Face::Plain => PLAIN,
            Face::Bold => BOLD,
        }
    }

    /// The name of its font's family.
    #[must_use]
    pub const fn family(self) -> &'static str {
        "DejaVu Sans"
    }

    /// The glyph of a character, or that of an unknown one.
    #[must_use]
    pub fn glyph(self, char: char) -> GlyphNumber {
        let found = self
            .font()
            .and_then(|font| font.glyph_index(char).or_else(|| font.glyph_index(UNKNOWN)));
        found.map_or(GlyphNumber(0), |glyph| GlyphNumber(glyph.0))
    }

    /// How wide a glyph is, in parts of the font's size.
    #[must_use]
    pub fn advance(self, glyph: GlyphNumber) -> f64 {
        let advance = self.font().and_then(|font| {
            let advance = font.glyph_hor_advance(ttf_parser::GlyphId(glyph.0))?;
            Some(f64::from(advance) / f64::from(font.units_per_em()))
        });
        advance.unwrap_or(0.0)
    }

    /// How wide a text is, in a font of that size in millimetres.
    #[must_use]
    pub fn width_mm(self, text: &str, size_mm: f64) -> f64 {
        let advances = text.chars().map(|char| self.advance(self.glyph(char)));
        advances.sum::<f64>() * size_mm
    }

    /// What a text covers that begins at the origin of its baseline; `None` where it shows nothing.
    #[must_use]
    pub fn ink(self, text: &str, size_mm: f64) -> Option<Extent> {
        let font = self.font()?;
        let unit = size_mm / f64::from(font.units_per_em());
        let mut x = 0.0;
        let mut covered: Option<Extent> = None;
        for char in text.chars() {
            let glyph = self.glyph(char);
            if let Some(ink) = ink_of(font, ttf_parser::GlyphId(glyph.0), unit) {
                let ink = Extent { left: ink.left + x, right: ink.right + x, ..ink };
                covered = Some(covered.map_or(ink, |covered| covered.and(ink)));
            }
            x += self.advance(glyph) * size_mm;
        }
        covered
    }

    /// How far a capital letter rises over its baseline, in parts of the font's size.
    #[must_use]
    pub fn cap_height(self) -> f64 {
        // Not every font says it, and every one has an H.
        let height = self.ink("H", 1.0).map(|ink| -ink.top);
        height.unwrap_or(0.7)
    }

    /// What a PDF says of its font, in thousandths of its size: ascent, descent, and the box around
    /// all its glyphs, left, bottom, right, top.
    #[must_use]
    pub fn metrics(self) -> [f32; 6] {
        let Some(font) = self.font() else { return [0.0; 6] };
        let around = font.global_bounding_box();
        let units = [
            font.ascender(),
            font.descender(),
            around.x_min,
            around.y_min,
            around.x_max,
            around.y_max,
        ];
        units.map(|unit| f32::from(unit) * 1000.0 / f32::from(font.units_per_em()))
    }

    /// How many glyphs its font has.
    #[must_use]
    pub fn glyph_count(self) -> u16 {
        self.font().map_or(0, ttf_parser::Face::number_of_glyphs)
    }

    fn font(self) -> Option<&'static ttf_parser::Face<'static>> {
        let [plain, bold, _] = &*FONTS;
        match self {
            Face::Plain => plain.as_ref(),
            Face::Bold => bold.as_ref(),
        }
    }
}

/// What a glyph covers around its origin, downwards; a font counts upwards.
fn ink_of(font: &ttf_parser::Face<'_>, glyph: ttf_parser::GlyphId, unit: f64) -> Option<Extent> {
    let around = font.glyph_bounding_box(glyph)?;
    Some(Extent {
        left: f64::from(around.x_min) * unit,
        top: -f64::from(around.y_max) * unit,
        right: f64::from(around.x_max) * unit,
        bottom: -f64::from(around.y_min) * unit,
    })
}

/// A staff space is a quarter of the size of a music font, by the Standard Music Font Layout.
const SPACES: f64 = 4.0;

/// What a sign of the music font covers, in staff spaces.
pub(super) fn music_ink(sign: char) -> Option<Extent> {
    let font = music()?;
    ink_of(font, font.glyph_index(sign)?, SPACES / f64::from(font.units_per_em()))
}

/// How wide a sign of the music font is, in staff spaces.
pub(super) fn music_advance(sign: char) -> f64 {
    let advance = music().and_then(|font| {
        let advance = font.glyph_hor_advance(font.glyph_index(sign)?)?;
        Some(f64::from(advance) * SPACES / f64::from(font.units_per_em()))
    });
    advance.unwrap_or(0.0)
}

/// The outline of a sign of the music font, in staff spaces.
pub(super) fn music_outline(sign: char) -> Vec<Segment> {
    let Some(font) = music() else { return Vec::new() };
    let unit = SPACES / f64::from(font.units_per_em());
    let mut pen = Pen { unit, at: Point::default(), segments: Vec::new() };
    if let Some(glyph) = font.glyph_index(sign) {
        let _ = font.outline_glyph(glyph, &mut pen);
    }
    pen.segments
}

fn music() -> Option<&'static ttf_parser::Face<'static>> {
    let [_, _, music] = &*FONTS;
    music.as_ref()
}

/// Takes down an outline.
struct Pen {
    unit: f64,
    at: Point,
    segments: Vec<Segment>,
}

impl Pen {
    fn point(&self, x: f32, y: f32) -> Point {
        Point { x: f64::from(x) * self.unit, y: -f64::from(y) * self.unit }
    }
}

impl ttf_parser::OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.at = self.point(x, y);
        self.segments.push(Segment::Move(self.at));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.at = self.point(x, y);
        self.segments.push(Segment::Line(self.at));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (from, bend, to) = (self.at, self.point(x1, y1), self.point(x, y));
        let near = |end: Point| Point {
            x: end.x + (bend.x - end.x) * 2.0 / 3.0,
            y: end.y + (bend.y - end.y) * 2.0 / 3.0,
        };
        self.segments.push(Segment::Curve(near(from), near(to), to));
        self.at = to;
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (one, other) = (self.point(x1, y1), self.point(x2, y2));
        self.at = self.point(x, y);
        self.segments.push(Segment::Curve(one, other, self.at));
    }

    fn close(&mut self) {
        self.segments.push(Segment::Close);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_font_can_be_read() {
        assert!(FONTS.iter().all(Option::is_some));
    }

    /// What the program prints by itself has glyphs of its own.
    #[test]
    fn the_signs_of_the_program_are_there() {
        for face in Face::ALL {
            let unknown = face.glyph(UNKNOWN);
            for char in (' '..='~').chain("♭♯♮°øΔ·×–—…“”’→←↑↓▸●○⊓✓ÄÖÜßéñçŁЖλ".chars())
            {
                assert!(face.glyph(char) != unknown && face.glyph(char).0 != 0, "{char}");
            }
            assert_eq!(face.glyph('音'), unknown);
        }
    }

    /// The figures of the font's own metadata.
    #[test]
    fn signs_of_music_have_their_size() {
        let head = music_ink('\u{E0A4}').unwrap();
        assert!((head.right - 1.18).abs() < 0.001 && (head.top + 0.5).abs() < 0.001, "{head:?}");
        assert!((music_advance('\u{E0A4}') - 1.18).abs() < 0.001);
        assert!(music_outline('\u{E0A4}').len() > 4);
    }
}
