//! What there is to choose from, below the words in a large window: the scales of the chord in hand, the
//! pairs of the scale in force, and the plans. The keys that step through them stand before them.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::super::choices::Choices;
use super::super::drawing::Drawing;
use super::super::hit::Hit;
use super::super::layout::{Areas, Lists, neck_rows};
use crate::answer::{ChangesChord, ChangesPlan};
use crate::tui::command::{ChangesCommand, Command};
use crate::tui::widget::{ListView, PairColumns, PairRow, below, scale_line, write};

impl Drawing<'_> {
    pub(super) fn draw_lists(&self, area: Rect, buffer: &mut Buffer) {
        let lists = Lists::within(area);
        if let Some((chord, choices)) = self.screen.chord().zip(self.choices()) {
            self.draw_scales(lists.scales, buffer, chord, choices);
            self.draw_pairs(lists.pairs, buffer, chord, choices);
        }
        self.draw_plans(lists.plans, buffer);
    }

    /// What there is to choose from over the chord in hand.
    fn choices(&self) -> Option<&Choices> {
        let chord = self.screen.chord()?;
        self.screen.choices.as_ref().filter(|choices| choices.are_of(chord))
    }

    /// What is listed at a place of the window.
    pub(in crate::tui::changes) fn listed_at(&self, screen: Rect, place: Position) -> Option<Hit> {
        let areas = Areas::of(screen, neck_rows(self.shared), &self.screen.sheet)?;
        let lists = Lists::within(areas.lists);
        let line = |list: ListView| Some(list.at(place)?.line);
        if let Some(plan) = line(self.plan_lines(lists.plans)) {
            return Some(Hit::Plan(plan));
        }
        let (chord, all) = self.screen.chord().zip(self.choices())?;
        let scale = line(scale_lines(lists.scales, chord, all)).map(Hit::Scale);
        scale.or_else(|| line(pair_lines(lists.pairs, chord, all)).map(Hit::Pair))
    }

    fn draw_scales(&self, area: Rect, buffer: &mut Buffer, chord: &ChangesChord, all: &Choices) {
        let list = scale_lines(area, chord, all);
        let heading = format!("   scales of {}", chord.chord());
        self.draw_heading(area, buffer, (&heading, ChangesCommand::NextScale), &list);
        for (index, row) in list.in_view() {
            let Some(choice) = all.scales.get(index) else { continue };
            let is_chosen = all.scale_of(chord) == Some(index);
            let mut line = scale_line(choice, is_chosen, &self.shared.theme);
            line.spans.insert(0, Span::raw(" "));
            write(buffer, row, &line);
        }
    }

    fn draw_pairs(&self, area: Rect, buffer: &mut Buffer, chord: &ChangesChord, all: &Choices) {
        let chosen = all.pair_of(chord);
        let list = pair_lines(area, chord, all);
        let in_view: Vec<(usize, Rect)> = list.in_view().collect();
        let row = |(index, _): &(usize, Rect)| Some(PairRow::of(all.pairs.get(*index)?, []));
        let rows: Vec<PairRow> = in_view.iter().filter_map(row).collect();
        let columns = PairColumns::of(&rows);
        self.draw_heading(area, buffer, (&columns.heading(), ChangesCommand::NextPair), &list);
        for ((index, at), row) in in_view.into_iter().zip(&rows) {
            let is_chosen = chosen == Some(index);
            write(buffer, at, &columns.line(row, at.width, is_chosen, &self.shared.theme));
        }
    }

    /// What the plans cost, what they have over the chord in hand, and where they differ.
    fn draw_plans(&self, area: Rect, buffer: &mut Buffer) {
        let Some(answer) = self.screen.plans.answer() else { return };
        let plans: Vec<&ChangesPlan> = answer.plans().collect();
        let list = self.plan_lines(area);
        let here: Vec<String> = plans.iter().map(|plan| self.pair_here(plan)).collect();
        let wide = here.iter().map(|pair| pair.chars().count()).max().unwrap_or_default().max(4);
        let heading = format!("   plan  cost   pairs  {:wide$}  other pairs in bars", "here");
        self.draw_heading(area, buffer, (&heading, ChangesCommand::OtherPlan), &list);
        let line = |index: usize, style: Style| {
            let (plan, here) = (plans.get(index)?, here.get(index)?);
            let differ = self.screen.plans.differs_in(index);
            let cost = plan.cost.to_string();
            let told = format!(
                "{:<4}  {cost:>5}  {:<5}  {here:wide$}  {differ}",
                index + 1,
                plan.pairs.len()
            );
            Some(vec![Span::styled(told, style)])
        };
        list.draw(buffer, &self.shared.theme, line);
    }

    fn plan_lines(&self, area: Rect) -> ListView {
        below_heading(area, Some(self.screen.chosen.plan), self.screen.plans.number())
    }

    /// The pair of a plan over the chord in hand.
    fn pair_here(&self, plan: &ChangesPlan) -> String {
        let here = self.screen.chord().and_then(|chord| plan.at(chord.from));
        here.map(|(_, chord)| chord.pair.to_string()).unwrap_or_default()
    }

    /// A heading behind the key that steps through its list; at its end which line is marked, where the
    /// list hides some.
    fn draw_heading(
        &self,
        area: Rect,
        buffer: &mut Buffer,
        (words, key): (&str, ChangesCommand),
        list: &ListView,
    ) {
        if area.is_empty() {
            return;
        }
        let (row, theme) = (below(area, 0), &self.shared.theme);
        let key = self.shared.key_of(Command::Changes(key));
        let hides_some = usize::from(list.area.height) < list.count;
        let place = if hides_some { list.place_in_words() } else { String::new() };
        let width = (place.chars().count() as u16).min(row.width);
        write(
            buffer,
            Rect { width: row.width - width, ..row },
            &Line::styled(words.to_owned(), theme.muted),
        );
        write(
            buffer,
            Rect { x: row.right() - width, width, ..row },
            &Line::styled(place, theme.muted),
        );
        // A key with a longer name has no room before the words.
        if key.chars().count() == 1 {
            let at = Rect { x: row.x + 1, width: 1, ..row };
            write(buffer, at.intersection(row), &Line::styled(key, theme.key));
        }
    }
}

fn scale_lines(area: Rect, chord: &ChangesChord, all: &Choices) -> ListView {
    below_heading(area, all.scale_of(chord), all.scales.len())
}

fn pair_lines(area: Rect, chord: &ChangesChord, all: &Choices) -> ListView {
    below_heading(area, all.pair_of(chord), all.pairs.len())
}

/// The lines of a list below its heading; those from the first on where none is marked.
fn below_heading(area: Rect, marked: Option<usize>, count: usize) -> ListView {
    let by = area.height.min(1);
    let area = Rect { y: area.y + by, height: area.height - by, ..area };
    ListView { area, marked: marked.unwrap_or_default(), count, pointed_at: None }
}
