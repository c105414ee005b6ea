//! What a line is asked to be.

use fretloom_fretboard::Picking;
use fretloom_theory::{
    AskedTarget, AtChange, LineQuery, LineStyle, Pattern, Pitch, PitchClassSet, Quarters, Rhythm,
    Start, Tempo, Travel,
};

use super::area::LineArea;
use super::chords::LineChords;
use super::target::{InBeat, LineTarget};
use crate::answer::refusal::Refusal;

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
            area: LineArea::whole_neck(),
            picking: Picking::WithTheBeat,
            slurring: Slurring::Nothing,
            ways: 1,
        }
    }

    /// What theory is asked for. A line of music begins near that note, where nothing is said.
    pub(super) fn query(&self, near: Option<Pitch>) -> Result<LineQuery, Refusal> {
        let (bars, end) = (self.chords.bars().clone(), self.chords.end());
        let targets = self.targets.iter().map(|target| self.asked(target));
        let mut query = LineQuery::new(bars, self.chords.stretches(), end)
            .styled(self.style)
            .at_change(self.at_change)
            .arriving(targets.collect::<Result<_, _>>()?);
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
        Ok(match self.start.or(unasked) {
            Some(start) => query.starting(start),
            None => query,
        })
    }

    /// A target as a moment with its note.
    fn asked(&self, target: &LineTarget) -> Result<AskedTarget, Refusal> {
        let outside =
            || Refusal::TargetOutside { target: format!("{target:#}"), bars: self.bars() };
        let at = self.moment(target).ok_or_else(outside)?;
        let chord = self.chords.at(at).ok_or_else(outside)?;
        let class = target.degree.over(chord.over.root().pitch_class());
        let notes = PitchClassSet::EMPTY.with(class);
        Ok(AskedTarget { at, notes, approach: target.approach, timing: target.timing })
    }

    /// When a target comes: after the beginning, and not after the first beat that follows.
    fn moment(&self, target: &LineTarget) -> Option<Quarters> {
        let bars = self.chords.bars();
        let has_pick_up = bars.bar(0).is_some_and(|first| !first.missing.is_zero());
        let index = if has_pick_up { target.bar } else { target.bar.checked_sub(1)? };
        let bar = bars.bar(index)?;
        let after = match target.place {
            InBeat::On => Quarters::ZERO,
            InBeat::And => bar.meter.beat().divided_into(2)?,
        };
        let at = bars.moment(index, target.beat, after)?;
        (!at.is_zero() && at <= self.chords.end()).then_some(at)
    }

    /// How many bars there are, the pick-up apart.
    fn bars(&self) -> u64 {
        let bars = self.chords.bars();
        let has_pick_up = bars.bar(0).is_some_and(|first| !first.missing.is_zero());
        let count = bars.at(self.chords.end()).map_or(0, |at| at.index);
        count - u64::from(has_pick_up && count > 0)
    }
}
