//! The shape in hand in words, and the rungs of its ladder.

use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::{Paragraph, Widget, Wrap};

use super::super::Explore;
use super::line::{below, indented, write};
use crate::answer::{PairAnswer, ShapeAnswer};
use crate::tui::command::Command;
use crate::words::{dashed, inversion};

impl Explore {
    /// The shape in hand; below it what the last key has to tell, what the view hides, or why these
    /// fingers.
    pub(super) fn draw_shape(&self, area: Rect, buffer: &mut Buffer) {
        let line = self.shape_line("position");
        let fits = line.width() <= usize::from(area.width);
        write(buffer, below(area, 0), &if fits { line } else { self.shape_line("pos.") });
        let told = match (&self.notice, &self.looked, &self.hand) {
            (Some(notice), ..) => notice.clone(),
            (None, Some(looked), _) => self.call_to_view() + &looked.told,
            (None, None, Some(hand)) => hand.told(),
            (None, None, None) => String::new(),
        };
        write(buffer, below(area, 1), &Line::styled(format!(" {told}"), self.theme.muted));
    }

    /// How the hand comes into a view that shows shapes, and not the one in hand.
    fn call_to_view(&self) -> String {
        let away = self.shape_in_hand().is_some_and(|shape| !self.is_in_view(&shape));
        if away && self.look.shows_shapes() {
            format!("{} brings the hand into view · ", self.key_of(Command::Climb))
        } else {
            String::new()
        }
    }

    /// The shape in hand in words; `position` is the word for that.
    pub(in crate::tui::explore) fn shape_line(&self, position: &str) -> Line<'static> {
        let Some(shape) = self.shape() else {
            let none = if self.pair().is_some() {
                " no shape of this pair on these strings"
            } else {
                " no pair, no shape"
            };
            return Line::styled(none, self.theme.muted);
        };
        let style = if self.is_first(&shape) { self.theme.first } else { self.theme.second };
        let at = self.shape_in_hand().map(|held| held.position().to_string());
        let words = [
            inversion(shape.inversion, shape.by_name_only),
            format!("frets {}{}", dashed(&shape.frets), self.on_other_strings(&shape)),
            format!("{position} {}", at.unwrap_or_default()),
            fingers(&shape),
            stretch(&shape),
        ];
        let words: Vec<String> = words.into_iter().filter(|words| !words.is_empty()).collect();
        Line::from(vec![
            Span::raw(" "),
            Span::styled(format!("{} ", self.bracketed(&shape)), style),
            Span::raw(words.join(" · ")),
        ])
    }

    /// The strings, where they are not those that the ladder climbs.
    fn on_other_strings(&self, shape: &ShapeAnswer) -> String {
        let set = self.shape_in_hand().map(|held| held.string_set());
        if set == self.strings() {
            String::new()
        } else {
            format!(" on {}", dashed(&shape.strings))
        }
    }

    /// Every rung of the ladder, where there is room for it.
    pub(super) fn draw_ladder(&self, area: Rect, buffer: &mut Buffer) {
        let shown = area.height > 1 && self.pair().is_some();
        let Some(set) = self.strings().filter(|_| shown) else { return };
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

/// The fingers, and whether one of them, which then stands twice, lies flat.
fn fingers(shape: &ShapeAnswer) -> String {
    let Some(fingers) = &shape.fingers else { return "beyond one hand".to_owned() };
    let flat = if shape.barre.is_some() { " barre" } else { "" };
    format!("fingers {}{flat}", dashed(fingers))
}

/// How far apart the outer fingers are, and whether that is wide for a hand.
fn stretch(shape: &ShapeAnswer) -> String {
    match (shape.ease, shape.stretch_mm) {
        (_, mm) if mm <= 0.0 => String::new(),
        (fretloom_fretboard::Ease::Wide, mm) => format!("{mm:.0} mm, wide"),
        (_, mm) => format!("{mm:.0} mm"),
    }
}
