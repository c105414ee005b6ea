//! Drawing the keepers screen on any number of cells.

mod holds;
mod practice;
mod rows;

use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};

use super::drawing::Drawing;
use super::mode::Mode;
use crate::tui::command::{Command, ExploreCommand, ProgramCommand, TypingCommand};
use crate::tui::gesture::Spot;
use crate::tui::widget::{Footer, ListView, below, broken, cut_to, draw_field, indented, write};

/// Head, headings of the list, and footer.
const FRAME_ROWS: u16 = 1 + 1 + 1;
/// The fewest columns in which the list can be read.
const LEAST_COLUMNS: u16 = 40;
/// What a keeper holds has so many rows, with the line above it, where there is room.
const HOLDS_ROWS: u16 = 7;

/// Where everything lies.
pub(super) struct Areas {
    head: Rect,
    headings: Rect,
    pub(super) list: Rect,
    holds: Rect,
}

impl Drawing<'_> {
    /// Draws the screen; every size is a valid one.
    pub(in crate::tui) fn draw(&self, area: Rect, buffer: &mut Buffer) {
        if let Some(listen) = &self.screen.listen {
            self.draw_listen(listen, area, buffer);
            return;
        }
        if let Mode::Practice(practice) = &self.screen.mode {
            self.draw_practice(area, buffer, practice);
            self.footer().draw(self.footer_area(area), buffer);
            return;
        }
        let Some(areas) = self.areas(area) else {
            self.draw_least(area, buffer);
            return;
        };
        self.draw_head(areas.head, buffer);
        if self.screen.listed.is_empty() {
            self.draw_empty(areas.list, buffer);
        } else {
            self.draw_rows(areas.headings, areas.list, buffer);
        }
        self.draw_holds(areas.holds, buffer);
        self.draw_field(area, buffer);
        self.footer().draw(self.footer_area(area), buffer);
    }

    /// What is typed, and below it what is wrong with it, or what can be typed.
    fn draw_field(&self, area: Rect, buffer: &mut Buffer) {
        let (Some(field), theme) = (&self.screen.field, &self.shared.theme) else { return };
        let area = Rect { height: area.height.saturating_sub(1), ..area };
        let line = field.text.line_within(&field.label(), theme, area.width);
        let (told, style) = match field.mistake() {
            Some(mistake) => (mistake, theme.error),
            None => (field.what.help().to_owned(), theme.muted),
        };
        draw_field(area, buffer, &line, (&told, style), theme);
    }

    /// None where there is no room for a line of the list.
    pub(super) fn areas(&self, area: Rect) -> Option<Areas> {
        let room = area.height.checked_sub(FRAME_ROWS + 1)?;
        if area.width < LEAST_COLUMNS {
            return None;
        }
        // The list comes first, then what the marked keeper holds.
        let holds = if room >= 2 { HOLDS_ROWS.max(room / 2).min(room - 1) } else { 0 };
        let [head, headings, list, holds, _] = area.layout(&Layout::vertical([
            Constraint::Length(1),
            Constraint::Length(1),
            Constraint::Fill(1),
            Constraint::Length(holds),
            Constraint::Length(1),
        ]));
        Some(Areas { head, headings, list, holds })
    }

    /// The lines of the list.
    pub(super) fn lines(&self, area: Rect) -> ListView {
        ListView {
            area,
            marked: self.screen.at,
            count: self.screen.listed.len(),
            pointed_at: self.shared.clicked(Spot::Keeper),
        }
    }

    /// `Keepers   12 kept`
    fn draw_head(&self, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let (all, listed) = (self.shared.keeping.list().len(), self.screen.listed.len());
        let count = match (self.shared.keeping.was_read(), all == listed) {
            (false, _) => String::new(),
            (true, true) => format!("{all} kept"),
            (true, false) => format!("{listed} of {all} kept"),
        };
        let wanted = self.screen.chosen.in_words();
        let count = if wanted.is_empty() { count } else { format!("{count}   {wanted}") };
        let line = Line::from(vec![
            Span::raw(" "),
            Span::styled("Keepers", theme.title),
            Span::styled(format!("   {count}"), theme.muted),
        ]);
        write(buffer, area, &line);
        self.draw_playing(area, buffer);
    }

    /// What is heard, at the right of the head.
    pub(super) fn draw_playing(&self, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        if let Some(told) = self.shared.sound.in_words() {
            let told = format!("▸ {told} ");
            let width = told.chars().count() as u16;
            let right = Rect { x: area.right().saturating_sub(width), width, ..area };
            write(buffer, right.intersection(area), &Line::styled(told, theme.key));
        }
    }

    /// How something is kept, where nothing is.
    fn draw_empty(&self, area: Rect, buffer: &mut Buffer) {
        let keeping = &self.shared.keeping;
        let told = match (keeping.has_folder(), keeping.was_read(), keeping.list().is_empty()) {
            (false, ..) => "There is no folder in which anything could be kept.",
            (true, false, _) => "reading what is kept…",
            (true, true, true) => &self.nothing_kept(),
            (true, true, false) => "No keeper is like that.",
        };
        self.write_lines(indented(area), buffer, broken(told, area.width.saturating_sub(2)));
    }

    /// How something comes to be kept.
    fn nothing_kept(&self) -> String {
        let key = |command| self.shared.key_of(command);
        let keep = key(Command::Program(ProgramCommand::Keep));
        let shape = key(Command::Explore(ExploreCommand::KeepShape));
        format!(
            "Nothing is kept yet. {keep} on any other screen keeps what is shown there: a pair or its \
             ladder, a line, a tune with its plan; {shape} with the chord and its pairs keeps the shape \
             in hand. In the shell, fretloom keepers add Dm7 keeps a pair."
        )
    }

    fn write_lines(&self, area: Rect, buffer: &mut Buffer, lines: Vec<String>) {
        let lines = cut_to(lines, area.height.into());
        for (line, row) in lines.into_iter().zip(0..area.height) {
            write(buffer, below(area, row), &Line::styled(line, self.shared.theme.text));
        }
    }

    /// On a screen that is too small: the keeper that is marked.
    fn draw_least(&self, area: Rect, buffer: &mut Buffer) {
        if self.screen.field.is_some() {
            self.draw_field(area, buffer);
            return;
        }
        let title = self.screen.marked(self.shared).map(|keeper| keeper.title());
        let more = format!("more from {LEAST_COLUMNS}×{} on", FRAME_ROWS + 1);
        let lines = broken(&title.unwrap_or_else(|| "Keepers".to_owned()), area.width);
        let lines = lines.into_iter().chain(broken(&more, area.width)).collect();
        self.write_lines(area, buffer, lines);
    }

    /// The keys that matter now.
    pub(super) fn footer(&self) -> Footer<'_> {
        let idle = match self.screen.field {
            Some(_) => Command::Typing(TypingCommand::Suggestion),
            None => Command::Program(ProgramCommand::Keepers),
        };
        self.shared.footer(self.screen.section(), Some(idle))
    }

    /// The row of the footer.
    pub(super) fn footer_area(&self, screen: Rect) -> Rect {
        below(screen, screen.height.saturating_sub(1))
    }
}
