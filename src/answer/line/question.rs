//! What a line is asked to be.

use fretloom_fretboard::Picking;
use fretloom_theory::{
    AskedTarget, AtChange, LineQuery, LineStyle, NotesFrom, Pattern, Pitch, PitchClassSet, Reach,
    Rhythm, Start, Tempo, Travel, TriadPair, WrittenPhrase,
};

use super::area::LineArea;
use super::chords::LineChords;
use super::phrase_question::PhraseQuestion;
use super::target::{LineTarget, Wanted};
use crate::answer::phrase_refusal::PhraseRefusal;
use crate::answer::refusal::Refusal;
use crate::library::PhraseArea;

/// What a line is asked to be. What is `None` is decided as a player would.
#[derive(Clone, PartialEq, Debug)]
pub struct LineQuestion {
    /// Over which chords, with which pairs.
    pub chords: LineChords,
    /// Music or an exercise.
    pub style: LineStyle,
    /// How fast.
    pub tempo: Tempo,
    /// In which order the notes of each triad come.
    pub pattern: Option<Pattern>,
    /// How long they are.
    pub rhythm: Option<Rhythm>,
    /// How it goes from group to group.
    pub travel: Option<Travel>,
    /// Where it begins.
    pub start: Option<Start>,
    /// What an exercise does where the chord changes.
    pub at_change: AtChange,
    /// Where it arrives.
    pub targets: Vec<LineTarget>,
    /// Its phrases in order of time, where they are written; none where the line decides.
    pub phrases: Vec<PhraseQuestion>,
    /// Where on the neck.
    pub area: LineArea,
    /// How it is picked.
    pub picking: Picking,
    /// What is slurred.
    pub slurring: Slurring,
    /// How many ways to play it are told, the best first; at least one.
    pub ways: usize,
}

/// What is slurred.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Slurring {
    /// Every note is picked.
    Nothing,
    /// Upbeats are picked and slurred into the downbeat where that is on the same string.
    IntoTheBeat,
}

impl LineQuestion {
    /// A line over these chords, all else as a player would have it.
    #[must_use]
    pub fn over(chords: LineChords) -> LineQuestion {
        LineQuestion {
            chords,
            style: LineStyle::Music,
            tempo: Tempo::USUAL,
            pattern: None,
            rhythm: None,
            travel: None,
            start: None,
            at_change: AtChange::RunsOn,
            targets: Vec::new(),
            phrases: Vec::new(),
            area: LineArea::whole_neck(),
            picking: Picking::WithTheBeat,
            slurring: Slurring::Nothing,
            ways: 1,
        }
    }

    /// What theory is asked for. A line of music begins near that note, where nothing is said; phrases
    /// have these notes to themselves.
    pub(super) fn query(
        &self,
        near: Option<Pitch>,
        reaches: &[Option<Reach>],
    ) -> Result<LineQuery, Refusal> {
        let (bars, end) = (self.chords.bars().clone(), self.chords.end());
        let targets = self.targets.iter().map(|target| self.asked(target));
        let mut query = LineQuery::new(bars, self.chords.stretches(), end)
            .styled(self.style)
            .at_change(self.at_change)
            .resting(self.chords.rests())
            .arriving(targets.collect::<Result<_, _>>()?);
        let reaches = reaches.iter().copied().chain(std::iter::repeat(None));
        let written = self.phrases.iter().zip(reaches);
        let written = written.map(|(it, reach)| WrittenPhrase { reach, ..it.written.clone() });
        query = query.written(written.collect());
        if let Some(pattern) = &self.pattern {
            query = query.in_pattern(pattern.clone());
        }
        if let Some(rhythm) = &self.rhythm {
            query = query.in_rhythm(rhythm.clone());
        }
        if let Some(travel) = self.travel {
            query = query.travelling(travel);
        }
        let unasked = match self.style {
            LineStyle::Music => near.map(Start::Near),
            LineStyle::Exercise => None,
        };
        let query = match self.start.or(unasked) {
            Some(start) => query.starting(start),
            None => query,
        };
        self.check_targets(&query)?;
        Ok(query)
    }

