//! A way to play a line as tablature.

use std::collections::BTreeMap;

use fretloom_fretboard::{HandPosition, Tuning};
use fretloom_theory::Quarters;

use super::finger::{FingeredAnswer, WayAnswer};
use crate::picture::{Attack, Tab, TabEvent, TabMusic, TimesFrom};
use crate::score_file::{NoteOrigin, ReadNote, ReadScore};

impl WayAnswer {
    /// This way as tablature. `score` is the score that it plays; frets and positions count from the
    /// capo.
    #[must_use]
    pub fn tab(&self, tuning: &Tuning, score: &ReadScore) -> Tab {
        let times = times_from(score);
        let strikes = self.strikes(score);
        let notes = score.notes().zip(&self.notes).zip(strikes);
        let events: Vec<TabEvent> =
            notes.map(|((read, at), strike)| event(tuning, strike, read, at)).collect();
        Tab::new(&TabMusic::of(score.score(), times), tuning, &events)
    }

    /// When each note is struck: what sounds together begins at one moment, with the first of it,
    /// and the groups of a broken chord come one after another.
    fn strikes(&self, score: &ReadScore) -> Vec<Strike> {
        let moment = |index| self.fingering.moment(index).unwrap_or(index);
        let mut onsets: BTreeMap<usize, Quarters> = BTreeMap::new();
        for (index, read) in score.notes().enumerate() {
            if read.note.grace().is_none() {
                let onset = read.note.onset();
                let first = onsets.entry(moment(index)).or_insert(onset);
                *first = onset.min(*first);
            }
        }
        let strikes = in_turn(&onsets);
        let strike = |(index, read): (usize, ReadNote<'_>)| {
            let onset = read.note.onset();
            match read.note.grace() {
                Some(grace) => Strike { onset, attack: Attack::Before(grace.steps()) },
                None => strikes.get(&moment(index)).copied().unwrap_or(Strike::on_time(onset)),
            }
        };
        score.notes().enumerate().map(strike).collect()
    }
}

/// When each moment is struck, by their order: of several at one onset each comes after the last.
fn in_turn(onsets: &BTreeMap<usize, Quarters>) -> BTreeMap<usize, Strike> {
    let mut last: Option<Strike> = None;
    let mut strikes = BTreeMap::new();
    for (moment, onset) in onsets {
        let strike = match last.filter(|last| last.onset == *onset) {
            Some(Strike { attack: Attack::After(places), .. }) => {
                Strike { onset: *onset, attack: Attack::After(places.saturating_add(1)) }
            }
            Some(_) => Strike { onset: *onset, attack: Attack::After(1) },
            None => Strike::on_time(*onset),
        };
        strikes.insert(*moment, strike);
        last = Some(strike);
    }
    strikes
}

fn times_from(score: &ReadScore) -> TimesFrom {
    let first = score.notes().next();
    let is_recorded = first.is_some_and(|read| read.note.recorded().is_some());
    match first.map(|read| &read.source.origin) {
        _ if !score.has_written_bars() => TimesFrom::Seconds,
        Some(NoteOrigin::InTrack { .. }) => TimesFrom::Playing,
        Some(NoteOrigin::Listed { .. }) if is_recorded => TimesFrom::Playing,
        Some(NoteOrigin::Listed { .. } | NoteOrigin::InBar { .. }) | None => TimesFrom::Writing,
    }
}

/// When a note is struck.
#[derive(Clone, Copy)]
struct Strike {
    onset: Quarters,
    attack: Attack,
}

impl Strike {
    fn on_time(onset: Quarters) -> Strike {
        Strike { onset, attack: Attack::OnTime }
    }
}

fn event(
    tuning: &Tuning,
    strike: Strike,
    read: ReadNote<'_>,
    fingered: &FingeredAnswer,
) -> TabEvent {
    let capo = tuning.capo().fret().number();
    let from_capo = HandPosition::new(fingered.position.number().saturating_sub(capo));
    let duration = read.note.end().checked_sub(strike.onset).unwrap_or(read.note.duration());
    TabEvent {
        attack: strike.attack,
        ties: read.note.ties().to_vec(),
        finger: Some(fingered.finger),
        position: Some(from_capo.unwrap_or(HandPosition::FIRST)),
        name: Some(read.note.pitch().name()),
        ..TabEvent::new(strike.onset, duration, fingered.place.string, fingered.tab)
    }
}
