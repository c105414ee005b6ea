//! The fonts of a PDF: those faces that are used, with all the glyphs of their subset.

use std::collections::{BTreeMap, BTreeSet};

use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::writers::Resources;
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str};

use super::object::{Numbers, as_name, compressed, numbered};
use crate::picture::page::{Face, GlyphNumber, Item, Pages};

/// The fonts of a file.
pub(super) struct Fonts {
    fonts: Vec<Font>,
}

/// A face, what is shown with it, and the objects that say so.
struct Font {
    face: Face,
    /// What each glyph stands for that is used.
    glyphs: BTreeMap<GlyphNumber, char>,
    font: Ref,
    cid_font: Ref,
    descriptor: Ref,
    file: Ref,
    meaning: Ref,
}

const SYSTEM: SystemInfo<'_> =
    SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };

impl Fonts {
    pub(super) fn of(pages: &Pages, numbers: &mut Numbers) -> Fonts {
        let mut used: BTreeMap<Face, BTreeSet<char>> = BTreeMap::new();
        pages.pages.iter().for_each(|page| look(&page.items, &mut used));
        let font = |(face, chars): (Face, BTreeSet<char>)| Font {
            face,
            // Of two characters with one glyph the first in their order is meant.
            glyphs: chars.into_iter().rev().map(|char| (face.glyph(char), char)).collect(),
            font: numbers.next(),
            cid_font: numbers.next(),
            descriptor: numbers.next(),
            file: numbers.next(),
            meaning: numbers.next(),
        };
        Fonts { fonts: used.into_iter().map(font).collect() }
    }

    /// What a page calls a face; nothing for one that is not used.
    pub(super) fn name(&self, face: Face) -> Option<Vec<u8>> {
        let index = self.fonts.iter().position(|font| font.face == face)?;
        Some(numbered('F', index + 1))
    }

    pub(super) fn name_in(&self, resources: &mut Resources<'_>) {
        let mut fonts = resources.fonts();
        for font in &self.fonts {
            if let Some(name) = self.name(font.face) {
                fonts.pair(as_name(&name), font.font);
            }
        }
    }

    pub(super) fn write(&self, pdf: &mut Pdf) {
        self.fonts.iter().for_each(|font| font.write(pdf));
    }
}

fn look(items: &[Item], used: &mut BTreeMap<Face, BTreeSet<char>>) {
    for item in items {
        match item {
            Item::Text(text) => used.entry(text.face).or_default().extend(text.text.chars()),
            Item::Group { items, .. } => look(items, used),
            Item::Line(_) | Item::Outline(_) | Item::Sign(_) => {}
        }
    }
}

impl Font {
    fn write(&self, pdf: &mut Pdf) {
        let name = Name(base_name(self.face));
        pdf.type0_font(self.font)
            .base_font(name)
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(self.cid_font)
            .to_unicode(self.meaning);
        self.write_cid_font(pdf, name);
        self.write_descriptor(pdf, name);
        let bytes = self.face.bytes();
        let length = i32::try_from(bytes.len()).unwrap_or(i32::MAX);
        pdf.stream(self.file, &compressed(bytes))
            .filter(Filter::FlateDecode)
            .pair(Name(b"Length1"), length);
        let mut meaning = UnicodeCmap::new(Name(b"Custom"), SYSTEM);
        self.glyphs.iter().for_each(|(glyph, char)| meaning.pair(glyph.0, *char));
        let meaning = compressed(meaning.finish().as_slice());
        pdf.cmap(self.meaning, &meaning).filter(Filter::FlateDecode);
    }

    fn write_cid_font(&self, pdf: &mut Pdf, name: Name<'_>) {
        let mut font = pdf.cid_font(self.cid_font);
        font.subtype(CidFontType::Type2)
            .base_font(name)
            .system_info(SYSTEM)
            .font_descriptor(self.descriptor)
            .default_width(0.0)
            .cid_to_gid_map_predefined(Name(b"Identity"));
        let mut widths = font.widths();
        for glyph in self.glyphs.keys() {
            let width = (self.face.advance(*glyph) * 1000.0) as f32;
            widths.consecutive(glyph.0, [width]);
        }
        widths.finish();
    }

    fn write_descriptor(&self, pdf: &mut Pdf, name: Name<'_>) {
        let [ascent, descent, left, bottom, right, top] = self.face.metrics();
        let stem = match self.face {
            Face::Plain => 90.0,
            Face::Bold => 160.0,
        };
        pdf.font_descriptor(self.descriptor)
            .name(name)
            .flags(FontFlags::SYMBOLIC)
            .bbox(Rect::new(left, bottom, right, top))
            .italic_angle(0.0)
            .ascent(ascent)
            .descent(descent)
            .cap_height((self.face.cap_height() * 1000.0) as f32)
            .stem_v(stem)
            .font_file2(self.file);
    }
}

/// The name of a subset begins with six letters and a plus.
const fn base_name(face: Face) -> &'static [u8] {
    match face {
        Face::Plain => b"FRETLO+DejaVuSans",
        Face::Bold => b"FRETLO+DejaVuSans-Bold",
    }
}
