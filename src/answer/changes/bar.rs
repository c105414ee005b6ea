//! The bars of a chart as they are heard.

use fretloom_theory::{
    BarContent, BarLabel, BarText, ChartBeat, ChordSymbol, Chorus, HeardBar, Meter, Quarters,
    UnreadBar,
};

use super::stretch::{Stretch, at, beat_at};

/// A bar that is heard.
#[derive(Clone, PartialEq, Debug)]
pub struct ChangesBar {
    /// Its number, counted as it is heard; 0 is a pick-up.
    pub number: u64,
    /// The name of the section in which it is written.
    pub section: Option<Box<str>>,
    /// Which written bar it is: how many stand before that.
    pub written: usize,
    /// Its meter.
    pub meter: Meter,
    /// When it begins.
    pub from: Quarters,
    /// When it ends.
    pub until: Quarters,
    /// What sounds in it, in order; nothing where it cannot be read.
    pub chords: Vec<BarChord>,
    /// What is written there, where it cannot be read; of a `%` that is the bar it stands for.
    pub unread: Option<UnreadBar>,
}

/// A chord within a bar, for as long as it sounds there and one pair is played over it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct BarChord {
    /// On which beat it begins.
    pub beat: ChartBeat,
    /// When that is.
    pub from: Quarters,
    /// When it ends, at the end of the bar at the latest.
    pub until: Quarters,
    /// What sounds.
    pub sounding: Sounding,
}

/// What sounds in a part of a bar.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sounding {
    /// No chord.
    NoChord,
    /// The chord with this index in each plan.
    Begins(usize),
    /// The chord with this index, which has begun before.
    GoesOn(usize),
}

impl Sounding {
    /// Which chord of a plan it is, if it is one.
    #[must_use]
    pub const fn chord(self) -> Option<usize> {
        match self {
            Sounding::NoChord => None,
            Sounding::Begins(chord) | Sounding::GoesOn(chord) => Some(chord),
        }
    }
}

impl ChangesBar {
    /// The beat with which it begins; a pick-up begins with a later one.
    #[must_use]
    pub fn first_beat(&self) -> ChartBeat {
        let length = self.until.checked_sub(self.from).unwrap_or_default();
        let missing = self.meter.bar().checked_sub(length).unwrap_or_default();
        let missing = if self.number == 0 { missing } else { Quarters::ZERO };
        ChartBeat::at(missing, self.meter).unwrap_or(ChartBeat::FIRST)
    }

    /// How many beats it has.
    #[must_use]
    pub fn beats(&self) -> f64 {
        beats_between(self.from, self.until, self.meter)
    }
}

impl BarChord {
    /// Has its chord begun in a bar before, so that nothing changes?
    #[must_use]
    pub const fn goes_on(&self) -> bool {
        matches!(self.sounding, Sounding::GoesOn(_))
    }

    /// How many beats of this meter it lasts.
    #[must_use]
    pub fn beats(&self, meter: Meter) -> f64 {
        beats_between(self.from, self.until, meter)
    }
}

fn beats_between(from: Quarters, until: Quarters, meter: Meter) -> f64 {
    until.checked_sub(from).unwrap_or_default().to_f64() / meter.beat().to_f64()
}

/// The bars of a chorus, with what sounds in each.
pub(super) fn bars(text: &BarText, chorus: &Chorus, stretches: &[Stretch]) -> Vec<ChangesBar> {
    let mut last_unread = None;
    let mut bars = Vec::with_capacity(chorus.heard.len());
    for (index, heard) in (0_u64..).zip(&chorus.heard) {
        let Some(bar) = chorus.bars.bar(index) else { break };
        last_unread = unread_bar(text, heard).or(last_unread);
        let unread = match chorus.chords.at(heard.from) {
            Some(ChordSymbol::Unread(_)) => last_unread.cloned(),
            Some(ChordSymbol::Chord(_) | ChordSymbol::NoChord) | None => None,
        };
        let until = heard.from.checked_add(bar.length).unwrap_or(chorus.end);
        bars.push(ChangesBar {
            number: match bar.label {
                BarLabel::Number(number) => number,
                BarLabel::Text(_) => index + 1,
            },
            section: heard.section.clone(),
            written: heard.written,
            meter: bar.meter,
            from: heard.from,
            until,
            chords: match unread {
                Some(_) => Vec::new(),
                None => chords(chorus, stretches, heard.from, until),
            },
            unread,
        });
    }
    bars
}

/// What cannot be read in the written bar that is heard.
fn unread_bar<'a>(text: &'a BarText, heard: &HeardBar) -> Option<&'a UnreadBar> {
    match &text.bars().get(heard.written)?.content {
        BarContent::Unread(unread) => Some(unread),
        BarContent::Shared(_)
        | BarContent::Beats(_)
        | BarContent::BarBefore
        | BarContent::TwoBarsBefore => None,
    }
}

/// What sounds from one moment to another.
fn chords(
    chorus: &Chorus,
    stretches: &[Stretch],
    from: Quarters,
    until: Quarters,
) -> Vec<BarChord> {
    let within = |moment: &Quarters| from < *moment && *moment < until;
    let changes = chorus.chords.changes();
    let first = changes.partition_point(|(moment, _)| *moment <= from);
    let changes = changes.iter().skip(first).map(|(moment, _)| *moment).take_while(within);
    let first = stretches.partition_point(|stretch| stretch.from <= from);
    let divided = stretches.iter().skip(first).map(|stretch| stretch.from).take_while(within);
    let mut moments: Vec<Quarters> = [from].into_iter().chain(changes).chain(divided).collect();
    moments.sort_unstable();
    moments.dedup();
    let ends = moments.iter().skip(1).copied().chain([until]);
    let chord = |(from, until): (&Quarters, Quarters)| BarChord {
        beat: beat_at(chorus, *from),
        from: *from,
        until,
        sounding: sounding(stretches, *from),
    };
    moments.iter().zip(ends).map(chord).collect()
}

fn sounding(stretches: &[Stretch], moment: Quarters) -> Sounding {
    match at(stretches, moment) {
        None => Sounding::NoChord,
        Some(index) if stretches.get(index).is_some_and(|chord| chord.from < moment) => {
            Sounding::GoesOn(index)
        }
        Some(index) => Sounding::Begins(index),
    }
}
