//! Made-up lines: all that tablature has to show, at random, the same each time.

use fretloom::picture::{Attack, TabEvent};
use fretloom_fretboard::{Fret, StringNumber, Tuning};
use fretloom_theory::{Bars, ChordSymbol, Meter, Quarters, Stroke, Timeline, WhichTriad};

use crate::reader::{Found, Parts, QUARTER};

/// A line, and what a reader is to find in its tab.
pub(crate) struct MadeUp {
    pub(crate) tuning: Tuning,
    pub(crate) bars: Bars,
    pub(crate) chords: Timeline<ChordSymbol>,
    pub(crate) events: Vec<TabEvent>,
    pub(crate) end: Quarters,
    pub(crate) expected: Vec<Found>,
}

/// Numbers that look random and come again.
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Dice {
        Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x5851_F42D_4C95_7F2D)
    }

    /// Below `sides`.
    pub(crate) fn throw(&mut self, sides: u64) -> u64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % sides
    }

    fn one_in(&mut self, sides: u64) -> bool {
        self.throw(sides) == 0
    }

    fn of<T: Copy>(&mut self, things: &[T]) -> T {
        things[self.throw(things.len() as u64) as usize]
    }
}

const TUNINGS: [&str; 10] = [
    "A D G",
    "G C E A",
    "G4 D3 G3 B3 D4",
    "E A D G B E",
    "D A D G B E",
    "Eb A D G B E",
    "B1 E2 A2 D3 G3 B3 E4",
    "F#1 B1 E2 A2 D3 G3 B3 E4",
    "E2 A2 D3 F#3 A3 C#4 E4 F#4 B3 E4",
    "E2 A2 D3 G3 B3 E4 E2 A2 D3 G3 B3 E4",
];

const METERS: [&str; 10] = ["4/4", "4/4", "3/4", "6/8", "12/8", "5/4", "7/8", "2/2", "2/4", "3/8"];

const CHORDS: [&str; 6] = ["Dm7", "G7", "Cmaj7", "F#m7b5", "B7alt", "Ebmaj7#11"];

/// Into how many notes a group is divided, and how long it is in halves of a quarter.
const GROUPS: [(u32, u32); 14] = [
    (1, 1),
    (1, 2),
    (1, 4),
    (1, 8),
    (2, 2),
    (2, 2),
    (4, 2),
    (3, 2),
    (3, 4),
    (6, 2),
    (5, 2),
    (7, 4),
    (8, 2),
    (3, 6),
];

struct Making {
    dice: Dice,
    strings: u8,
    /// Until when each string sounds, in parts.
    free: Vec<Parts>,
    events: Vec<TabEvent>,
    expected: Vec<Found>,
    bars: Bars,
    tuned: Tuning,
}

/// The line of a number.
pub(crate) fn line(seed: u64) -> MadeUp {
    let mut dice = Dice::new(seed);
    let tuning = Tuning::read(dice.of(&TUNINGS)).unwrap();
    let bars = bars(&mut dice);
    let strings = tuning.string_count() as u8;
    let mut making = Making {
        dice,
        strings,
        free: vec![0; usize::from(strings) + 1],
        events: Vec::new(),
        expected: Vec::new(),
        bars,
        tuned: tuning,
    };
    let end = making.fill();
    let chords = making.chords(end);
    making.expected.sort();
    let Making { events, expected, bars, tuned, .. } = making;
    MadeUp { tuning: tuned, bars, chords, events, end: quarters(end), expected }
}

fn bars(dice: &mut Dice) -> Bars {
    let meter: Meter = dice.of(&METERS).parse().unwrap();
    let mut bars = Bars::of(meter);
    if dice.one_in(4) {
        let eighths = 1 + dice.throw(5);
        let pick_up = Quarters::new(eighths, 2).unwrap();
        bars = Bars::with_pick_up(meter, pick_up).unwrap_or(bars);
    }
    for _ in 0..dice.throw(3) {
        let from = Quarters::new(2 + dice.throw(60), 2).unwrap();
        let same = bars.clone();
        bars = bars.changing(from, dice.of(&METERS).parse().unwrap()).unwrap_or(same);
    }
    bars
}

fn quarters(parts: Parts) -> Quarters {
    Quarters::new(parts as u64, QUARTER as u32).unwrap()
}

impl Making {
    /// Notes and rests until some moment, and when that is.
    fn fill(&mut self) -> Parts {
        let until = QUARTER * (4 + self.dice.throw(60) as Parts);
        let mut at = 0;
        while at < until {
            let (count, halves) = self.dice.of(&GROUPS);
            let length = QUARTER / 2 * Parts::from(halves);
            let each = length / Parts::from(count);
            if self.dice.one_in(12) {
                // Up to many bars of rest.
                at += QUARTER / 2 * (1 + self.dice.throw(80) as Parts);
                continue;
            }
            for index in 0..Parts::from(count) {
                self.moment(at + index * each, each);
            }
            at += length;
        }
        at + QUARTER * self.dice.throw(20) as Parts
    }

    /// A note, a chord, grace notes before it, or nothing.
    fn moment(&mut self, at: Parts, each: Parts) {
        let count = match self.dice.throw(12) {
            0 | 1 => 0,
            2 => 2,
            3 => 3,
            _ => 1,
        };
        let mut strings: Vec<u8> =
            (1..=self.strings).filter(|s| self.free[usize::from(*s)] <= at).collect();
        for _ in 0..count {
            if strings.is_empty() {
                return;
            }
            let index = self.dice.throw(strings.len() as u64) as usize;
            let string = strings.remove(index);
            let length = match self.dice.throw(6) {
                0 => each * (1 + self.dice.throw(12) as Parts),
                1 => each * 2,
                _ => each,
            };
            if self.dice.one_in(9) {
                for steps in 1..=1 + self.dice.throw(2) as u32 {
                    self.note(at, 0, string, Attack::Before(steps));
                }
            }
            self.note(at, length, string, Attack::OnTime);
            self.free[usize::from(string)] = at + length;
        }
    }

    fn note(&mut self, at: Parts, length: Parts, string: u8, attack: Attack) {
        let fret = if self.dice.one_in(5) { 0 } else { self.dice.throw(25) as u8 };
        let (onset, duration) = (quarters(at), quarters(length));
        let ties = if self.dice.one_in(4) { vec![quarters(at + length / 2)] } else { Vec::new() };
        let number = StringNumber::new(string).unwrap();
        self.events.push(TabEvent {
            attack,
            ties,
            accent: self.dice.one_in(8),
            slurred_to_next: self.dice.one_in(5),
            stroke: [None, Some(Stroke::Down), Some(Stroke::Up)][self.dice.throw(3) as usize],
            triad: [None, Some(WhichTriad::First), Some(WhichTriad::Second)]
                [self.dice.throw(3) as usize],
            degree: Some(["1", "b3", "#11"][self.dice.throw(3) as usize].parse().unwrap()),
            ..TabEvent::new(onset, duration, number, Fret::new(fret).unwrap())
        });
        let bar = self.bars.at(onset).unwrap().index;
        self.expected.push(Found { bar, onset: at, string, fret, duration: length });
    }

    fn chords(&mut self, end: Parts) -> Timeline<ChordSymbol> {
        let halves = end / (QUARTER / 2);
        let count = self.dice.throw(12);
        let chord = |_| {
            let at = QUARTER / 2 * self.dice.throw(halves as u64 + 4) as Parts;
            (quarters(at), ChordSymbol::read(self.dice.of(&CHORDS)))
        };
        Timeline::of((0..count).map(chord).collect::<Vec<_>>())
    }
}
