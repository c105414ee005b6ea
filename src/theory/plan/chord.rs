//! A chord of a form, as a plan is asked for it.

use crate::{PitchClassSet, Reading, Scale, TriadPair};

/// A chord of a form for as long as it sounds, with what is wanted of it.
#[derive(Clone, PartialEq, Debug)]
pub struct PlanChord {
    pub(super) reading: Reading,
    /// How long it sounds, in thousandths of a bar.
    pub(super) thousandths: u32,
    pub(super) begins: StretchBegins,
    pub(super) melody: PitchClassSet,
    pub(super) without: PitchClassSet,
    pub(super) scale: Option<Scale>,
    pub(super) pair: Option<TriadPair>,
}

/// What begins where a chord does.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum StretchBegins {
    /// A chord.
    #[default]
    Chord,
    /// A chord, and a section of the form with it.
    Section,
    /// Nothing: the chord before goes on, and another pair over it is welcome.
    More,
}

/// The longest time that counts for a chord, in thousandths of a bar.
const LONGEST: f64 = 1_000_000.0;

impl PlanChord {
    /// A chord that sounds for so many bars, of which a fraction counts as such.
    #[must_use]
    pub fn of(reading: Reading, bars: f64) -> PlanChord {
        PlanChord {
            reading,
            thousandths: thousandths(bars),
            begins: StretchBegins::default(),
            melody: PitchClassSet::EMPTY,
            without: PitchClassSet::EMPTY,
            scale: None,
            pair: None,
        }
    }

    /// The same for so many bars.
    #[must_use]
    pub fn lasting(self, bars: f64) -> PlanChord {
        PlanChord { thousandths: thousandths(bars), ..self }
    }

    /// The same where something else begins.
    #[must_use]
    pub fn beginning(self, begins: StretchBegins) -> PlanChord {
        PlanChord { begins, ..self }
    }

    /// The same under notes that the melody holds: a scale without them is taken only where none has
    /// them.
    #[must_use]
    pub fn under(self, melody: PitchClassSet) -> PlanChord {
        PlanChord { melody, ..self }
    }

    /// The same with notes that no pair may have here.
    #[must_use]
    pub fn without(self, notes: PitchClassSet) -> PlanChord {
        PlanChord { without: notes, ..self }
    }

    /// The same with a scale that is settled.
    #[must_use]
    pub fn in_scale(self, scale: Scale) -> PlanChord {
        PlanChord { scale: Some(scale), ..self }
    }

    /// The same with a pair that is settled; its notes may lie outside the scale.
    #[must_use]
    pub fn with_pair(self, pair: TriadPair) -> PlanChord {
        PlanChord { pair: Some(pair), ..self }
    }

    /// What it does in its form.
    #[must_use]
    pub fn reading(&self) -> &Reading {
        &self.reading
    }
}

/// Not a number becomes 0, and what is too much the most there is.
fn thousandths(bars: f64) -> u32 {
    (bars * 1_000.0).round().clamp(0.0, LONGEST) as u32
}
