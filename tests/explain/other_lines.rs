//! Lines that are of no pair: what players practise and play besides.

use crate::dice::Dice;
use crate::harmony::Harmony;
use crate::line::{HIGHEST, LOWEST};

/// What a line is made of.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Manner {
    Scale,
    Thirds,
    Arpeggio,
    Bebop,
    Enclosures,
    Chromatic,
    Pentatonic,
    Cells,
}

pub(crate) const MANNERS: [Manner; 8] = [
    Manner::Scale,
    Manner::Thirds,
    Manner::Arpeggio,
    Manner::Bebop,
    Manner::Enclosures,
    Manner::Chromatic,
    Manner::Pentatonic,
    Manner::Cells,
];

/// Cells in steps of the scale.
const CELLS: [&[usize]; 5] =
    [&[0, 1, 2, 4], &[4, 2, 1, 0], &[0, 2, 1, 4], &[2, 1, 0, 4], &[0, 1, 2, 0]];
/// Strides over the ladder of each, in turn.
const THIRDS: [&[i32]; 2] = [&[2, -1], &[-2, 3]];
const CHROMATIC: [&[i32]; 3] = [&[1], &[1, 1, 1, 3], &[1, 1, -3, 4]];
const PENTATONIC: [&[i32]; 3] = [&[1], &[1, 1, -1], &[1, 1, 1, -2]];
const MINOR_PENTATONIC: [i32; 5] = [0, 3, 5, 7, 10];
const MAJOR_PENTATONIC: [i32; 5] = [0, 2, 4, 7, 9];

/// So many pitches in that manner, beginning near the last note.
pub(crate) fn pitches(
    manner: Manner,
    harmony: Harmony,
    last: i32,
    count: usize,
    dice: &mut Dice,
) -> Vec<i32> {
    match manner {
        Manner::Scale => walk(&scale(harmony), last, &[1], 10, count, dice),
        Manner::Thirds => {
            let strides = dice.one_of(&THIRDS);
            walk(&scale(harmony), last, strides, 0, count, dice)
        }
        Manner::Arpeggio => arpeggio(harmony, last, count, dice),
        Manner::Bebop => bebop(harmony, last, count, dice),
        Manner::Enclosures => enclosures(harmony, last, count, dice),
        Manner::Chromatic => {
            let strides = dice.one_of(&CHROMATIC);
            walk(&(LOWEST..=HIGHEST).collect::<Vec<i32>>(), last, strides, 4, count, dice)
        }
        Manner::Pentatonic => {
            let strides = dice.one_of(&PENTATONIC);
            walk(&pentatonic(harmony, dice), last, strides, 5, count, dice)
        }
        Manner::Cells => cells(harmony, last, count, dice),
    }
}

fn scale(harmony: Harmony) -> Vec<i32> {
    (LOWEST..=HIGHEST).filter(|pitch| harmony.has(*pitch)).collect()
}

fn nearest(ladder: &[i32], pitch: i32) -> usize {
    (0..ladder.len()).min_by_key(|index| (ladder[*index] - pitch).abs()).unwrap()
}

/// Goes over the ladder in strides, up or down; turns at its ends, and so often of a hundred times
/// elsewhere.
fn walk(
    ladder: &[i32],
    last: i32,
    strides: &[i32],
    turns: usize,
    count: usize,
    dice: &mut Dice,
) -> Vec<i32> {
    let mut way = if dice.happens(50) { 1 } else { -1 };
    let mut at = nearest(ladder, last);
    let mut pitches = Vec::new();
    for stride in strides.iter().cycle().take(count) {
        pitches.push(ladder[at]);
        if dice.happens(turns) {
            way = -way;
        }
        at = stepped(at, way * stride, ladder.len()).unwrap_or_else(|| {
            way = -way;
            stepped(at, way * stride, ladder.len()).unwrap_or(at)
        });
    }
    pitches
}

fn stepped(at: usize, by: i32, count: usize) -> Option<usize> {
    let to = i32::try_from(at).unwrap() + by;
    usize::try_from(to).ok().filter(|to| *to < count)
}

