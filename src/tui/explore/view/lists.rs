//! What can lie over the explorer: the help page, the tunings, the scales; and the footer.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::finder::{Finder, words_of};
use super::super::{Explore, Over};
use super::line::{below, first_row, write};
use crate::tui::command::{COMMANDS, Command, CommandRow, Section};
use crate::tui::key::Glyphs;
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
            "in a view other places of the pair are dots, and ~ beside a mark is a stretch",
            "a letter without a bracket is left out by the pair; what is underlined stays",
            "string 1, nearest the floor, is on top; › and ‹ say that the neck goes on",
            "fingers: 1 index to 4 little, 0 open; position: the fret of the first finger; mm:",
            "from the lowest fretted fret to the highest; ║ is a capo, ┃ where a string begins",
            "Wide stretches can strain the hand: warm up, rest, and stop when it hurts.",
        ],
    ),
];

impl Explore {
    fn glyphs(&self) -> Glyphs {
        if self.ascii { Glyphs::Ascii } else { Glyphs::Unicode }
    }

    /// The first key of a command of the explorer, as it is labelled; never written in a string.
    pub(in crate::tui::explore) fn key_of(&self, command: Command) -> String {
        let row = COMMANDS.iter().find(|row| row.command == command);
        let key = row.and_then(|row| self.keys.of(row).first());
        key.map(|key| key.label(self.glyphs())).unwrap_or_default()
    }

