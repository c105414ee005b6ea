//! Music: phrases that lead into the next chord, breathe, and come to rest.

use super::{AskedTarget, ChordStretch, LineQuery};
use crate::line::{Approach, Phrase, Target, Timing};
use crate::time::Quarters;
use crate::{Pattern, PitchClassSet, Sign};

/// How long the note is on which a phrase rests before it breathes: a dotted quarter.
const HELD: Quarters = quarters(3, 2);
/// How long a breath is: a quarter.
const BREATH: Quarters = Quarters::ONE;
/// How much a phrase needs to say anything.
const LEAST: Quarters = Quarters::ONE;
/// All three: what a breath needs that does not cost a phrase.
const ROOM: Quarters = quarters(7, 2);

const fn quarters(numerator: u64, denominator: u32) -> Quarters {
    match Quarters::new(numerator, denominator) {
        Some(length) => length,
        None => Quarters::ONE,
    }
}

impl LineQuery {
    /// One phrase up to each landing.
    pub(super) fn music(&self) -> Vec<Phrase> {
        let Some(first) = self.chords.first() else { return Vec::new() };
        let landings = self.landings();
        let mut phrases: Vec<Phrase> = Vec::new();
        // The first phrase begins off the beat.
        let mut from = after(first.from, Quarters::EIGHTH);
        let mut rested_until = first.from;
        for (index, landing) in landings.iter().enumerate() {
            let next = landings.get(index + 1);
            let bar = self.bar_at(landing.at);
            let since = landing.at.checked_sub(rested_until).unwrap_or_default();
            let has_room = next.is_some_and(|next| next.at >= after(landing.at, ROOM));
            let may_breathe = next.is_some_and(|next| has_room || self.may_breathe(landing, next));
            let breathes = may_breathe
                && since >= if has_room { portion(bar, 7, 4) } else { portion(bar, 5, 2) };
            let length = match next {
                None => self.rest_of_the_bar(landing.at),
                Some(_) if breathes && has_room => HELD,
                Some(_) => self.first_value(),
            };
            if after(from, LEAST) <= landing.at {
                let chord = self.chord_at(from).unwrap_or(first);
                let start = self.start_of(phrases.len());
                let phrase = self.phrase(chord, from, landing.at);
                let target = Some(self.target(landing, length, &phrase.pattern));
                phrases.push(Phrase { start, target, ..phrase });
            }
            from = after(landing.at, length);
            if breathes {
                from = after(from, BREATH);
                rested_until = from;
            }
        }
        phrases
    }

    /// May a breath follow a short landing? It never costs the next one, where that is asked for.
    fn may_breathe(&self, landing: &AskedTarget, next: &AskedTarget) -> bool {
        let rested_until = after(after(landing.at, self.first_value()), BREATH);
        !self.targets.contains(next) || after(rested_until, LEAST) <= next.at
    }

    /// What phrases lead to, in order: what is asked for, else the guide tones of each chord where it
    /// begins, and of a long one every two bars; at last those on which the line comes to rest.
    fn landings(&self) -> Vec<AskedTarget> {
        let own = |at| AskedTarget {
            at,
            notes: self.chord_at(at).map_or(PitchClassSet::EMPTY, guide_tones),
            approach: Approach::Step,
            timing: Timing::OnTime,
        };
        let rest = self.comes_to_rest();
        let asked_last = self.targets.last().map(|target| target.at);
        let last = asked_last.map_or(rest, |asked| asked.max(rest));
        let mut landings: Vec<AskedTarget> = self.targets.clone();
        let begins = self.chords.first().map_or(Quarters::ZERO, |first| first.from);
        let mut moments = self.moments();
        moments.push(last);
        for at in moments.into_iter().filter(|at| *at > begins && *at <= last) {
            if landings.iter().all(|landing| landing.at != at) {
                landings.push(own(at));
            }
        }
        landings.sort_by_key(|landing| landing.at);
        // What is asked for is not crowded out by what is not.
        let is_asked = |landing: &AskedTarget| self.targets.contains(landing);
        let goes_on = |landing: &AskedTarget| after(landing.at, self.first_value());
        let close = |landing: &AskedTarget, asked: &AskedTarget| {
            landing.at < after(asked.at, LEAST) && asked.at < after(goes_on(landing), LEAST)
        };
        let crowded = |landing: &AskedTarget| {
            !is_asked(landing) && self.targets.iter().any(|asked| close(landing, asked))
        };
        landings.retain(|landing| !crowded(landing));
        landings
    }

