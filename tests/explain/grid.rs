//! Places in time for notes.

use fretloom_theory::Quarters;

use crate::dice::Dice;

/// Parts of a quarter note: eighths, triplets and sixteenths are whole numbers of them.
pub(crate) const QUARTER: u32 = 12;
pub(crate) const BAR: u32 = 4 * QUARTER;
/// A place for a note.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Slot {
    pub(crate) at: u32,
    pub(crate) length: u32,
}

/// How long the notes are, in turn.
const RHYTHMS: [(usize, &[u32]); 6] = [
    (68, &[6]),
    (12, &[4]),
    (5, &[3]),
    (5, &[6, 6, 12]),
    (5, &[12, 6, 6, 6, 6]),
    (5, &[9, 3, 6, 6]),
];

/// The places for notes from one moment to another, with a breath here and there.
pub(crate) fn slots(from: u32, to: u32, dice: &mut Dice) -> Vec<Slot> {
    let lengths = rhythm(dice);
    let mut at = if dice.happens(12) { from + 6 } else { from };
    let mut slots = Vec::new();
    for length in lengths.iter().cycle() {
        if at + length > to {
            break;
        }
        slots.push(Slot { at, length: *length });
        at += length;
    }
    if slots.len() > 6 {
        breathe(&mut slots, dice);
    }
    slots
}

fn rhythm(dice: &mut Dice) -> &'static [u32] {
    let mut drawn = dice.below(100);
    for (weight, lengths) in RHYTHMS {
        if drawn < weight {
            return lengths;
        }
        drawn -= weight;
    }
    RHYTHMS[0].1
}

/// A rest or a longer note at the end.
fn breathe(slots: &mut Vec<Slot>, dice: &mut Dice) {
    match dice.below(10) {
        0..2 => drop(slots.pop()),
        2 => {
            let held = slots.pop().map_or(0, |slot| slot.length);
            if let Some(last) = slots.last_mut() {
                last.length += held;
            }
        }
        _ => {}
    }
}

pub(crate) fn quarters(parts: u32) -> Quarters {
    Quarters::new(u64::from(parts), QUARTER).unwrap()
}
