//! Drawing what is asked, what may be answered, and what was right.

use std::borrow::Cow;

use fretloom_fretboard::FretRange;
use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Layout, Position, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use ratatui::widgets::Widget;

use super::super::drawing::Drawing;
use super::super::hit::Hit;
use super::state::{Listen, Question};
use super::words::FORM;
use crate::answer::{EarChoice, EarName, marks, places_of_pair};
use crate::picture::{Labels, NeckPicture};
use crate::tui::command::{Command, ListenCommand, ProgramCommand};
use crate::tui::widget::{Footer, NeckWidget, below, broken, indented, write};

/// The fewest columns in which choices can be read.
const LEAST_COLUMNS: u16 = 40;

/// What is told has so many rows.
const TOLD_ROWS: u16 = 3;

/// Where everything lies while something is asked.
struct Areas {
    head: Rect,
    over: Rect,
    asks: Rect,
    choices: Rect,
    told: Rect,
    neck: Rect,
}

impl Drawing<'_> {
    /// Draws it; every size is a valid one.
    pub(in crate::tui::keepers) fn draw_listen(
        &self,
        listen: &Listen,
        area: Rect,
        buffer: &mut Buffer,
    ) {
        let areas = areas(area, listen);
        self.draw_how_far(listen, areas.head, buffer);
        match listen.now() {
            Some(question) => {
                let (text, title) = (self.shared.theme.text, self.shared.theme.title);
                write(buffer, indented(areas.over), &Line::styled(question.over(), text));
                let again = if listen.round.is_asked_again() { "Once more: " } else { "" };
                let asks = format!("{again}{}", question.asks());
                write(buffer, indented(areas.asks), &Line::styled(asks, title));
                self.draw_choices(listen, areas.choices, buffer);
                self.draw_told(listen, areas.told, buffer);
                if listen.answered.is_some() {
                    self.draw_pair(question, areas.neck, buffer);
                }
            }
            None => self.draw_end(listen, area, buffer),
        }
        self.listen_footer(listen).draw(self.footer_area(area), buffer);
    }

    /// `Listen   3 of 10   2 at once`
    fn draw_how_far(&self, listen: &Listen, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let line = Line::from(vec![
            Span::raw(" "),
            Span::styled("Listen", theme.title),
            Span::styled(format!("   {}", listen.how_far()), theme.muted),
        ]);
        write(buffer, area, &line);
        self.draw_playing(area, buffer);
    }

    /// A line for each choice, with its key; what sounded and what was named are said once it is answered.
    fn draw_choices(&self, listen: &Listen, area: Rect, buffer: &mut Buffer) {
        for (place, choice) in listen.choices().iter().enumerate() {
            let Ok(row) = u16::try_from(place) else { return };
            let key = self.shared.key_of(Command::Listen(ListenCommand::Answer(place)));
            let (sign, style, beside) = self.choice_in_words(listen, place, choice);
            let line = Line::from(vec![
                Span::styled(format!(" {sign} "), style),
                Span::styled(format!("{key:>2}  "), self.shared.theme.key),
                Span::styled(format!("{:<26}", choice.says.to_string()), style),
                Span::styled(beside, self.shared.theme.muted),
            ]);
            write(buffer, below(area, row), &line);
        }
    }

    fn choice_in_words(
        &self,
        listen: &Listen,
        place: usize,
        choice: &EarChoice,
    ) -> (&'static str, Style, String) {
        let theme = &self.shared.theme;
        let right = listen.now().map(|now| now.asked.question.right());
        match listen.answered {
            None => (" ", theme.text, String::new()),
            Some(answered) if right == Some(place) => {
                let named = if answered == place { ", and you named it" } else { "" };
                ("▸", theme.chosen, format!("this sounded{named}"))
            }
            Some(answered) if answered == place => ("✗", theme.text, named_in_words(choice)),
            Some(_) => (" ", theme.muted, String::new()),
        }
    }

    /// What there is to tell, then what was right; before anything was heard, what will sound.
    fn draw_told(&self, listen: &Listen, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let rows = indented(area);
        let notice = self.shared.notice.iter().cloned();
        let told = notice.chain(listen.told());
        let mut lines: Vec<(String, Style)> = told
            .flat_map(|line| broken(&line, rows.width))
            .map(|line| (line, theme.text))
            .collect();
        if lines.is_empty() && listen.answered.is_none() {
            lines.extend(broken(FORM, rows.width).into_iter().map(|line| (line, theme.muted)));
        }
        for ((line, style), row) in lines.into_iter().zip(0..rows.height) {
            write(buffer, below(rows, row), &Line::styled(line, style));
        }
    }

    /// The neck with the pair that sounded, as far as there is room for all strings.
    fn draw_pair(&self, question: &Question, area: Rect, buffer: &mut Buffer) {
        let Some(heard) = question.asked.question.heard() else { return };
        let places = places_of_pair(&question.neck, heard);
        let picture = NeckPicture::new(&question.neck, marks(&places, Labels::Note))
            .with_fret_widths(self.shared.setup.fret_widths);
        let picture = self.shared.lying(picture.within(FretRange::WHOLE_NECK));
        if picture.height() <= area.height {
            NeckWidget::new(&picture, &self.shared.theme).render(indented(area), buffer);
        }
    }

    /// What has become of all questions.
    fn draw_end(&self, listen: &Listen, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let today = self.shared.today();
        let lines = listen.questions.iter().map(|question| question.in_a_line(today));
        let notice = self.shared.notice.iter().map(|told| (told.clone(), theme.text));
        let lines = notice.chain(lines.map(|line| (line, theme.text)));
        for ((line, style), row) in lines.zip(2..area.height.saturating_sub(1)) {
            write(buffer, indented(below(area, row)), &Line::styled(line, style));
        }
    }

    /// The keys that matter now.
    pub(in crate::tui::keepers) fn listen_footer(&self, listen: &Listen) -> Footer<'_> {
        use ListenCommand as Own;
        let go_on = match (listen.now(), listen.answered, listen.was_heard) {
            (None, ..) => "all again, with other sounds",
            (Some(_), Some(_), _) if listen.round.to_come() > 1 => "go on",
            (Some(_), Some(_), _) => "on",
            (Some(_), None, true) => "hear it again",
            (Some(_), None, false) => "hear it",
        };
        let own = |command, word: &'static str| (Command::Listen(command), word);
        let mut entries = vec![own(Own::GoOn, go_on)];
        if listen.answered.is_some() {
            entries.push(own(Own::HearAgain, "what sounded"));
            if listen.piece_of_answer().is_some() {
                entries.push(own(Own::HearMine, "what you named"));
            }
        }
        entries.push(own(Own::ToList, "list"));
        entries.push((Command::Program(ProgramCommand::Help), "help"));
        entries.push((Command::Program(ProgramCommand::Undo), "undo"));
        entries.push((Command::Program(ProgramCommand::Sound), "sound"));
        let entries = entries.into_iter().map(|(command, word)| (command, Cow::Borrowed(word)));
        self.shared.footer_of(entries)
    }

    /// What lies at a place of the window.
    pub(in crate::tui::keepers) fn hit_listen(
        &self,
        listen: &Listen,
        place: Position,
    ) -> Option<Hit> {
        let window = self.shared.window();
        if let Some(key) = self.listen_footer(listen).key_at(self.footer_area(window), place) {
            return Some(Hit::Footer(key));
        }
        let choices = areas(window, listen).choices;
        let row = usize::from(place.y.checked_sub(choices.y)?);
        let is_one = choices.contains(place) && row < listen.choices().len();
        is_one.then_some(Hit::Choice(row))
    }
}

