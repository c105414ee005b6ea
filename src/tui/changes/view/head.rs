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

    /// `Em6   E Dorian   i of E minor   wished: guide tones · plan 1 of 8, 4 pairs`. What is wished gives
    /// way to what the chord does, and so does the plan.
    fn draw_chord(&self, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let mut line = Line::raw(" ");
        if let Some(chord) = self.screen.chord() {
            line.push_span(Span::styled(chord.chord().to_string(), theme.title));
            let settled = chord.settled.as_ref().is_some_and(|settled| settled.scale.is_some());
            let mark = if settled { " *" } else { "" };
            line.push_span(Span::raw(format!("   {}{mark}", chord.over().scale())));
            line.push_span(Span::styled(format!("   {}", chord.reading), theme.muted));
        }
        write(buffer, area, &line);
        let room = usize::from(area.width).saturating_sub(line.width() + 2);
        let right = self.right_of_chord().into_iter().find(|right| right.chars().count() < room);
        if let Some(right) = right {
            let width = right.chars().count() as u16 + 1;
            let at = Rect { x: area.right().saturating_sub(width), width, ..area };
            write(buffer, at, &Line::styled(right, theme.muted));
        }
    }

    /// What is wished and which plan it is, the most telling first.
    fn right_of_chord(&self) -> Vec<String> {
        let plan = self.plan_in_words();
        match self.wishes_in_words() {
            None => vec![plan],
            Some(wishes) if plan.is_empty() => vec![wishes, "wished".to_owned()],
            Some(wishes) => {
                let short = format!("wished · {plan}");
                vec![format!("{wishes} · {plan}"), short, wishes, plan, "wished".to_owned()]
            }
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