    /// Where chords begin, and every two bars of a long one.
    fn moments(&self) -> Vec<Quarters> {
        let mut moments = Vec::new();
        for (index, chord) in self.chords.iter().enumerate() {
            let (mut at, end) = (chord.from, self.end_of(index));
            let step = portion(self.bar_at(at), 2, 1);
            while at < end && moments.len() <= crate::Line::LONGEST {
                moments.push(at);
                at = after(at, step);
            }
        }
        moments
    }

    /// When the last note is to begin: with the last chord where that is short, else with the last
    /// bar; in the middle of a line of one bar.
    fn comes_to_rest(&self) -> Quarters {
        let begins = self.chords.first().map_or(Quarters::ZERO, |first| first.from);
        let bar = self.bar_at(begins);
        let last_bar = self.end.checked_sub(bar).filter(|at| *at > begins);
        let last_chord = self.chords.last().map_or(begins, |chord| chord.from);
        match last_bar {
            Some(last_bar) => last_bar.max(last_chord),
            None => after(begins, portion(bar, 1, 2)),
        }
    }

    /// Up to a beat before the end of the bar: the line ends with a breath.
    pub(super) fn rest_of_the_bar(&self, at: Quarters) -> Quarters {
        let bar = self.bars.at(at).map(|position| (position.bar.length, position.into));
        let left = bar.and_then(|(length, into)| length.checked_sub(into)).unwrap_or(HELD);
        left.checked_sub(BREATH).filter(|held| *held >= BREATH).unwrap_or(left)
    }

    pub(super) fn target(
        &self,
        landing: &AskedTarget,
        length: Quarters,
        pattern: &Pattern,
    ) -> Target {
        let AskedTarget { at, notes, timing, .. } = *landing;
        let approach = approach(landing, pattern);
        let pair = self.chord_at(at).map(|chord| chord.pair);
        let length = match timing {
            Timing::Late(by) => after(length, by),
            Timing::OnTime | Timing::Early(_) => length,
        };
        Target { notes, at, length, approach, timing, pair }
    }

    fn bar_at(&self, at: Quarters) -> Quarters {
        self.bars.at(at).map_or(Quarters::whole(4), |position| position.bar.meter.bar())
    }

    fn first_value(&self) -> Quarters {
        let first = self.rhythm.as_ref().and_then(|rhythm| rhythm.values().next());
        first.map_or(Quarters::EIGHTH, |value| value.length)
    }
}

/// How a landing is reached. A pattern that ends with a half step below or above what follows has its
/// own way where a step is as good as any.
fn approach(landing: &AskedTarget, pattern: &Pattern) -> Approach {
    match (landing.approach, pattern.last_sign()) {
        (Approach::Step, Some(Sign::HalfStepBelow)) => Approach::HalfStepBelow,
        (Approach::Step, Some(Sign::HalfStepAbove)) => Approach::HalfStepAbove,
        (asked, _) => asked,
    }
}

/// The third and the seventh.
fn guide_tones(chord: &ChordStretch) -> PitchClassSet {
    let tones = [chord.over.third(), chord.over.seventh()];
    tones.into_iter().flatten().fold(PitchClassSet::EMPTY, PitchClassSet::with)
}

/// Moments that do not fit are beyond every line: nothing comes after them.
fn after(moment: Quarters, length: Quarters) -> Quarters {
    moment.checked_add(length).unwrap_or(moment)
}

fn portion(length: Quarters, times: u32, parts: u32) -> Quarters {
    length.times(times).and_then(|all| all.divided_into(parts)).unwrap_or(length)
}
