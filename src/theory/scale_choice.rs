//! Which scales fit a chord, in the order in which players reach for them.
//!
//! Whether a scale *fits* is computed: it holds the bass and everything that the symbol writes but the
//! plain fifth. Which of those that fit come first is a table of usual choices.

mod usual;

use std::fmt;

use crate::chord_scale::sounding;
use crate::{Chord, ChordScale, Degree, PitchClassSet, Scale, ScaleKind};

/// A scale that fits a chord, with the reason why it stands where it does.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Chord, ScaleChoice};
/// let chord: Chord = "G7alt".parse().unwrap();
/// let choices = ScaleChoice::for_chord(&chord);
/// assert_eq!(choices[0].scale().to_string(), "G altered");
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ScaleChoice {
    scale: Scale,
    why: Why,
}

#[derive(Clone, PartialEq, Eq, Debug)]
enum Why {
    /// A usual choice, in ASCII words.
    Usual(&'static str),
    /// It merely fits.
    Fits { rubs: Vec<Degree>, without_fifth: bool },
}

impl ScaleChoice {
    /// Every named scale on the chord's root that fits it: the usual choices first, then those
    /// that hold the plain fifth too, then the rest. Never empty: the chromatic scale fits all
    /// and stands last.
    #[must_use]
    pub fn for_chord(chord: &Chord) -> Vec<ScaleChoice> {
        ScaleChoice::for_chord_with(chord, &[])
    }

    /// The same with scales of one's own: those that fit stand right after the usual choices.
    ///
    /// ```
    /// use fretloom_theory::{Chord, ScaleChoice, ScaleKind};
    /// let degrees: Vec<_> =
    ///     ["1", "2", "3", "5", "6", "7"].iter().map(|degree| degree.parse().unwrap()).collect();
    /// let own = [ScaleKind::own("six bright notes", &degrees).unwrap()];
    /// let chord: Chord = "Gmaj7".parse().unwrap();
    /// let choices = ScaleChoice::for_chord_with(&chord, &own);
    /// assert!(choices.iter().any(|choice| choice.scale().to_string() == "G six bright notes"));
    /// ```
    #[must_use]
    pub fn for_chord_with(chord: &Chord, own: &[ScaleKind]) -> Vec<ScaleChoice> {
        let mut choices: Vec<ScaleChoice> = Vec::new();
        let usual = usual::choices(chord).iter().map(|(kind, why)| (kind, Some(*why)));
        let (whole, rest): (Vec<&ScaleKind>, Vec<&ScaleKind>) = ScaleKind::all()
            .iter()
            .filter(|kind| kind.degrees().len() < 12)
            .partition(|kind| chord.set().is_subset(kind.set_over(chord.root().pitch_class())));
        const CHROMATIC: &ScaleKind = &ScaleKind::CHROMATIC;
        let others = whole.into_iter().chain(rest).chain([CHROMATIC]).map(|kind| (kind, None));
        let own = own.iter().map(|kind| (kind, Some("a scale of your own")));
        for (kind, why) in usual.chain(own).chain(others) {
            let scale = Scale::new(chord.root(), kind.clone());
            let known = choices.iter().any(|choice| choice.scale.kind() == kind);
            if !known && fits(chord, scale.set()) {
                let why = why.map_or_else(|| merely_fits(chord, &scale), Why::Usual);
                choices.push(ScaleChoice { scale, why });
            }
        }
        choices
    }

    /// The same scale, chosen for another reason, in ASCII words.
    pub(crate) fn because(&self, why: &'static str) -> ScaleChoice {
        ScaleChoice { scale: self.scale.clone(), why: Why::Usual(why) }
    }

    /// A scale that a reading of the chord asks for though the symbol does not fit it.
    pub(crate) fn reading(scale: Scale, why: &'static str) -> ScaleChoice {
        ScaleChoice { scale, why: Why::Usual(why) }
    }

    /// Do players reach for it, rather than that it merely fits?
    pub(crate) fn is_usual(&self) -> bool {
        matches!(self.why, Why::Usual(_))
    }

