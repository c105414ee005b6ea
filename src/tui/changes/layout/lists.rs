//! Where the lists lie that a large window has below the words.

use ratatui::layout::{Constraint, Layout, Rect};

/// The fewest rows in which lists say something: one between words and lists, a heading, a few lines.
pub(super) const LEAST_ROWS: u16 = 1 + 1 + 4;
/// From so many columns on pairs stand beside the scales, and from so many the plans beside them.
const TWO_ABREAST: u16 = 100;
const THREE_ABREAST: u16 = 160;
/// A heading and the seven pairs of a scale of seven notes.
const PAIRS: u16 = 1 + 7;
/// A heading and the scales that are usual.
const SCALES: u16 = 1 + 4;
/// A heading and every plan.
const PLANS: u16 = 1 + 8;
/// No fewer rows than that for a list.
const LEAST_LIST: u16 = 1 + 3;

/// Where the lists lie; one for which there is no room is empty.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::tui::changes) struct Lists {
    pub(in crate::tui::changes) scales: Rect,
    pub(in crate::tui::changes) pairs: Rect,
    pub(in crate::tui::changes) plans: Rect,
}

impl Lists {
    /// The pairs first, then the scales, then the plans, as far as there is room. What is shown has no
    /// say in it, so that lists stay where they are when chords change.
    pub(in crate::tui::changes) fn within(area: Rect) -> Lists {
        let [_, area] =
            area.layout(&Layout::vertical([Constraint::Length(1), Constraint::Fill(1)]));
        let gap = Constraint::Length(2);
        let none = Lists { scales: Rect::ZERO, pairs: Rect::ZERO, plans: Rect::ZERO };
        match area {
            _ if area.height < LEAST_ROWS - 1 => none,
            Rect { width: THREE_ABREAST.., .. } => {
                let [scales, _, pairs, _, plans] = area.layout(&Layout::horizontal([
                    Constraint::Fill(4),
                    gap,
                    Constraint::Fill(5),
                    gap,
                    Constraint::Fill(4),
                ]));
                Lists { scales, pairs, plans }
            }
            Rect { width: TWO_ABREAST.., .. } => {
                let (top, plans) = divided(area, PAIRS, PLANS);
                let [scales, _, pairs] = top.layout(&Layout::horizontal([
                    Constraint::Fill(2),
                    gap,
                    Constraint::Fill(3),
                ]));
                Lists { scales, pairs, plans }
            }
            _ => {
                let (pairs, rest) = divided(area, PAIRS, SCALES + 1 + PLANS);
                let (scales, plans) = divided(rest, SCALES, PLANS);
                Lists { scales, pairs, plans }
            }
        }
    }
}

/// So many rows at least for what comes first, and the rest below it, which needs no more than so many;
/// nothing for that where it would be too few.
fn divided(area: Rect, first: u16, rest: u16) -> (Rect, Rect) {
    let left = area.height.saturating_sub(first + 1);
    if left < LEAST_LIST {
        return (area, Rect::ZERO);
    }
    let [first, _, rest] = area.layout(&Layout::vertical([
        Constraint::Fill(1),
        Constraint::Length(1),
        Constraint::Length(left.min(rest)),
    ]));
    (first, rest)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever the window: lists lie within their room, none on another, and none is too small to read.
    #[test]
    fn lists_lie_side_by_side() {
        for width in (0..260).step_by(7) {
            for height in 0..70 {
                let area = Rect::new(0, 3, width, height);
                let lists = Lists::within(area);
                let all = [lists.scales, lists.pairs, lists.plans];
                for (index, list) in all.iter().enumerate().filter(|(_, list)| !list.is_empty()) {
                    assert_eq!(list.intersection(area), *list, "{area}");
                    assert!(list.height >= LEAST_LIST && list.y > area.y, "{area} {list}");
                    let others = all.iter().skip(index + 1);
                    assert!(others.copied().all(|other| !other.intersects(*list)), "{area}");
                }
            }
        }
    }

    #[test]
    fn as_many_lists_as_there_is_room_for() {
        let lists = |width, height| {
            let Lists { scales, pairs, plans } = Lists::within(Rect::new(0, 0, width, height));
            [scales, pairs, plans].map(|list| list.height)
        };
        assert_eq!(lists(200, 5), [0; 3]);
        assert_eq!(lists(200, 6), [5; 3]);
        assert_eq!([lists(120, 13), lists(120, 14)], [[12, 12, 0], [8, 8, 4]]);
        assert_eq!(lists(120, 19), [8, 8, 9]);
        assert_eq!([lists(80, 9), lists(80, 14), lists(80, 24)], [[0, 8, 0], [4, 8, 0], [5, 8, 8]]);
    }
}