    /// Every key, made from the live table, as far as it fits what is searched for.
    pub(in crate::tui::explore) fn help_lines(&self, finder: &Finder) -> Vec<Line<'static>> {
        let mut lines = Vec::new();
        for (title, group) in self.help_groups() {
            let all = finder.finds(&title);
            let found = group.into_iter().filter(|(words, _)| all || finder.finds(words));
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
            let lines = rows.map(|row| (words_of(row), self.help_line(row))).collect();
            (section.heading().to_owned(), lines)
        };
        let text = |text: &str| (text.to_owned(), Line::raw(format!("   {text}")));
        let of_notes = |(title, texts): &(&str, &[&str])| {
            ((*title).to_owned(), texts.iter().map(|line| text(line)).collect())
        };
        let problems = self.library.problems().map(|problem| text(&problem.to_string()));
        let problems = ("In your own files, not used".to_owned(), problems.collect());
        let notes = NOTES.iter().map(of_notes);
        Section::ALL.map(of_section).into_iter().chain(notes).chain([problems]).collect()
    }

    /// `z  Z`
    pub(super) fn keys_of(&self, row: &CommandRow) -> String {
        let keys = self.keys.of(row).iter().map(|key| key.label(self.glyphs()));
        keys.collect::<Vec<_>>().join("  ")
    }

    fn help_line(&self, row: &CommandRow) -> Line<'static> {
        Line::from(vec![
            Span::styled(format!("   {:<18}", self.keys_of(row)), self.theme.key),
            Span::raw(row.help),
        ])
    }

    pub(super) fn draw_help(&self, area: Rect, buffer: &mut Buffer, finder: &Finder) {
        let lines = self.help_lines(finder);
        write(buffer, area, &self.field_line(" Every key, or type a word: ", &finder.field));
        let rows = usize::from(area.height.saturating_sub(2));
        let from = finder.at.min(lines.len().saturating_sub(rows));
        for (line, row) in lines.iter().skip(from).take(rows).zip(1..) {
            write(buffer, below(area, row), line);
        }
        let last = (from + rows).min(lines.len());
        let place = format!("lines {}–{last} of {} ", from + 1, lines.len());
        let nothing = lines.is_empty().then(|| "nothing is called so ".to_owned());
        self.draw_list_footer(area, buffer, &nothing.unwrap_or(place));
    }

    pub(super) fn draw_scale_list(&self, area: Rect, buffer: &mut Buffer, marked: usize) {
        let names = self.choices.iter().map(|choice| choice.scale().to_string().chars().count());
        let width = names.max().unwrap_or_default();
        let line = |index: usize, style: Style| {
            let choice = self.choices.get(index)?;
            Some(vec![
                Span::styled(format!("{:<width$}", choice.scale().to_string()), style),
                Span::styled(format!("  {}", spaced(choice.scale().notes())), style),
                Span::styled(format!("  {}", choice.why()), self.theme.muted),
            ])
        };
        let title = format!(" Scales that fit {}", self.read.chord);
        self.draw_list(area, buffer, &title, (marked, self.choices.len()), line);
    }

    /// A list with one line marked; `line` gives what stands after the mark.
    fn draw_list(
        &self,
        area: Rect,
        buffer: &mut Buffer,
        title: &str,
        (marked, count): (usize, usize),
        line: impl Fn(usize, Style) -> Option<Vec<Span<'static>>>,
    ) {
        write(buffer, area, &Line::styled(title.to_owned(), self.theme.title));
        let rows = area.height.saturating_sub(2);
        let below = Rect { y: area.y.saturating_add(1), height: rows, ..area };
        self.draw_rows(below.intersection(area), buffer, (marked, count), line);
        self.draw_list_footer(area, buffer, &format!("{} of {count} ", marked + 1));
    }

    /// As many lines of a list as there are rows, the marked one among them.
    pub(super) fn draw_rows(
        &self,
        area: Rect,
        buffer: &mut Buffer,
        (marked, count): (usize, usize),
        line: impl Fn(usize, Style) -> Option<Vec<Span<'static>>>,
    ) {
        let rows = usize::from(area.height);
        let from = first_row(marked, rows, count);
        for (index, row) in (from..count).take(rows).zip(0..) {
            let chosen = index == marked;
            let style = if chosen { self.theme.chosen } else { self.theme.text };
            let mut spans = vec![Span::styled(if chosen { " ▸ " } else { "   " }, style)];
            spans.extend(line(index, style).unwrap_or_default());
            write(buffer, below(area, row), &Line::from(spans));
        }
    }

    /// The keys of a list at the left, where one is in it at the right.
    pub(super) fn draw_list_footer(&self, area: Rect, buffer: &mut Buffer, place: &str) {
        let footer = below(area, area.height.saturating_sub(1));
        let width = place.chars().count() as u16;
        let room = footer.width.saturating_sub(width);
        self.draw_footer(Rect { width: room, ..footer }, buffer);
        let right = Rect { x: footer.x + room, width: footer.width - room, ..footer };
        write(buffer, right, &Line::styled(place.to_owned(), self.theme.muted));
    }

    /// The keys that matter now, as many as fit.
    pub(super) fn draw_footer(&self, area: Rect, buffer: &mut Buffer) {
        let section = match &self.over {
            Over::Chord(_) | Over::Wish(_) => Section::Typing,
            Over::Scales(_) => Section::List,
            Over::Help(_) | Over::Palette(_) | Over::Tunings(_) => Section::Picking,
            Over::Nothing => Section::Explore,
        };
        let reading = matches!(self.over, Over::Help(_));
        let matters = |row: &&CommandRow| {
            let there = row.section == section
                || row.section == Section::Everywhere && section == Section::Explore;
            let idle = match row.command {
                Command::Accept => reading,
                Command::Suggestion => matches!(self.over, Over::Wish(_)),
                _ => false,
            };
            there && !row.label.is_empty() && !idle
        };
        let mut line = Line::raw(" ");
        for row in COMMANDS.iter().filter(matters) {
            let Some(key) = self.keys.of(row).first() else { continue };
            let key = key.label(self.glyphs());
            let width = key.chars().count() + 1 + row.label.chars().count();
            if line.width() + width > usize::from(area.width) {
                break;
            }
            line.push_span(Span::styled(key, self.theme.key));
            line.push_span(Span::styled(format!(" {}", row.label), self.theme.muted));
            line.push_span(Span::raw("  "));
        }
        if !area.is_empty() {
            buffer.set_line(area.x, area.y, &line, area.width);
        }
    }
}
