//! What can lie over the explorer: the help page and the scales; and where the lines of lists are.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::{Explore, Over};
use crate::library::Problem;
use crate::tui::command::{COMMANDS, Command, CommandRow, Section};
use crate::tui::gesture::{GESTURES, Gesture, Spot};
use crate::tui::key::Glyphs;
use crate::tui::widget::{ListView, Search, below, broken, list_rows, write};
use crate::words::spaced;

/// What the help page says beside the keys.
const NOTES: &[(&str, &[&str])] = &[
    (
        "The order of pairs",
        &[
            "for a pair: two majors, best a step apart; the chord's triad; all its tones;",
            "3rd and 7th; colour, which is three tensions without a rub; one major",
            "against it: rubs; drops, a note that the symbol names; a diminished triad",
            "pairs that the scale spells in thirds stand first; none is hidden",
        ],
    ),
    (
        "On the neck",
        &[
            "[G] is the first triad of the pair, (A) the second; ═ marks the shape in hand",
            "in a view other places of the pair are dots; ~ beside a mark is a stretch",
            "a letter without a bracket is left out by the pair; what is underlined stays",
            "string 1, nearest the floor, is on top; › and ‹ say that the neck goes on",
            "║ is a capo, ┃ where a string begins",
            "fingers: 1 index to 4 little, 0 open; position: the fret of the first finger",
            "mm: from the lowest fretted fret to the highest",
            "Wide stretches can strain the hand: warm up, rest, and stop when it hurts.",
        ],
    ),
];

impl Explore {
    pub(super) fn glyphs(&self) -> Glyphs {
        if self.ascii { Glyphs::Ascii } else { Glyphs::Unicode }
    }

    /// The first key of a command of the explorer, as it is labelled; never written in a string.
    pub(in crate::tui::explore) fn key_of(&self, command: Command) -> String {
        let row = COMMANDS.iter().find(|row| row.command == command);
        let key = row.and_then(|row| self.keys.of(row).first());
        key.map(|key| key.label(self.glyphs())).unwrap_or_default()
    }

