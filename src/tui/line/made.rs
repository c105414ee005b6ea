//! The line that is made of what is chosen.

use fretloom_theory::{ExplainedBar, Explanation};

use super::chosen::Chosen;
use crate::answer::{
    AskedChords, KeyCycle, KeyFingering, LineAnswer, LineChords, LineQuestion, LineWay,
    LinesAnswer, PairPhrase, Refusal, Slurring, ToldNote,
};
use crate::picture::Tab;
use crate::tui::shared::Shared;

/// How many ways to finger a line there are to choose from.
const WAYS: usize = 5;

/// The line with all that is shown of it.
pub(super) struct Made {
    /// With what was changed note by note.
    pub(super) answer: LineAnswer,
    pub(super) explanation: Explanation,
    /// Which of the ways is taken.
    pub(super) way: usize,
    pub(super) tab: Tab,
}

impl Made {
    /// The line of these choices.
    ///
    /// # Errors
    ///
    /// Where the chords, a scale or a pair cannot be read, where the line cannot be made on this
    /// neck, and where no hand can play it.
    pub(super) fn of(chosen: &Chosen, shared: &Shared) -> Result<Made, Refusal> {
        let question = question(chosen, shared)?;
        let (neck, tuning) = (shared.neck(), shared.tuning().clone());
        let plain = match chosen.key {
            0 => LineAnswer::new(neck, tuning, &question)?,
            key => in_key(key, shared, &question)?,
        };
        let answer = plain.edited(neck, &chosen.edits)?;
        let way = chosen.way.min(answer.ways.len().saturating_sub(1));
        let tab = answer.ways.get(way).map(|taken| answer.tab(taken));
        let nothing = || Refusal::NoChords { text: chosen.chords.clone() };
        Ok(Made { explanation: answer.explanation(), tab: tab.ok_or_else(nothing)?, way, answer })
    }

    /// Its notes in order of time.
    pub(super) fn notes(&self) -> &[ToldNote] {
        &self.answer.notes
    }

    /// The way in which it is fingered.
    pub(super) fn way(&self) -> Option<&LineWay> {
        self.answer.ways.get(self.way)
    }

    /// The first of its phrases that is made of a pair.
    pub(super) fn pair_phrase(&self) -> Option<&PairPhrase> {
        self.answer.phrases.iter().find_map(|phrase| phrase.of_pair.as_ref())
    }

    /// How many bars it has.
    pub(super) fn bar_count(&self) -> u32 {
        let chords = &self.answer.question.chords;
        let count = chords.bars().at(chords.end()).map_or(0, |at| at.index);
        u32::try_from(count).unwrap_or(u32::MAX)
    }

    /// What is said of the bar, or of the part of it under one chord, in which a note begins.
    pub(super) fn bar_of(&self, index: usize) -> Option<&ExplainedBar> {
        let onset = self.notes().get(index)?.note.onset;
        self.explanation.bars.iter().find(|bar| bar.from <= onset && onset < bar.to)
    }

    /// Which notes begin in the same bar as a note.
    pub(super) fn in_bar_of(&self, index: usize) -> Vec<usize> {
        let bars = self.answer.question.chords.bars();
        let bar = |index: usize| Some(bars.at(self.notes().get(index)?.note.onset)?.index);
        let here = bar(index);
        (0..self.notes().len()).filter(|other| bar(*other) == here).collect()
    }
}

/// What is asked for.
fn question(chosen: &Chosen, shared: &Shared) -> Result<LineQuestion, Refusal> {
    let (scales, pairs) = (chosen.scales(), chosen.pairs());
    let chords = LineChords::read(&AskedChords {
        text: &chosen.chords,
        meter: chosen.meter,
        bars: chosen.bars,
        scales: scales.as_deref(),
        pairs: pairs.as_deref(),
        spelling: shared.setup.spelling,
        own: shared.library.scales.kinds(),
    })?;
    Ok(LineQuestion {
        style: chosen.style,
        tempo: chosen.tempo,
        pattern: chosen.pattern.clone(),
        rhythm: chosen.rhythm.clone(),
        travel: chosen.travel,
        start: chosen.start,
        at_change: chosen.at_change,
        targets: chosen.targets.clone(),
        area: chosen.place.area(shared.hand),
        slurring: Slurring::Nothing,
        ways: WAYS,
        ..LineQuestion::over(chords)
    })
}

/// The line in another of the twelve keys.
fn in_key(key: usize, shared: &Shared, question: &LineQuestion) -> Result<LineAnswer, Refusal> {
    let (neck, tuning) = (shared.neck(), shared.tuning().clone());
    let lines =
        LinesAnswer::in_keys(neck, tuning, question, KeyCycle::Fourths, KeyFingering::Anew)?;
    let nothing = || Refusal::NoChords { text: String::new() };
    lines.lines.into_iter().nth(key).map(|line| line.answer).ok_or_else(nothing)
}
