//! The tuning that a file of notes has.

use fretloom_fretboard::Tuning;
use fretloom_theory::{NamedPitch, Pitch};

use super::tunings::TuningAnswer;
use crate::library::LoadedTunings;
use crate::score_file::ReadScore;

/// A tuning for the line of a file, and what a player should know of it.
#[derive(Clone, PartialEq, Debug)]
pub struct TuningOfFile {
    /// The tuning, without a capo.
    pub tuning: TuningAnswer,
    /// A sentence, where it is not the usual one.
    pub remark: Option<String>,
}

impl TuningOfFile {
    /// How is the file's instrument tuned? As the file says where it does, by the first tuning of the
    /// library that has those open strings; else as usual.
    #[must_use]
    pub fn new(score: &ReadScore, usual: TuningAnswer, loaded: &LoadedTunings) -> TuningOfFile {
        let Some(strings) = score.tuning().filter(|strings| !has(&usual.tuning, strings)) else {
            return TuningOfFile { tuning: usual, remark: None };
        };
        let known = loaded.iter().map(|(tuning, _)| tuning);
        let known =
            known.filter(|tuning| !tuning.has_courses()).find(|it| has(it, strings)).cloned();
        let names: Vec<String> =
            strings.iter().map(|pitch| format!("{:#}", NamedPitch::everyday(*pitch))).collect();
        let names = names.join(" ");
        match known.map_or_else(|| Tuning::read(&names), Ok) {
            Ok(tuning) => TuningOfFile {
                tuning: TuningAnswer::of(loaded, tuning),
                remark: Some(format!("the tuning is that of the file: {names} (--tuning)")),
            },
            Err(error) => TuningOfFile {
                tuning: usual,
                remark: Some(format!("the tuning of the file, {names}, cannot be used: {error}")),
            },
        }
    }
}

/// Are these its open strings, from the highest number to string 1?
fn has(tuning: &Tuning, strings: &[Pitch]) -> bool {
    let all_from_the_nut = tuning.strings().all(|(_, string)| string.starts_at().is_open());
    all_from_the_nut
        && tuning.strings().map(|(_, string)| string.pitch()).eq(strings.iter().copied())
}
