//! The tunings that there are, and which one is meant.

use std::fmt;

use fretloom_fretboard::{Capo, Tuning};
use fretloom_theory::{NoteName, SpelledTriad};

use super::refusal::Refusal;
use crate::library::{LoadedTunings, Source};

/// A tuning, with its capo, and where it comes from.
#[derive(Clone, PartialEq, Debug)]
pub struct TuningAnswer {
    /// The tuning.
    pub tuning: Tuning,
    /// Where it comes from.
    pub source: TuningSource,
}

/// Where a tuning comes from; prints as `built in`, `typed`, or the file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum TuningSource {
    /// It is one of the library's.
    Library(Source),
    /// The player has typed its strings.
    Typed,
}

impl fmt::Display for TuningSource {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TuningSource::Library(source) => source.fmt(f),
            TuningSource::Typed => f.write_str("typed"),
        }
    }
}

impl TuningAnswer {
    /// A tuning with its source: it is the library's, whatever capo it has, or was typed.
    #[must_use]
    pub fn of(loaded: &LoadedTunings, tuning: Tuning) -> TuningAnswer {
        let known = loaded.get(tuning.id());
        let known = known.filter(|(known, _)| is_same_without_capo(known, &tuning));
        let source =
            known.map_or(TuningSource::Typed, |(_, source)| TuningSource::Library(source.clone()));
        TuningAnswer { tuning, source }
    }

    fn in_library((tuning, source): (&Tuning, &Source)) -> TuningAnswer {
        TuningAnswer { tuning: tuning.clone(), source: TuningSource::Library(source.clone()) }
    }
}

/// Are the two one tuning, whatever capo either has?
fn is_same_without_capo(one: &Tuning, other: &Tuning) -> bool {
    // A tuning is never refused for having no capo.
    let bare = |tuning: &Tuning| tuning.clone().with_capo(Capo::NONE).ok();
    bare(one) == bare(other)
}

/// What triads are called behind a capo: the names of the shapes that the hand makes there. `None`
/// without a capo, and behind a partial one, where no one name fits.
///
/// # Example
///
/// ```
/// use fretloom::answer::behind_capo;
/// use fretloom_fretboard::Capo;
/// let capo = Capo::read("2", None).unwrap();
/// let [f] = behind_capo(capo, ["G".parse().unwrap()]).unwrap();
/// assert_eq!(f.to_string(), "F");
/// ```
#[must_use]
pub fn behind_capo<const N: usize>(
    capo: Capo,
    triads: [SpelledTriad; N],
) -> Option<[SpelledTriad; N]> {
    if capo.is_none() || capo.strings().is_some() {
        return None;
    }
    let lower = -i32::from(capo.fret().number());
    Some(triads.map(|sounding| everyday_triad(sounding, lower)))
}

/// What sounds, and what the hand makes behind the capo, in words; `None` as for [`behind_capo`].
///
/// ```
/// use fretloom::answer::sounds_behind_capo;
/// use fretloom_fretboard::{Capo, Tuning};
/// let tuning = Tuning::read("E A D G B E").unwrap();
/// let tuning = tuning.with_capo(Capo::read("2", None).unwrap()).unwrap();
/// let told = sounds_behind_capo(&tuning, ["G".parse().unwrap()]).unwrap();
/// assert_eq!(told, "sounds G · shape of F behind the capo at 2");
/// ```
#[must_use]
pub fn sounds_behind_capo<const N: usize>(
    tuning: &Tuning,
    triads: [SpelledTriad; N],
) -> Option<String> {
    let capo = tuning.capo();
    let shapes = behind_capo(capo, triads)?;
    let named = |triads: [SpelledTriad; N]| triads.map(|triad| triad.to_string()).join(" & ");
    let of = if N == 1 { "shape" } else { "shapes" };
    let (sounding, made, fret) = (named(triads), named(shapes), capo.fret());
    Some(format!("sounds {sounding} · {of} of {made} behind the capo at {fret}"))
}

