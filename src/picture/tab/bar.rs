//! The bars and the columns of a tab.

use fretloom_fretboard::{Finger, Fret, HandPosition, StringNumber};
use fretloom_theory::{
    BarLabel, ChordSymbol, Degree, Meter, NoteName, Quarters, Slur, Stroke, WhichTriad,
};

use super::count::Count;

/// A bar, or several in which nothing begins.
#[derive(Clone, PartialEq, Debug)]
pub struct TabBar {
    /// What the first of them is called.
    pub label: BarLabel,
    /// How many bars stand before it.
    pub index: u64,
    /// How many there are: more than one where nothing begins and nothing ends in any of them.
    pub count: u64,
    /// Its meter, where that is another than before.
    pub new_meter: Option<Meter>,
    /// How long it is, where neither its meter nor a pick-up says so.
    pub odd_length: Option<Quarters>,
    /// How long the upbeat is that is not there: in a pick-up what its bar lacks.
    pub missing: Quarters,
    /// By time, at least one.
    pub columns: Vec<TabColumn>,
}

/// What stands at one moment, from the first string to the last.
#[derive(Clone, PartialEq, Debug)]
pub struct TabColumn {
    /// The moment.
    pub moment: Quarters,
    /// How it is counted.
    pub count: Count,
    /// Does anything begin, go on or stop there?
    pub turn: Turn,
    /// The chord that begins there.
    pub chord: Option<ChordSymbol>,
    /// Where the hand goes.
    pub position: Option<HandPosition>,
    /// What begins there: at most one on a string, string 1 first.
    pub notes: Vec<TabNote>,
    /// What goes on and must be said to: string 1 first.
    pub held: Vec<TabHold>,
}

/// What happens at a moment. A note lasts until the next moment at which something begins or stops,
/// unless it is said to be [held](TabColumn::held) there.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Turn {
    /// Notes begin.
    Begins,
    /// What sounds goes on.
    GoesOn,
    /// Nothing begins, and only what is held sounds on.
    Stops,
}

/// A note where it begins.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct TabNote {
    /// Its index among the notes that the tab was made of.
    pub event: usize,
    /// The string.
    pub string: StringNumber,
    /// The fret as it is written.
    pub fret: Fret,
    /// The finger that takes it; none where no hand can, or none is known.
    pub finger: Option<Finger>,
    /// What it is over the chord.
    pub degree: Option<Degree>,
    /// What it is called.
    pub name: Option<NoteName>,
    /// Its group, if it belongs to a triad.
    pub triad: Option<TriadMark>,
    /// Is it played louder?
    pub accent: bool,
    /// Which way the pick goes.
    pub stroke: Option<Stroke>,
    /// How it is slurred to, if it is.
    pub slur: Option<Slur>,
}

/// A note in the bracket of its triad.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct TriadMark {
    /// Which triad of the pair.
    pub which: WhichTriad,
    /// Is it the first of its group?
    pub opens: bool,
    /// Is it the last of its group?
    pub closes: bool,
}

/// A note that goes on at a moment.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct TabHold {
    /// The string.
    pub string: StringNumber,
    /// The fret, where it is written anew with a tie.
    pub tied: Option<Fret>,
}

impl TabColumn {
    /// The note that begins on a string.
    #[must_use]
    pub fn on(&self, string: StringNumber) -> Option<&TabNote> {
        self.notes.iter().find(|note| note.string == string)
    }

    /// What goes on on a string.
    #[must_use]
    pub fn held_on(&self, string: StringNumber) -> Option<TabHold> {
        self.held.iter().find(|hold| hold.string == string).copied()
    }
}
