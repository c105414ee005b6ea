//! A way to play a line as tablature.

use std::collections::HashMap;

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
        let mut onsets: HashMap<usize, Quarters> = HashMap::new();
        for (index, read) in
            score.notes().enumerate().filter(|(_, read)| read.note.grace().is_none())
        {
            let onset = read.note.onset();
            onsets
                .entry(moment(index))
                .and_modify(|first| *first = onset.min(*first))
                .or_insert(onset);
        }
        let mut moments: Vec<(usize, Quarters)> = onsets.into_iter().collect();
        moments.sort_unstable_by_key(|(moment, _)| *moment);
        let mut strikes: HashMap<usize, Strike> = HashMap::new();
        let mut last = None;
        for (moment, onset) in moments {
            let attack = match last {
                Some((before, Attack::After(places))) if before == onset => {
                    Attack::After(places + 1)
                }
                Some((before, _)) if before == onset => Attack::After(1),
                _ => Attack::OnTime,
            };
            last = Some((onset, attack));
            strikes.insert(moment, Strike { onset, attack });
        }
        let strike = |(index, read): (usize, ReadNote<'_>)| {
            let grace = read.note.grace().map(|grace| Attack::Before(grace.steps()));
            let alone =
                Strike { onset: read.note.onset(), attack: grace.unwrap_or(Attack::OnTime) };
            let together = strikes.get(&moment(index)).filter(|_| grace.is_none());
            together.copied().unwrap_or(alone)
        };
        score.notes().enumerate().map(strike).collect()
    }
}

fn times_from(score: &ReadScore) -> TimesFrom {
    match score.notes().next().map(|read| &read.source.origin) {
        _ if !score.has_written_bars() => TimesFrom::Seconds,
        Some(NoteOrigin::InTrack { .. }) => TimesFrom::Playing,
        Some(NoteOrigin::Listed { .. } | NoteOrigin::InBar { .. }) | None => TimesFrom::Writing,
    }
}

/// When a note is struck.
#[derive(Clone, Copy)]
struct Strike {
    onset: Quarters,
    attack: Attack,
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
