//! Drawing the changes screen on any number of cells.

mod bars;
mod charts;
mod head;
mod neck;
mod told;

use std::borrow::Cow;

use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::Line;
use ratatui::widgets::{Paragraph, Widget, Wrap};

use super::drawing::Drawing;
use crate::picture::NeckPicture;
use crate::tui::command::{
    COMMANDS, ChangesCommand, Command, CommandRow, ProgramCommand, Section, TypingCommand,
};
use crate::tui::widget::{Footer, NeckWidget, below, indented};

/// Head (two rows) and footer.
const FRAME_ROWS: u16 = 2 + 1;
/// A bar has a row for its chords and one for their pairs.
const BAR_ROWS: u16 = 2;
/// The fewest columns in which bars can be read.
const LEAST_COLUMNS: u16 = 40;
/// Words about the hand: its shape, how the fingers go, the pair now, the next one.
const WORD_ROWS: u16 = 4;

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

/// Where everything lies.
struct Areas {
    head: Rect,
    bars: Rect,
    rule: Rect,
    neck: Rect,
    words: Rect,
    footer: Rect,
}

impl Drawing<'_> {
    /// Draws the screen; every size is a valid one.
    pub(in crate::tui) fn draw(&self, area: Rect, buffer: &mut Buffer) {
        if let Some(list) = &self.screen.list {
            self.draw_charts(area, buffer, list);
            return;
        }
        let picture = self.picture();
        let Some(areas) = self.areas(area, &picture) else {
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
        let rows = FRAME_ROWS + BAR_ROWS + 1;
        let chord = self.screen.chord();
        let lines = vec![
            Line::styled(
                chord.map(|chord| chord.chord().to_string()).unwrap_or_default(),
                self.shared.theme.title,
            ),
            Line::raw(chord.map(|chord| chord.pair.to_string()).unwrap_or_default()),
            Line::styled(format!("more from {LEAST_COLUMNS}×{rows} on"), self.shared.theme.muted),
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
        Some(self.areas(screen, &self.picture())?.bars)
    }

    /// None where there is no room for one row of bars.
    fn areas(&self, area: Rect, picture: &NeckPicture) -> Option<Areas> {
        let room = area.height.checked_sub(FRAME_ROWS + BAR_ROWS + 1)?;
        if area.width < LEAST_COLUMNS {
            return None;
        }
        let with_neck = picture.height() + 1;
        let neck = if room >= with_neck { with_neck } else { 0 };
        let rows = self.screen.sheet.rows(self.bars_a_row(area.width)).len();
        let shares = Shares::of(room - neck, u16::try_from(rows).unwrap_or(u16::MAX));
        let [head, bars, rule, neck, words, footer] = area.layout(&Layout::vertical([
            Constraint::Length(2),
            Constraint::Length(shares.bars),
            Constraint::Length(neck.min(1)),
            Constraint::Length(neck.saturating_sub(1)),
            Constraint::Fill(1),
            Constraint::Length(1),
        ]));
        Some(Areas { head, bars, rule, neck, words, footer })
    }
}

/// Rows for bars, of those that head, footer, neck, one row of bars and one of words leave.
struct Shares {
    bars: u16,
}

impl Shares {
    fn of(room: u16, rows: u16) -> Shares {
        let wanted = rows.saturating_sub(1);
        // A second row of bars, then all words, then as many bars as there are.
        let second = wanted.min(1).min(room / BAR_ROWS);
        let words = (room - second * BAR_ROWS).min(WORD_ROWS - 1);
        let more = (room - second * BAR_ROWS - words) / BAR_ROWS;
        Shares { bars: BAR_ROWS * (1 + second + more.min(wanted - second)) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rooms_are_shared_out() {
        for room in 0..200 {
            for rows in [0, 1, 2, 3, 8, 250, u16::MAX] {
                let bars = Shares::of(room, rows).bars;
                assert!(bars <= room + BAR_ROWS && bars.is_multiple_of(BAR_ROWS), "{room} {rows}");
                assert!(bars <= BAR_ROWS.saturating_mul(rows.max(1)), "{room} {rows}");
            }
        }
        // At 80×24 a guitar's neck leaves nine rows: four rows of bars, and all words.
        assert_eq!([Shares::of(9, 8).bars, Shares::of(9, 2).bars], [8, 4]);
    }
}
