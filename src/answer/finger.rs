//! A line on the neck: the ways to play it, the best first.

use fretloom_fretboard::{
    Alternatives, Finger, FingeredNote, Fingering, FingeringError, FingeringQuery, Fret, Hand,
    HandPosition, LineNote, Neck, Pin, Place, StringSet,
};
use fretloom_theory::{NamedPitch, Pitch, PlayedTime};

use super::finger_remark::FingerRemark;
use super::refusal::{AndMore, Refusal};
use super::tunings::TuningAnswer;
use crate::score_file::{FretsFrom, ReadNote, ReadScore};

/// A note with its place and its finger.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FingeredAnswer {
    /// What sounds.
    pub pitch: Pitch,
    /// String and fret.
    pub place: Place,
    /// The fret as it is written: an open string is 0, or the fret of the capo where that holds it.
    pub fret: Fret,
    /// The number in tablature, which counts from the capo.
    pub tab: Fret,
    /// Which finger.
    pub finger: Finger,
    /// Where the hand is.
    pub position: HandPosition,
}

/// One way to play a line.
#[derive(Clone, PartialEq, Debug)]
pub struct WayAnswer {
    /// The fingering, which prints as why it may be chosen.
    pub fingering: Fingering,
    /// Its notes, in the order of the line.
    pub notes: Vec<FingeredAnswer>,
    /// Does a finger have to reach wide somewhere?
    pub is_wide: bool,
}

/// When a note is played.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NoteTime {
    /// From when on and how long.
    pub played: PlayedTime,
    /// In which bar, counted from 1 as the bars come, whatever numbers the file gives them.
    pub bar: u64,
}

/// The answer of `finger FILE`.
#[derive(Clone, PartialEq, Debug)]
pub struct FingerAnswer {
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The ways, the best first.
    pub ways: Vec<WayAnswer>,
    /// When each note of the line is played, in its order.
    pub times: Vec<NoteTime>,
    /// What a player should know of all of them.
    pub remarks: Vec<FingerRemark>,
    /// What a player should know of how the file was read, a sentence each.
    pub file_remarks: Vec<String>,
}

/// What is asked about a line besides its notes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FingerQuestion {
    /// For which hand and taste, and where on the neck.
    pub query: FingeringQuery,
    /// How many ways at most.
    pub count: usize,
}

impl FingerAnswer {
    /// How can this line be played on this neck?
    ///
    /// # Errors
    ///
    /// Where the question names strings that the neck does not have, and where a note has no place
    /// there or does not sound where the file wants it played.
    pub fn new(
        neck: &Neck,
        tuning: TuningAnswer,
        score: &ReadScore,
        question: &FingerQuestion,
    ) -> Result<FingerAnswer, Refusal> {
        let query = &question.query;
        query.region().check(neck)?;
        let reach = Reach { neck, strings: query.region().strings() };
        let notes = reach.checked(score)?;
        let found = query.alternatives(neck, &notes, question.count);
        let Alternatives { fingerings, is_cut_short } =
            found.map_err(|error| unplayable(&error, score))?;
        // No way breaks other chords than the easiest does.
        let broken = fingerings.first().map_or(&[][..], Fingering::broken_chords);
        let mut remarks: Vec<FingerRemark> = FingerRemark::of_broken(broken, score).collect();
        remarks.extend(is_cut_short.then_some(FingerRemark::CutShort));
        remarks.extend(fingerings.first().and_then(|best| reach.high(best, score)));
        let answer = |way: Fingering| WayAnswer::new(way, neck, query.hand(), &notes);
        let ways = fingerings.into_iter().map(answer).collect();
        let time = |read: ReadNote<'_>| NoteTime { played: read.time, bar: read.source.bar + 1 };
        let times = score.notes().map(time).collect();
        Ok(FingerAnswer { tuning, ways, times, remarks, file_remarks: score.remarks().to_vec() })
    }
}

/// Why the line cannot be played although each of its notes has a place.
fn unplayable(error: &FingeringError, score: &ReadScore) -> Refusal {
    let reason = match error {
        FingeringError::Misfits(misfits) => {
            let notes = misfits.iter().filter_map(|(index, _)| score.note(*index));
            let more = AndMore(more_than_few(misfits.len()));
            let notes = first_few(notes.map(told));
            format!("no place under what is asked for {notes}{more}; expected more of the neck")
        }
        other => format!("{other}; expected other strings or another tuning"),
    };
    Refusal::Fingering { reason }
}

impl WayAnswer {
    pub(super) fn new(
        fingering: Fingering,
        neck: &Neck,
        hand: Hand,
        notes: &[LineNote],
    ) -> WayAnswer {
        let fingered = fingering.notes().iter().zip(notes);
        let fingered = fingered.map(|(at, note)| FingeredAnswer::new(neck, at, note.pitch()));
        let (notes, is_wide) =
            (fingered.collect(), fingering.wide_reaches(neck, hand).next().is_some());
        WayAnswer { fingering, notes, is_wide }
    }

    /// What it costs, as it is told: to a hundredth. Less is better; comparable between the ways of
    /// one line only.
    #[must_use]
    pub fn cost(&self) -> f64 {
        (self.fingering.cost() * 100.0).round() / 100.0
    }
}

impl FingeredAnswer {
    fn new(neck: &Neck, fingered: &FingeredNote, pitch: Pitch) -> FingeredAnswer {
        let FingeredNote { place, finger, position } = *fingered;
        let (fret, tab) = (neck.fret_number(place), neck.tab_number(place));
        FingeredAnswer { pitch, place, fret, tab, finger, position }
    }
}

