//! What may be answered when a pair is heard.

use std::fmt;

use fretloom_theory::{PitchClass, Triad, TriadQuality};

use crate::answer::harmony::Harmony;
use crate::answer::pairs::{LeftOut, NamedPair, PairAnswer};
use crate::store::Asked;

/// How many choices there are at most.
pub(super) const MOST: usize = 7;

/// One of the things that may be answered, with a pair of which it is true.
#[derive(Clone, PartialEq, Debug)]
pub struct EarChoice {
    /// What is said.
    pub says: EarName,
    /// A pair of which that is true.
    pub pair: PairAnswer,
}

/// What is named by ear.
#[derive(Clone, PartialEq, Debug)]
pub enum EarName {
    /// A pair of the chord's.
    Pair(NamedPair),
    /// The qualities of both triads, in the order in which they sound.
    Qualities([TriadQuality; 2]),
    /// What is left out of the scale, going up from the chord's root; empty for nothing.
    LeftOut(Vec<LeftOut>),
}

impl EarName {
    /// What is to be said of a pair where this is asked.
    pub(super) fn of(asked: Asked, pair: &PairAnswer) -> EarName {
        match asked {
            Asked::Pair => EarName::Pair(pair.name()),
            Asked::Qualities => EarName::Qualities(pair.pair().triads().map(Triad::quality)),
            Asked::LeftOut => EarName::LeftOut(pair.left_out.clone()),
        }
    }

    /// Can the two not be told apart by what sounds? Pairs are heard as their two triads, qualities as
    /// they are, and what is left out as notes, whatever all these are called.
    #[must_use]
    pub fn sounds_like(&self, other: &EarName) -> bool {
        let classes = |left_out: &[LeftOut]| -> Vec<PitchClass> {
            left_out.iter().map(|left| left.note.pitch_class()).collect()
        };
        match (self, other) {
            (EarName::Pair(one), EarName::Pair(other)) => one.pair().is_same_couple(other.pair()),
            (EarName::Qualities(one), EarName::Qualities(other)) => one == other,
            (EarName::LeftOut(one), EarName::LeftOut(other)) => classes(one) == classes(other),
            (EarName::Pair(_) | EarName::Qualities(_) | EarName::LeftOut(_), _) => false,
        }
    }
}

impl fmt::Display for EarName {
    /// `F & G`, `major, then minor`, `E 9`, `nothing`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            EarName::Pair(pair) => pair.fmt(f),
            EarName::Qualities([first, second]) => {
                write!(f, "{}, then {}", first.word(), second.word())
            }
            EarName::LeftOut(left_out) if left_out.is_empty() => f.write_str("nothing"),
            EarName::LeftOut(left_out) => {
                for (index, LeftOut { note, degree }) in left_out.iter().enumerate() {
                    f.write_str(if index == 0 { "" } else { " and " })?;
                    note.fmt(f)?;
                    f.write_str(" ")?;
                    degree.fmt(f)?;
                }
                Ok(())
            }
        }
    }
}

/// What may be answered where these pairs may sound: each once by its sound, `heard` among them, seven at
/// most, going up from the chord's root.
pub(super) fn choices(
    asked: Asked,
    heard: &PairAnswer,
    pairs: &[PairAnswer],
    over: &Harmony,
) -> Vec<EarChoice> {
    let mut choices: Vec<EarChoice> = Vec::new();
    for pair in std::iter::once(heard).chain(pairs) {
        let says = EarName::of(asked, pair);
        if choices.len() < MOST && choices.iter().all(|other| !other.says.sounds_like(&says)) {
            choices.push(EarChoice { says, pair: pair.clone() });
        }
    }
    let root = over.chord_scale().root().pitch_class();
    choices.sort_by_key(|choice| choice.says.place(root));
    choices
}

impl EarName {
    /// Where it stands: pairs and notes by their height above the root, qualities from major on.
    fn place(&self, root: PitchClass) -> Vec<usize> {
        let height = |class: PitchClass| usize::from(root.semitones_up_to(class));
        let quality = |quality: TriadQuality| {
            TriadQuality::ALL.iter().position(|other| *other == quality).unwrap_or(0)
        };
        match self {
            EarName::Pair(pair) => {
                let triads = pair.pair().triads();
                let roots = triads.map(|triad| height(triad.root()));
                let kinds = triads.map(|triad| quality(triad.quality()));
                [roots, kinds].concat()
            }
            EarName::Qualities(qualities) => qualities.map(quality).to_vec(),
            EarName::LeftOut(left_out) => {
                left_out.iter().map(|left| height(left.note.pitch_class())).collect()
            }
        }
    }
}
