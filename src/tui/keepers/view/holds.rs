//! What the marked keeper holds.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::Line;

use super::super::drawing::Drawing;
use super::super::{day, signs};
use crate::answer::tempo_curve;
use crate::glyphs::printable_line;
use crate::store::{Keeper, KeptThing};
use crate::tui::widget::{below, broken, cut_to, indented, write};
use crate::words::counted;

/// How many days of the curve of tempos are shown.
const DAYS: usize = 24;

impl Drawing<'_> {
    /// What there is to tell comes first, then the keeper.
    pub(super) fn draw_holds(&self, area: Rect, buffer: &mut Buffer) {
        let theme = &self.shared.theme;
        let rule = "─".repeat(area.width.into());
        write(buffer, below(area, 0), &Line::styled(rule, theme.muted));
        let rows = indented(Rect {
            height: area.height.saturating_sub(1),
            y: area.y.saturating_add(1),
            ..area
        });
        let told = self.shared.notice.iter().chain(self.shared.keeping.told());
        let told = told.flat_map(|told| broken(told, rows.width)).map(|line| (line, theme.text));
        let keeper = self.screen.marked(self.shared);
        let held = keeper.map(|keeper| self.holds(keeper, rows.width)).unwrap_or_default();
        let held = held.into_iter().map(|line| (line, theme.muted));
        let lines: Vec<_> = told.chain(held).collect();
        for ((line, style), row) in lines.into_iter().zip(0..rows.height) {
            write(buffer, below(rows, row), &Line::styled(line, style));
        }
    }

    /// What it is, where it lies, how it went, and what is noted beside it.
    fn holds(&self, keeper: &Keeper, width: u16) -> Vec<String> {
        let parts = [what_it_is(keeper), where_it_lies(keeper)];
        let lines = parts.into_iter().map(|parts| parts.join(" · "));
        let lines = lines.chain([self.how_it_went(keeper)]);
        let tags = keeper.tags.iter().map(|tag| printable_line(tag)).collect::<Vec<_>>();
        let tags = (!tags.is_empty()).then(|| format!("tags: {}", tags.join(", ")));
        let notes = keeper.notes.lines().map(printable_line);
        let lines = lines.chain(tags).chain(notes).filter(|line| !line.is_empty());
        lines.flat_map(|line| cut_to(broken(&line, width), 4)).collect()
    }

    /// `practised 6 times, last on 6 May, best at 92  ▁▃▅█`
    fn how_it_went(&self, keeper: &Keeper) -> String {
        let (practice, today) = (&keeper.practice, self.shared.today());
        let Some(last) = practice.last() else { return "never practised".to_owned() };
        let times = counted(practice.tries.len(), "time");
        let best = practice.best().map(|best| format!(", best at {best}"));
        let curve = tempo_curve(practice, DAYS);
        format!(
            "practised {times}, last {}{}  {curve}",
            day::past(last, today),
            best.unwrap_or_default()
        )
    }
}

/// Its name, chord, scale and pair.
fn what_it_is(keeper: &Keeper) -> Vec<String> {
    let kept = &keeper.kept;
    let name = keeper.name.as_deref().map(printable_line);
    let pair = kept.pair.as_deref().map(signs::pair);
    let chord = kept.chord.as_deref().map(signs::chords);
    let over = match (pair, chord) {
        (Some(pair), Some(chord)) => Some(format!("{pair} over {chord}")),
        (pair, chord) => pair.or(chord),
    };
    let scale = kept.scale.as_deref().map(signs::scale);
    let long = match &kept.what {
        KeptThing::Line(notes) => Some(counted(notes.len(), "note")),
        _ => None,
    };
    [name, over, scale, long].into_iter().flatten().collect()
}

/// Its instrument, view and strings.
fn where_it_lies(keeper: &Keeper) -> Vec<String> {
    let kept = &keeper.kept;
    let tuning = kept.tuning.as_ref().map(|tuning| printable_line(tuning.name()));
    let strings = kept.strings.map(|set| format!("strings {set}"));
    let view = kept.view.as_deref().filter(|view| *view != "set" || strings.is_none());
    let view = view.map(printable_line);
    [tuning, view, strings].into_iter().flatten().collect()
}
