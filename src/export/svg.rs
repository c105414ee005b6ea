//! Pages as SVG.
//!
//! Text stays text, in a font that the file brings along; it is as wide as it was measured also where a
//! reader takes another font. Signs of music are outlines, each written once.

use std::collections::BTreeSet;
use std::fmt::Write;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

use crate::picture::page::{
    Dash, Face, Item, Line, MusicSign, Outline, Page, Pages, Segment, Shade, SignKind, Text,
};

/// One page as a file.
#[must_use]
pub fn page(page: &Page, title: &str) -> String {
    file(std::slice::from_ref(page), title)
}

/// Pages as one file, one below the other.
#[must_use]
pub fn pages(pages: &Pages) -> String {
    file(&pages.pages, &pages.title)
}

fn file(pages: &[Page], title: &str) -> String {
    let size = |page: &Page| page.paper.size_mm();
    let width = pages.iter().map(|page| size(page).0).fold(0.0, f64::max);
    let height: f64 = pages.iter().map(|page| size(page).1).sum();
    let mut used = Used::default();
    pages.iter().for_each(|page| used.look(&page.items));
    let (w, h) = (number(width), number(height));
    let mut svg = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" \
         xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"{w}mm\" height=\"{h}mm\" \
         viewBox=\"0 0 {w} {h}\">\n<title>{}</title>\n",
        escaped(title)
    );
    svg += &used.fonts();
    svg += &used.signs();
    let paper = Shade::White;
    let _ = writeln!(svg, "<rect width=\"{w}\" height=\"{h}\" fill=\"{}\"/>", colour(paper));
    let mut top = 0.0;
    for page in pages {
        let _ = writeln!(svg, "<g transform=\"translate(0 {})\">", number(top));
        page.items.iter().for_each(|item| write_item(&mut svg, item));
        svg.push_str("</g>\n");
        top += size(page).1;
    }
    svg + "</svg>\n"
}

/// The faces and the signs that are used, each once.
#[derive(Default)]
struct Used {
    faces: BTreeSet<Face>,
    signs: BTreeSet<SignKind>,
}

impl Used {
    fn look(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Text(text) => drop(self.faces.insert(text.face)),
                Item::Sign(sign) => drop(self.signs.insert(sign.kind)),
                Item::Group { items, .. } => self.look(items),
                Item::Line(_) | Item::Outline(_) => {}
            }
        }
    }

    fn fonts(&self) -> String {
        let mut style = String::new();
        for face in &self.faces {
            let (family, weight) = (face.family(), weight(*face));
            let font = STANDARD.encode(face.bytes());
            let _ = writeln!(
                style,
                "@font-face{{font-family:\"{family}\";font-weight:{weight};\
                 src:url(data:font/ttf;base64,{font})}}"
            );
        }
        if style.is_empty() { style } else { format!("<style>\n{style}</style>\n") }
    }

    fn signs(&self) -> String {
        let mut paths = String::new();
        for sign in &self.signs {
            let (name, path) = (name(*sign), path(&sign.outline()));
            let _ = writeln!(paths, "<path id=\"{name}\" d=\"{path}\"/>");
        }
        if paths.is_empty() { paths } else { format!("<defs>\n{paths}</defs>\n") }
    }
}

fn write_item(svg: &mut String, item: &Item) {
    match item {
        Item::Line(line) => write_line(svg, line),
        Item::Outline(outline) => write_outline(svg, outline),
        Item::Text(text) => write_text(svg, text),
        Item::Sign(sign) => write_sign(svg, sign),
        Item::Group { says, items } => {
            let _ = writeln!(svg, "<g><title>{}</title>", escaped(says));
            items.iter().for_each(|item| write_item(svg, item));
            svg.push_str("</g>\n");
        }
    }
}

