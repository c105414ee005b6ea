//! The list of pairs, the scales beside it, and what the chosen pair says.

use fretloom_theory::TranspositionClass;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::Line;

use super::super::drawing::Drawing;
use crate::answer::PairAnswer;
use crate::tui::command::{Command, ExploreCommand};
use crate::tui::gesture::Spot;
use crate::tui::widget::{
    ListView, PairColumns, PairRow, below, broken, fitting, indented, scale_line, write,
};
use crate::words::spaced;

/// Lists up to so long keep the widths of their columns when they are scrolled; the rows out of view
/// of a longer one are not asked for.
const STEADY_ROWS: usize = 16;

impl Drawing<'_> {
    /// The list with its heading, folded; scrolled so that the chosen row is in view. The last
    /// column says why each pair stands where it does.
    pub(super) fn draw_pairs(&self, area: Rect, buffer: &mut Buffer) {
        let lines = self.pair_lines(area);
        let (top, rows) = (lines.top(), usize::from(lines.area.height));
        let steady = lines.count <= STEADY_ROWS;
        let (first, measured) = if steady { (0, lines.count) } else { (top, rows) };
        let texts = self.texts_from(first, measured);
        let columns = PairColumns::of(&texts);
        let heading = columns.heading();
        let hides_some = rows < lines.count;
        let place = if hides_some { self.place_in_pairs() } else { String::new() };
        let width = (place.chars().count() as u16).min(area.width);
        let left = Rect { width: area.width - width, ..area };
        let right = Rect { x: area.right() - width, width, ..area };
        write(buffer, left, &Line::styled(heading, self.shared.theme.muted));
        write(buffer, right, &Line::styled(place, self.shared.theme.muted));
        if lines.count == 0 {
            write(buffer, below(area, 1), &Line::styled(self.why_none(), self.shared.theme.text));
        }
        for (text, (index, row)) in texts.iter().skip(top - first).zip(lines.in_view()) {
            let chosen = index == self.explore.chosen.row;
            write(buffer, row, &columns.line(text, row.width, chosen, &self.shared.theme));
        }
    }

    fn why_none(&self) -> String {
        if self.explore.chosen.wishes.are_none() {
            return "   this scale holds no pair".to_owned();
        }
        let key = self.shared.key_of(Command::Explore(ExploreCommand::EditWish));
        format!("   no pair fulfils the wish; {key} Space Enter drops it")
    }

    /// ` 1 of 7`
    fn place_in_pairs(&self) -> String {
        format!(" {} of {}", self.explore.chosen.row + 1, self.explore.shown.pairs.classes.len())
    }

    /// The lines of the list of pairs, below its heading.
    pub(in crate::tui::explore) fn pair_lines(&self, list: Rect) -> ListView {
        let (marked, count) = (self.explore.chosen.row, self.explore.shown.pairs.classes.len());
        ListView {
            area: below_heading(list),
            marked,
            count,
            pointed_at: self.shared.clicked(Spot::Pair),
        }
    }

    /// The texts of some rows. Only their pairs are asked for: a scale may hold hundreds.
    fn texts_from(&self, from: usize, rows: usize) -> Vec<PairRow> {
        let classes = self.explore.shown.pairs.classes.iter().enumerate().skip(from).take(rows);
        let text = |(row, class): (usize, &TranspositionClass)| {
            let index = if row == self.explore.chosen.row {
                self.explore.shown.pair_index(&self.explore.chosen)?
            } else {
                class.first
            };
            Some(self.pair_row(class, self.explore.shown.pairs.pairs.get(index)?))
        };
        classes.filter_map(text).collect()
    }

    /// A pair with what counts for it, the weightiest first, then what counts against it.
    fn pair_row(&self, class: &TranspositionClass, pair: &PairAnswer) -> PairRow {
        let kind = self.explore.shown.pairs.harmony.scale().scale().kind();
        let by_sound = !pair.sound.in_thirds() && kind.has_a_letter_for_each_degree();
        let moves = (!class.transpositions.is_empty())
            .then(|| format!("{} alike", class.transpositions.len() + 1));
        let by_sound = by_sound.then(|| "by sound only".to_owned());
        PairRow::of(pair, moves.into_iter().chain(by_sound))
    }

    /// The scales that fit the chord, beside the pairs.
    pub(super) fn draw_scales(&self, area: Rect, buffer: &mut Buffer) {
        let heading = format!("scales of {}", self.explore.chosen.chord.read.chord);
        write(buffer, area, &Line::styled(heading, self.shared.theme.muted));
        let lines = self.scale_lines(area);
        for ((index, row), choice) in
            lines.in_view().zip(self.explore.shown.scales.iter().skip(lines.top()))
        {
            let chosen = index == self.explore.chosen.scale;
            let line = scale_line(choice, chosen, &self.shared.theme);
            write(buffer, row, &line);
        }
    }

    /// The lines of the scales, below their heading.
    pub(in crate::tui::explore) fn scale_lines(&self, list: Rect) -> ListView {
        let (marked, count) = (self.explore.chosen.scale, self.explore.shown.scales.len());
        ListView {
            area: below_heading(list),
            marked,
            count,
            pointed_at: self.shared.clicked(Spot::Scale),
        }
    }

    /// Why the chosen pair stands where it does, what its six notes are, and what else it serves.
    pub(super) fn draw_detail(&self, area: Rect, buffer: &mut Buffer) {
        let Some(pair) = self.explore.pair().filter(|_| !area.is_empty()) else { return };
        let area = indented(area);
        let sentence = broken(&pair.why.to_string(), area.width);
        let sentence = sentence.into_iter().map(|line| Line::styled(line, self.shared.theme.text));
        let rest = self.pairs_detail(pair, area.width).into_iter();
        let rest = rest.map(|line| Line::styled(line, self.shared.theme.muted));
        // The sentence first; the rest as far as there are rows.
        for (line, row) in sentence.chain(rest).zip(0..area.height) {
            write(buffer, below(area, row), &line);
        }
    }

    fn pairs_detail(&self, pair: &PairAnswer, width: u16) -> Vec<String> {
        let serves = pair.also_fits.iter().map(ToString::to_string);
        let serves = fitting(serves, usize::from(width).saturating_sub(12));
        let mut lines = Vec::new();
        if let Some(class) = self
            .explore
            .shown
            .pairs
            .classes
            .get(self.explore.chosen.row)
            .filter(|class| !class.transpositions.is_empty())
        {
            let key = self.shared.key_of(Command::Explore(ExploreCommand::MovePair));
            let moves = spaced(moves(class));
            lines.push(format!("the scale repeats: {key} moves the pair {moves} frets up"));
        }
        lines.push(if serves.is_empty() {
            "serves no other common chord".to_owned()
        } else {
            format!("also serves {serves}")
        });
        let key = self.shared.key_of(Command::Explore(ExploreCommand::Details));
        lines.push(format!("{key} more about this pair"));
        lines
    }
}

/// What a list has below its heading.
fn below_heading(list: Rect) -> Rect {
    let by = list.height.min(1);
    Rect { y: list.y + by, height: list.height - by, ..list }
}

/// How many frets up the transpositions of a class lie, the nearest first.
fn moves(class: &TranspositionClass) -> Vec<u8> {
    let mut moves: Vec<u8> = class.transpositions.iter().map(|(_, by)| *by).collect();
    moves.sort_unstable();
    moves
}
