//! The help page: every key, made from the live tables, and what else is to be said.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use super::overlay::Overlay;
use super::state::Program;
use crate::library::Problem;
use crate::tui::command::{COMMANDS, CommandRow, ListCommand, Section};
use crate::tui::gesture::{GESTURES, Gesture};
use crate::tui::widget::{Search, below, broken, list_rows, moved, write};

/// A heading, and under it lines, each with the words that it is found by.
struct Group {
    title: String,
    lines: Vec<(String, Line<'static>)>,
}

impl Program {
    pub(super) fn obey_in_help(&mut self, command: ListCommand) {
        let page = self.page_rows();
        let Some(Overlay::Help(search)) = &self.overlay else { return };
        let shown = usize::from(self.shared.size.height.saturating_sub(2));
        let last = self.help_lines(search).len().saturating_sub(shown);
        let Some(Overlay::Help(search)) = &mut self.overlay else { return };
        match command {
            ListCommand::Cancel if search.empty() => {}
            ListCommand::Cancel | ListCommand::Accept => self.overlay = None,
            // A window that has grown may show the end of a page that stood lower.
            ListCommand::Down | ListCommand::Up | ListCommand::PageDown | ListCommand::PageUp => {
                search.at = moved(search.at.min(last), command, page).min(last);
            }
        }
    }

    /// How many lines one goes on with a page: those in view but two, which stay.
    pub(super) fn page_rows(&self) -> usize {
        usize::from(self.shared.size.height.saturating_sub(4)).max(1)
    }

    /// The page as far as it fits what is searched for: a heading that fits brings all its lines.
    fn help_lines(&self, search: &Search) -> Vec<Line<'static>> {
        let mut lines = Vec::new();
        for group in self.help_groups() {
            let all = search.finds(&group.title);
            let found = group.lines.into_iter().filter(|(words, _)| all || search.finds(words));
            let found: Vec<Line<'static>> = found.map(|(_, line)| line).collect();
            if !found.is_empty() {
                let title = format!(" {}", group.title);
                lines.push(Line::styled(title, self.shared.theme.title));
                lines.extend(found);
                lines.push(Line::default());
            }
        }
        lines.pop();
        lines
    }

    fn help_groups(&self) -> impl Iterator<Item = Group> {
        let sections = Section::ALL.into_iter().map(|section| self.keys_group(section));
        let notes = self.screens.notes().iter().map(|(title, texts)| Group {
            title: (*title).to_owned(),
            lines: texts.iter().map(|line| text_line(line)).collect(),
        });
        let problems = [self.problems_group()].into_iter();
        problems.chain(sections).chain([self.mouse_group()]).chain(notes)
    }

    fn problems_group(&self) -> Group {
        let of_problem = |problem: &Problem| {
            let whole = problem.to_string();
            let lines = broken(&whole, self.shared.size.width.saturating_sub(4));
            lines.into_iter().map(|line| (whole.clone(), text_line(&line).1)).collect::<Vec<_>>()
        };
        Group {
            title: "In your own files, not used; fretloom check prints it".to_owned(),
            lines: self.shared.library.problems().flat_map(of_problem).collect(),
        }
    }

    /// The commands of a section. The own section of a screen behind says nothing; what it lists
    /// of the commands of every screen is then said with those.
    fn keys_group(&self, section: Section) -> Group {
        let own = self.screens.own_section();
        let is_hidden = |section: Section| section.is_of_screen() && section != own;
        let rows = COMMANDS.iter().filter(|row| {
            let listed = if is_hidden(row.listed) { row.section } else { row.listed };
            listed == section && !is_hidden(section)
        });
        let line = |row: &CommandRow| (row.words(), self.help_line(&self.keys_of(row), row.help));
        Group { title: section.heading().to_owned(), lines: rows.map(line).collect() }
    }

    /// What the mouse does on the screen in front, from its table.
    fn mouse_group(&self) -> Group {
        let own = self.screens.own_section();
        let rows = GESTURES.iter().filter(|row| row.spot.screen().is_none_or(|of| of == own));
        let line = |row: &Gesture| {
            let label = row.label();
            (format!("{label} {}", row.help), self.help_line(&label, row.help))
        };
        Group { title: Gesture::HEADING.to_owned(), lines: rows.map(line).collect() }
    }

    /// The keys of a command: `z  Z`.
    pub(super) fn keys_of(&self, row: &CommandRow) -> String {
        let keys = self.shared.keys.of(row).iter().map(|key| key.label(self.shared.glyphs));
        keys.collect::<Vec<_>>().join("  ")
    }

    /// What is pressed, clicked or turned, and what that does.
    fn help_line(&self, gesture: &str, help: &'static str) -> Line<'static> {
        let gesture = Span::styled(format!("   {gesture:<20}"), self.shared.theme.key);
        Line::from(vec![gesture, Span::raw(help)])
    }

    pub(super) fn draw_help(&self, area: Rect, buffer: &mut Buffer, search: &Search) {
        let lines = self.help_lines(search);
        let field = search.field.line(" Every key, or type a word: ", &self.shared.theme);
        write(buffer, area, &field);
        let rows = list_rows(area);
        let top = help_top(rows, search, lines.len());
        for (line, row) in lines.iter().skip(top).zip(0..rows.height) {
            write(buffer, below(rows, row), line);
        }
        if let Some(overlay) = &self.overlay {
            self.draw_list_footer(area, buffer, overlay);
        }
    }

    /// `lines 1–22 of 95`
    pub(super) fn place_in_help(&self, area: Rect, search: &Search) -> String {
        let count = self.help_lines(search).len();
        if count == 0 {
            return "nothing has that name ".to_owned();
        }
        let rows = list_rows(area);
        let top = help_top(rows, search, count);
        let last = (top + usize::from(rows.height)).min(count);
        format!("lines {}–{last} of {count} ", top + 1)
    }
}

/// A line of text with the words that it is found by.
fn text_line(text: &str) -> (String, Line<'static>) {
    (text.to_owned(), Line::raw(format!("   {text}")))
}

/// The help line on top. A window that has grown shows the last line at its end.
fn help_top(rows: Rect, search: &Search, count: usize) -> usize {
    search.at.min(count.saturating_sub(usize::from(rows.height)))
}