    /// The scale.
    #[must_use]
    pub fn scale(&self) -> &Scale {
        &self.scale
    }
}

/// Where a scale's parent lies, as players say it: `melodic minor a half step up` for the altered
/// scale. `None` for a scale that is its own parent, or no mode.
///
/// ```
/// use fretloom_theory::{Scale, parent_in_words};
/// let altered: Scale = "C altered".parse().unwrap();
/// assert_eq!(parent_in_words(&altered).unwrap(), "melodic minor a half step up");
/// ```
#[must_use]
pub fn parent_in_words(scale: &Scale) -> Option<String> {
    let parent = scale.parent()?;
    let way = match scale.root().pitch_class().semitones_up_to(parent.root.pitch_class()) {
        1 => "a half step up",
        2 => "a whole step up",
        3 => "a minor third up",
        4 => "a major third up",
        5 => "a fourth up",
        6 => "a tritone away",
        7 => "a fifth up",
        8 => "a major third down",
        9 => "a minor third down",
        10 => "a whole step down",
        11 => "a half step down",
        _ => return None,
    };
    Some(format!("{} {way}", parent.name))
}

/// Does `scale` hold the bass of the chord and everything that its symbol writes, the plain fifth
/// aside?
///
/// ```
/// use fretloom_theory::{Chord, Scale, fits};
/// let c7: Chord = "C7".parse().unwrap();
/// let altered: Scale = "C altered".parse().unwrap(); // has no G
/// assert!(fits(&c7, altered.set()));
/// assert!(!fits(&"C7/G".parse().unwrap(), altered.set()));
/// ```
#[must_use]
pub fn fits(chord: &Chord, scale: PitchClassSet) -> bool {
    let root = chord.root().pitch_class();
    let plain_fifth =
        chord.degrees().iter().filter(|degree| degree.number() == 5 && degree.alteration() == 0);
    let may_lack: PitchClassSet = plain_fifth.map(|degree| degree.over(root)).collect();
    let bass = chord.bass().map(|bass| bass.pitch_class());
    let written = bass.into_iter().fold(chord.set().difference(may_lack), PitchClassSet::with);
    written.is_subset(scale)
}

fn merely_fits(chord: &Chord, scale: &Scale) -> Why {
    let chord_scale = ChordScale::over(chord.clone(), scale.clone());
    let rubbing = scale.set().iter().filter(|class| chord_scale.rubs(*class)).collect();
    Why::Fits {
        rubs: chord_scale.degrees(rubbing).collect(),
        without_fifth: !sounding(chord).is_subset(scale.set()),
    }
}

impl ScaleChoice {
    /// Why it stands where it does, in a sentence; `{:#}` for ASCII.
    #[must_use]
    pub fn why(&self) -> impl fmt::Display + '_ {
        &self.why
    }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Why::Usual(text) if f.alternate() => f.write_str(text),
            Why::Usual(text) => f.write_str(&crate::text::with_signs(text)),
            Why::Fits { rubs, without_fifth } => {
                f.write_str(if *without_fifth {
                    "holds the chord but for its plain fifth"
                } else {
                    "holds every note of the chord"
                })?;
                f.write_str(if rubs.is_empty() { "; no rub" } else { "; rubs:" })?;
                rubs.iter().try_for_each(|degree| {
                    f.write_str(" ")?;
                    degree.fmt(f)
                })
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(symbol: &str) -> Vec<String> {
        let chord: Chord = symbol.parse().unwrap();
        let kinds = ScaleChoice::for_chord(&chord);
        kinds.iter().map(|choice| choice.scale().kind().name().to_owned()).collect()
    }

    /// The chord-to-scale table of an open textbook (Hutchinson, Music Theory for the 21st-Century
    /// Classroom, 31.10): every scale it names is offered among the first.
    #[test]
    fn the_scales_of_an_open_textbook_stand_among_the_first() {
        for (chord, scales) in [
            ("Cmaj7", "Ionian|Lydian"),
            ("Cmaj7(#11)", "Lydian"),
            ("Cmaj7(#5)", "Lydian augmented"),
            ("Cm7", "Dorian|Aeolian"),
            ("Cm7b5", "Locrian|Locrian natural 2"),
            ("Cm9b5", "Locrian natural 2"),
            ("Cdim7", "whole-half diminished"),
            ("Cm(maj7)", "melodic minor"),
            ("Cm6/9", "Dorian|melodic minor"),
            ("C7", "Mixolydian"),
            ("C7(#11)", "Lydian dominant"),
            ("C7(#5)", "whole tone"),
            ("C7(b5)", "whole tone"),
            ("C7(b9)", "half-whole diminished"),
            ("C7(#9)", "half-whole diminished"),
            ("C13(#9,#11)", "half-whole diminished"),
            ("C7alt", "altered"),
        ] {
            let wanted: Vec<&str> = scales.split('|').collect();
            let first = names(chord);
            for scale in &wanted {
                let at = first.iter().position(|name| name == scale);
                assert!(at.is_some_and(|at| at < wanted.len()), "{chord} {scale}: {first:?}");
            }
        }
    }

    /// common practice, no source
    #[test]
    fn parents_are_told_as_players_tell_them() {
        for (scale, said) in [
            ("C altered", "melodic minor a half step up"),
            ("C Lydian dominant", "melodic minor a fifth up"),
            ("C Locrian natural 2", "melodic minor a minor third up"),
            ("C Phrygian dominant", "harmonic minor a fourth up"),
            ("D Dorian", "major a whole step down"),
            ("F Lydian", "major a fifth up"),
        ] {
            assert_eq!(parent_in_words(&scale.parse().unwrap()).unwrap(), said, "{scale}");
        }
        assert_eq!(parent_in_words(&"C melodic minor".parse().unwrap()), None);
        assert_eq!(parent_in_words(&"C whole tone".parse().unwrap()), None);
    }

    /// The first choice of a working player: common practice, no source.
    #[test]
    fn the_first_choice_is_the_usual_one() {
        for (chord, scale) in [
            ("Cmaj7", "Lydian"),
            ("C6", "Ionian"),
            ("Cm", "Dorian"),
            ("Cm6", "melodic minor"),
            ("C9", "Mixolydian"),
            ("C13", "Mixolydian"),
            ("C7sus4", "Mixolydian"),
            ("C7sus4b9", "Phrygian"),
            ("C13sus4b9", "Dorian b2"),
            ("C7b13", "Mixolydian b6"),
            ("C7b9b13", "Phrygian dominant"),
            ("C13b9", "half-whole diminished"),
            ("C7#5#9", "altered"),
            ("C+", "whole tone"),
            ("Cdim", "Locrian natural 2"),
            ("Cm7b5", "Locrian natural 2"),
            ("C/F#", "Lydian"),
            ("D/C", "Mixolydian"),
            ("Cm7/F", "Dorian"),
        ] {
            assert_eq!(names(chord)[0], scale, "{chord}");
        }
    }

    #[test]
    fn every_choice_fits_and_stands_once_on_every_root() {
        for symbol in ["maj7", "m7", "7", "7alt", "m7b5", "dim7", "7sus4", "+", "5", "6/9", "/B"] {
            for class in crate::PitchClass::all() {
                let root = crate::NoteName::everyday(class).next().unwrap();
                let chord: Chord = format!("{root}{symbol}").parse().unwrap();
                let choices = ScaleChoice::for_chord(&chord);
                assert!(choices.iter().all(|choice| fits(&chord, choice.scale().set())));
                let mut sets: Vec<u16> =
                    choices.iter().map(|choice| choice.scale().set().bits()).collect();
                sets.sort_unstable();
                sets.dedup();
                assert_eq!(sets.len(), choices.len(), "{chord}");
                assert!(sets.contains(&0xFFF), "the chromatic scale fits {chord}");
            }
        }
    }
}
