//! The tunings that there are, and which one is meant.

use fretloom_fretboard::{Capo, OpenString, StringNumber, Tuning};
use fretloom_theory::{NoteName, SpelledTriad};
use serde::Serialize;

use super::Refusal;
use crate::library::{LoadedTunings, Source};

/// One tuning.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct TuningAnswer {
    /// What it is called on the command line.
    pub id: String,
    /// What it is called for people.
    pub name: String,
    /// The instrument.
    pub instrument: String,
    /// Its strings from the highest string number to string 1, as tuned, without the capo.
    pub strings: Vec<String>,
    /// Where there are courses: all notes of each, its principal first, in the order of `strings`.
    pub courses: Option<Vec<Vec<String>>>,
    /// The fret that each string starts at, where one does not start at the nut.
    pub start_frets: Option<Vec<u8>>,
    /// The capo's fret, 0 for none.
    pub capo: u8,
    /// The strings that a partial capo holds, highest number first; none where it holds all.
    pub capo_strings: Option<Vec<u8>>,
    /// How many frets.
    pub frets: u8,
    /// The length of the open string in millimetres.
    pub scale_mm: f64,
    /// `built in`, `typed`, or the file it comes from.
    pub source: String,
    /// Were the octaves supplied because a typed tuning had none?
    pub octaves_inferred: bool,
    #[serde(skip)]
    held_by: Capo,
}

impl TuningAnswer {
    /// A tuning with its source: one of the library's, or one that was typed.
    #[must_use]
    pub fn of(loaded: &LoadedTunings, tuning: &Tuning) -> TuningAnswer {
        let known =
            loaded.get(tuning.id()).filter(|(known, _)| is_same_without_capo(known, tuning));
        let source = known.map_or_else(|| "typed".to_owned(), |(_, source)| source.to_string());
        TuningAnswer::new(tuning, source)
    }

    /// The capo on it; [`Capo::NONE`] where there is none.
    #[must_use]
    pub const fn held_by(&self) -> Capo {
        self.held_by
    }

    fn new(tuning: &Tuning, source: String) -> TuningAnswer {
        let starts: Vec<u8> =
            tuning.strings().map(|(_, string)| string.starts_at().number()).collect();
        TuningAnswer {
            id: tuning.id().to_owned(),
            name: tuning.name().to_owned(),
            instrument: tuning.instrument().word().to_owned(),
            strings: tuning.strings().map(|(_, string)| format!("{:#}", string.note())).collect(),
            courses: tuning.has_courses().then(|| courses(tuning)),
            start_frets: starts.iter().any(|start| *start > 0).then_some(starts),
            capo: tuning.capo().fret().number(),
            capo_strings: tuning
                .capo()
                .strings()
                .map(|strings| strings.iter().map(StringNumber::number).collect()),
            frets: tuning.last_fret().number(),
            scale_mm: tuning.scale_mm(),
            source,
            octaves_inferred: tuning.octaves_inferred(),
            held_by: tuning.capo(),
        }
    }
}

/// Are the two one tuning, whatever capo either has?
fn is_same_without_capo(one: &Tuning, other: &Tuning) -> bool {
    // A tuning is never refused for having no capo.
    let bare = |tuning: &Tuning| tuning.clone().with_capo(Capo::NONE).ok();
    bare(one) == bare(other)
}

/// The notes of every course in ASCII, its principal first.
fn courses(tuning: &Tuning) -> Vec<Vec<String>> {
    let course = |(number, open): (StringNumber, OpenString)| {
        let notes = std::iter::once(open.note()).chain(tuning.beside(number).iter().copied());
        notes.map(|note| format!("{note:#}")).collect()
    };
    tuning.strings().map(course).collect()
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
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct TuningsAnswer {
    /// Every tuning, built-in ones first.
    pub tunings: Vec<TuningAnswer>,
}

impl TuningsAnswer {
    /// Which tunings are there?
    #[must_use]
    pub fn new(loaded: &LoadedTunings) -> TuningsAnswer {
        let answer =
            |(tuning, source): (&Tuning, &Source)| TuningAnswer::new(tuning, source.to_string());
        TuningsAnswer { tunings: loaded.iter().map(answer).collect() }
    }
}

/// Which tuning is meant by an id, a name, or strings typed by hand?
///
/// # Errors
///
/// Where it is neither known nor readable as strings.
pub fn find_tuning(loaded: &LoadedTunings, text: &str) -> Result<(Tuning, TuningAnswer), Refusal> {
    let wanted = text.trim();
    let known = loaded.iter().find(|(tuning, _)| {
        [tuning.id(), tuning.name()].iter().any(|name| name.eq_ignore_ascii_case(wanted))
    });
    if let Some((tuning, source)) = known {
        return Ok((tuning.clone(), TuningAnswer::new(tuning, source.to_string())));
    }
    match Tuning::read(text) {
        Ok(tuning) => {
            let answer = TuningAnswer::of(loaded, &tuning);
            Ok((tuning, answer))
        }
        Err(error) => {
            let ids = loaded.iter().map(|(tuning, _)| tuning.id());
            let nearest = crate::words::nearest(wanted, ids).map(str::to_owned);
            Err(Refusal::Tuning { error, nearest })
        }
    }
}

/// The same tuning under a capo, with its answer.
///
/// # Errors
///
/// Where the capo lies above the last fret, or on strings that are not there.
pub fn put_capo(
    loaded: &LoadedTunings,
    tuning: Tuning,
    capo: Capo,
) -> Result<(Tuning, TuningAnswer), Refusal> {
    let tuning = tuning.with_capo(capo).map_err(Refusal::Capo)?;
    let answer = TuningAnswer::of(loaded, &tuning);
    Ok((tuning, answer))
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
        let (tuning, bare) = find_tuning(&loaded, "guitar-dadgad").unwrap();
        let capo = Capo::read("2", Some("5-4-3")).unwrap();
        let (_, capoed) = put_capo(&loaded, tuning, capo).unwrap();
        assert_eq!((capoed.source, capoed.strings), (bare.source, bare.strings));
        assert_eq!((capoed.capo, capoed.capo_strings), (2, Some(vec![5, 4, 3])));
        assert_eq!((bare.capo, bare.capo_strings), (0, None));
    }
}