    /// Every key, made from the live table, as far as it fits what is searched for.
    pub(in crate::tui::explore) fn help_lines(&self, search: &Search) -> Vec<Line<'static>> {
        let mut lines = Vec::new();
        for (title, group) in self.help_groups() {
            let all = search.finds(&title);
            let found = group.into_iter().filter(|(words, _)| all || search.finds(words));
            let found: Vec<Line<'static>> = found.map(|(_, line)| line).collect();
            if !found.is_empty() {
                lines.push(Line::styled(format!(" {title}"), self.theme.title));
                lines.extend(found);
                lines.push(Line::default());
            }
        }
        lines.pop();
        lines
    }

    /// The headings of the help page, and under each its lines with the words they are found by.
    fn help_groups(&self) -> Vec<(String, Vec<(String, Line<'static>)>)> {
        let of_section = |section: Section| {
            let rows = COMMANDS.iter().filter(|row| row.section == section);
            let line =
                |row: &CommandRow| (row.words(), self.help_line(&self.keys_of(row), row.help));
            (section.heading().to_owned(), rows.map(line).collect())
        };
        let text = |text: &str| (text.to_owned(), Line::raw(format!("   {text}")));
        let of_notes = |(title, texts): &(&str, &[&str])| {
            ((*title).to_owned(), texts.iter().map(|line| text(line)).collect())
        };
        let problem = |problem: &Problem| {
            let whole = problem.to_string();
            let lines = broken(&whole, self.columns.saturating_sub(4));
            lines.into_iter().map(|line| (whole.clone(), text(&line).1)).collect::<Vec<_>>()
        };
        let problems = self.library.problems().flat_map(problem).collect();
        let problems =
            ("In your own files, not used; fretloom check prints it".to_owned(), problems);
        let notes = NOTES.iter().map(of_notes);
        let mouse = [self.gesture_group()];
        let sections = Section::ALL.map(of_section).into_iter();
        [problems].into_iter().chain(sections).chain(mouse).chain(notes).collect()
    }

    /// What the mouse does, from its table.
    fn gesture_group(&self) -> (String, Vec<(String, Line<'static>)>) {
        let line = |row: &Gesture| {
            let label = row.label();
            (format!("{label} {}", row.help), self.help_line(&label, row.help))
        };
        (Gesture::HEADING.to_owned(), GESTURES.iter().map(line).collect())
    }

    /// `z  Z`
    pub(super) fn keys_of(&self, row: &CommandRow) -> String {
        let keys = self.keys.of(row).iter().map(|key| key.label(self.glyphs()));
        keys.collect::<Vec<_>>().join("  ")
    }

    /// What is pressed, clicked or turned, and what that does.
    fn help_line(&self, gesture: &str, help: &'static str) -> Line<'static> {
        let gesture = Span::styled(format!("   {gesture:<20}"), self.theme.key);
        Line::from(vec![gesture, Span::raw(help)])
    }

    pub(super) fn draw_help(&self, area: Rect, buffer: &mut Buffer, search: &Search) {
        let lines = self.help_lines(search);
        write(buffer, area, &search.field.line(" Every key, or type a word: ", &self.theme));
        let rows = list_rows(area);
        let top = help_top(rows, search, lines.len());
        for (line, row) in lines.iter().skip(top).zip(0..rows.height) {
            write(buffer, below(rows, row), line);
        }
        self.draw_list_footer(area, buffer);
    }

    /// `lines 1–22 of 95`
    pub(super) fn place_in_help(&self, screen: Rect, search: &Search) -> String {
        let count = self.help_lines(search).len();
        if count == 0 {
            return "nothing has that name ".to_owned();
        }
        let rows = list_rows(screen);
        let top = help_top(rows, search, count);
        let last = (top + usize::from(rows.height)).min(count);
        format!("lines {}–{last} of {count} ", top + 1)
    }

    pub(super) fn draw_scale_list(&self, area: Rect, buffer: &mut Buffer) {
        let names =
            self.shown.scales.iter().map(|choice| choice.scale().to_string().chars().count());
        let width = names.max().unwrap_or_default();
        let line = |index: usize, style: Style| {
            let choice = self.shown.scales.get(index)?;
            Some(vec![
                Span::styled(format!("{:<width$}", choice.scale().to_string()), style),
                Span::styled(format!("  {}", spaced(choice.scale().notes())), style),
                Span::styled(format!("  {}", choice.why()), self.theme.muted),
            ])
        };
        let title = format!(" Scales that fit {}", self.chosen.chord.read.chord);
        write(buffer, area, &Line::styled(title, self.theme.title));
        if let Some(lines) = self.lines_over(area) {
            lines.draw(buffer, &self.theme, line);
        }
        self.draw_list_footer(area, buffer);
    }

    /// The lines of the list that is laid over the screen; none where there is no such list, or
    /// none of its lines can be marked.
    pub(in crate::tui::explore) fn lines_over(&self, screen: Rect) -> Option<ListView> {
        let (area, marked, count) = match &self.over {
            Over::Scales(marked) => (list_rows(screen), *marked, self.shown.scales.len()),
            Over::Palette(search) => (list_rows(screen), search.at, self.offered(search).len()),
            Over::Tunings(picker) => {
                let [_, list, ..] = self.picker_areas(screen, picker);
                (list, picker.at, picker.offers.len())
            }
            Over::Help(_) | Over::Nothing | Over::Chord(_) | Over::Wish(_) => return None,
        };
        Some(ListView { area, marked, count, pointed_at: self.seen(Spot::Line) })
    }
}

/// The help line on top. A window that has grown shows the last line at its end.
fn help_top(rows: Rect, search: &Search, count: usize) -> usize {
    search.at.min(count.saturating_sub(usize::from(rows.height)))
}
