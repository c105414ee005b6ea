//! Tunes with lines over them, of pairs and of other things, and what was meant by each bar.
//!
//! It shares nothing with what reads them: it writes, by tables and dice, what players play.

use fretloom_theory::{ChordSymbol, Part, Quarters, Score, Timeline};

use crate::dice::Dice;
use crate::grid::{BAR, quarters, slots};
use crate::harmony::{Harmony, Placed, ThreeNotes, chords};
use crate::line::Line;
use crate::other_lines::{MANNERS, Manner, pitches};
use crate::pair_lines::{Group, Meant, write};

/// A tune and what was meant.
pub(crate) struct Tune {
    pub(crate) score: Score,
    pub(crate) line: Line,
    pub(crate) bars: Vec<MeantBar>,
}

/// What was meant by a bar, or by one of the chords in it.
#[derive(Debug)]
pub(crate) struct MeantBar {
    /// When it begins and ends, in parts of a quarter.
    pub(crate) from: u32,
    pub(crate) to: u32,
    pub(crate) symbol: String,
    pub(crate) what: What,
    /// The notes that speak its chord.
    pub(crate) notes: Vec<usize>,
}

#[derive(Debug)]
pub(crate) enum What {
    Pair(Meant),
    Other(Manner),
}

/// A stretch of one thing, which may begin before its first chord or after.
struct Segment {
    /// Its first chord, and how many there are.
    chord: usize,
    chords: usize,
    of: Of,
    from: u32,
}

#[derive(Clone, Copy, PartialEq)]
enum Of {
    Pair([ThreeNotes; 2]),
    Other(Manner),
}

/// Of a hundred segments; those of pairs are longer, so that two bars of five are of other things.
const OTHERS: usize = 48;
const TWO_CHORDS: usize = 40;
const EARLY: usize = 18;
const LATE: usize = 12;
/// An eighth, a beat, a dotted quarter, two beats.
const SHIFTS: [u32; 4] = [6, 12, 18, 24];
/// No segment is shorter: two beats.
const SHORTEST: u32 = 24;

pub(crate) fn tune(seed: u64, bars: u32) -> Tune {
    let mut dice = Dice::seeded(seed);
    let chords = chords(bars, &mut dice);
    let mut segments = segments(&chords, &mut dice);
    shift(&mut segments, &chords, &mut dice);
    let (mut line, mut meant) = (Line::new(), Vec::new());
    for (index, segment) in segments.iter().enumerate() {
        let to = segments.get(index + 1).map_or(bars * BAR, |next| next.from);
        let harmony = chords[segment.chord].harmony;
        meant.push(written(index, segment, to, harmony, &mut line, &mut dice));
    }
    for (segment, note) in &line.led {
        if let Written::Pair(meant) = &mut meant[*segment] {
            meant.free.push(*note);
        }
    }
    let told = segments.iter().zip(meant).flat_map(|(segment, meant)| {
        let told = |chord| told(segment, chord, &meant, &chords, &line);
        (0..segment.chords).map(told).collect::<Vec<_>>()
    });
    let bars = told.collect();
    Tune { score: score(&chords, &line, &mut dice), line, bars }
}

fn segments(chords: &[Placed], dice: &mut Dice) -> Vec<Segment> {
    let mut segments: Vec<Segment> = Vec::new();
    let mut chord = 0;
    while chord < chords.len() {
        let (of, count) = if dice.happens(OTHERS) {
            (Of::Other(*dice.one_of(&MANNERS)), 1)
        } else {
            some_pair(&chords[chord..], dice)
        };
        segments.push(Segment { chord, chords: count, of, from: chords[chord].from });
        chord += count;
    }
    segments
}

/// A pair of the first chord, for two chords where it serves both.
fn some_pair(chords: &[Placed], dice: &mut Dice) -> (Of, usize) {
    let pair = *dice.one_of(&chords[0].harmony.pairs());
    let serves = |chord: &Placed| chord.harmony.pairs().iter().any(|other| same(other, &pair));
    let two = dice.happens(TWO_CHORDS) && chords.get(1).is_some_and(serves);
    (Of::Pair(pair), if two { 2 } else { 1 })
}

