//! The neck with the order of the notes, and the line above it.

use fretloom_fretboard::Place;
use fretloom_theory::{Degree, Role, SpelledTriad, WhichTriad};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::drawing::Drawing;
use super::super::made::Made;
use super::super::phrases::name;
use super::super::targets::spaced;
use crate::answer::ToldNote;
use crate::library::AskedPhrase;
use crate::picture::{Labels, Mark, MarkRole, NeckPicture, Presence};
use crate::tui::widget::{indented, write};

/// The longest label of a mark.
const LONGEST_LABEL: usize = 3;

impl Drawing<'_> {
    /// The neck as it is to be drawn now.
    pub(super) fn picture(&self) -> NeckPicture {
        let (neck, setup) = (self.shared.neck(), &self.shared.setup);
        let marks = self.screen.made().map(|made| self.marks(made)).unwrap_or_default();
        let picture = NeckPicture::new(neck, marks).with_fret_widths(setup.fret_widths);
        let picture = match self.screen.place(self.shared).strings {
            Some(set) => picture.locked_to(set),
            None => picture,
        };
        let in_view = self.shared.frets_in_view(&picture, |mark| mark.presence == Presence::Shown);
        self.shared.lying(picture.within(in_view))
    }

    /// Where the fingers go: the notes of the bar in their order, those of other bars as dots.
    fn marks(&self, made: &Made) -> Vec<Mark> {
        let Some(way) = made.way() else { return Vec::new() };
        let bar = made.in_bar_of(self.screen.cursor);
        let place = |index: usize| way.way.notes.get(index).map(|at| at.place);
        let cursor = place(self.screen.cursor);
        let mut marks: Vec<Mark> = Vec::new();
        for index in (0..made.notes().len()).filter(|index| !bar.contains(index)) {
            self.add(&mut marks, made, index, place(index), Presence::Hidden);
        }
        // Notes of the bar lie over those of other bars, and a place has one mark.
        for index in bar.iter().copied() {
            if let Some(at) = place(index) {
                marks.retain(|mark| mark.place != at || mark.presence == Presence::Shown);
            }
            self.add(&mut marks, made, index, place(index), Presence::Shown);
        }
        for mark in &mut marks {
            if mark.presence == Presence::Shown {
                mark.label = self.label(made, &bar, mark);
                mark.is_held = Some(mark.place) == cursor;
            }
        }
        marks
    }

    fn add(
        &self,
        marks: &mut Vec<Mark>,
        made: &Made,
        index: usize,
        place: Option<Place>,
        presence: Presence,
    ) {
        let (Some(place), Some(told)) = (place, made.notes().get(index)) else { return };
        if marks.iter().any(|mark| mark.place == place) {
            return;
        }
        let role = match told.note.role {
            Role::Triad(which) => MarkRole::Triad(which),
            Role::Free => MarkRole::LeftOut,
        };
        // A free note has no bracket that could become a dot.
        let label = match (role, presence) {
            (MarkRole::LeftOut, Presence::Hidden) => "·".to_owned(),
            (MarkRole::LeftOut | MarkRole::Triad(_), _) => told.name.to_string(),
        };
        marks.push(Mark { presence, ..Mark::new(place, role, label) });
    }

    /// What stands in a mark: when it is played in the bar, or what it is.
    fn label(&self, made: &Made, bar: &[usize], mark: &Mark) -> String {
        let way = made.way();
        let is_there = |index: usize| {
            way.and_then(|way| way.way.notes.get(index)).map(|at| at.place) == Some(mark.place)
        };
        let orders: Vec<usize> =
            (1..).zip(bar).filter(|(_, index)| is_there(**index)).map(|(order, _)| order).collect();
        let first = bar.iter().copied().find(|index| is_there(*index));
        let told = first.and_then(|index| made.notes().get(index));
        let at = first.and_then(|index| way?.way.notes.get(index));
        let (Some(told), Some(at)) = (told, at) else { return mark.label.clone() };
        match self.screen.chosen.labels {
            Labels::Order => order_in_words(&orders),
            Labels::Note => told.name.to_string(),
            Labels::Degree => told.degree.to_string(),
            Labels::Member => {
                let member = member_of(told);
                member.map_or_else(|| told.name.to_string(), |(_, member)| member.to_string())
            }
            Labels::Finger => at.finger.number().to_string(),
        }
    }

    /// `─ strings 4-3-2 ─ frets 1–11 of 22 ─ order in bar 1 ─ aims at 3@2.1 ────`
    pub(super) fn draw_rule(&self, area: Rect, buffer: &mut Buffer, picture: &NeckPicture) {
        let columns = picture.columns(indented(area).width);
        let last = self.shared.neck().tuning().last_fret();
        let frets = format!("frets {}–{} of {last}", columns.first_shown(), columns.last_shown());
        let mut words = vec![self.place_in_words(), frets, self.labels_in_words()];
        // In another key than its own the line aims at degrees.
        let elsewhere = self.screen.made().filter(|_| self.screen.chosen.key > 0);
        let asked = elsewhere.map(|made| &made.answer.question.targets);
        let targets = spaced(asked.unwrap_or(&self.screen.chosen.targets));
        words.extend((!targets.is_empty()).then(|| format!("aims at {targets}")));
        // What is aimed at is told in full: rather no frets, then no labels.
        let width = |words: &[String]| words.join(" ─ ").chars().count() + 3;
        while words.len() > 2 && width(&words) > usize::from(area.width) {
            words.remove(1);
        }
        let mut line = Line::styled("─ ", self.shared.theme.muted);
        line.push_span(Span::styled(words.join(" ─ "), self.shared.theme.muted));
        line.push_span(Span::styled(" ", self.shared.theme.muted));
        let rest = usize::from(area.width).saturating_sub(line.width());
        line.push_span(Span::styled("─".repeat(rest), self.shared.theme.muted));
        write(buffer, area, &line);
    }

    /// Where the line is, or the phrase in hand, once phrases are written out, and whose place it is:
    /// `phrase 2 alone: position V`, `phrase 2 as the line: strings 4-3-2`, `whole line: …`.
    fn place_in_words(&self) -> String {
        let (phrases, own) = (&self.screen.chosen.phrases, self.screen.own_in_hand());
        let whose = match own {
            None if phrases.is_empty() => String::new(),
            None => "whole line: ".to_owned(),
            Some((index, AskedPhrase { area: Some(_), .. })) => {
                format!("phrase {} alone: ", name(index))
            }
            Some((index, AskedPhrase { like: Some(like), .. })) => {
                format!("phrase {} as phrase {like}: ", name(index))
            }
            Some((index, _)) => format!("phrase {} as the line: ", name(index)),
        };
        format!("{whose}{}", self.screen.place(self.shared).in_words())
    }

    /// `order of bar 2`
    fn labels_in_words(&self) -> String {
        let word = self.screen.chosen.labels.word();
        let bar = self.screen.made().and_then(|made| made.bar_of(self.screen.cursor));
        match bar {
            Some(bar) => format!("{word} in bar {}", bar.label),
            None => word.to_owned(),
        }
    }

    /// The style of a note: that of its triad; plain for a free one.
    pub(super) fn style_of_note(&self, index: usize) -> Style {
        let theme = &self.shared.theme;
        let role = self.screen.notes().get(index).map(|told| told.note.role);
        match role {
            Some(Role::Triad(WhichTriad::First)) => theme.first,
            Some(Role::Triad(WhichTriad::Second)) => theme.second,
            Some(Role::Free) | None => theme.text,
        }
    }
}

/// The triad that a note belongs to, and which of its members it is.
pub(super) fn member_of(told: &ToldNote) -> Option<(SpelledTriad, Degree)> {
    let triad = told.triad?;
    let (index, _) = triad.member(told.note.pitch.pitch_class())?;
    Some((triad, *triad.quality().degrees().get(index)?))
}

/// `3`; `1,5` for two; `1,…` where there is no room.
fn order_in_words(orders: &[usize]) -> String {
    let all = orders.iter().map(ToString::to_string).collect::<Vec<_>>().join(",");
    match orders {
        [first, _, ..] if all.len() > LONGEST_LABEL => format!("{first}…"),
        _ => all,
    }
}
