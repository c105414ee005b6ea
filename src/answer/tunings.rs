//! The tunings that there are, and which one is meant.

use fretloom_fretboard::Tuning;
use serde::Serialize;

use super::{FORMAT, Refusal};
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
    /// Its strings from the highest string number to string 1.
    pub strings: Vec<String>,
    /// A second string beside each, where there are courses.
    pub courses: Option<Vec<Option<String>>>,
    /// The fret that each string starts at, where one does not start at the nut.
    pub start_frets: Option<Vec<u8>>,
    /// The capo's fret, 0 for none.
    pub capo: u8,
    /// How many frets.
    pub frets: u8,
    /// The length of the open string in millimetres.
    pub scale_mm: f64,
    /// `built in`, `typed`, or the file it comes from.
    pub source: String,
    /// Were the octaves supplied because a typed tuning had none?
    pub octaves_inferred: bool,
}

impl TuningAnswer {
    /// A tuning with its source: one of the library's, or one that was typed.
    #[must_use]
    pub fn of(loaded: &LoadedTunings, tuning: &Tuning) -> TuningAnswer {
        let known = loaded.get(tuning.id()).filter(|(known, _)| *known == tuning);
        let source = known.map_or_else(|| "typed".to_owned(), |(_, source)| source.to_string());
        TuningAnswer::new(tuning, source)
    }

    fn new(tuning: &Tuning, source: String) -> TuningAnswer {
        let starts: Vec<u8> =
            tuning.strings().map(|(_, string)| string.starts_at().number()).collect();
        TuningAnswer {
            id: tuning.id().to_owned(),
            name: tuning.name().to_owned(),
            instrument: tuning.instrument().word().to_owned(),
            strings: tuning.strings().map(|(_, string)| format!("{:#}", string.note())).collect(),
            courses: None,
            start_frets: starts.iter().any(|start| *start > 0).then_some(starts),
            capo: tuning.capo().number(),
            frets: tuning.last_fret().number(),
            scale_mm: tuning.scale_mm(),
            source,
            octaves_inferred: tuning.octaves_inferred(),
        }
    }
}

/// The answer of `tunings`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct TuningsAnswer {
    format: u32,
    /// Every tuning, built-in ones first.
    pub tunings: Vec<TuningAnswer>,
}

impl TuningsAnswer {
    /// Which tunings are there?
    #[must_use]
    pub fn new(loaded: &LoadedTunings) -> TuningsAnswer {
        let answer =
            |(tuning, source): (&Tuning, &Source)| TuningAnswer::new(tuning, source.to_string());
        TuningsAnswer { format: FORMAT, tunings: loaded.iter().map(answer).collect() }
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
