//! `finger`: from a file to the ways to play what it holds.

use fretloom_fretboard::Capo;

use super::read_score::read_score;
use crate::answer::{self, FingerAnswer, FingerQuestion, Refusal, TuningAnswer, TuningOfFile};
use crate::cli::args;
use crate::cli::call::{Call, neck_within};
use crate::cli::complain::complain;
use crate::cli::queries::fingering_query;
use crate::cli::text;
use crate::score_file::ReadScore;

impl Call<'_> {
    /// What is odd about the file is said on standard error, where the line could be played.
    pub(super) fn finger(&self, wanted: &args::Finger) -> Result<String, Refusal> {
        let (score, tuning) = self.tuned(score(wanted)?)?;
        let (neck, frets) = neck_within(&tuning, wanted.where_to.frets.as_deref())?;
        let query = fingering_query(wanted, frets)?;
        let question = FingerQuestion { query, count: wanted.ways.into() };
        let answer = FingerAnswer::new(&neck, tuning, &score, &question)?;
        score.remarks().iter().for_each(complain);
        Ok(self.printed(&answer, |answer| text::finger(answer, neck.tuning(), &score)))
    }

    /// The score with the tuning and the capo on which it is played: those of the file, unless options
    /// say otherwise.
    fn tuned(&self, score: ReadScore) -> Result<(ReadScore, TuningAnswer), Refusal> {
        let common = &self.cli.common;
        let usual = answer::find_tuning(self.tunings(), &common.tuning)?;
        let TuningOfFile { tuning, remark } = match self.cli.typed.tuning {
            true => TuningOfFile { tuning: usual, remark: None },
            false => TuningOfFile::new(&score, usual, self.tunings()),
        };
        let of_file = score.capo().filter(|_| common.capo.is_none());
        let capo = match of_file {
            Some(fret) => Capo::read(&fret.to_string(), None)?,
            None => common.capo()?,
        };
        let told = of_file.map(|fret| format!("the capo is that of the file, at {fret} (--capo)"));
        Ok((score.remarking(remark.into_iter().chain(told)), answer::put_capo(tuning, capo)?))
    }
}

/// The score that is asked about.
fn score(wanted: &args::Finger) -> Result<ReadScore, Refusal> {
    let score = read_score(&wanted.file, &wanted.choice, wanted.octave)?;
    Ok(if wanted.no_pins { score.without_pins() } else { score })
}