fn same(one: &[ThreeNotes; 2], other: &[ThreeNotes; 2]) -> bool {
    one == other || [one[1], one[0]] == *other
}

/// Lets segments begin early, or the ones before them hang over.
fn shift(segments: &mut [Segment], chords: &[Placed], dice: &mut Dice) {
    for index in 1..segments.len() {
        let (before, after) = segments.split_at_mut(index);
        let (before, segment) = (&before[index - 1], &mut after[0]);
        let by = *dice.one_of(&SHIFTS);
        let (early, late) = (dice.happens(EARLY), dice.happens(LATE));
        let (of_pair, after_pair) = match (segment.of, before.of) {
            (Of::Pair(one), Of::Pair(other)) if same(&one, &other) => (false, false),
            (of, before) => (matches!(of, Of::Pair(_)), matches!(before, Of::Pair(_))),
        };
        if of_pair && early && segment.from - by >= before.from + SHORTEST {
            segment.from -= by;
        } else if after_pair && late && segment.from + by + SHORTEST <= end(segment, chords) {
            segment.from += by;
        }
    }
}

/// When the last of its chords ends.
fn end(segment: &Segment, chords: &[Placed]) -> u32 {
    chords[segment.chord + segment.chords - 1].to
}

enum Written {
    Pair(Meant),
    Other(Manner, Vec<usize>),
}

fn written(
    index: usize,
    segment: &Segment,
    to: u32,
    harmony: Harmony,
    line: &mut Line,
    dice: &mut Dice,
) -> Written {
    let slots = slots(segment.from, to, dice);
    match segment.of {
        Of::Pair(triads) => Written::Pair(write(harmony, triads, &slots, index, line, dice)),
        Of::Other(manner) => {
            let pitches = pitches(manner, harmony, line.last(), slots.len(), dice);
            let notes =
                slots.iter().zip(pitches).map(|(slot, pitch)| line.write(*slot, pitch, dice));
            Written::Other(manner, notes.collect())
        }
    }
}

/// What was meant by one of the chords of a segment.
fn told(
    segment: &Segment,
    index: usize,
    meant: &Written,
    chords: &[Placed],
    line: &Line,
) -> MeantBar {
    let Placed { harmony, from, to } = chords[segment.chord + index];
    let symbol = harmony.symbol();
    // What comes early belongs to the first chord, what hangs over to the last.
    let begins = |note: usize| index == 0 || line.onset(note) >= from;
    let ends = |note: usize| index + 1 == segment.chords || line.onset(note) < to;
    let within = |note: usize| begins(note) && ends(note);
    match meant {
        Written::Other(manner, notes) => {
            MeantBar { from, to, symbol, what: What::Other(*manner), notes: notes.clone() }
        }
        Written::Pair(meant) => {
            let parts = meant.groups.iter().map(|group| Group {
                which: group.which,
                notes: group.notes.iter().copied().filter(|note| within(*note)).collect(),
            });
            let groups: Vec<Group> = parts.filter(|group| !group.notes.is_empty()).collect();
            let free: Vec<usize> =
                meant.free.iter().copied().filter(|note| within(*note)).collect();
            let of_groups = groups.iter().flat_map(|group| group.notes.iter());
            let mut notes: Vec<usize> = of_groups.chain(&free).copied().collect();
            notes.sort_unstable();
            let meant = Meant { triads: meant.triads, groups, free };
            MeantBar { from, to, symbol, what: What::Pair(meant), notes }
        }
    }
}

/// Chords are written where they change; in one tune of six a hair before the bar line, as
/// some programs write them.
fn score(chords: &[Placed], line: &Line, dice: &mut Dice) -> Score {
    let hair = if dice.happens(16) { Quarters::new(1, 480) } else { Some(Quarters::ZERO) };
    let mut symbols = Vec::new();
    let mut last = String::new();
    for chord in chords {
        let symbol = chord.harmony.symbol();
        if symbol != last {
            let from = quarters(chord.from);
            let from = hair.and_then(|hair| from.checked_sub(hair)).unwrap_or(from);
            symbols.push((from, ChordSymbol::read(&symbol)));
        }
        last = symbol;
    }
    let parts = vec![Part::new(line.notes())];
    Score { chords: Timeline::of(symbols), parts, ..Score::default() }
}
