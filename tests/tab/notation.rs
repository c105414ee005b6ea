//! A short notation for the notes of a tab, for tests only.
//!
//! `1/2` says how long what follows is, in quarter notes. `3.5` is string 3 at fret 5, `3.5+2.6` a
//! chord, `r` a rest, `~` more of the note before, tied where the next one begins. Before a note stand
//! `g` for a grace note and `[` or `(` for the first or the second triad; behind it `>` for an
//! accent, `^` for a slur to the next note, `d` and `u` for strokes, `f2` for a finger, `@V` for a
//! position and `:b3` for a degree.

use fretloom::picture::{Attack, TabEvent};
use fretloom_fretboard::{Finger, Fret, StringNumber};
use fretloom_theory::{Quarters, Stroke, WhichTriad};

/// The notes, and when they end.
pub(crate) fn notes(text: &str) -> (Vec<TabEvent>, Quarters) {
    let mut writing = Writing {
        events: Vec::new(),
        last: 0..0,
        graces: 0..0,
        now: Quarters::ZERO,
        length: Quarters::EIGHTH,
    };
    text.split_whitespace().for_each(|word| writing.read(word));
    (writing.events, writing.now)
}

struct Writing {
    events: Vec<TabEvent>,
    /// The notes that began last.
    last: std::ops::Range<usize>,
    /// Grace notes that wait for their main note.
    graces: std::ops::Range<usize>,
    now: Quarters,
    length: Quarters,
}

impl Writing {
    fn read(&mut self, word: &str) {
        match word {
            "r" => self.pass(),
            "~" => {
                for event in &mut self.events[self.last.clone()] {
                    event.duration = event.duration.checked_add(self.length).unwrap();
                    event.ties.push(self.now);
                }
                self.pass();
            }
            _ if !word.contains('.') => {
                let (above, below) = word.split_once('/').unwrap_or((word, "1"));
                let (above, below) = (above.parse().unwrap(), below.parse().unwrap());
                self.length = Quarters::new(above, below).unwrap();
            }
            _ => self.begin(word),
        }
    }

    fn pass(&mut self) {
        self.now = self.now.checked_add(self.length).unwrap();
    }

    fn begin(&mut self, word: &str) {
        let first = self.events.len();
        if let Some(word) = word.strip_prefix('g') {
            let event = note(word, self.now, Quarters::ZERO);
            self.events.push(event);
            self.graces.end = first + 1;
            self.graces.start = self.graces.start.max(self.last.end);
            return;
        }
        let notes = word.split('+').map(|word| note(word, self.now, self.length));
        self.events.extend(notes);
        for (grace, steps) in self.events[self.graces.clone()].iter_mut().rev().zip(1..) {
            grace.attack = Attack::Before(steps);
        }
        self.last = first..self.events.len();
        self.graces = self.events.len()..self.events.len();
        self.pass();
    }
}

fn note(word: &str, onset: Quarters, duration: Quarters) -> TabEvent {
    let (triad, word) = match word.split_at(1) {
        ("[", word) => (Some(WhichTriad::First), word),
        ("(", word) => (Some(WhichTriad::Second), word),
        _ => (None, word),
    };
    let (place, rest) = word.split_once('.').unwrap();
    let digits = rest.find(|sign: char| !sign.is_ascii_digit()).unwrap_or(rest.len());
    let string = StringNumber::new(place.parse().unwrap()).unwrap();
    let fret = Fret::new(rest[..digits].parse().unwrap()).unwrap();
    let mut event = TabEvent { triad, ..TabEvent::new(onset, duration, string, fret) };
    let (marks, degree) = rest[digits..].split_once(':').unwrap_or((&rest[digits..], ""));
    event.degree = (!degree.is_empty()).then(|| degree.parse().unwrap());
    let (marks, position) = marks.split_once('@').unwrap_or((marks, ""));
    event.position = (!position.is_empty()).then(|| position.parse().unwrap());
    event.accent = marks.contains('>');
    event.slurred_to_next = marks.contains('^');
    event.stroke = match (marks.contains('d'), marks.contains('u')) {
        (true, _) => Some(Stroke::Down),
        (false, true) => Some(Stroke::Up),
        (false, false) => None,
    };
    let fingers = [Finger::Open, Finger::First, Finger::Second, Finger::Third, Finger::Fourth];
    let finger = marks.split_once('f').and_then(|(_, finger)| finger.get(..1)?.parse().ok());
    event.finger = finger.map(|finger: usize| fingers[finger]);
    event
}
