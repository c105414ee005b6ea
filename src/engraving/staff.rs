//! The measures of a staff.

use fretloom_theory::Meter;

use crate::picture::page::{Item, Line, MusicSign, Point, SignKind};

/// How far two lines of a staff are apart: a staff is 7 mm high, as in printed parts.
pub(super) const SPACE: f64 = 1.75;
pub(super) const STAFF_MM: f64 = 4.0 * SPACE;

/// Thicknesses in staff spaces, by the metadata of the music font.
pub(super) const STAFF_LINE: f64 = 0.13 * SPACE;
pub(super) const STEM: f64 = 0.12 * SPACE;
pub(super) const BEAM: f64 = 0.5 * SPACE;
pub(super) const BETWEEN_BEAMS: f64 = 0.25 * SPACE;
pub(super) const LEDGER: f64 = 0.16 * SPACE;
pub(super) const LEDGER_BEYOND: f64 = 0.4 * SPACE;
pub(super) const THIN_BAR: f64 = 0.16 * SPACE;
pub(super) const THICK_BAR: f64 = 0.5 * SPACE;

/// The middle line.
pub(super) const MIDDLE_STEP: i32 = 4;

/// How far below the uppermost line a step above the lowest one lies.
pub(super) fn y_of_step(step: i32) -> f64 {
    STAFF_MM - f64::from(step) * SPACE / 2.0
}

/// Five lines from the left edge to a width.
pub(super) fn lines(width: f64) -> Vec<Item> {
    let line = |index: i32| {
        let y = f64::from(index) * SPACE;
        Item::Line(Line::new(Point::new(0.0, y), Point::new(width, y), STAFF_LINE))
    };
    (0..5).map(line).collect()
}

/// The lines that a note beyond the staff needs, around a head that begins there.
pub(super) fn ledger_lines(step: i32, x: f64, head: f64) -> Vec<Item> {
    let steps: Vec<i32> = match step {
        ..=-2 => (step..=-2).filter(|step| step % 2 == 0).collect(),
        10.. => (10..=step).filter(|step| step % 2 == 0).collect(),
        _ => Vec::new(),
    };
    let line = |step: i32| {
        let y = y_of_step(step);
        let from = Point::new(x - LEDGER_BEYOND, y);
        Item::Line(Line::new(from, Point::new(x + head + LEDGER_BEYOND, y), LEDGER))
    };
    steps.into_iter().map(line).collect()
}

/// A time signature whose left edge is there, and how wide it is.
pub(super) fn time_signature(meter: Meter, x: f64) -> (Vec<Item>, f64) {
    let digits = |number: u8| -> Vec<SignKind> {
        number.to_string().bytes().map(|digit| SignKind::TimeDigit(digit - b'0')).collect()
    };
    let rows = [(digits(meter.units()), SPACE), (digits(meter.kind()), 3.0 * SPACE)];
    let wide = |row: &[SignKind]| row.iter().map(|sign| sign.advance()).sum::<f64>() * SPACE;
    let width = rows.iter().map(|(row, _)| wide(row)).fold(0.0, f64::max);
    let mut items = Vec::new();
    for (row, y) in &rows {
        let mut at = x + (width - wide(row)) / 2.0;
        for sign in row {
            items.push(Item::Sign(MusicSign::new(Point::new(at, *y), *sign, SPACE)));
            at += sign.advance() * SPACE;
        }
    }
    (items, width)
}