/// The triad `semitones` higher, on the name of its root that needs the fewest accidentals; sharps
/// where flats are as many, as guitarists say F♯.
fn everyday_triad(triad: SpelledTriad, semitones: i32) -> SpelledTriad {
    let names = NoteName::everyday(triad.root().pitch_class().up(semitones));
    let accidentals = |root: &NoteName| {
        let [second, third] = triad.quality().intervals();
        let stacked = [Some(*root), root.up(second), root.up(third)];
        let each = stacked.map(|note| note.map_or(3, |note| note.accidental().abs()));
        (each.iter().sum::<i8>(), root.accidental() < 0)
    };
    // Every pitch class has an everyday name.
    let root = names.min_by_key(accidentals).unwrap_or(triad.root());
    SpelledTriad::stacked(root, triad.quality())
}

/// The answer of `tunings`.
#[derive(Clone, PartialEq, Debug)]
pub struct TuningsAnswer {
    /// Every tuning, built-in ones first.
    pub tunings: Vec<TuningAnswer>,
}

impl TuningsAnswer {
    /// Which tunings are there?
    #[must_use]
    pub fn new(loaded: &LoadedTunings) -> TuningsAnswer {
        TuningsAnswer { tunings: loaded.iter().map(TuningAnswer::in_library).collect() }
    }
}

/// Which tuning is meant by an id, a name, strings typed by hand, or words of a name, as the search
/// of the screen understands them?
///
/// # Errors
///
/// Where it is neither known nor readable as strings.
pub fn find_tuning(loaded: &LoadedTunings, text: &str) -> Result<TuningAnswer, Refusal> {
    if let Some(known) = loaded.by_id_or_name(text) {
        return Ok(TuningAnswer::in_library(known));
    }
    match Tuning::read(text).or_else(|error| loaded.best_match(text).ok_or(error)) {
        Ok(tuning) => Ok(TuningAnswer::of(loaded, tuning)),
        Err(error) => {
            let ids = loaded.iter().map(|(tuning, _)| tuning.id());
            let nearest = crate::words::nearest(text.trim(), ids).map(str::to_owned);
            Err(Refusal::Tuning { error, nearest })
        }
    }
}

/// The same tuning under a capo.
///
/// # Errors
///
/// Where the capo lies above the last fret, or on strings that are not there.
pub fn put_capo(answer: TuningAnswer, capo: Capo) -> Result<TuningAnswer, Refusal> {
    let tuning = answer.tuning.with_capo(capo).map_err(Refusal::Capo)?;
    Ok(TuningAnswer { tuning, ..answer })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Capo charts as players know them: common practice, no source.
    #[test]
    fn shapes_behind_a_capo_have_their_everyday_names() {
        for (sounding, fret, shape) in [
            ("G", "2", "F"),
            ("Bb", "3", "G"),
            ("G", "1", "F♯"),
            ("Am", "3", "F♯m"),
            ("Eb", "1", "D"),
            ("C", "4", "A♭"),
            ("F", "2", "E♭"),
            ("Bdim", "1", "A♯dim"),
            ("C", "12", "C"),
        ] {
            let capo = Capo::read(fret, None).unwrap();
            let [named] = behind_capo(capo, [sounding.parse().unwrap()]).unwrap();
            assert_eq!(named.to_string(), shape, "{sounding} behind {fret}");
        }
        let partial = Capo::read("2", Some("5-4-3")).unwrap();
        for capo in [Capo::NONE, partial] {
            assert_eq!(behind_capo(capo, ["G".parse().unwrap()]), None);
        }
    }

    #[test]
    fn a_capo_leaves_a_tuning_its_source() {
        let loaded = LoadedTunings::load(None);
        let bare = find_tuning(&loaded, "guitar-dadgad").unwrap();
        let capo = Capo::read("2", Some("5-4-3")).unwrap();
        let capoed = put_capo(bare.clone(), capo).unwrap();
        assert_eq!((capoed.tuning.capo(), bare.tuning.capo()), (capo, Capo::NONE));
        assert_eq!(capoed.source, bare.source);
        assert_eq!(TuningAnswer::of(&loaded, capoed.tuning).source, bare.source);
    }
}
