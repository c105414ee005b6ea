//! The head: the tune and the instrument, then the chord in hand; or the field in which something is
//! typed.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use super::super::drawing::Drawing;
use super::super::field::Field;
use crate::glyphs::printable_line;
use crate::tui::widget::{below, draw_field, write};
use crate::words::counted;

impl Drawing<'_> {
    pub(super) fn draw_head(&self, area: Rect, buffer: &mut Buffer) {
        self.draw_tune(below(area, 0), buffer);
        self.draw_chord(below(area, 1), buffer);
    }

    /// What is typed, and below it what is wrong with it, or what can be typed.
    pub(super) fn draw_field(&self, screen: Rect, buffer: &mut Buffer, field: &Field) {
        let theme = &self.shared.theme;
        let line = field.text.line_within(&field.label(), theme, screen.width);
        let mistake = self.shared.notice.clone();
        let mistake = mistake.or_else(|| field.mistake(self.screen.chosen.chart(), self.shared));
        let (told, style) = match mistake {
            Some(mistake) => (mistake, theme.error),
            None => (field.what.help().to_owned(), theme.muted),
        };
        draw_field(screen, buffer, &line, (&told, style), theme);
    }

    /// `Title   in F, ♩=160   ▸ playing, round 2   E A D G B E`
    fn draw_tune(&self, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let chart = self.screen.chosen.chart();
        let title = chart.and_then(|chart| chart.title.clone());
        let title = title.unwrap_or_else(|| "a tune without a name".to_owned());
        let mut line = Line::from(vec![Span::raw(" "), Span::styled(title, theme.title)]);
        let words = [
            chart.and_then(|chart| chart.key).map(|key| format!("in {key}")),
            chart.and_then(|chart| chart.tempo).map(|tempo| format!("♩={:.0}", tempo.a_minute())),
            chart.and_then(|chart| chart.feel.clone()),
            chart.map(|_| counted(self.screen.sheet.bars.len(), "bar")),
            (!self.screen.chosen.melody.get().is_empty()).then(|| "with its melody".to_owned()),
        ];
        let words: Vec<String> = words.into_iter().flatten().collect();
        line.push_span(Span::raw(format!("   {}", words.join(", "))));
        if let Some(file) = self.file_in_words() {
            line.push_span(Span::styled(format!("   {file}"), theme.muted));
        }
        if let Some(told) = self.shared.sound.in_words() {
            line.push_span(Span::styled(format!("   ▸ {told}"), theme.key));
        }
        write(buffer, area, &line);
        self.shared.draw_instrument(area, line.width() as u16, buffer);
    }

    /// `Em6   E Dorian   i of E minor   wished: guide tones · plan 1 of 8, 4 pairs`. What the chord does
    /// gives way to what is wished, and the plan to what the chord does.
    fn draw_chord(&self, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let (mut line, mut does) = (Line::raw(" "), String::new());
        if let Some(chord) = self.screen.chord() {
            line.push_span(Span::styled(chord.chord().to_string(), theme.title));
            let settled = chord.settled.as_ref().is_some_and(|settled| settled.scale.is_some());
            let mark = if settled { " *" } else { "" };
            line.push_span(Span::raw(format!("   {}{mark}", chord.over().scale())));
            does = format!("   {}", chord.reading);
        }
        let room = usize::from(area.width).saturating_sub(line.width() + 2);
        let wishes = self.wishes_in_words();
        let right = match &wishes {
            Some(wishes) => right_of(wishes, &self.plan_in_words(), room),
            None => self.plan_in_words(),
        };
        let columns = |words: &str| words.chars().count();
        if wishes.is_none() || columns(&does) + columns(&right) < room {
            line.push_span(Span::styled(does, theme.muted));
        }
        write(buffer, area, &line);
        let width = columns(&right) as u16 + 1;
        if line.width() as u16 + width < area.width {
            let at = Rect { x: area.right().saturating_sub(width), width, ..area };
            write(buffer, at, &Line::styled(right, theme.muted));
        }
    }

    /// `wished: guide tones, never B@5.1`; none where nothing is.
    fn wishes_in_words(&self) -> Option<String> {
        let wishes = &self.screen.chosen.wishes;
        (!wishes.are_none()).then(|| format!("wished: {wishes}"))
    }

    /// `two-doors.toml`; `two-doors.toml, changed`
    fn file_in_words(&self) -> Option<String> {
        let (from, chart) = (self.screen.chosen.from.as_ref()?, self.screen.chosen.chart.as_ref()?);
        let name = from.file_name()?.to_string_lossy();
        let changed = if self.screen.files.holds(from, chart) { "" } else { ", changed" };
        Some(format!("{}{changed}", printable_line(&name)))
    }

    /// `plan 1 of 8, 4 pairs`; `planning…`
    fn plan_in_words(&self) -> String {
        if self.screen.plans.is_waiting() {
            return "planning…".to_owned();
        }
        let Some(plan) = self.screen.plan() else { return String::new() };
        let pairs = counted(plan.pairs.len(), "pair");
        match self.screen.plans.number() {
            0 | 1 => pairs,
            count => format!("plan {} of {count}, {pairs}", self.screen.chosen.plan + 1),
        }
    }
}

/// What is wished and which plan it is, in so many columns: rather a part of the wishes than none.
fn right_of(wishes: &str, plan: &str, room: usize) -> String {
    const BETWEEN: &str = " · ";
    let left = room.saturating_sub(plan.chars().count() + BETWEEN.chars().count() + 1);
    let columns = wishes.chars().count();
    let wishes = match columns <= left {
        true => wishes.to_owned(),
        false => wishes.chars().take(left.saturating_sub(1)).collect::<String>() + "…",
    };
    if plan.is_empty() { wishes } else { format!("{wishes}{BETWEEN}{plan}") }
}