fn write_line(svg: &mut String, line: &Line) {
    let [x1, y1, x2, y2] = [line.from.x, line.from.y, line.to.x, line.to.y].map(number);
    let (width, stroke) = (number(line.width_mm), colour(line.shade));
    let dash = match line.dash {
        Dash::Solid => "",
        Dash::Dashed => " stroke-dasharray=\"1 1\"",
    };
    let _ = writeln!(
        svg,
        "<line x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\" stroke=\"{stroke}\" \
         stroke-width=\"{width}\"{dash}/>"
    );
}

fn write_outline(svg: &mut String, outline: &Outline) {
    let fill = outline.fill.map_or_else(|| "none".to_owned(), colour);
    let stroke = outline.stroke.map(|paint| {
        let (stroke, width) = (colour(paint.shade), number(paint.width_mm));
        format!(" stroke=\"{stroke}\" stroke-width=\"{width}\"")
    });
    let (path, stroke) = (path(&outline.segments), stroke.unwrap_or_default());
    let _ = writeln!(svg, "<path d=\"{path}\" fill=\"{fill}\"{stroke}/>");
}

fn write_text(svg: &mut String, text: &Text) {
    let [x, y, size, width] = [text.at.x, text.at.y, text.size_mm, text.width_mm()].map(number);
    let (family, weight, fill) = (text.face.family(), weight(text.face), colour(text.shade));
    let _ = writeln!(
        svg,
        "<text x=\"{x}\" y=\"{y}\" font-family=\"'{family}',sans-serif\" font-weight=\"{weight}\" \
         font-size=\"{size}\" fill=\"{fill}\" textLength=\"{width}\" \
         lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\">{}</text>",
        escaped(&text.text)
    );
}

fn write_sign(svg: &mut String, sign: &MusicSign) {
    let [x, y, space] = [sign.at.x, sign.at.y, sign.space_mm].map(number);
    let (name, fill) = (name(sign.kind), colour(sign.shade));
    let _ = writeln!(
        svg,
        "<use xlink:href=\"#{name}\" transform=\"translate({x} {y}) scale({space})\" \
         fill=\"{fill}\"/>"
    );
}

fn name(sign: SignKind) -> String {
    let name = format!("{sign:?}");
    name.replace('(', "-").replace(')', "").replace("--", "-minus-")
}

fn path(segments: &[Segment]) -> String {
    let mut path = String::new();
    for segment in segments {
        let (letter, points) = match segment {
            Segment::Move(to) => ('M', vec![to]),
            Segment::Line(to) => ('L', vec![to]),
            Segment::Curve(one, other, to) => ('C', vec![one, other, to]),
            Segment::Close => ('Z', Vec::new()),
        };
        let points: Vec<String> =
            points.iter().map(|point| format!("{} {}", number(point.x), number(point.y))).collect();
        path.push(letter);
        path += &points.join(" ");
    }
    path
}

const fn weight(face: Face) -> &'static str {
    match face {
        Face::Plain => "normal",
        Face::Bold => "bold",
    }
}

fn colour(shade: Shade) -> String {
    let level = (shade.lightness() * 255.0).round() as u8;
    format!("#{level:02x}{level:02x}{level:02x}")
}

/// A number to a thousandth, without what it does not need.
fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for char in text.chars() {
        match char {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            // What is no character of XML.
            '\u{0}'..='\u{8}'
            | '\u{b}'
            | '\u{c}'
            | '\u{e}'..='\u{1f}'
            | '\u{fffe}'
            | '\u{ffff}' => {
                escaped.push('\u{fffd}');
            }
            _ => escaped.push(char),
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        assert_eq!(
            [12.0, 0.5, -0.0001, 1.2346, 100.0].map(number),
            ["12", "0.5", "0", "1.235", "100"]
        );
    }

    #[test]
    fn nothing_in_a_text_is_markup() {
        assert_eq!(escaped("<b>&\"\u{1}"), "&lt;b&gt;&amp;&quot;\u{fffd}");
    }

    #[test]
    fn signs_have_names_of_their_own() {
        let names = [-1, 1].map(|by| name(SignKind::Accidental(by)));
        assert_eq!(names, ["Accidental-minus-1", "Accidental-1"]);
    }
}
