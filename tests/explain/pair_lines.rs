//! Lines of a pair: groups of three to eight notes that alternate between the triads, and notes
//! that are none of the pair's.

use crate::dice::Dice;
use crate::grid::Slot;
use crate::harmony::{Harmony, ThreeNotes};
use crate::line::{HIGHEST, LOWEST, Line};

/// Notes of one triad in a row.
#[derive(Clone, Debug)]
pub(crate) struct Group {
    /// 0 or 1: which of the triads.
    pub(crate) which: usize,
    pub(crate) notes: Vec<usize>,
}

/// What was meant by a line.
#[derive(Clone, Debug)]
pub(crate) struct Meant {
    pub(crate) triads: [ThreeNotes; 2],
    pub(crate) groups: Vec<Group>,
    pub(crate) free: Vec<usize>,
}

/// How many notes the groups have, in turn.
const SIZES: [&[usize]; 14] = [
    &[3],
    &[3],
    &[4],
    &[4],
    &[4, 3],
    &[3, 4],
    &[3, 5],
    &[5, 3],
    &[5],
    &[6],
    &[3, 3, 4],
    &[6, 3],
    &[7],
    &[8],
];

/// Groups of each size from three on, in steps of the ladder of a triad.
const SHAPES: [&[&[usize]]; 6] = [
    &[&[0, 1, 2], &[2, 1, 0], &[0, 2, 1], &[1, 2, 0], &[1, 0, 2], &[2, 0, 1]],
    &[&[0, 1, 2, 1], &[2, 1, 0, 1], &[0, 1, 2, 3], &[3, 2, 1, 0], &[0, 2, 1, 2], &[1, 0, 2, 1]],
    &[&[0, 1, 2, 1, 0], &[0, 1, 2, 3, 2], &[4, 3, 2, 1, 0], &[0, 2, 1, 3, 2]],
    &[&[0, 1, 2, 3, 4, 5], &[0, 1, 2, 3, 2, 1], &[0, 2, 1, 3, 2, 4], &[2, 1, 0, 1, 2, 3]],
    &[&[0, 1, 2, 3, 2, 1, 0], &[0, 1, 2, 1, 2, 3, 4], &[4, 3, 2, 1, 2, 1, 0]],
    &[&[0, 1, 2, 3, 4, 3, 2, 1], &[0, 2, 1, 3, 2, 4, 3, 5], &[2, 1, 0, 1, 2, 3, 2, 1]],
];

/// The free notes that a player puts before a group.
#[derive(Clone, Copy)]
enum Lead {
    HalfStepBelow,
    HalfStepAbove,
    Passing,
    Enclosure,
    ChordTone,
}

const LEADS: [Lead; 8] = [
    Lead::HalfStepBelow,
    Lead::HalfStepBelow,
    Lead::HalfStepAbove,
    Lead::Passing,
    Lead::Passing,
    Lead::Passing,
    Lead::Enclosure,
    Lead::ChordTone,
];

/// How often of a hundred times a lead is tried; not all are possible in every pair.
const LED: usize = 48;
const CUT: usize = 10;
const REPEATED: usize = 10;
const TURNED: usize = 25;
const LEAPS: usize = 10;

struct Writer<'a> {
    harmony: Harmony,
    line: &'a mut Line,
    dice: &'a mut Dice,
    meant: Meant,
    /// From the last to the next one.
    slots: Vec<Slot>,
}

/// Writes a line of the pair into the places, and says what was meant.
pub(crate) fn write(
    harmony: Harmony,
    triads: [ThreeNotes; 2],
    slots: &[Slot],
    segment: usize,
    line: &mut Line,
    dice: &mut Dice,
) -> Meant {
    let meant = Meant { triads, groups: Vec::new(), free: Vec::new() };
    let slots = slots.iter().rev().copied().collect();
    let mut writer = Writer { harmony, line, dice, meant, slots };
    let sizes = *writer.dice.one_of(&SIZES);
    let mut which = writer.dice.below(2);
    for size in sizes.iter().cycle() {
        match writer.slots.as_slice() {
            [] => break,
            [last] if !writer.meant.groups.is_empty() && writer.dice.happens(60) => {
                writer.line.keep(*last, segment, triads);
                break;
            }
            _ => writer.group(which, *size),
        }
        which = if writer.dice.happens(REPEATED) { which } else { 1 - which };
    }
    writer.meant
}

