//! Drawing the line screen on any number of cells.

mod head;
mod neck;
mod phrases;
mod tab;
mod told;

use std::borrow::Cow;

use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::Line;
use ratatui::widgets::{Paragraph, Widget, Wrap};

use super::drawing::Drawing;
use crate::picture::NeckPicture;
use crate::tui::command::{
    COMMANDS, Command, CommandRow, LineCommand, ProgramCommand, Section, TypingCommand,
};
use crate::tui::widget::{Footer, NeckWidget, below, indented};
use tab::Shown;

/// Head (two rows), the note, what it does, footer.
const FRAME_ROWS: u16 = 2 + 1 + 1 + 1;
/// What a large window keeps for tablature and words before each phrase has a row of its own.
const SPARE_ROWS: u16 = 10;
/// The fewest columns in which a bar can be read.
const LEAST_COLUMNS: u16 = 40;

/// Those that are to be found at 80 columns, then the others that have a word for the footer.
fn keys_of_screen() -> Vec<(Command, Cow<'static, str>)> {
    use LineCommand as Own;
    let first = [
        (Command::Program(ProgramCommand::Help), "help"),
        (Command::Line(Own::Play), "play"),
        (Command::Line(Own::EditChords), "chords"),
        (Command::Line(Own::PairNoteUp), "move it"),
        (Command::Line(Own::NextPair), "pair"),
        (Command::Line(Own::NextPattern), "pattern"),
        (Command::Line(Own::ToExplore), "back"),
        (Command::Program(ProgramCommand::Palette), "all"),
        (Command::Line(Own::EditTargets), "aim"),
        (Command::Program(ProgramCommand::Undo), "undo"),
    ];
    let is_heard = |row: &&CommandRow| {
        let is_new = first.iter().all(|(command, _)| *command != row.command);
        row.section.is_heard_with(Section::Line) && !row.label.is_empty() && is_new
    };
    let others = COMMANDS.iter().filter(is_heard).map(|row| (row.command, row.label));
    first.into_iter().chain(others).map(|(command, word)| (command, word.into())).collect()
}

/// Where everything lies.
struct Areas {
    head: Rect,
    tab: Rect,
    rule: Rect,
    neck: Rect,
    note: Rect,
    told: Rect,
    footer: Rect,
}

impl Drawing<'_> {
    /// Draws the screen; every size is a valid one.
    pub(in crate::tui) fn draw(&self, area: Rect, buffer: &mut Buffer) {
        let picture = self.picture();
        let Some(rows) = Rows::of(area, &picture, self.screen.chosen.phrases.len()) else {
            self.draw_least(area, buffer, &picture);
            return;
        };
        let shown = self.shown(rows.tab, area.width);
        let areas = rows.areas(area, &shown);
        self.draw_head(areas.head, buffer);
        self.draw_tab(areas.tab, buffer, &shown);
        self.draw_rule(areas.rule, buffer, &picture);
        NeckWidget::new(&picture, &self.shared.theme).render(indented(areas.neck), buffer);
        self.draw_note(areas.note, buffer);
        self.draw_told(areas.told, buffer);
        if let Some(field) = &self.screen.field {
            self.draw_field(Rect { height: area.height - 1, ..area }, buffer, field);
        }
        self.footer().draw(areas.footer, buffer);
    }

    /// On a screen that is too small: the chords, and the note at the cursor.
    fn draw_least(&self, area: Rect, buffer: &mut Buffer, picture: &NeckPicture) {
        if let Some(field) = &self.screen.field {
            self.draw_field(area, buffer, field);
            return;
        }
        let rows = FRAME_ROWS + least_tab_rows(picture);
        let lines = vec![
            Line::styled(self.screen.chosen.chords.clone(), self.shared.theme.title),
            Line::raw(self.note_in_words()),
            Line::styled(format!("more from {LEAST_COLUMNS}×{rows} on"), self.shared.theme.muted),
        ];
        Paragraph::new(lines).wrap(Wrap { trim: true }).render(area, buffer);
    }

    /// The keys that matter now; a suggestion only where there is one.
    pub(super) fn footer(&self) -> Footer<'_> {
        if self.screen.field.is_none() {
            return self.shared.footer_of(keys_of_screen());
        }
        let offers = self.screen.field.as_ref().and_then(|field| field.suggestion(self.shared));
        let idle = Command::Typing(TypingCommand::Suggestion);
        self.shared.footer(self.screen.section(), Some(idle).filter(|_| offers.is_none()))
    }

    /// The row of the footer.
    pub(super) fn footer_area(&self, screen: Rect) -> Rect {
        below(screen, screen.height.saturating_sub(1))
    }

    /// Where the tablature is, and its lines, for who points at it; none where it is not drawn.
    pub(super) fn tab_in_sight(&self, screen: Rect) -> Option<(Rect, Shown)> {
        let rows = Rows::of(screen, &self.picture(), self.screen.chosen.phrases.len())?;
        self.screen.made()?;
        let shown = self.shown(rows.tab, screen.width);
        Some((rows.areas(screen, &shown).tab, shown))
    }
}

/// How many rows there are for what.
struct Rows {
    /// The chords, the phrase in hand, and the phrases that are written out.
    head: u16,
    /// The most that the tablature may have, and the fewest.
    tab: u16,
    least_tab: u16,
    /// The neck with the line above it; nothing where there is no room for it.
    neck: u16,
}

impl Rows {
    /// None where there is no room for one line of tablature.
    fn of(area: Rect, picture: &NeckPicture, phrases: usize) -> Option<Rows> {
        let least_tab = least_tab_rows(picture);
        let mut room = area.height.checked_sub(FRAME_ROWS + least_tab)?;
        // One row for all of them; a row for each where there are rows to spare.
        let spare = room.saturating_sub(picture.height() + SPARE_ROWS).max(1).min(room);
        let list = u16::try_from(phrases).unwrap_or(u16::MAX).min(spare);
        room -= list;
        let with_neck = picture.height() + 1;
        let neck = if room >= with_neck { with_neck } else { 0 };
        // Rather a second row of words than the numbers of the bars.
        let words = u16::from(room > neck + 1);
        let tab = least_tab + (room - neck).saturating_sub(words);
        (area.width >= LEAST_COLUMNS).then_some(Rows { head: 2 + list, tab, least_tab, neck })
    }

    fn areas(&self, area: Rect, shown: &Shown) -> Areas {
        let [head, tab, rule, neck, note, told, footer] = area.layout(&Layout::vertical([
            Constraint::Length(self.head),
            Constraint::Length(shown.height().clamp(self.least_tab, self.tab)),
            Constraint::Length(self.neck.min(1)),
            Constraint::Length(self.neck.saturating_sub(1)),
            Constraint::Length(1),
            Constraint::Fill(1),
            Constraint::Length(1),
        ]));
        Areas { head, tab, rule, neck, note, told, footer }
    }
}

/// The strings, and what stands above them at least.
fn least_tab_rows(picture: &NeckPicture) -> u16 {
    picture.strings.len() as u16 + 2
}
