//! Heads, stems, dots and accidentals of a piece.

use super::set_piece::{Head, SetPiece};
use super::staff::{MIDDLE_STEP, SPACE, STEM, ledger_lines, y_of_step};
use crate::picture::page::{Item, Line, MusicSign, Point, SignKind};

/// Which way a stem points.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Stem {
    Up,
    Down,
}

/// How long a stem is, in staff spaces.
pub(super) const STEM_LENGTH: f64 = 3.5;

impl SetPiece {
    /// How many times a whole note is halved to get its value; none where it has no value.
    pub(super) fn halvings(&self) -> Option<u8> {
        self.piece.value.map(|value| value.halvings())
    }

    /// How many flags or beams it has.
    pub(super) fn flags(&self) -> u8 {
        self.halvings().map_or(0, |halvings| halvings.saturating_sub(2))
    }

    pub(super) fn is_dotted(&self) -> bool {
        self.piece.value.is_some_and(|value| value.is_dotted())
    }

    /// The sign of its heads, or of its rest.
    pub(super) fn head_sign(&self) -> SignKind {
        match (self.heads.is_empty(), self.halvings()) {
            (true, halvings) => SignKind::Rest(halvings.unwrap_or(0).min(10)),
            (false, Some(0)) => SignKind::WholeHead,
            (false, Some(1)) => SignKind::HalfHead,
            (false, _) => SignKind::BlackHead,
        }
    }

    /// How wide its heads are.
    pub(super) fn head_width(&self) -> f64 {
        self.head_sign().advance() * SPACE
    }

    /// Do two heads lie on neighbouring steps, or on one?
    pub(super) fn has_second(&self) -> bool {
        self.heads.windows(2).any(|two| is_second(&two[0], &two[1]))
    }

    /// Its lowest and its highest step.
    pub(super) fn span(&self) -> Option<(i32, i32)> {
        Some((self.heads.first()?.step, self.heads.last()?.step))
    }
}

fn is_second(lower: &Head, higher: &Head) -> bool {
    higher.step - lower.step <= 1
}

/// Which way the stem of these pieces points that stand in one voice: away from the head that lies
/// furthest from the middle line, down where two are as far.
pub(super) fn stem_of<'a>(pieces: impl Iterator<Item = &'a SetPiece>) -> Stem {
    let spans: Vec<(i32, i32)> = pieces.filter_map(SetPiece::span).collect();
    let lowest = spans.iter().map(|(low, _)| *low).min().unwrap_or(MIDDLE_STEP);
    let highest = spans.iter().map(|(_, high)| *high).max().unwrap_or(MIDDLE_STEP);
    if MIDDLE_STEP - lowest > highest - MIDDLE_STEP { Stem::Up } else { Stem::Down }
}

/// Where a stem stands, and where it ends if no beam says otherwise.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct StemAt {
    pub(super) x: f64,
    /// At its head that is furthest from its end.
    pub(super) from: f64,
    pub(super) tip: f64,
}

/// The stem of a piece whose heads begin at `x`; `None` for a rest and a whole note.
pub(super) fn stem_at(piece: &SetPiece, x: f64, stem: Stem) -> Option<StemAt> {
    let (low, high) = piece.span()?;
    if piece.halvings().is_none_or(|halvings| halvings == 0) {
        return None;
    }
    let more = f64::from(piece.flags().saturating_sub(2)) * 0.75;
    let length = (STEM_LENGTH + more) * SPACE;
    let middle = y_of_step(MIDDLE_STEP);
    Some(match stem {
        Stem::Up => StemAt {
            x: x + piece.head_width() - STEM / 2.0,
            from: y_of_step(low) - 0.168 * SPACE,
            tip: (y_of_step(high) - length).min(middle),
        },
        Stem::Down => StemAt {
            x: x + STEM / 2.0,
            from: y_of_step(high) + 0.168 * SPACE,
            tip: (y_of_step(low) + length).max(middle),
        },
    })
}

/// The line of a stem.
pub(super) fn stem_line(at: StemAt) -> Item {
    Item::Line(Line::new(Point::new(at.x, at.from), Point::new(at.x, at.tip), STEM))
}

