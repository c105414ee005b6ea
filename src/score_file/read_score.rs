//! The score that was read, and what stands beside its notes.

use fretloom_fretboard::{Fret, Pin};
use fretloom_theory::{MadeNote, Note, Part, Pitch, PlayedTime, Score};

use super::error::{At, ScoreFileError};
use super::limits::{LONGEST_PART_S, MOST_NOTES};
use super::moved::moved;
use super::origin::NoteOrigin;

/// What a file says of a note that is no music.
#[derive(Clone, PartialEq, Debug)]
pub struct NoteSource {
    /// The place on the neck that the file settles.
    pub pin: Pin,
    /// Which bar it stands in, counted from 0: those of the file, or two seconds each where the
    /// file has none. A grace note may stand in the bar before its main note.
    pub bar: u64,
    /// Where it stands in the file.
    pub origin: NoteOrigin,
}

/// A note that was read, with all that is known of it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ReadNote<'a> {
    /// The note in musical time.
    pub note: &'a Note,
    /// When it is played: as the recording says, else by the tempo.
    pub time: PlayedTime,
    /// What the file says of it besides.
    pub source: &'a NoteSource,
}

impl ReadNote<'_> {
    /// What sounds, whatever it is called.
    #[must_use]
    pub fn sounding(&self) -> Pitch {
        self.note.pitch().pitch()
    }
}

/// From where the pinned frets of a file are counted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FretsFrom {
    /// From the nut, as the frets of a neck are numbered.
    Nut,
    /// From the capo, as tablature is written.
    Capo,
}

/// Where the bars of a score come from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum BarsFrom {
    /// The file has them.
    File,
    /// The file knows seconds only: bars of two seconds are put in.
    TwoSeconds,
}

/// A score of one part, checked: not empty, and played within a day.
///
/// Notes stand in the order given: that of the list in JSON, else that of time.
#[derive(Clone, PartialEq, Debug)]
pub struct ReadScore {
    score: Score,
    /// When each note is played.
    times: Vec<PlayedTime>,
    /// One for each note.
    sources: Vec<NoteSource>,
    made_of: Vec<Option<MadeNote>>,
    bars_from: BarsFrom,
    frets_from: FretsFrom,
    tuning: Vec<Pitch>,
    capo: Option<Fret>,
    is_moved: bool,
    remarks: Vec<String>,
}

const LEFT_OUT: &str = "the strings and frets of the file are left out, since the line is moved";

impl ReadScore {
    /// How long a bar is, in seconds, where a file has none: four beats at 120.
    pub const BAR_S: f64 = 2.0;

    /// The score of a part, whose notes have these sources in the same order; played as the score
    /// says.
    pub(super) fn of(
        mut score: Score,
        part: Part,
        sources: Vec<NoteSource>,
    ) -> Result<ReadScore, ScoreFileError> {
        if sources.is_empty() {
            return Err(ScoreFileError::whole("it holds no notes", "at least one note"));
        }
        if sources.len() > MOST_NOTES {
            return Err(too_many());
        }
        let played = score.played(&part);
        let checked = played.iter().zip(&sources).map(|(time, source)| checked(*time, source));
        let times = checked.collect::<Result<_, _>>()?;
        score.parts = vec![part];
        let (bars_from, frets_from) = (BarsFrom::File, FretsFrom::Nut);
        let (made_of, remarks) = (Vec::new(), Vec::new());
        let (tuning, capo, is_moved) = (Vec::new(), None, false);
        Ok(ReadScore {
            score,
            times,
            sources,
            made_of,
            bars_from,
            frets_from,
            tuning,
            capo,
            is_moved,
            remarks,
        })
    }

    pub(super) fn made_of_pairs(self, made_of: Vec<Option<MadeNote>>) -> ReadScore {
        ReadScore { made_of, ..self }
    }

    pub(super) fn with_bars(self, bars_from: BarsFrom) -> ReadScore {
        ReadScore { bars_from, ..self }
    }

    pub(super) fn counting_frets_from(self, frets_from: FretsFrom) -> ReadScore {
        ReadScore { frets_from, ..self }
    }

    pub(super) fn tuned(self, tuning: Vec<Pitch>, capo: Option<Fret>) -> ReadScore {
        ReadScore { tuning, capo, ..self }
    }

