//! Drawing the changes screen on any number of cells.

mod bars;
mod charts;
mod head;
mod lists;
mod neck;
mod told;

use std::borrow::Cow;

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::Line;
use ratatui::widgets::{Paragraph, Widget, Wrap};

use super::drawing::Drawing;
use super::layout::{Areas, LEAST_COLUMNS, LEAST_ROWS, neck_rows};
use crate::tui::command::{
    COMMANDS, ChangesCommand, Command, CommandRow, ProgramCommand, Section, TypingCommand,
};
use crate::tui::widget::{Footer, NeckWidget, below, indented};

/// Those that are to be found at 80 columns, then the others that have a word for the footer.
fn keys_of_screen() -> Vec<(Command, Cow<'static, str>)> {
    use ChangesCommand as Own;
    let first = [
        (Command::Program(ProgramCommand::Help), "help"),
        (Command::Changes(Own::Play), "play"),
        (Command::Changes(Own::EditChords), "chords"),
        (Command::Changes(Own::EditBar), "bar"),
        (Command::Changes(Own::NextPair), "pair"),
        (Command::Changes(Own::NextScale), "scale"),
        (Command::Changes(Own::NextStrings), "strings"),
        (Command::Changes(Own::ToExplore), "back"),
        (Command::Program(ProgramCommand::Palette), "all"),
        (Command::Program(ProgramCommand::Undo), "undo"),
    ];
    let is_heard = |row: &&CommandRow| {
        let is_new = first.iter().all(|(command, _)| *command != row.command);
        row.section.is_heard_with(Section::Changes) && !row.label.is_empty() && is_new
    };
    let others = COMMANDS.iter().filter(is_heard).map(|row| (row.command, row.label));
    first.into_iter().chain(others).map(|(command, word)| (command, word.into())).collect()
}

impl Drawing<'_> {
    /// Draws the screen; every size is a valid one.
    pub(in crate::tui) fn draw(&self, area: Rect, buffer: &mut Buffer) {
        if let Some(list) = &self.screen.list {
            self.draw_charts(area, buffer, list);
            return;
        }
        let picture = self.picture();
        let Some(areas) = Areas::of(area, picture.height(), &self.screen.sheet) else {
            self.draw_least(area, buffer);
            return;
        };
        self.draw_head(areas.head, buffer);
        self.draw_bars(areas.bars, buffer);
        if !areas.neck.is_empty() {
            self.draw_rule(areas.rule, buffer, &picture);
            NeckWidget::new(&picture, &self.shared.theme).render(indented(areas.neck), buffer);
        }
        self.draw_words(areas.words, buffer);
        self.draw_lists(areas.lists, buffer);
        if let Some(field) = &self.screen.field {
            self.draw_field(Rect { height: area.height - 1, ..area }, buffer, field);
        }
        self.footer().draw(areas.footer, buffer);
    }

    /// On a screen that is too small: the chord in hand, and its pair.
    fn draw_least(&self, area: Rect, buffer: &mut Buffer) {
        if let Some(field) = &self.screen.field {
            self.draw_field(area, buffer, field);
            return;
        }
        let chord = self.screen.chord();
        let lines = vec![
            Line::styled(
                chord.map(|chord| chord.chord().to_string()).unwrap_or_default(),
                self.shared.theme.title,
            ),
            Line::raw(chord.map(|chord| chord.pair.to_string()).unwrap_or_default()),
            Line::styled(
                format!("more from {LEAST_COLUMNS}×{LEAST_ROWS} on"),
                self.shared.theme.muted,
            ),
        ];
        Paragraph::new(lines).wrap(Wrap { trim: true }).render(area, buffer);
    }

    /// The keys that matter now.
    pub(super) fn footer(&self) -> Footer<'_> {
        if self.screen.field.is_none() {
            return self.shared.footer_of(keys_of_screen());
        }
        let idle = Command::Typing(TypingCommand::Suggestion);
        self.shared.footer(self.screen.section(), Some(idle))
    }

    /// The row of the footer.
    pub(super) fn footer_area(&self, screen: Rect) -> Rect {
        below(screen, screen.height.saturating_sub(1))
    }

    /// Where the bars are, for who points at them; none where they are not drawn.
    pub(super) fn bars_in_sight(&self, screen: Rect) -> Option<Rect> {
        Some(Areas::of(screen, neck_rows(self.shared), &self.screen.sheet)?.bars)
    }
}
