//! The line as far as it is made.

use super::approach::Leading;
use super::course::{Chosen, Courses};
use super::error::LineError;
use super::event::{Event, Events, Sound};
use super::free_notes::FreeNotes;
use super::landing::LandingTime;
use super::limits::LONGEST;
use super::note::{PhraseNote, Role};
use super::phrase::{Begin, NotesFrom, Phrase, Target, Timing};
use super::reach::Reach;
use super::slots::{Phase, Slots};
use crate::time::Quarters;
use crate::{Direction, Pitch, PitchClassSet, WhichTriad};

/// The line as far as it is made.
#[derive(Default)]
pub(super) struct Made {
    notes: Vec<PhraseNote>,
    turns: usize,
    phase: Option<Phase>,
    direction: Option<Direction>,
    /// The last note that is settled.
    last: Option<Pitch>,
    /// Notes that lead to what follows, which has not come yet: they come after all the others.
    waiting: Vec<Waiting>,
    /// What would follow them if the line went on.
    would_follow: Option<Pitch>,
    /// When the last phrase ends.
    until: Quarters,
}

/// A note that is known but for its pitch.
struct Waiting {
    phrase: usize,
    event: Event,
    leading: Leading,
    before: Option<Pitch>,
    scale: PitchClassSet,
    /// That of its phrase.
    reach: Reach,
}

impl Made {
    /// Plays a phrase after what is made.
    pub(super) fn play(
        &mut self,
        index: usize,
        phrase: &Phrase,
        reach: &Reach,
    ) -> Result<(), LineError> {
        if let NotesFrom::Entered(entered) = &phrase.notes {
            return self.enter(index, phrase, entered, reach);
        }
        let landing_time = landing_time(index, phrase)?;
        let until = landing_time.map_or(phrase.to, |time| time.pattern_until);
        let slots = Slots::of(phrase, self.phase, until)?;
        if phrase.begin == Begin::Again {
            self.cut_at(phrase.from);
        }
        let (before, direction) = (self.last, self.direction);
        let chosen = Courses { index, phrase, slots: &slots, reach, before, direction }.best()?;
        self.turns += chosen.turns;
        self.direction = Some(chosen.direction);
        self.phase = Some(slots.after);
        self.hold_into(chosen.events.held_before);
        self.add(index, phrase, chosen, landing_time, reach)?;
        self.until = phrase.to.max(landing_time.map_or(Quarters::ZERO, |time| time.end));
        if self.notes.len() > LONGEST { Err(LineError::TooLong) } else { Ok(()) }
    }

    /// Adds notes that were entered one by one. What does not lie in the phrase is left out.
    fn enter(
        &mut self,
        index: usize,
        phrase: &Phrase,
        entered: &FreeNotes,
        reach: &Reach,
    ) -> Result<(), LineError> {
        self.cut_at(phrase.from);
        let scale = phrase.over.scale().set();
        for together in entered.notes().chunk_by(|one, next| one.after == next.after) {
            let [first, ..] = together else { continue };
            let onset = phrase.from.checked_add(first.after).ok_or(LineError::Inexact)?;
            let end = onset.checked_add(first.duration).ok_or(LineError::Inexact)?.min(phrase.to);
            let pitches: Vec<Pitch> = together.iter().map(|note| note.pitch).collect();
            if let Some(missing) = pitches.iter().find(|pitch| !reach.holds_free(**pitch)) {
                return Err(LineError::NotThere { phrase: index, pitch: *missing });
            }
            if onset < end {
                let (sound, role, accent) = (Sound::Pitches(pitches), Role::Free, first.accent);
                self.add_event(
                    index,
                    &Event { onset, end, sound, role, accent, group: 0 },
                    scale,
                    reach,
                )?;
            }
        }
        (self.phase, self.would_follow, self.until) = (None, None, phrase.to);
        if self.notes.len() > LONGEST { Err(LineError::TooLong) } else { Ok(()) }
    }

    /// The notes and how many times the line turned where it had to.
    pub(super) fn finished(mut self) -> Result<(Vec<PhraseNote>, usize), LineError> {
        self.cut_at(self.until);
        // What leads nowhere is not played.
        if let Some(next) = self.would_follow {
            self.settle(next)?;
        }
        self.notes.retain(|note| !note.duration.is_zero());
        Ok((self.notes, self.turns))
    }

    /// Ends what would sound longer than until that moment.
    fn cut_at(&mut self, moment: Quarters) {
        for note in self.notes.iter_mut().rev().take_while(|note| note.end() > moment) {
            note.duration = moment.checked_sub(note.onset).unwrap_or_default();
        }
        for waiting in &mut self.waiting {
            waiting.event.end = waiting.event.end.min(moment).max(waiting.event.onset);
        }
    }

