//! What is shown of music that is set.

use fretloom_theory::WhichTriad;

/// What is shown of music that is set.
#[derive(Clone, PartialEq, Debug)]
pub struct EngravingLook {
    /// How wide a line is, in millimetres.
    pub width_mm: f64,
    /// Are there notes, or room to write them?
    pub answers: Answers,
    /// Are fingers written below the tablature?
    pub fingers: bool,
    /// Which notes belong to which triad, in order of time.
    pub groups: Vec<NoteGroup>,
    /// What is said below bars, in order of the bars.
    pub words: Vec<BarWords>,
}

/// Whether notes are shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Answers {
    /// As they are.
    #[default]
    Shown,
    /// Staff and tablature are empty, with their bars and chords.
    Blank,
}

/// Notes of one triad.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NoteGroup {
    /// The index of its first note.
    pub first: usize,
    /// The index of its last note.
    pub last: usize,
    /// Which triad of the pair.
    pub which: WhichTriad,
    /// What the triad is called.
    pub name: String,
}

/// What is said below a bar.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BarWords {
    /// How many bars stand before it.
    pub bar: usize,
    /// The words.
    pub text: String,
}

impl EngravingLook {
    /// Notes with their fingers, in lines so wide.
    #[must_use]
    pub const fn new(width_mm: f64) -> EngravingLook {
        EngravingLook {
            width_mm,
            answers: Answers::Shown,
            fingers: true,
            groups: Vec::new(),
            words: Vec::new(),
        }
    }
}
