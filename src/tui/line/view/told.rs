//! The note at the cursor, and what the line does, in words.

use fretloom_theory::{Degree, ExplainedBar, Slur};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use ratatui::widgets::{Paragraph, Widget, Wrap};

use super::super::drawing::Drawing;
use super::super::made::Made;
use super::super::state::Outcome;
use super::neck::member_of;
use crate::tui::widget::{below, broken, cut_to, indented, write};

impl Drawing<'_> {
    pub(super) fn draw_note(&self, area: Rect, buffer: &mut Buffer) {
        let line = Line::from(vec![
            Span::raw(" "),
            Span::styled(self.name_of_note(), self.style_of_note(self.screen.cursor)),
            Span::raw(self.rest_of_note()),
        ]);
        write(buffer, area, &line);
    }

    /// `C4, string 3 fret 5 · ♭7 of Dm7 · 5th of F · finger 3 · down`
    pub(super) fn note_in_words(&self) -> String {
        format!("{}{}", self.name_of_note(), self.rest_of_note())
    }

    fn name_of_note(&self) -> String {
        self.screen.note().map(|told| told.named_pitch().to_string()).unwrap_or_default()
    }

    fn rest_of_note(&self) -> String {
        let Some((made, told)) = self.screen.made().zip(self.screen.note()) else {
            return String::new();
        };
        let index = self.screen.cursor;
        let at = made.way().and_then(|way| way.way.notes.get(index));
        let place = at.map(|at| format!("string {} fret {}", at.place.string, at.fret));
        let pinned = self.screen.pinned().map(|_| "pinned".to_owned());
        let chord = made.answer.question.chords.at(told.note.onset);
        let chord = chord.and_then(|chord| chord.over.chord());
        let degree = match chord {
            Some(chord) => format!("{} of {chord}", told.degree),
            None => told.degree.to_string(),
        };
        let of_triad = match member_of(told) {
            Some((triad, member)) => format!("{} of {triad}", ordinal(member)),
            None => "a free note".to_owned(),
        };
        let finger = at.map(|at| format!("finger {}", at.finger.number()));
        let words: Vec<String> = [place, pinned, Some(degree), Some(of_triad), finger]
            .into_iter()
            .flatten()
            .chain(stroke_in_words(made, index))
            .collect();
        format!(" · {}", words.join(" · "))
    }

    /// What the last key has to tell, or what the bar does; where there are rows, the ways to finger
    /// the line and what the other bars do.
    pub(super) fn draw_told(&self, area: Rect, buffer: &mut Buffer) {
        let rows = indented(area);
        let news = match &self.shared.notice {
            Some(notice) => broken(notice, rows.width),
            None => Vec::new(),
        };
        // Where there is one row, what the key has to tell has it alone.
        let has_room = usize::from(rows.height) > news.len() || news.is_empty();
        let made = self.screen.made().filter(|_| has_room);
        let why = made.map(|made| self.why(made, rows)).unwrap_or_default();
        let lines = cut_to(news.into_iter().chain(why).collect(), usize::from(rows.height));
        for (line, row) in lines.into_iter().zip(0..rows.height) {
            write(buffer, below(rows, row), &Line::styled(line, self.shared.theme.muted));
        }
    }

    fn why(&self, made: &Made, area: Rect) -> Vec<String> {
        let told = |bar: &ExplainedBar| bar.why(self.shared.setup.spelling).to_string();
        let here = made.bar_of(self.screen.cursor);
        let mut lines: Vec<String> = unmade(made.answer.unmade_edits).into_iter().collect();
        lines.extend(here.map(|bar| broken(&told(bar), area.width)).unwrap_or_default());
        if usize::from(area.height) <= lines.len() {
            return lines;
        }
        let ways = made.answer.ways.iter().enumerate().map(|(index, way)| {
            let mark = if index == made.way { "▸" } else { " " };
            format!("{mark} way {}: {}", index + 1, way.way.fingering)
        });
        lines.extend(ways);
        let others = made.explanation.bars.iter().filter(|bar| Some(*bar) != here);
        let others =
            others.flat_map(|bar| broken(&format!("bar {}: {}", bar.label, told(bar)), area.width));
        let room = usize::from(area.height).saturating_sub(lines.len());
        lines.extend(others.take(room));
        lines
    }

    /// Why there is no line.
    pub(super) fn draw_refusal(&self, area: Rect, buffer: &mut Buffer) {
        let told = match &self.screen.outcome {
            Outcome::Refused(reason) => reason.as_str(),
            Outcome::NotYet | Outcome::Made(_) => "",
        };
        let lines = Line::styled(told.to_owned(), self.shared.theme.text);
        Paragraph::new(lines).wrap(Wrap { trim: true }).render(indented(area), buffer);
    }
}

/// What of the player's changes the line cannot keep as it is now.
fn unmade(edits: usize) -> Option<String> {
    match edits {
        0 => None,
        1 => Some("one of your changes has no note to go to here".to_owned()),
        count => Some(format!("{count} of your changes have no note to go to here")),
    }
}

/// `root`, `3rd`
fn ordinal(member: Degree) -> String {
    match member.number() {
        1 => "root".to_owned(),
        2 => "2nd".to_owned(),
        3 => "3rd".to_owned(),
        number => format!("{number}th"),
    }
}

fn stroke_in_words(made: &Made, index: usize) -> Option<String> {
    let way = made.way()?;
    match way.slurs.get(index).copied().flatten() {
        Some(Slur::HammerOn) => Some("hammered on".to_owned()),
        Some(Slur::PullOff) => Some("pulled off".to_owned()),
        None => way
            .strokes
            .get(index)
            .copied()
            .flatten()
            .map(|stroke| format!("{} stroke", stroke.word())),
    }
}