    pub(super) fn saying(self, remarks: Vec<String>) -> ReadScore {
        ReadScore { remarks, ..self }
    }

    /// The same score with nothing settled about any place.
    #[must_use]
    pub fn without_pins(mut self) -> ReadScore {
        self.sources.iter_mut().for_each(|source| source.pin = Pin::default());
        self
    }

    /// The same score so many semitones higher, with its keys and chord symbols. Where it moves at
    /// all, nothing is settled any more about any place, nor about what the line is made of.
    ///
    /// # Errors
    ///
    /// Where a note would sound lower or higher than MIDI counts.
    pub fn moved(mut self, semitones: i32) -> Result<ReadScore, ScoreFileError> {
        if semitones == 0 {
            return Ok(self);
        }
        self.score = moved(&self.score, semitones).ok_or_else(|| {
            let wrong = format!("its notes cannot be moved by {semitones} semitones");
            ScoreFileError::whole(
                wrong,
                "a move after which all of them are MIDI numbers, 0 to 127",
            )
        })?;
        let had_pins = self.sources.iter().any(|source| source.pin != Pin::default());
        self.remarks.extend(had_pins.then(|| LEFT_OUT.to_owned()));
        Ok(ReadScore { made_of: Vec::new(), is_moved: true, ..self.without_pins() })
    }

    /// Has it been moved?
    #[must_use]
    pub fn is_moved(&self) -> bool {
        self.is_moved
    }

    /// The same score with more that a player should know.
    #[must_use]
    pub fn remarking(mut self, remarks: impl IntoIterator<Item = String>) -> ReadScore {
        self.remarks.extend(remarks);
        self
    }

    /// The music: one part.
    #[must_use]
    pub fn score(&self) -> &Score {
        &self.score
    }

    /// The notes of the part, at least one, in the order of [`Part::notes`].
    pub fn notes(&self) -> impl ExactSizeIterator<Item = ReadNote<'_>> {
        self.sources
            .iter()
            .zip(&self.times)
            .zip(self.part_notes())
            .map(|((source, time), note)| ReadNote { note, time: *time, source })
    }

    /// The note with this index.
    #[must_use]
    pub fn note(&self, index: usize) -> Option<ReadNote<'_>> {
        let (time, source) = (*self.times.get(index)?, self.sources.get(index)?);
        Some(ReadNote { note: self.part_notes().get(index)?, time, source })
    }

    fn part_notes(&self) -> &[Note] {
        self.score.parts.first().map_or(&[], Part::notes)
    }

    /// Are the bars those of the file? Else each is [`ReadScore::BAR_S`] long.
    #[must_use]
    pub fn has_written_bars(&self) -> bool {
        self.bars_from == BarsFrom::File
    }

    /// From where pinned frets are counted.
    #[must_use]
    pub fn frets_from(&self) -> FretsFrom {
        self.frets_from
    }

    /// What the file says of the pairs that its notes are of, an entry for each note; empty where it
    /// says nothing. It is a claim: what sounds may be something else.
    #[must_use]
    pub fn made_of(&self) -> &[Option<MadeNote>] {
        &self.made_of
    }

    /// What the open strings sound without a capo, from the highest string number to string 1; `None`
    /// where the file does not say.
    #[must_use]
    pub fn tuning(&self) -> Option<&[Pitch]> {
        Some(self.tuning.as_slice()).filter(|strings| !strings.is_empty())
    }

    /// The fret of the capo; `None` where the file has none.
    #[must_use]
    pub fn capo(&self) -> Option<Fret> {
        self.capo
    }

    /// What a player should know of how the file was read, a sentence each.
    #[must_use]
    pub fn remarks(&self) -> &[String] {
        &self.remarks
    }
}

/// What is said of a part with more than [`MOST_NOTES`].
pub(super) fn too_many() -> ScoreFileError {
    ScoreFileError::whole("it holds too many notes", format!("at most {MOST_NOTES} notes"))
}

/// The time, if it lies within a day.
fn checked(time: PlayedTime, source: &NoteSource) -> Result<PlayedTime, ScoreFileError> {
    let end_s = time.onset_s() + time.duration_s();
    if end_s <= LONGEST_PART_S {
        return Ok(time);
    }
    let wrong = format!("{} ends {end_s:.0} seconds after the beginning", source.origin);
    Err(ScoreFileError::new(At::Whole, wrong, "a line of at most a day"))
}