    /// Is each target what a phrase leads to? One that follows too soon would be passed over.
    fn check_targets(&self, query: &LineQuery) -> Result<(), Refusal> {
        if self.targets.is_empty() {
            return Ok(());
        }
        let phrases = query.phrases();
        let reached = |moment| {
            let mut aims = phrases.iter().filter_map(|phrase| phrase.target);
            aims.any(|aim| Some(aim.at) == moment)
        };
        match self.targets.iter().find(|target| !reached(self.chords.moment(target.moment()))) {
            Some(target) => {
                Err(PhraseRefusal::TargetTooSoon { target: format!("{target:#}") }.into())
            }
            None => Ok(()),
        }
    }

    /// The pairs that it is made of: those of its chords, and those that phrases have of their own.
    pub(super) fn pairs(&self) -> Vec<TriadPair> {
        let of_chords = self.chords.chords().iter().map(|chord| chord.pair.pair());
        let own = self.phrases.iter().filter_map(|phrase| phrase.written.pair);
        let mut pairs: Vec<TriadPair> = Vec::new();
        for pair in of_chords.chain(own) {
            if !pairs.contains(&pair) {
                pairs.push(pair);
            }
        }
        pairs
    }

    /// Where the phrase with this index is played, and of which pairs, where it says so itself. Notes
    /// that are entered may be of any.
    pub(super) fn own_area(&self, index: usize) -> Option<(PhraseArea, Vec<TriadPair>)> {
        let PhraseQuestion { written, area, .. } = self.phrases.get(index)?;
        let of_chord = || self.chords.at(written.from).map(|chord| chord.pair.pair());
        let pairs = match written.notes {
            NotesFrom::Entered(_) => self.pairs(),
            NotesFrom::Pair => written.pair.or_else(of_chord).into_iter().collect(),
        };
        Some(((*area)?, pairs))
    }

    /// What fails in the phrase with this index.
    pub(super) fn in_phrase(&self, index: usize, refusal: Refusal) -> Refusal {
        let phrase = self.phrases.get(index).map(|phrase| phrase.name.clone()).unwrap_or_default();
        Refusal::InPhrase { phrase, refusal: Box::new(refusal) }
    }

    /// The same line so many semitones higher.
    pub(super) fn up(&self, semitones: u8) -> LineQuestion {
        let up = i32::from(semitones);
        LineQuestion {
            chords: self.chords.up(semitones),
            start: self.start.map(|start| start.up(up).unwrap_or(start)),
            targets: self.targets.iter().map(|target| self.as_degree(*target)).collect(),
            phrases: self.phrases.iter().filter_map(|phrase| phrase.up(up)).collect(),
            ..self.clone()
        }
    }

    /// A target that holds in every key.
    fn as_degree(&self, target: LineTarget) -> LineTarget {
        let Wanted::Note(name) = target.wanted else { return target };
        let chord = self.chords.moment(target.moment()).and_then(|at| self.chords.at(at));
        match chord {
            Some(chord) => {
                let degree = chord.over.degree(name.pitch_class());
                LineTarget { wanted: Wanted::Degree(degree), ..target }
            }
            None => target,
        }
    }

    /// A target as a moment with its note.
    pub(super) fn asked(&self, target: &LineTarget) -> Result<AskedTarget, Refusal> {
        let outside = || PhraseRefusal::TargetOutside {
            target: format!("{target:#}"),
            bars: self.chords.bar_count(),
        };
        let at =
            self.chords.moment(target.moment()).filter(|at| !at.is_zero()).ok_or_else(outside)?;
        let chord = self.chords.at(at).ok_or_else(outside)?;
        let class = target.wanted.class_over(chord.over.root().pitch_class());
        let notes = PitchClassSet::EMPTY.with(class);
        Ok(AskedTarget { at, notes, approach: target.approach, timing: target.timing })
    }
}
