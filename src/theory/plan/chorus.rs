//! The chords of a tune, as a plan is asked for them.

use std::iter;

use super::chord::{PlanChord, StretchBegins};
use crate::{Chord, Chorus, Key, Meter, Quarters, Reading};

/// From how many bars on a chord is planned in several stretches, and how long each is.
const LONG: u32 = 8;
const STRETCH: u32 = 4;

/// A chord of a chorus.
struct Heard<'a> {
    from: Quarters,
    until: Quarters,
    chord: &'a Chord,
}

impl PlanChord {
    /// The chords of a chorus that goes round and round, each with the moment at which it begins.
    ///
    /// Each is read among its neighbours, those beyond the end being the ones at the beginning. A
    /// chord that stands for eight bars or more comes several times, for four bars each. Where no
    /// chord is to sound there is none.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom_theory::{BarText, Meter, OptionalChords, PlanChord, PlanQuery};
    /// let text = BarText::read("| Dm7 | G7 | Cmaj7 | % |", Meter::COMMON)?;
    /// let chords = PlanChord::of_chorus(&text.unfolded(OptionalChords::Played), None);
    /// assert_eq!(chords.len(), 3);
    /// let plan = PlanQuery::over(chords.into_iter().map(|(_, chord)| chord)).plan().unwrap();
    /// assert!(plan.pairs().len() <= 2);
    /// # Ok::<(), fretloom_theory::ReadError>(())
    /// ```
    #[must_use]
    pub fn of_chorus(chorus: &Chorus, key: Option<Key>) -> Vec<(Quarters, PlanChord)> {
        let heard = heard(chorus);
        let once: Vec<Chord> = heard.iter().map(|heard| heard.chord.clone()).collect();
        // Three times round, the middle one has all its neighbours.
        let rounds: Vec<Chord> = iter::repeat_n(&once, 3).flatten().cloned().collect();
        let readings = Reading::tune(&rounds, key);
        let middle = readings.into_iter().skip(once.len());
        let each = heard.iter().enumerate().zip(middle);
        let standing = each.flat_map(|((index, chord), reading)| {
            let bars = chord.bars(chorus);
            stretches(chorus, chord, &reading.standing(bars, &around(&heard, index)))
        });
        standing.collect()
    }
}

impl Heard<'_> {
    /// How many bars it sounds, of the meter in which it begins.
    fn bars(&self, chorus: &Chorus) -> f64 {
        let length = self.until.checked_sub(self.from).unwrap_or_default();
        length.to_f64() / meter(chorus, self.from).bar().to_f64()
    }
}

fn meter(chorus: &Chorus, moment: Quarters) -> Meter {
    chorus.bars.at(moment).map_or(Meter::COMMON, |at| at.bar.meter)
}

/// How many chords on each side are around a chord.
const AROUND: usize = 2;

/// The chords around one, going round the form.
fn around<'a>(heard: &[Heard<'a>], index: usize) -> Vec<&'a Chord> {
    let count = heard.len();
    let near = (1..=AROUND.min(count)).flat_map(|way| [index + way, index + count - way]);
    near.map(|near| heard[near % count].chord).collect()
}

/// What sounds, each chord until the next.
fn heard(chorus: &Chorus) -> Vec<Heard<'_>> {
    let changes = chorus.chords.changes();
    let ends = changes.iter().skip(1).map(|(from, _)| *from).chain([chorus.end]);
    let sounds = changes.iter().zip(ends).filter_map(|((from, symbol), until)| {
        Some(Heard { from: *from, until, chord: symbol.chord()? })
    });
    sounds.collect()
}

/// A chord for as long as it sounds, a long one in parts.
fn stretches(chorus: &Chorus, heard: &Heard<'_>, reading: &Reading) -> Vec<(Quarters, PlanChord)> {
    let bar = meter(chorus, heard.from).bar();
    let part = bar.times(STRETCH);
    let mut from = heard.from;
    let mut begins = match begins_section(chorus, heard.from) {
        true => StretchBegins::Section,
        false => StretchBegins::Chord,
    };
    let mut parts = Vec::new();
    loop {
        let length = heard.until.checked_sub(from).unwrap_or_default();
        let goes_on = part.filter(|_| bar.times(LONG).is_some_and(|long| length >= long));
        let bars = goes_on.unwrap_or(length).to_f64() / bar.to_f64();
        parts.push((from, PlanChord::of(reading.clone(), bars).beginning(begins)));
        let Some(next) = goes_on.and_then(|part| from.checked_add(part)) else { return parts };
        (from, begins) = (next, StretchBegins::More);
    }
}

/// Does another section begin at a moment?
fn begins_section(chorus: &Chorus, moment: Quarters) -> bool {
    let bar = chorus.heard.partition_point(|bar| bar.from < moment);
    let section = |index: usize| chorus.heard.get(index).map(|bar| (bar.from, &bar.section));
    let before = bar.checked_sub(1).and_then(section);
    match (before, section(bar)) {
        (Some((_, before)), Some((from, here))) => from == moment && before != here,
        (None, Some((_, here))) => here.is_some(),
        (_, None) => false,
    }
}
