//! Which scales agree with what a chord does.
//!
//! All that fit are shown to a player, who may take any. A plan looks at more than one chord at once
//! and would give up a reading to keep a pair; so it chooses among these alone.

use crate::function::Arrival;
use crate::{Chord, Degree, Function, Scale, ScaleKind, fits};

/// What a chord does, as far as scales agree with it or speak against it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Role {
    /// A dominant bound for minor.
    ToMinor,
    /// A dominant bound for a ii.
    ToSecond,
    /// A dominant that comes from a half-diminished ii and goes to major.
    FromMinorToMajor,
    /// A dominant bound for major.
    ToMajor,
    /// A dominant bound for the next one.
    InChain,
    /// A dominant that goes a half step down, home from below, or nowhere.
    NotByFifth,
    /// A dominant that other dominants come home to.
    TonicOfBlues,
    /// The half-diminished ii of a minor key.
    SecondOfMinor,
    /// The half-diminished ii of a minor key that does not come.
    SecondWithoutMinor,
}

/// The scales that agree with each, in no order.
const AGREEING: &[(Role, &[ScaleKind])] = &[
    // The ♭9 and the ♭13 belong to the minor key; Mixolydian ♭6 has the natural 9.
    (Role::ToMinor, &[ScaleKind::ALTERED, ScaleKind::PHRYGIAN_DOMINANT]),
    // The natural 9 belongs to the major key of the ii.
    (
        Role::ToSecond,
        &[ScaleKind::ALTERED, ScaleKind::PHRYGIAN_DOMINANT, ScaleKind::MIXOLYDIAN_FLAT_6],
    ),
    // The ♭9 comes with its ii.
    (
        Role::FromMinorToMajor,
        &[ScaleKind::PHRYGIAN_DOMINANT, ScaleKind::ALTERED, ScaleKind::HALF_WHOLE_DIMINISHED],
    ),
    (
        Role::ToMajor,
        &[
            ScaleKind::MIXOLYDIAN,
            ScaleKind::LYDIAN_DOMINANT,
            ScaleKind::HALF_WHOLE_DIMINISHED,
            ScaleKind::ALTERED,
            ScaleKind::WHOLE_TONE,
        ],
    ),
    (Role::InChain, &[ScaleKind::MIXOLYDIAN, ScaleKind::LYDIAN_DOMINANT, ScaleKind::ALTERED]),
    // The ♯11 is what such a chord is there for, and the plain fourth rubs.
    (Role::NotByFifth, &[ScaleKind::LYDIAN_DOMINANT]),
    (Role::TonicOfBlues, &[ScaleKind::MIXOLYDIAN]),
    // Without its key the flat 9 only rubs.
    (Role::SecondWithoutMinor, &[ScaleKind::LOCRIAN_NATURAL_2]),
    (Role::SecondOfMinor, &[ScaleKind::LOCRIAN, ScaleKind::LOCRIAN_NATURAL_2]),
];

impl Role {
    /// `None` where all scales that a function asks for agree with it.
    fn of(function: &Function) -> Option<Role> {
        match function {
            Function::Dominant { arrival: Arrival::FollowsAsSecond, .. } => Some(Role::ToSecond),
            Function::Dominant { home, .. } if home.is_minor() => Some(Role::ToMinor),
            Function::Dominant { .. } => Some(Role::ToMajor),
            Function::DominantFromMinor { .. } => Some(Role::FromMinorToMajor),
            Function::Chain { .. } => Some(Role::InChain),
            Function::HalfStepAbove { .. } | Function::BackDoor { .. } | Function::Static => {
                Some(Role::NotByFifth)
            }
            Function::TonicOfBlues => Some(Role::TonicOfBlues),
            Function::SecondOfMinor { arrival: Arrival::FailsToCome, .. } => {
                Some(Role::SecondWithoutMinor)
            }
            Function::SecondOfMinor { .. } => Some(Role::SecondOfMinor),
            Function::FourthOfBlues { .. }
            | Function::FourthOverFifth { .. }
            | Function::SecondOfMajor { .. }
            | Function::RaisedFourth { .. }
            | Function::LeadingTone { .. }
            | Function::TonicMinor
            | Function::MinorFourth { .. }
            | Function::DegreeOf { .. }
            | Function::Lowered { .. }
            | Function::Passing { .. }
            | Function::CommonRoot { .. }
            | Function::Standing
            | Function::Alone => None,
        }
    }

    fn agrees(self, kind: &ScaleKind) -> bool {
        AGREEING.iter().any(|(role, kinds)| *role == self && kinds.contains(kind))
    }
}

impl Function {
    /// The scales that it asks for over a chord, that agree with it and hold what the symbol writes,
    /// in order.
    pub(super) fn agreeing(&self, chord: &Chord) -> Vec<Scale> {
        let role = Role::of(self);
        let kinds = self.scales(chord).iter().map(|(kind, _)| kind);
        let agreeing = kinds.filter(|kind| role.is_none_or(|role| role.agrees(kind)));
        let scales = agreeing.map(|kind| Scale::new(chord.root(), kind.clone()));
        let fitting = scales.filter(|scale| fits(chord, scale.set()));
        let fifth = chord.root().pitch_class().up(7);
        let clashes =
            |scale: &Scale| chord.names(Degree::SHARP_FIFTH) && scale.set().contains(fifth);
        // A raised fifth takes the place of the plain one, if a scale is left without that.
        let (clashing, others): (Vec<_>, Vec<_>) = fitting.partition(clashes);
        if others.is_empty() { clashing } else { others }
    }
}