/// The flags at the end of a stem.
pub(super) fn flags(piece: &SetPiece, at: StemAt, stem: Stem) -> Option<Item> {
    let flags = Some(piece.flags()).filter(|flags| *flags > 0)?;
    let kind = match stem {
        Stem::Up => SignKind::FlagsUp(flags.min(8)),
        Stem::Down => SignKind::FlagsDown(flags.min(8)),
    };
    let at = Point::new(at.x - STEM / 2.0, at.tip);
    Some(Item::Sign(MusicSign::new(at, kind, SPACE)))
}

/// Heads with ledger lines, dots and accidentals.
pub(super) fn heads(piece: &SetPiece, x: f64, stem: Stem) -> Vec<Item> {
    let width = piece.head_width();
    let mut items = Vec::new();
    let sides = sides(piece, stem);
    for (head, beside) in piece.heads.iter().zip(&sides) {
        let at = x + width * beside;
        items.extend(ledger_lines(head.step, at, width));
        let at = Point::new(at, y_of_step(head.step));
        items.push(Item::Sign(MusicSign::new(at, piece.head_sign(), SPACE)));
    }
    items.extend(signs(piece, x + width * sides.iter().copied().fold(0.0, f64::min)));
    if piece.is_dotted() {
        let right = x + width * (1.0 + sides.iter().copied().fold(0.0, f64::max));
        items.extend(dots(piece, right));
    }
    items
}

/// On which side of the stem each head stands: 0 where it belongs, 1 to its right and -1 to its left.
fn sides(piece: &SetPiece, stem: Stem) -> Vec<f64> {
    let mut sides = vec![0.0; piece.heads.len()];
    let order: Vec<usize> = match stem {
        Stem::Up => (0..piece.heads.len()).collect(),
        Stem::Down => (0..piece.heads.len()).rev().collect(),
    };
    for two in order.windows(2) {
        let [before, this] = [two[0], two[1]];
        let (low, high) = (before.min(this), before.max(this));
        let heads = piece.heads.get(low).zip(piece.heads.get(high));
        let is_second = heads.is_some_and(|(lower, higher)| is_second(lower, higher));
        let is_free = sides.get(before).is_some_and(|side| *side == 0.0);
        if is_second && is_free {
            let away = if stem == Stem::Up { 1.0 } else { -1.0 };
            sides.get_mut(this).into_iter().for_each(|side| *side = away);
        }
    }
    sides
}

/// Accidentals, from right to left; those of heads far apart could stand closer, which nobody misses.
fn signs(piece: &SetPiece, left: f64) -> Vec<Item> {
    let mut x = left;
    let mut items = Vec::new();
    for head in piece.heads.iter().rev() {
        let Some(sign) = head.sign else { continue };
        let kind = SignKind::Accidental(sign);
        x -= (kind.advance() + 0.25) * SPACE;
        items.push(Item::Sign(MusicSign::new(Point::new(x, y_of_step(head.step)), kind, SPACE)));
    }
    items
}

/// A dot for each head, in the space that it lies in or above its line.
fn dots(piece: &SetPiece, right: f64) -> Vec<Item> {
    let mut steps: Vec<i32> = piece.heads.iter().map(|head| head.step | 1).collect();
    steps.dedup();
    let dot = |step: i32| {
        let at = Point::new(right + 0.45 * SPACE, y_of_step(step));
        Item::Sign(MusicSign::new(at, SignKind::Dot, SPACE))
    };
    steps.into_iter().map(dot).collect()
}

/// A rest; that of a whole bar and that of a whole note hang from the fourth line.
pub(super) fn rest(piece: &SetPiece, x: f64) -> Vec<Item> {
    let kind = piece.head_sign();
    let line = if kind == SignKind::Rest(0) { SPACE } else { 2.0 * SPACE };
    let mut items = vec![Item::Sign(MusicSign::new(Point::new(x, line), kind, SPACE))];
    if piece.is_dotted() {
        let at = Point::new(x + piece.head_width() + 0.45 * SPACE, 1.5 * SPACE);
        items.push(Item::Sign(MusicSign::new(at, SignKind::Dot, SPACE)));
    }
    items
}
