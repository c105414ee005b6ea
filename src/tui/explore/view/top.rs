//! The upper half: chord, scale, pairs, what the chosen pair says.

use std::fmt::Display;

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use ratatui::widgets::{Paragraph, Widget, Wrap};

use super::super::{Explore, Field, Over};
use super::indented;
use crate::answer::PairAnswer;
use crate::cli::mode_of;
use crate::tui::command::{COMMANDS, Section};
use crate::tui::key::Glyphs;

impl Explore {
    /// Rows of the head: a mistake in the chord field may take more than one to explain.
    pub(super) fn head_rows(&self, width: u16) -> u16 {
        match &self.over {
            Over::Chord(field) => {
                // Words wrap, so a line may hold a little less than its columns.
                let columns = usize::from(width.saturating_sub(10)).max(1);
                1 + reading(field).0.chars().count().div_ceil(columns).clamp(1, 3) as u16
            }
            _ => 2,
        }
    }

    pub(super) fn draw_head(&self, area: Rect, buffer: &mut Buffer) {
        let rest =
            Rect { y: area.y.saturating_add(1), height: area.height.saturating_sub(1), ..area };
        match &self.over {
            Over::Chord(field) => self.draw_field(below(area, 0), rest, buffer, field),
            _ => self.draw_chord([below(area, 0), below(area, 1)], buffer),
        }
    }

    /// The chord, its scale, the instrument; then why this scale, or what was assumed.
    fn draw_chord(&self, [first, second]: [Rect; 2], buffer: &mut Buffer) {
        let mut spans =
            vec![Span::raw(" "), Span::styled(self.read.chord.to_string(), self.theme.title)];
        if let Some(scale) = &self.pairs.scale {
            spans.push(Span::raw(format!("   {}", scale.scale)));
            if let Some(parent) = &scale.parent {
                let mode = mode_of(scale.mode.unwrap_or(1), parent);
                spans.push(Span::styled(format!(", {mode}"), self.theme.muted));
            }
        }
        let line = Line::from(spans);
        let used = line.width() as u16;
        write(buffer, first, &line);
        self.draw_instrument(first, used, buffer);
        let mut notes = Vec::new();
        if let Some(scale) = &self.pairs.scale {
            let (at, count) = (self.scale + 1, self.choices.len());
            notes.push(format!("scale {at} of {count}: {}", scale.why));
        }
        notes.extend(self.read.assumed.iter().map(ToString::to_string));
        write(buffer, second, &Line::styled(format!(" {}", notes.join(" · ")), self.theme.muted));
    }

    /// The instrument at the right, as much of it as there is room for.
    fn draw_instrument(&self, area: Rect, used: u16, buffer: &mut Buffer) {
        let tuning = &self.instrument.tuning;
        let strings = self.neck().tuning().strings();
        let notes: Vec<String> =
            strings.map(|(_, string)| string.note().name().to_string()).collect();
        let inferred = if tuning.octaves_inferred { " (octaves inferred)" } else { "" };
        let short = format!("{}{inferred} ", notes.join(" "));
        let long = format!("{}  {short}", tuning.name);
        let room = area.width.saturating_sub(used + 2);
        let fits = |text: &String| text.chars().count() as u16 <= room;
        let Some(text) = [long, short].into_iter().find(fits) else { return };
        let x = area.right().saturating_sub(text.chars().count() as u16);
        buffer.set_stringn(x, area.y, text, usize::from(room), self.theme.muted);
    }

    /// The chord being typed, with its reading or what is wrong with it.
    fn draw_field(&self, first: Rect, rest: Rect, buffer: &mut Buffer, field: &Field) {
        let chars: Vec<char> = field.text().chars().collect();
        let part = |range: std::ops::Range<usize>| -> String {
            chars.get(range).unwrap_or_default().iter().collect()
        };
        let cursor = field.cursor();
        let under = chars.get(cursor).copied().unwrap_or(' ');
        let text = if field.is_fresh() { self.theme.muted } else { self.theme.text };
        let spans = vec![
            Span::styled(" chord ", self.theme.title),
            Span::styled(part(0..cursor), text),
            Span::styled(under.to_string(), self.theme.held),
            Span::styled(part((cursor + 1).min(chars.len())..chars.len()), text),
        ];
        write(buffer, first, &Line::from(spans));
        let (text, readable) = reading(field);
        let style = if readable { self.theme.muted } else { self.theme.error };
        Paragraph::new(text)
            .style(style)
            .wrap(Wrap { trim: true })
            .render(indented(rest).intersection(buffer.area), buffer);
    }