    fn hold_into(&mut self, until: Option<Quarters>) {
        let Some(until) = until else { return };
        match (self.waiting.last_mut(), self.notes.last_mut()) {
            (Some(waiting), _) => waiting.event.end = until,
            (None, Some(last)) => {
                last.duration = until.checked_sub(last.onset).unwrap_or(last.duration);
            }
            (None, None) => {}
        }
    }

    fn add(
        &mut self,
        index: usize,
        phrase: &Phrase,
        chosen: Chosen,
        time: Option<LandingTime>,
        reach: &Reach,
    ) -> Result<(), LineError> {
        let Events { mut events, played, .. } = chosen.events;
        let beyond = events.split_off(played);
        let scale = phrase.over.scale().set();
        let Some(((landing, time), target)) = chosen.landing.zip(time).zip(phrase.target) else {
            for event in &events {
                self.add_event(index, event, scale, reach)?;
            }
            self.would_follow = beyond.iter().find_map(|event| event.sound.highest());
            return Ok(());
        };
        let late = matches!(target.timing, Timing::Late(_));
        let group = events.last().map_or(0, |event| event.group);
        if late {
            let sound = Sound::Pitches(Vec::new());
            let (onset, end, role) = (target.at, time.onset, Role::Free);
            events.push(Event { onset, end, sound, role, accent: false, group });
        }
        let first = events.len().saturating_sub(landing.approach.len());
        for (event, pitch) in events.iter_mut().skip(first).zip(&landing.approach) {
            (event.sound, event.role) = (Sound::Pitches(vec![*pitch]), Role::Free);
        }
        let role = role_of_target(&target, landing.target);
        let (onset, end, accent) = (time.onset, time.end, false);
        let sound = Sound::Pitches(vec![landing.target]);
        let at = Event { onset, end, sound, role, accent, group: group + 1 };
        for event in events.iter().chain([&at]) {
            self.add_event(index, event, scale, reach)?;
        }
        Ok(())
    }

    fn add_event(
        &mut self,
        phrase: usize,
        event: &Event,
        scale: PitchClassSet,
        reach: &Reach,
    ) -> Result<(), LineError> {
        match &event.sound {
            Sound::Pitches(pitches) => {
                if let Some(lowest) = pitches.first() {
                    self.settle(*lowest)?;
                }
                for pitch in pitches {
                    self.notes.push(note(phrase, event, *pitch)?);
                }
                self.last = pitches.last().copied().or(self.last);
            }
            Sound::Leads(leading) => {
                let (leading, before, event) = (*leading, self.last, event.clone());
                let reach = *reach;
                self.waiting.push(Waiting { phrase, event, leading, before, scale, reach });
            }
        }
        Ok(())
    }

    /// Settles the notes that lead to what follows.
    fn settle(&mut self, next: Pitch) -> Result<(), LineError> {
        for waiting in std::mem::take(&mut self.waiting) {
            let Waiting { phrase, event, leading, before, scale, reach } = waiting;
            let pitch = leading.note(before, next, scale, &reach);
            let pitch = pitch.ok_or(LineError::NoLeading { phrase, to: next })?;
            self.notes.push(note(phrase, &event, pitch)?);
        }
        Ok(())
    }
}

/// A note of what begins at one moment.
fn note(phrase: usize, event: &Event, pitch: Pitch) -> Result<PhraseNote, LineError> {
    let duration = event.end.checked_sub(event.onset).ok_or(LineError::Inexact)?;
    let Event { onset, role, accent, group, .. } = *event;
    Ok(PhraseNote { onset, duration, pitch, role, phrase, group, accent })
}

/// A target is a note of the pair where that has it.
fn role_of_target(target: &Target, pitch: Pitch) -> Role {
    let which = target.pair.and_then(|pair| WhichTriad::with(pair, pitch.pitch_class()));
    which.map_or(Role::Free, Role::Triad)
}

/// When the target of a phrase sounds.
fn landing_time(index: usize, phrase: &Phrase) -> Result<Option<LandingTime>, LineError> {
    let Some(target) = &phrase.target else { return Ok(None) };
    let outside = LineError::TargetOutside { phrase: index, at: target.at };
    if target.at <= phrase.from || target.at > phrase.to {
        return Err(outside);
    }
    let time = LandingTime::of(target).filter(|time| time.onset > phrase.from);
    time.map(Some).ok_or(outside)
}