impl Writer<'_> {
    /// A group, and what leads into it.
    fn group(&mut self, which: usize, size: usize) {
        let size = if self.dice.happens(CUT) { 2 + self.dice.below(size - 2) } else { size };
        let pitches = self.placed(which, size);
        if self.dice.happens(LED) {
            self.lead(pitches[0]);
        }
        let count = pitches.len().min(self.slots.len());
        let notes = pitches[..count].iter().map(|pitch| self.note(*pitch)).collect();
        self.meant.groups.push(Group { which, notes });
    }

    /// A shape of that size where it begins near the last note.
    fn placed(&mut self, which: usize, size: usize) -> Vec<i32> {
        let full = size.max(3);
        let mut shape: Vec<usize> = self.dice.one_of(SHAPES[full - 3]).to_vec();
        if self.dice.happens(TURNED) {
            shape.reverse();
        }
        shape.truncate(size);
        let ladder = self.meant.triads[which].ladder(LOWEST, HIGHEST);
        let top = ladder.len() - shape.iter().max().unwrap();
        let reach = if self.dice.happens(LEAPS) { 10 } else { 5 };
        let last = self.line.last();
        let mut starts: Vec<usize> = (0..top).collect();
        starts.sort_by_key(|start| (ladder[start + shape[0]] - last).abs());
        let near = |start: &&usize| (ladder[*start + shape[0]] - last).abs() <= reach;
        let near: Vec<usize> = starts.iter().filter(near).copied().collect();
        let start = if near.is_empty() { starts[0] } else { *self.dice.one_of(&near) };
        shape.iter().map(|step| ladder[start + step]).collect()
    }

    fn note(&mut self, pitch: i32) -> usize {
        let slot = self.slots.pop().unwrap();
        self.line.write(slot, pitch, self.dice)
    }

    /// Free notes into a note, where there is room for them and a group of two.
    fn lead(&mut self, into: i32) {
        let lead = *self.dice.one_of(&LEADS);
        let pitches = self.leading(lead, into);
        let foreign = |pitch: &i32| {
            !self.meant.triads.iter().any(|triad| triad.has(*pitch))
                && (LOWEST..=HIGHEST).contains(pitch)
        };
        if pitches.iter().all(foreign) && pitches.len() + 2 <= self.slots.len() {
            for pitch in pitches {
                let note = self.note(pitch);
                self.meant.free.push(note);
            }
        }
    }

    fn leading(&mut self, lead: Lead, into: i32) -> Vec<i32> {
        let above = if self.harmony.has(into + 2) { 2 } else { 1 };
        match lead {
            Lead::HalfStepBelow => vec![into - 1],
            Lead::HalfStepAbove => vec![into + 1],
            Lead::Passing => {
                let last = self.line.last();
                let way = if last > into { [1, 2] } else { [-1, -2] };
                let steps = way.into_iter().map(|step| into + step);
                steps.filter(|pitch| self.harmony.has(*pitch)).take(1).collect()
            }
            Lead::Enclosure if self.dice.happens(50) => vec![into + above, into - 1],
            Lead::Enclosure => vec![into - 1, into + above],
            Lead::ChordTone => self.chord_tone(into),
        }
    }

    /// A note of the chord near by, held or played twice.
    fn chord_tone(&mut self, into: i32) -> Vec<i32> {
        let mut near: Vec<i32> = (into - 5..=into + 5).collect();
        near.sort_by_key(|pitch| (pitch - into).abs());
        let outside = |pitch: &i32| !self.meant.triads.iter().any(|triad| triad.has(*pitch));
        let tone = near.into_iter().filter(outside).find(|pitch| self.harmony.sounds(*pitch));
        let Some(tone) = tone else { return Vec::new() };
        if self.dice.happens(50) {
            return vec![tone, tone];
        }
        self.lengthen();
        vec![tone]
    }

    /// Makes the next place as long as two.
    fn lengthen(&mut self) {
        if self.slots.len() > 4
            && let Some(next) = self.slots.pop()
            && let Some(after) = self.slots.last_mut()
        {
            *after = Slot { at: next.at, length: next.length + after.length };
        }
    }
}