    /// The list of pairs with its heading; scrolled so that the chosen one is in view.
    pub(super) fn draw_pairs(&self, area: Rect, buffer: &mut Buffer) {
        let pairs = &self.pairs.pairs;
        let widths = columns(pairs);
        let heading = format!(
            "   {}  leaves out  rubs",
            padded("pair", widths[0]) + "  " + &padded("says", widths[1])
        );
        write(buffer, area, &Line::styled(heading, self.theme.muted));
        let rows = usize::from(area.height.saturating_sub(1));
        if pairs.is_empty() && rows > 0 {
            let none = "   this scale holds no pair: s goes to the next scale";
            write(buffer, below(area, 1), &Line::styled(none, self.theme.text));
        }
        let from = first_row(self.pair, rows, pairs.len());
        let shown = pairs.iter().enumerate().skip(from).take(rows);
        for ((index, pair), row) in shown.zip(1..) {
            self.draw_pair(below(area, row), buffer, pair, widths, index == self.pair);
        }
    }

    fn draw_pair(
        &self,
        area: Rect,
        buffer: &mut Buffer,
        pair: &PairAnswer,
        [name_width, says_width]: [usize; 2],
        chosen: bool,
    ) {
        let theme = &self.theme;
        let base = if chosen { theme.chosen } else { theme.text };
        let names = format!("{} & {}", pair.first.name, pair.second.name);
        let [first, second] = [&pair.first, &pair.second].map(|triad| spaced(&triad.degrees));
        let says = first.chars().count() + 3 + second.chars().count();
        let left_out: Vec<String> =
            pair.left_out.iter().map(|out| format!("{} {}", out.note, out.degree)).collect();
        let rubs = if pair.rubs.is_empty() { "none".to_owned() } else { spaced(&pair.rubs) };
        let mut spans = vec![
            Span::styled(if chosen { " ▸ " } else { "   " }, base),
            Span::styled(padded(&names, name_width) + "  ", base),
            Span::styled(first, base.patch(theme.first)),
            Span::styled(" · ", theme.muted),
            Span::styled(second, base.patch(theme.second)),
            Span::raw(" ".repeat(says_width.saturating_sub(says) + 2)),
            Span::styled(padded(&left_out.join(", "), 10), base),
            Span::raw("  "),
            Span::styled(padded(&rubs, 5), base),
        ];
        if !pair.in_thirds && self.is_lettered() {
            spans.push(Span::styled("  by sound", theme.muted));
        }
        write(buffer, area, &Line::from(spans));
    }

    /// Has the scale one letter for each of seven notes, so that it can spell triads in thirds?
    fn is_lettered(&self) -> bool {
        self.pairs.scale.as_ref().is_some_and(|scale| scale.notes.len() == 7)
    }

    /// The scales that fit the chord, beside the pairs.
    pub(super) fn draw_scales(&self, area: Rect, buffer: &mut Buffer) {
        let heading = format!("scales of {}", self.read.chord);
        write(buffer, area, &Line::styled(heading, self.theme.muted));
        let rows = usize::from(area.height.saturating_sub(1));
        let from = first_row(self.scale, rows, self.choices.len());
        let shown = self.choices.iter().enumerate().skip(from).take(rows);
        for ((index, choice), row) in shown.zip(1..) {
            let chosen = index == self.scale;
            let style = if chosen { self.theme.chosen } else { self.theme.text };
            let line = Line::from(vec![
                Span::styled(if chosen { "▸ " } else { "  " }, style),
                Span::styled(choice.scale().to_string(), style),
                Span::styled(format!("  {}", choice.why()), self.theme.muted),
            ]);
            write(buffer, below(area, row), &line);
        }
    }

    /// Why the chosen pair stands where it does, and what else it serves.
    pub(super) fn draw_detail(&self, area: Rect, buffer: &mut Buffer) {
        let Some(pair) = self.pair() else { return };
        let area = indented(area);
        let sentence = Rect { height: area.height.saturating_sub(1), ..area };
        Paragraph::new(pair.why.to_string())
            .style(self.theme.text)
            .wrap(Wrap { trim: true })
            .render(sentence, buffer);
        let serves = pair.also_fits.iter().map(|chord| {
            chord
                .parse::<fretloom_theory::Chord>()
                .map_or_else(|_| chord.clone(), |c| c.to_string())
        });
        let line =
            format!("also serves {}", fitting(serves, usize::from(area.width).saturating_sub(12)));
        write(
            buffer,
            below(area, area.height.saturating_sub(1)),
            &Line::styled(line, self.theme.muted),
        );
    }