/// The chord in thirds, up and down again, from its root, its third or its top.
fn arpeggio(harmony: Harmony, last: i32, count: usize, dice: &mut Dice) -> Vec<i32> {
    let bases: Vec<i32> = (LOWEST..HIGHEST - 18).filter(|p| (p - harmony.root) % 12 == 0).collect();
    let base = bases[nearest(&bases, last - 7)];
    let stack: Vec<i32> = harmony.stack.iter().map(|above| base + above).collect();
    let top = stack.len() - 1;
    let up_and_down: Vec<i32> =
        stack[..top].iter().chain(stack[1..].iter().rev()).copied().collect();
    let from = *dice.one_of(&[0, 0, 1, top]);
    up_and_down.iter().cycle().skip(from).take(count).copied().collect()
}

/// Up the chord from its third and down a scale with a passing note between two of its own.
fn bebop(harmony: Harmony, last: i32, count: usize, dice: &mut Dice) -> Vec<i32> {
    let extra = match harmony.stack[..4] {
        [_, 4, _, 10] => 11,
        [_, 4, _, _] => 8,
        _ => 4,
    };
    let has = |pitch: &i32| harmony.has(*pitch) || (pitch - harmony.root).rem_euclid(12) == extra;
    let ladder: Vec<i32> = (LOWEST..=HIGHEST).filter(has).collect();
    let mut pitches = Vec::new();
    if dice.happens(50) {
        let thirds: Vec<i32> = (LOWEST..HIGHEST - 12)
            .filter(|p| (p - harmony.root - harmony.stack[1]) % 12 == 0)
            .collect();
        let third = thirds[nearest(&thirds, last)];
        pitches.extend(harmony.stack[1..5].iter().map(|above| third + above - harmony.stack[1]));
    }
    let top = pitches.last().map_or(last, |top| top - 1);
    let mut at = nearest(&ladder, top);
    while pitches.len() < count {
        pitches.push(ladder[at]);
        at = if at == 0 || dice.happens(8) { at + 3 } else { at - 1 }.min(ladder.len() - 1);
    }
    pitches.truncate(count);
    pitches
}

/// One note of the chord after another, each from above and from below.
fn enclosures(harmony: Harmony, last: i32, count: usize, dice: &mut Dice) -> Vec<i32> {
    let tones: Vec<i32> =
        (LOWEST + 1..HIGHEST - 1).filter(|pitch| harmony.sounds(*pitch)).collect();
    let targets = walk(&tones, last, &[1], 15, count / 3 + 1, dice);
    let enclosed = |target: i32| {
        let above = if harmony.has(target + 2) { target + 2 } else { target + 1 };
        [above, target - 1, target]
    };
    targets.into_iter().flat_map(enclosed).take(count).collect()
}

fn pentatonic(harmony: Harmony, dice: &mut Dice) -> Vec<i32> {
    let (steps, above) = match harmony.stack[..4] {
        [_, 3, 7, _] => (MINOR_PENTATONIC, *dice.one_of(&[0, 7])),
        [_, 4, 7, 11] => (MAJOR_PENTATONIC, *dice.one_of(&[0, 7, 2])),
        [_, 4, 7, _] => (MAJOR_PENTATONIC, 0),
        [_, 3, 6, _] => (MINOR_PENTATONIC, 3),
        _ => (MAJOR_PENTATONIC, 6),
    };
    let root = harmony.root + above;
    (LOWEST..=HIGHEST).filter(|pitch| steps.contains(&(pitch - root).rem_euclid(12))).collect()
}

fn cells(harmony: Harmony, last: i32, count: usize, dice: &mut Dice) -> Vec<i32> {
    let ladder = scale(harmony);
    let cell = *dice.one_of(&CELLS);
    let mut at = nearest(&ladder, last).min(ladder.len() - 5);
    let mut pitches = Vec::new();
    while pitches.len() < count {
        pitches.extend(cell.iter().map(|step| ladder[at + step]));
        let by = *dice.one_of(&[1, -1, 2, -2, 4]);
        at = stepped(at, by, ladder.len() - 4).unwrap_or(at / 2);
    }
    pitches.truncate(count);
    pitches
}