/// What was named, with the pair that would have been right.
fn named_in_words(choice: &EarChoice) -> String {
    match &choice.says {
        EarName::Pair(_) => "you named this".to_owned(),
        EarName::Qualities(_) | EarName::LeftOut(_) => {
            format!("you named this, as in {}", choice.pair.name())
        }
    }
}

/// The choices come first where there is little room; where there is some, lines stay empty before and
/// after them.
fn areas(area: Rect, listen: &Listen) -> Areas {
    let choices = u16::try_from(listen.choices().len()).unwrap_or(u16::MAX);
    let frame = u16::from(area.width >= LEAST_COLUMNS && area.height >= 5 + choices);
    let left = area.height.saturating_sub(2 + 2 * frame + choices);
    let told = left.min(TOLD_ROWS);
    let neck = listen.now().map_or(0, |now| rows_of_neck(now.neck.tuning().string_count()));
    let gap = u16::from(left >= told + neck + 2);
    let [head, over, _, asks, choices, _, told, neck, _] = area.layout(&Layout::vertical([
        Constraint::Length(frame),
        Constraint::Length(frame),
        Constraint::Length(gap),
        Constraint::Length(1),
        Constraint::Length(choices),
        Constraint::Length(gap),
        Constraint::Length(told),
        Constraint::Fill(1),
        Constraint::Length(1),
    ]));
    Areas { head, over, asks, choices, told, neck }
}

/// Strings, with the numbers of the frets above and the inlays below.
fn rows_of_neck(strings: usize) -> u16 {
    u16::try_from(strings).unwrap_or(u16::MAX).saturating_add(2)
}
