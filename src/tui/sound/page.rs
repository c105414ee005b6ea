//! The page of sound.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::row::SoundRow;
use super::state::Sound;
use crate::tui::theme::Theme;
use crate::tui::widget::{ListLine, ListView, below, broken, list_rows, write};

/// Stands where levels are set.
const CAUTION: &str = "Begin quietly, with headphones above all: what loud sound takes from the ear does \
                       not come back.";

/// The page, and the row that is marked on it.
#[derive(Clone, Copy, Default, Debug)]
pub(in crate::tui) struct SoundPage {
    pub(in crate::tui) at: usize,
}

impl SoundPage {
    /// The row that is marked.
    pub(in crate::tui) fn row(self) -> Option<SoundRow> {
        SoundRow::ALL.get(self.at).copied()
    }
}

/// Where its rows lie on the screen.
pub(in crate::tui) fn lines_of_page(
    page: SoundPage,
    screen: Rect,
    pointed_at: Option<ListLine>,
) -> ListView {
    let rows = list_rows(screen);
    let count = SoundRow::ALL.len();
    let height = rows.height.min(count as u16);
    ListView { area: Rect { height, ..rows }, marked: page.at, count, pointed_at }
}

/// Draws everything but its footer.
pub(in crate::tui) fn draw_page(
    sound: &Sound,
    lines: &ListView,
    theme: &Theme,
    screen: Rect,
    buffer: &mut Buffer,
) {
    write(buffer, screen, &Line::styled(" How it sounds", theme.title));
    let line = |index: usize, style: Style| {
        let row = SoundRow::ALL.get(index)?;
        let value = Span::styled(row.value(sound), theme.text);
        Some(vec![Span::styled(format!("{:<14}", row.name()), style), value])
    };
    lines.draw(buffer, theme, line);
    let rows = list_rows(screen);
    let under = rows.intersection(Rect { y: lines.area.bottom().saturating_add(1), ..rows });
    for (told, row) in told(sound, screen.width).into_iter().zip(0..under.height) {
        write(buffer, below(under, row), &Line::styled(told, theme.muted));
    }
}

/// What stands under the rows.
fn told(sound: &Sound, width: u16) -> Vec<String> {
    let hertz = sound.manner.concert_pitch.hertz();
    let tuned = format!("A4 is at {hertz} Hz, as the settings have it.");
    let now = sound.in_words().map(|now| format!("Now: {now}."));
    let first = [Some(CAUTION.to_owned()), now, Some(tuned)].into_iter().flatten();
    let all = first.chain(sound.way_in_words());
    let lines = all.flat_map(|told| broken(&told, width.saturating_sub(4)));
    lines.map(|line| format!("   {line}")).collect()
}
