//! Drawing the explorer on any number of cells.

mod lists;
mod top;

use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::{Paragraph, Widget, Wrap};

use super::{Explore, Over};
use crate::answer::{PairAnswer, ShapeAnswer};
use crate::cli::inversion;
use crate::tui::neck::NeckPicture;

/// How much there is room for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum SizeClass {
    /// Not even the neck of a few frets: the chord, the pair and a word about it.
    TooSmall,
    /// 80×24 and about: everything of the main job.
    Full,
    /// Room beside the pairs for the scales.
    Wide,
}

impl SizeClass {
    const LEAST: (u16, u16) = (40, 14);
    const WIDE: u16 = 110;

    fn of(area: Rect) -> SizeClass {
        let (columns, rows) = SizeClass::LEAST;
        match area {
            Rect { width, height, .. } if width < columns || height < rows => SizeClass::TooSmall,
            Rect { width, .. } if width >= SizeClass::WIDE => SizeClass::Wide,
            _ => SizeClass::Full,
        }
    }
}

/// Rows under the list of pairs for what the chosen one says.
const DETAIL_ROWS: u16 = 3;

impl Explore {
    /// Draws the state; every size is a valid one.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer) {
        let area = area.intersection(buffer.area);
        if area.is_empty() {
            return;
        }
        match &self.over {
            Over::Help(from) => self.draw_help(area, buffer, *from),
            Over::Tunings(marked) => self.draw_tunings(area, buffer, *marked),
            _ if SizeClass::of(area) == SizeClass::TooSmall => self.draw_least(area, buffer),
            _ => self.draw_explorer(area, buffer),
        }
        if self.ascii {
            crate::glyphs::make_ascii(buffer);
        }
    }

    fn draw_least(&self, area: Rect, buffer: &mut Buffer) {
        let (columns, rows) = SizeClass::LEAST;
        let pair = self.pair().map(|pair| format!("{} & {}", pair.first.name, pair.second.name));
        let lines = vec![
            Line::styled(self.read.chord.to_string(), self.theme.title),
            Line::raw(pair.unwrap_or_default()),
            Line::styled(format!("more from {columns}×{rows} on"), self.theme.muted),
        ];
        Paragraph::new(lines).wrap(Wrap { trim: true }).render(area, buffer);
    }

    fn draw_explorer(&self, area: Rect, buffer: &mut Buffer) {
        let picture = self.picture();
        let head_rows = self.head_rows(area.width);
        let around = head_rows + 1 + DETAIL_ROWS + 1 + 1 + 1;
        let room = area.height.saturating_sub(around + picture.height());
        let pairs = (self.pairs.pairs.len() as u16).clamp(1, room.max(1));
        let [head, list, detail, rule, neck, shape, ladder, footer] =
            area.layout(&Layout::vertical([
                Constraint::Length(head_rows),
                Constraint::Length(1 + pairs),
                Constraint::Length(DETAIL_ROWS),
                Constraint::Length(1),
                Constraint::Length(picture.height()),
                Constraint::Length(1),
                Constraint::Fill(1),
                Constraint::Length(1),
            ]));
        self.draw_head(head, buffer);
        self.draw_choices(list, buffer);
        self.draw_detail(detail, buffer);
        self.draw_rule(rule, buffer, &picture);
        picture.draw(indented(neck), buffer, &self.theme);
        self.draw_shape(shape, buffer);
        self.draw_ladder(ladder, buffer);
        self.draw_footer(footer, buffer);
    }

    /// The pairs and, where there is room, the scales beside them.
    fn draw_choices(&self, area: Rect, buffer: &mut Buffer) {
        if SizeClass::of(Rect { height: u16::MAX, ..area }) != SizeClass::Wide {
            self.draw_pairs(area, buffer);
            return;
        }
        let [pairs, scales] =
            area.layout(&Layout::horizontal([Constraint::Length(62), Constraint::Fill(1)]));
        self.draw_pairs(pairs, buffer);
        self.draw_scales(scales, buffer);
    }

    /// The neck as it is to be drawn now.
    pub(super) fn picture(&self) -> NeckPicture {
        let mut picture = NeckPicture::new(self.neck(), &self.places, self.labels)
            .between(self.first_fret, u8::MAX);
        if let Some(rung) = self.rung_in_hand() {
            picture = picture.holding(&rung.shape);
        }
        match self.strings() {
            Some(set) if self.locked => picture.locked_to(set),
            _ => picture,
        }
    }

    /// The columns that the neck has at the size last told of.
    pub(super) fn neck_width(&self) -> u16 {
        indented(Rect::new(0, 0, self.columns, 1)).width
    }

    /// `[G] & (A)   labels note   strings 4-3-2   frets 1–11 of 22 ────`
    fn draw_rule(&self, area: Rect, buffer: &mut Buffer, picture: &NeckPicture) {
        let muted = self.theme.muted;
        let geometry = picture.geometry(indented(area).width);
        let last = self.neck().tuning().last_fret();
        let mut spans = vec![Span::styled("─ ", muted)];
        if let Some(pair) = self.pair() {
            spans.push(Span::styled(format!("[{}]", pair.first.name), self.theme.first));
            spans.push(Span::styled(" & ", muted));
            spans.push(Span::styled(format!("({})", pair.second.name), self.theme.second));
        }
        let lock = if self.locked { "locked to" } else { "strings" };
        let set = self.strings().map(|set| set.to_string()).unwrap_or_default();
        let (first, shown) = (geometry.first_shown(), geometry.last_shown());
        spans.push(Span::styled(
            format!(
                " ─ {lock} {set} ─ shown: {} ─ frets {first}–{shown} of {last} ",
                self.labels.word()
            ),
            muted,
        ));
        let line = Line::from(spans);
        let used = line.width() as u16;
        buffer.set_line(area.x, area.y, &line, area.width);
        let rest = "─".repeat(usize::from(area.width.saturating_sub(used)));
        buffer.set_stringn(
            area.x.saturating_add(used),
            area.y,
            rest,
            usize::from(area.width.saturating_sub(used)),
            muted,
        );
    }

    /// The shape in hand in words.
    fn draw_shape(&self, area: Rect, buffer: &mut Buffer) {
        let Some(rung) = self.rung_in_hand() else {
            let none = Line::styled(" no shape of this pair on these strings", self.theme.muted);
            buffer.set_line(area.x, area.y, &none, area.width);
            return;
        };
        let shape = self.shape_answer(rung);
        let style = if self.is_first(&shape) { self.theme.first } else { self.theme.second };
        let fingers = match &shape.fingers {
            Some(fingers) => format!("fingers {}", dashed(fingers)),
            None => "beyond one hand".to_owned(),
        };
        let line = Line::from(vec![
            Span::raw(" "),
            Span::styled(format!("{} ", self.bracketed(&shape)), style),
            Span::raw(format!(
                "{} · frets {} · {fingers} · {:.0} mm · position {}",
                inversion(shape.inversion, shape.by_name_only),
                dashed(&shape.frets),
                shape.stretch_mm,
                rung.shape.position(),
            )),
        ]);
        buffer.set_line(area.x, area.y, &line, area.width);
    }

    /// Every rung of the ladder, where there is room for it.
    fn draw_ladder(&self, area: Rect, buffer: &mut Buffer) {
        let Some(set) = self.strings().filter(|_| area.height > 1) else { return };
        let mut spans = vec![Span::styled(format!("strings {set}, going up:  "), self.theme.muted)];
        for (index, rung) in self.ladder.rungs().iter().enumerate() {
            let shape = self.shape_answer(rung);
            let of_triad = if self.is_first(&shape) { self.theme.first } else { self.theme.second };
            let (mark, style) = if index == self.rung {
                ("▸", of_triad.patch(self.theme.held))
            } else {
                ("", of_triad)
            };
            let text = format!("{mark}{}\u{a0}{}", self.bracketed(&shape), dashed(&shape.frets));
            spans.push(Span::styled(text, style));
            spans.push(Span::raw("  "));
        }
        let [_, below] =
            area.layout(&Layout::vertical([Constraint::Length(1), Constraint::Fill(1)]));
        Paragraph::new(Line::from(spans)).wrap(Wrap { trim: true }).render(indented(below), buffer);
    }

    fn is_first(&self, shape: &ShapeAnswer) -> bool {
        self.pair().is_some_and(|pair: &PairAnswer| pair.first.name == shape.triad)
    }

    /// `[G]` or `(A)`, as on the neck.
    fn bracketed(&self, shape: &ShapeAnswer) -> String {
        if self.is_first(shape) {
            format!("[{}]", shape.triad)
        } else {
            format!("({})", shape.triad)
        }
    }
}

fn dashed(numbers: &[u8]) -> String {
    numbers.iter().map(ToString::to_string).collect::<Vec<_>>().join("-")
}

/// One column in from the left.
fn indented(area: Rect) -> Rect {
    let by = area.width.min(1);
    Rect { x: area.x + by, width: area.width - by, ..area }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_fall_into_three_classes() {
        let class = |width, height| SizeClass::of(Rect::new(0, 0, width, height));
        assert_eq!(class(0, 0), SizeClass::TooSmall);
        assert_eq!(class(39, 60), SizeClass::TooSmall);
        assert_eq!(class(200, 13), SizeClass::TooSmall);
        assert_eq!(class(40, 14), SizeClass::Full);
        assert_eq!(class(80, 24), SizeClass::Full);
        assert_eq!(class(109, 60), SizeClass::Full);
        assert_eq!(class(110, 24), SizeClass::Wide);
    }
}