/// The places that may be used.
struct Reach<'a> {
    neck: &'a Neck,
    strings: Option<StringSet>,
}

impl Reach<'_> {
    fn places_of(&self, pitch: Pitch) -> impl Iterator<Item = Place> {
        let may_use = |place: &Place| self.strings.is_none_or(|set| set.contains(place.string));
        self.neck.places_of(pitch).filter(may_use)
    }

    /// The notes of the line, every one of which has a place.
    fn checked(&self, score: &ReadScore) -> Result<Vec<LineNote>, Refusal> {
        self.check_pitches(score)?;
        let settled = |read: ReadNote<'_>| self.settled(read, score.frets_from());
        let notes: Vec<Option<LineNote>> = score.notes().map(settled).collect();
        let missed = notes.iter().zip(score.notes()).filter(|(note, _)| note.is_none());
        let missed: Vec<ReadNote<'_>> = missed.map(|(_, read)| read).collect();
        if missed.is_empty() {
            return Ok(notes.into_iter().flatten().collect());
        }
        let told = missed.iter().map(|read| format!("{} as {}", told(*read), pinned(*read)));
        Err(Refusal::Unsettled { notes: first_few(told), more: more_than_few(missed.len()) })
    }

    /// What is said of a line that lies high: of half its notes or more the hand is at X or above, an
    /// octave lower all of them have a place, and neither the file nor the player has settled where
    /// it lies.
    fn high(&self, best: &Fingering, score: &ReadScore) -> Option<FingerRemark> {
        const HIGH: u8 = 10;
        let notes = best.notes();
        let high = notes.iter().filter(|note| note.position.number() >= HIGH).count();
        let is_settled =
            score.is_moved() || score.notes().any(|read| read.source.pin != Pin::default());
        let may_be_lower = 2 * high >= notes.len() && !is_settled && self.has_all(score, -12);
        may_be_lower.then_some(FingerRemark::High)
    }

    /// Has every note a place so many semitones higher?
    fn has_all(&self, score: &ReadScore, semitones: i32) -> bool {
        score.notes().all(|read| {
            let moved = read.sounding().up(semitones);
            moved.is_some_and(|pitch| self.places_of(pitch).next().is_some())
        })
    }

    fn check_pitches(&self, score: &ReadScore) -> Result<(), Refusal> {
        let lacks = |read: &ReadNote<'_>| self.places_of(read.sounding()).next().is_none();
        let lacking: Vec<ReadNote<'_>> = score.notes().filter(lacks).collect();
        if lacking.is_empty() {
            return Ok(());
        }
        let notes = first_few(lacking.iter().map(|read| told(*read)));
        let more = more_than_few(lacking.len());
        let mut octaves = [-1, 1, -2, 2, -3, 3].into_iter();
        let octave = octaves.find(|octaves| self.has_all(score, 12 * octaves));
        Err(Refusal::NotOnNeck { notes, more, range: self.range(), octave })
    }

    /// The lowest and the highest note that may be played.
    fn range(&self) -> String {
        let mut pitches = (0..=127).filter_map(Pitch::from_midi);
        let mut has_place = |pitch: &Pitch| self.places_of(*pitch).next().is_some();
        let lowest = pitches.find(&mut has_place);
        let highest = pitches.rev().find(&mut has_place).or(lowest);
        let name = |pitch: Option<Pitch>| pitch.map(name_of).unwrap_or_default();
        format!("{} to {}", name(lowest), name(highest))
    }

    /// The note, pinned by the frets of the neck; `None` where it does not sound where it is pinned.
    fn settled(&self, read: ReadNote<'_>, frets_from: FretsFrom) -> Option<LineNote> {
        let pin = read.source.pin;
        let is_meant = |place: &Place| {
            let number = match frets_from {
                FretsFrom::Nut => self.neck.fret_number(*place),
                FretsFrom::Capo => self.neck.tab_number(*place),
            };
            pin.string.is_none_or(|string| string == place.string)
                && pin.fret.is_none_or(|fret| fret == number)
        };
        let place = self.places_of(read.sounding()).find(is_meant)?;
        let pin = Pin { fret: pin.fret.map(|_| place.fret), ..pin };
        let note = LineNote::new(read.time.onset_s(), read.time.duration_s(), read.sounding())?;
        Some(note.pinned(pin))
    }
}

/// How many notes a message names.
const FEW: usize = 8;

fn first_few(told: impl Iterator<Item = String>) -> String {
    told.take(FEW).collect::<Vec<_>>().join("; ")
}

fn more_than_few(count: usize) -> usize {
    count.saturating_sub(FEW)
}

/// `C2 (note 3, line 1, column 60)`
fn told(read: ReadNote<'_>) -> String {
    format!("{} at {}", name_of(read.sounding()), read.source.origin)
}

/// `string 3, fret 5`
fn pinned(read: ReadNote<'_>) -> String {
    let pin = read.source.pin;
    let string = pin.string.map(|string| format!("string {string}"));
    let fret = pin.fret.map(|fret| format!("fret {fret}"));
    string.into_iter().chain(fret).collect::<Vec<_>>().join(", ")
}

/// A pitch by its everyday name, in ASCII as in what was typed.
fn name_of(pitch: Pitch) -> String {
    format!("{:#}", NamedPitch::everyday(pitch))
}
