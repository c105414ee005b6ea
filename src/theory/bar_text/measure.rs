//! What sounds in the bars that are written.

use std::collections::VecDeque;
use std::sync::Arc;

use super::fault::UnreadBar;
use super::problem::{Problem, Spot};
use super::written_bar::{BarContent, BeatSign, WrittenBar, WrittenChord};
use crate::{ChordSymbol, Meter, Quarters};

/// A bar once it is known what `%` and `/` stand for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Measure {
    pub(super) meter: Meter,
    /// Shorter than the meter's bar in a pick-up.
    pub(super) length: Quarters,
    /// How much of the meter's bar lies before a pick-up.
    pub(super) missing: Quarters,
    /// Each chord with the moment after the bar's beginning at which it begins, the first one at
    /// once. Shared by all bars that `%` stands for, which may be many.
    pub(super) chords: Arc<[(Quarters, WrittenChord)]>,
}

/// The bars that each written bar stands for: one, or two for `%%`. A pick-up has this length, which
/// is less than that of a bar.
///
/// A problem is that `%` or `/` has nothing before it to stand for, or that the signs of a bar are not
/// as many as its beats. `unread` says what such a bar becomes.
///
/// # Errors
///
/// Where it becomes none.
pub(super) fn measures<E>(
    pick_up: Option<Quarters>,
    meter: Meter,
    bars: &mut [WrittenBar],
    mut unread: impl FnMut(Problem) -> Result<UnreadBar, E>,
) -> Result<Vec<Vec<Measure>>, E> {
    let mut reading = Reading { pick_up, meter, last: VecDeque::new(), carried: None };
    let measures = bars.iter_mut().enumerate().map(|(index, bar)| {
        let before = reading.clone();
        reading.bar(index, bar).or_else(|problem| {
            reading = before;
            bar.content = BarContent::Unread(unread(problem)?);
            Ok(reading.bar(index, bar).unwrap_or_default())
        })
    });
    measures.collect()
}

#[derive(Clone)]
struct Reading {
    /// How long the bar is that comes next, where it is a pick-up.
    pick_up: Option<Quarters>,
    meter: Meter,
    /// The last two measures, in the order in which they are written.
    last: VecDeque<Measure>,
    /// The chord that sounds at the end of them.
    carried: Option<WrittenChord>,
}

impl Reading {
    fn bar(&mut self, index: usize, bar: &WrittenBar) -> Result<Vec<Measure>, Problem> {
        self.meter = bar.meter().unwrap_or(self.meter);
        if bar.begins_later_ending() {
            // What came before depends on which ending that was.
            self.last.clear();
            self.carried = None;
        }
        let measures = match &bar.content {
            BarContent::Shared(chords) => vec![self.shared(chords)],
            BarContent::Beats(signs) => vec![self.beats(index, signs)?],
            BarContent::BarBefore => self.before(index, 1)?,
            BarContent::TwoBarsBefore => self.before(index, 2)?,
            BarContent::Unread(bar) => vec![self.unread(bar)],
        };
        for measure in &measures {
            self.carried = measure.chords.last().map(|(_, chord)| chord.clone());
            self.last.push_back(measure.clone());
            self.last.drain(..self.last.len().saturating_sub(2));
        }
        Ok(measures)
    }

    /// A bar of the meter, or the pick-up, without chords.
    fn empty(&mut self) -> Measure {
        let (meter, whole) = (self.meter, self.meter.bar());
        let length = self.pick_up.take().unwrap_or(whole);
        let missing = whole.checked_sub(length).unwrap_or_default();
        Measure { meter, length, missing, chords: Arc::default() }
    }

    fn unread(&mut self, bar: &UnreadBar) -> Measure {
        let symbol = ChordSymbol::unread(bar.text());
        let chord = WrittenChord { symbol, optional: false };
        Measure { chords: [(Quarters::ZERO, chord)].into(), ..self.empty() }
    }

    fn shared(&mut self, chords: &[WrittenChord]) -> Measure {
        let mut measure = self.empty();
        let count = u32::try_from(chords.len()).unwrap_or(u32::MAX);
        let share = measure.length.divided_into(count).unwrap_or_default();
        measure.chords = (0..).map(|before| moment(share, before)).zip(chords.to_vec()).collect();
        measure
    }

    fn beats(&mut self, index: usize, signs: &[BeatSign]) -> Result<Measure, Problem> {
        let mut measure = self.empty();
        let beat = measure.meter.beat();
        let beats = measure.length.divided_with_rest(beat).filter(|(_, rest)| rest.is_zero());
        if beats.is_none_or(|(beats, _)| usize::try_from(beats) != Ok(signs.len())) {
            return Err(Problem::new(index, Spot::Content(0), self.as_many(&measure, signs.len())));
        }
        let mut chords = Vec::new();
        for (before, sign) in (0..).zip(signs) {
            let at = moment(beat, before);
            match sign {
                BeatSign::Chord(chord) => chords.push((at, chord.clone())),
                BeatSign::Slash if at.is_zero() => chords.push((at, self.carried(index)?)),
                BeatSign::Slash => {}
            }
        }
        measure.chords = chords.into();
        Ok(measure)
    }

    /// What is said where the signs are not as many as the beats.
    fn as_many(&self, measure: &Measure, signs: usize) -> String {
        let Measure { meter, length, .. } = measure;
        match length.divided_with_rest(meter.beat()) {
            Some((beats, rest)) if rest.is_zero() => {
                let one = "one chord or / for each beat of the bar";
                format!("{one}: {beats} in {meter}, not {signs}")
            }
            _ => "no / in a pick-up that is no number of whole beats".to_owned(),
        }
    }

    fn carried(&self, index: usize) -> Result<WrittenChord, Problem> {
        let expected = "a chord: nothing certain sounds here that / could go on with";
        self.carried.clone().ok_or_else(|| Problem::new(index, Spot::Content(0), expected))
    }

    /// The last `count` measures once more.
    fn before(&mut self, index: usize, count: usize) -> Result<Vec<Measure>, Problem> {
        let wrong = |expected: String| Problem::new(index, Spot::Content(0), expected);
        let empty = self.empty();
        let sign = "%".repeat(count);
        let skipped = self.last.len().checked_sub(count).ok_or_else(|| {
            wrong(format!("a chord: it is not certain what stands before this {sign}"))
        })?;
        let measures: Vec<Measure> = self.last.iter().skip(skipped).cloned().collect();
        let alike = |bar: &Measure| (bar.meter, bar.length) == (empty.meter, empty.length);
        match measures.iter().all(alike) {
            true => Ok(measures),
            false => {
                let meter = empty.meter;
                Err(wrong(format!("a chord: not all before this {sign} are whole bars of {meter}")))
            }
        }
    }
}

/// `step` so many times: bars and their parts are so few and so short that it fits.
fn moment(step: Quarters, times: u32) -> Quarters {
    step.times(times).unwrap_or_default()
}
