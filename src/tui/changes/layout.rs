//! Where everything lies on the changes screen.

mod lists;

use ratatui::layout::{Constraint, Layout, Rect};

use super::sheet::{BARS_A_ROW, Sheet};
use crate::picture::NeckPicture;
use crate::tui::shared::Shared;

pub(super) use lists::Lists;

/// Head (two rows) and footer.
const FRAME_ROWS: u16 = 2 + 1;
/// A bar has a row for its chords and one for their pairs.
pub(super) const BAR_ROWS: u16 = 2;
/// The fewest columns in which bars can be read, and the fewest rows for some.
pub(super) const LEAST_COLUMNS: u16 = 40;
pub(super) const LEAST_ROWS: u16 = FRAME_ROWS + BAR_ROWS + 1;
/// Words about the hand: its shape, how the fingers go, the pair now, the next one.
const WORD_ROWS: u16 = 4;
/// The same with all their lines where lists stand below them, in a wide window and in a narrow one.
const ALL_WORD_ROWS: [u16; 2] = [7, 9];
/// So wide a window breaks few of these lines.
const WIDE: u16 = 100;
/// So many rows of bars at least before lists take any.
const FIRST_BARS: u16 = 4;

/// So narrow a window has two bars in a row.
const NARROW: u16 = 60;

/// Where everything lies.
pub(super) struct Areas {
    pub(super) head: Rect,
    pub(super) bars: Rect,
    pub(super) rule: Rect,
    pub(super) neck: Rect,
    pub(super) words: Rect,
    pub(super) lists: Rect,
    pub(super) footer: Rect,
}

impl Areas {
    /// None where there is no room for one row of bars.
    pub(super) fn of(area: Rect, neck_rows: u16, sheet: &Sheet) -> Option<Areas> {
        let room = area.height.checked_sub(LEAST_ROWS)?;
        if area.width < LEAST_COLUMNS {
            return None;
        }
        let with_neck = neck_rows + 1;
        let neck = if room >= with_neck { with_neck } else { 0 };
        let rows = sheet.rows(bars_a_row(area.width)).len();
        let words = if area.width < WIDE { ALL_WORD_ROWS[1] } else { ALL_WORD_ROWS[0] };
        let rows = u16::try_from(rows).unwrap_or(u16::MAX);
        let shares = Shares::of(room - neck, rows, words);
        let [head, bars, rule, neck, words, lists, footer] = area.layout(&Layout::vertical([
            Constraint::Length(2),
            Constraint::Length(shares.bars),
            Constraint::Length(neck.min(1)),
            Constraint::Length(neck.saturating_sub(1)),
            Constraint::Fill(1),
            Constraint::Length(shares.lists),
            Constraint::Length(1),
        ]));
        Some(Areas { head, bars, rule, neck, words, lists, footer })
    }
}

/// How many bars stand in a row.
pub(super) fn bars_a_row(width: u16) -> usize {
    if width < NARROW { BARS_A_ROW / 2 } else { BARS_A_ROW }
}

/// The rows of the neck, whatever lies on it.
pub(super) fn neck_rows(shared: &Shared) -> u16 {
    NeckPicture::new(shared.neck(), Vec::new()).height()
}

/// The lists in the window.
pub(super) fn lists_in_window(sheet: &Sheet, shared: &Shared) -> Lists {
    let areas = Areas::of(shared.window(), neck_rows(shared), sheet);
    Lists::within(areas.map(|areas| areas.lists).unwrap_or_default())
}

/// Rows for bars and for lists, of those that head, footer, neck, one row of bars and one of words leave.
struct Shares {
    bars: u16,
    lists: u16,
}

impl Shares {
    /// For so many rows of bars, and words that take so many rows where lists stand below them.
    fn of(room: u16, rows: u16, all_words: u16) -> Shares {
        let wanted = rows.saturating_sub(1);
        // A second row of bars, then all words, then as many bars as there are: in a large window a
        // few of them leave room for lists.
        let second = wanted.min(1).min(room / BAR_ROWS);
        let words = (room - second * BAR_ROWS).min(WORD_ROWS - 1);
        let more = (room - second * BAR_ROWS - words) / BAR_ROWS;
        let below = (all_words - 1) + lists::LEAST_ROWS;
        let beside_lists = room.saturating_sub(below) / BAR_ROWS;
        let more = match beside_lists + 1 >= FIRST_BARS {
            true => more.min(beside_lists.saturating_sub(second)),
            false => more,
        };
        let bars = second + more.min(wanted - second);
        let lists = (room - bars * BAR_ROWS).saturating_sub(all_words - 1);
        let lists = if lists < lists::LEAST_ROWS { 0 } else { lists };
        Shares { bars: BAR_ROWS * (1 + bars), lists }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rooms_are_shared_out() {
        for room in 0..200 {
            for rows in [0, 1, 2, 3, 8, 250, u16::MAX] {
                for words in ALL_WORD_ROWS {
                    let Shares { bars, lists } = Shares::of(room, rows, words);
                    assert!(bars + lists <= room + BAR_ROWS, "{room} {rows}");
                    assert!(bars.is_multiple_of(BAR_ROWS), "{room} {rows}");
                    assert!(bars <= BAR_ROWS.saturating_mul(rows.max(1)), "{room} {rows}");
                    assert!(lists == 0 || bars + lists + words <= room + BAR_ROWS + 1);
                }
            }
        }
        let bars_and_lists = |room, rows| {
            let Shares { bars, lists } = Shares::of(room, rows, ALL_WORD_ROWS[0]);
            (bars, lists)
        };
        // At 80×24 a guitar's neck leaves nine rows: four rows of bars, and all words.
        assert_eq!([bars_and_lists(9, 8), bars_and_lists(9, 2)], [(8, 0), (4, 0)]);
        // At 120×40 it leaves 25: a short tune has room for all lists, a long one for the first.
        assert_eq!([bars_and_lists(25, 1), bars_and_lists(25, 8)], [(2, 19), (14, 7)]);
        assert_eq!(bars_and_lists(25, 250), (14, 7));
    }
}
