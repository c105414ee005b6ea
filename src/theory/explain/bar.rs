//! What is said of a bar.

use super::arrival::Arrival;
use super::landing::Landing;
use super::movement::Movement;
use crate::{
    BarLabel, ChordSymbol, Direction, Inversion, Pitch, PitchClass, Quarters, Scale, Triad,
    TriadPair,
};

/// What a line does in a bar; a bar with several chords has one for each of them.
///
/// Notes are told by their indices in [`Part::notes`](crate::Part::notes). Each stands in one bar,
/// in a group or among the free notes, and in no other.
#[derive(Clone, PartialEq, Debug)]
pub struct ExplainedBar {
    /// What the bar is called.
    pub label: BarLabel,
    /// When the bar, or its chord, begins.
    pub from: Quarters,
    /// When it ends.
    pub to: Quarters,
    /// What a foot taps in it.
    pub beat: Quarters,
    /// What stands over it.
    pub chord: Option<ChordSymbol>,
    /// The scale in which the line is heard: the usual one for the chord where it stands, or the
    /// first that holds the pair. `None` where there is no chord.
    pub scale: Option<Scale>,
    /// The pair that explains it; `None` where none does.
    pub pair: Option<TriadPair>,
    /// The groups that speak this chord, in order, also those that come early or hang over. None
    /// where there is no pair.
    pub groups: Vec<ExplainedGroup>,
    /// The notes that belong to no group, in order of time: all of them where there is no pair.
    pub free: Vec<usize>,
    /// What those among the free notes do that lead by a step into the pair.
    pub approaches: Vec<ExplainedApproach>,
    /// Where the line lands, if the next chord is another one and the line goes on there.
    pub landing: Option<Landing>,
    /// Other pairs that explain the bar as shortly. Where an arpeggio could also be heard as two
    /// triads, these.
    pub readings: Vec<TriadPair>,
    /// What the line does where no pair explains it.
    pub movement: Option<Movement>,
}

/// Notes in a row, all of one triad of a pair; free notes may stand between them.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ExplainedGroup {
    /// The triad.
    pub triad: Triad,
    /// Its inversion, by the lowest note of the group; `None` where the group does not hold the
    /// whole triad.
    pub inversion: Option<Inversion>,
    /// Which way all its notes go; `None` where they turn, and for one note.
    pub direction: Option<Direction>,
    /// The notes in order of time; at least one.
    pub notes: Vec<usize>,
    /// Does it sound in the time of its chord?
    pub early: GroupTiming,
}

impl ExplainedGroup {
    /// Notes of one triad in order of time, each by its index in the part.
    #[must_use]
    pub fn of(triad: Triad, notes: &[(usize, Pitch)], early: GroupTiming) -> ExplainedGroup {
        let pitches: Vec<Pitch> = notes.iter().map(|(_, pitch)| *pitch).collect();
        ExplainedGroup {
            triad,
            inversion: inversion(triad, &pitches),
            direction: direction(&pitches),
            notes: notes.iter().map(|(index, _)| *index).collect(),
            early,
        }
    }
}

fn inversion(triad: Triad, pitches: &[Pitch]) -> Option<Inversion> {
    let sounds = pitches.iter().map(|pitch| pitch.pitch_class()).collect();
    let lowest = pitches.iter().min()?.pitch_class();
    let member = triad.members().iter().position(|class| *class == lowest)?;
    Inversion::ALL.get(member).copied().filter(|_| triad.set().is_subset(sounds))
}

/// Which way all the notes go.
fn direction(pitches: &[Pitch]) -> Option<Direction> {
    match pitches {
        [_, _, ..] if pitches.is_sorted_by(|one, next| one < next) => Some(Direction::Up),
        [_, _, ..] if pitches.is_sorted_by(|one, next| one > next) => Some(Direction::Down),
        _ => None,
    }
}

/// Whether a group sounds in the time of the chord that it speaks.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum GroupTiming {
    /// It does.
    OnTime,
    /// It begins so long before its chord.
    Early(Quarters),
    /// Its last note still sounds, so long after the next chord has begun.
    Late(Quarters),
}

impl GroupTiming {
    /// How many quarters early; negative where it is late.
    #[must_use]
    pub fn quarters_early(self) -> f64 {
        match self {
            GroupTiming::OnTime => 0.0,
            GroupTiming::Early(by) => by.to_f64(),
            GroupTiming::Late(by) => -by.to_f64(),
        }
    }
}

/// A free note that leads by a step into a note of the pair, or into the note after the bar.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct ExplainedApproach {
    /// The free note: its index in the part.
    pub note: usize,
    /// What it sounds as.
    pub class: PitchClass,
    /// The note that it leads to: its index in the part.
    pub into: usize,
    /// What that one sounds as.
    pub target: PitchClass,
    /// Up to it or down to it.
    pub direction: Direction,
    /// A half or a whole step.
    pub arrival: Arrival,
}