    /// The keys that matter now.
    pub(super) fn draw_footer(&self, area: Rect, buffer: &mut Buffer) {
        let sections: &[Section] = match &self.over {
            Over::Chord(_) => &[Section::Chord],
            Over::Help(_) | Over::Tunings(_) => &[Section::List],
            Over::Nothing => &[Section::Everywhere, Section::Explore],
        };
        let glyphs = if self.ascii { Glyphs::Ascii } else { Glyphs::Unicode };
        let rows = sections.iter().flat_map(|section| {
            COMMANDS.iter().filter(move |row| row.section == *section && !row.label.is_empty())
        });
        let mut line = Line::raw(" ");
        for row in rows {
            let Some(key) = self.keys.of(row).first() else { continue };
            let key = key.label(glyphs);
            let width = key.chars().count() + 1 + row.label.chars().count();
            if line.width() + width > usize::from(area.width) {
                break;
            }
            line.push_span(Span::styled(key, self.theme.key));
            line.push_span(Span::styled(format!(" {}", row.label), self.theme.muted));
            line.push_span(Span::raw("  "));
        }
        buffer.set_line(area.x, area.y, &line, area.width);
    }
}

/// How the typed chord reads, or what is wrong with it; and which of the two it is.
fn reading(field: &Field) -> (String, bool) {
    match field.text().parse::<fretloom_theory::ReadChord>() {
        Ok(read) => {
            let mut words = vec![format!("{}: {}", read.chord, spaced(read.chord.tones()))];
            words.extend(read.assumed.iter().map(ToString::to_string));
            (words.join(" · "), true)
        }
        Err(error) => (format!("character {}: expected {}", error.at(), error.expected()), false),
    }
}

/// The widths of the columns for names and for what is said.
fn columns(pairs: &[PairAnswer]) -> [usize; 2] {
    let longest = |lengths: &mut dyn Iterator<Item = usize>| lengths.max().unwrap_or_default();
    let names = longest(
        &mut pairs
            .iter()
            .map(|pair| format!("{} & {}", pair.first.name, pair.second.name).chars().count()),
    );
    let says = longest(&mut pairs.iter().map(|pair| {
        let [first, second] = [&pair.first, &pair.second].map(|triad| spaced(&triad.degrees));
        first.chars().count() + 3 + second.chars().count()
    }));
    [names.max(4), says.max(4)]
}

/// The first row of a list shown in `rows` rows so that the chosen one is in view.
pub(super) fn first_row(chosen: usize, rows: usize, count: usize) -> usize {
    let centred = chosen.saturating_sub(rows / 2);
    centred.min(count.saturating_sub(rows))
}

/// As many words as fit, and a sign where some do not.
fn fitting(words: impl Iterator<Item = String>, width: usize) -> String {
    let mut text = String::new();
    for word in words {
        if text.chars().count() + word.chars().count() + 3 > width {
            return text + "…";
        }
        text = text + &word + "  ";
    }
    if text.is_empty() { "no other common chord".to_owned() } else { text }
}

/// One row of an area.
pub(super) fn below(area: Rect, row: u16) -> Rect {
    Rect { y: area.y.saturating_add(row), height: area.height.saturating_sub(row).min(1), ..area }
}

/// Writes a line on the first row of an area, if it has one; a line that is cut off says so.
pub(super) fn write(buffer: &mut Buffer, area: Rect, line: &Line<'_>) {
    if area.is_empty() {
        return;
    }
    buffer.set_line(area.x, area.y, line, area.width);
    if line.width() > usize::from(area.width) {
        if let Some(last) = buffer.cell_mut((area.right() - 1, area.y)) {
            last.set_symbol("…");
        }
    }
}

fn padded(text: &str, width: usize) -> String {
    format!("{text:width$}")
}

fn spaced<T: Display>(values: impl IntoIterator<Item = T>) -> String {
    values.into_iter().map(|value| value.to_string()).collect::<Vec<_>>().join(" ")
}
