//! What the signs of a tab mean.

use std::collections::BTreeSet;
use std::fmt;

use fretloom_theory::{Slur, WhichTriad};

use crate::picture::{
    Count, Tab, TabBelow, TabColumn, TabLook, TabNote, TabRhythm, TabSystem, Turn,
};

/// What the signs mean that stand in a tab, and no others; prints as lines no wider than the tab
/// may be.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Legend {
    signs: BTreeSet<Sign>,
    width: usize,
}

/// A sign that needs to be explained, in the order in which they are.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Sign {
    Halves,
    Quarters,
    Thirds,
    Sixths,
    Parts,
    Between,
    HoldOn,
    Silence,
    LeftOut,
    Grace,
    Rolled,
    SoundsOn,
    Tied,
    HammerOn,
    PullOff,
    Strokes,
    Accent,
    BrokenBar,
    Fingers,
    Degrees,
    Names,
    FirstTriad,
    SecondTriad,
}

impl Sign {
    const fn meaning(self) -> &'static str {
        match self {
            Sign::Halves => "1 & 2 &: beats and halves; a note lasts until the next count",
            Sign::Quarters => "e a: quarters of a beat",
            Sign::Thirds => "la li: thirds of a beat",
            Sign::Sixths => "ta ti: first and last sixth of a beat",
            Sign::Parts => "2/5: so much after the beat",
            Sign::Between => "*: between the counts",
            Sign::HoldOn => "~2: hold on",
            Sign::Silence => "(2): silence",
            Sign::LeftOut => "..: the beats between",
            Sign::Grace => "g: grace note",
            Sign::Rolled => "': rolled, with the note before",
            Sign::SoundsOn => "=: that string sounds on",
            Sign::Tied => "(5) on a string: tied",
            Sign::HammerOn => "h: hammer on",
            Sign::PullOff => "p: pull off",
            Sign::Strokes => "⊓ V: down, up",
            Sign::Accent => ">: accent",
            Sign::BrokenBar => ": in place of |: the bar goes on",
            Sign::Fingers => "below: fingers",
            Sign::Degrees => "below: degrees over the chord",
            Sign::Names => "below: notes",
            Sign::FirstTriad => "[ ] below: first triad",
            Sign::SecondTriad => "( ) below: second triad",
        }
    }
}

impl Legend {
    /// What stands in what a look shows of a tab.
    pub(super) fn of(tab: &Tab, look: &TabLook, systems: &[TabSystem]) -> Legend {
        let mut signs = BTreeSet::new();
        let is_counted = look.rhythm && tab.rhythm != TabRhythm::NotCounted;
        for column in tab.columns() {
            if is_counted {
                signs.extend(counted(column));
            }
            signs.extend(column.held.iter().map(|hold| match hold.tied {
                Some(_) => Sign::Tied,
                None => Sign::SoundsOn,
            }));
            column.notes.iter().for_each(|note| signs.extend(noted(note, look)));
        }
        signs.extend(is_counted.then_some(Sign::Halves));
        let is_broken = systems.iter().any(|system| system.is_broken);
        signs.extend(is_broken.then_some(Sign::BrokenBar));
        Legend { signs, width: look.width }
    }

    /// What stands in this or in another, as wide as this.
    #[must_use]
    pub fn and(mut self, other: &Legend) -> Legend {
        self.signs.extend(&other.signs);
        self
    }
}

/// What the count of a column needs.
fn counted(column: &TabColumn) -> impl Iterator<Item = Sign> {
    let of_count = match column.count {
        Count::Beat(_) | Count::Syllable("&") | Count::Bars(_) => None,
        Count::Syllable("e" | "a") => Some(Sign::Quarters),
        Count::Syllable("la" | "li") => Some(Sign::Thirds),
        Count::Syllable(_) => Some(Sign::Sixths),
        Count::Part { .. } => Some(Sign::Parts),
        Count::Between => Some(Sign::Between),
        Count::LeftOut => Some(Sign::LeftOut),
        Count::Grace => Some(Sign::Grace),
        Count::Rolled => Some(Sign::Rolled),
    };
    let of_turn = match column.turn {
        Turn::Begins => None,
        Turn::GoesOn => Some(Sign::HoldOn),
        Turn::Stops => Some(Sign::Silence),
    };
    of_count.into_iter().chain(of_turn)
}

/// What a note needs.
fn noted(note: &TabNote, look: &TabLook) -> impl Iterator<Item = Sign> {
    let slur = note.slur.map(|slur| match slur {
        Slur::HammerOn => Sign::HammerOn,
        Slur::PullOff => Sign::PullOff,
    });
    let below = match look.below {
        TabBelow::Nothing => None,
        TabBelow::Degrees => note.degree.map(|_| Sign::Degrees),
        TabBelow::Names => note.name.map(|_| Sign::Names),
    };
    let triad = note.triad.filter(|_| look.triads).map(|mark| match mark.which {
        WhichTriad::First => Sign::FirstTriad,
        WhichTriad::Second => Sign::SecondTriad,
    });
    let stroke = note.stroke.filter(|_| look.strokes).map(|_| Sign::Strokes);
    let accent = (look.strokes && note.accent).then_some(Sign::Accent);
    let finger = note.finger.filter(|_| look.fingers).map(|_| Sign::Fingers);
    [slur, stroke, accent, finger, below, triad].into_iter().flatten()
}

/// What stands between two meanings of a line.
const GAP: &str = "   ";

impl fmt::Display for Legend {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut line = String::new();
        for sign in &self.signs {
            let meaning = sign.meaning();
            let width =
                [&line, GAP, meaning].iter().map(|text| text.chars().count()).sum::<usize>();
            if line.is_empty() {
                line = meaning.to_owned();
            } else if width <= self.width {
                line = line + GAP + meaning;
            } else {
                write_wrapped(f, &line, self.width)?;
                line = meaning.to_owned();
            }
        }
        if line.is_empty() { Ok(()) } else { write_wrapped(f, &line, self.width) }
    }
}

/// A line, as several where a single meaning is too wide.
fn write_wrapped(f: &mut fmt::Formatter<'_>, line: &str, width: usize) -> fmt::Result {
    if line.chars().count() <= width {
        return writeln!(f, "{line}");
    }
    textwrap::wrap(line, width.max(1)).iter().try_for_each(|part| writeln!(f, "{part}"))
}
