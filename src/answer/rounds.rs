//! Bars of chords that go round.

use fretloom_theory::{Bar, BarLabel, Bars, ChordSymbol, Chorus, Quarters};

/// Bars of chords that go round; a pick-up is played once.
pub(super) struct Rounds<'a> {
    chorus: &'a Chorus,
    pick_up: Option<Bar>,
    /// At least one.
    bars: Vec<Bar>,
}

/// So many bars of them.
pub(super) struct Laid {
    pub(super) bars: Bars,
    pub(super) end: Quarters,
    /// When what stands over the bars begins, and which change of the text it is; what is written
    /// once more is no change.
    pub(super) chords: Vec<(Quarters, usize, ChordSymbol)>,
}

impl<'a> Rounds<'a> {
    pub(super) fn of(chorus: &'a Chorus) -> Rounds<'a> {
        let bar_at = |index: usize| chorus.bars.bar(index as u64);
        let mut bars: Vec<Bar> = (0..chorus.heard.len()).filter_map(bar_at).collect();
        let is_pick_up = bars.first().is_some_and(|first| !first.missing.is_zero());
        let pick_up = (is_pick_up && bars.len() > 1).then(|| bars.remove(0));
        Rounds { chorus, pick_up, bars }
    }

    /// How many bars are written out, the pick-up apart.
    pub(super) fn written(&self) -> u32 {
        u32::try_from(self.bars.len()).unwrap_or(u32::MAX)
    }

    /// The first bars, going round and round.
    pub(super) fn lasting(&self, count: u32) -> Laid {
        let mut laying = self.begun();
        for (bar, number) in self.bars.iter().cycle().zip(1..=u64::from(count)) {
            laying.lay(bar, number);
        }
        laying.finished()
    }

    /// All bars once, and as many more, going round, as begin before a moment.
    pub(super) fn until(&self, moment: Quarters) -> Laid {
        let mut laying = self.begun();
        for (index, bar) in self.bars.iter().cycle().enumerate().take(MOST_BARS) {
            if laying.end >= moment && index >= self.bars.len() {
                break;
            }
            laying.lay(bar, index as u64 + 1);
        }
        laying.finished()
    }

    fn begun(&self) -> Laying<'a> {
        let (bars, chords) = (Vec::new(), Vec::new());
        let mut laying = Laying { chorus: self.chorus, bars, end: Quarters::ZERO, chords };
        if let Some(pick_up) = &self.pick_up {
            laying.lay(pick_up, 0);
        }
        laying
    }
}

/// How many bars are laid at most: a day of bars of a second and less.
const MOST_BARS: usize = 100_000;

struct Laying<'a> {
    chorus: &'a Chorus,
    bars: Vec<Bar>,
    end: Quarters,
    chords: Vec<(Quarters, usize, ChordSymbol)>,
}

impl Laying<'_> {
    fn lay(&mut self, bar: &Bar, number: u64) {
        let from = self.end;
        let until = later(bar.from, bar.length);
        let changes = self.chorus.chords.changes();
        let sounding = changes.partition_point(|(at, _)| *at <= bar.from);
        let begins = changes.get(sounding.saturating_sub(1)).filter(|(at, _)| *at <= bar.from);
        let within =
            changes.iter().enumerate().skip(sounding).take_while(|(_, (at, _))| *at < until);
        let begins = begins.map(|change| (sounding.saturating_sub(1), change));
        for (written, (at, symbol)) in begins.into_iter().chain(within) {
            let into = at.checked_sub(bar.from).unwrap_or_default();
            let is_new = self.chords.last().is_none_or(|(_, last, _)| *last != written);
            let sounds_new = self.chords.last().is_none_or(|(.., last)| last != symbol);
            if is_new && sounds_new {
                self.chords.push((later(from, into), written, symbol.clone()));
            }
        }
        self.bars.push(Bar { from, label: BarLabel::Number(number), ..bar.clone() });
        self.end = later(from, bar.length);
    }

    fn finished(self) -> Laid {
        let Laying { bars, end, chords, chorus } = self;
        let bars = Bars::written(bars).unwrap_or_else(|| chorus.bars.clone());
        Laid { bars, end, chords }
    }
}

/// A hundred thousand bars of at most 255 units fit.
fn later(moment: Quarters, by: Quarters) -> Quarters {
    moment.checked_add(by).unwrap_or(moment)
}
