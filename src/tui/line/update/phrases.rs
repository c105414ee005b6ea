//! Phrases of their own: cut, joined, answered, moved.

use fretloom_theory::Quarters;

use super::super::chosen::Chosen;
use super::super::cycles::Way;
use super::super::made::Made;
use super::super::phrases::{
    all_spelled_out, cut, index_of, is_own, join, moment, moment_of, name, of_the_line,
    spelled_out, written_out,
};
use super::super::state::LineScreen;
use crate::answer::{BarBeat, LineChords};
use crate::library::{AskedPhrase, MOST_PHRASES, text_of_phrases};
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;

/// How many phrases more there are at most when one is cut.
const MOST_CUTS: usize = 2;

impl LineScreen {
    /// The phrase of the note at the cursor, from 0.
    pub(in crate::tui::line) fn in_hand(&self) -> usize {
        let told = self.note().zip(self.made());
        told.map_or(0, |(told, made)| made.asked_phrase_of(told))
    }

    /// The same, where it is one of its own.
    pub(in crate::tui::line) fn own_in_hand(&self) -> Option<(usize, &AskedPhrase)> {
        let index = self.in_hand();
        self.chosen.phrases.get(index).filter(|phrase| is_own(phrase)).map(|own| (index, own))
    }

    /// To the first note of the next phrase; back to the first of this one, then of the one before.
    pub(super) fn step_phrase(&mut self, way: Way, shared: &mut Shared) {
        let now = self.in_hand();
        let next = match way {
            Way::Next => self.first_note(|phrase| phrase > now),
            Way::Before => self
                .first_note(|phrase| phrase == now)
                .filter(|first| *first < self.cursor)
                .or_else(|| {
                    (0..now).rev().find_map(|before| self.first_note(|phrase| phrase == before))
                }),
        };
        match next {
            Some(next) => self.cursor = next,
            None => self.step(way, shared),
        }
    }

    /// A phrase of its own from the note at the cursor on; at its first note, along with the line again.
    pub(super) fn cut_here(&mut self, shared: &mut Shared) {
        let Some((mut chosen, chords)) = self.with_phrases(shared) else { return };
        let (Some(onset), mut index) = (self.note().map(|told| told.note.onset), self.in_hand())
        else {
            return;
        };
        let first = self.first_note(|phrase| phrase == index);
        let first = first.and_then(|first| self.notes().get(first));
        let is_first = first.is_some_and(|first| first.note.onset == onset);
        if let Some(own) = chosen.phrases.get_mut(index).filter(|own| is_first && is_own(own)) {
            *own = of_the_line(own);
            if self.take(chosen, shared) {
                shared.tell(format!("phrase {} goes along with the line again", name(index)));
            }
            return;
        }
        if !is_first {
            if self.lands_here() {
                shared.tell("this phrase lands here: cut it before or after this note");
                return;
            }
            let Some(cut) = self.cut_at(onset, &mut chosen, &chords) else {
                shared.tell("no part of a beat says where this note begins");
                return;
            };
            index = cut;
        }
        self.make_own(&mut chosen, index);
        if self.take(chosen, shared) {
            shared.tell(format!("phrase {} is one of its own now", name(index)));
        }
    }

    /// Cuts the phrase in hand in two at a moment, and says which phrase begins there. Where it has
    /// gone through notes that it aims at, it is also cut after the last of these, since it goes on
    /// from there to the moment. `None` where no part of a beat says when.
    fn cut_at(&self, onset: Quarters, chosen: &mut Chosen, chords: &LineChords) -> Option<usize> {
        let (made, mut index) = (self.made()?, self.in_hand());
        let now = self.note()?.note.phrase;
        let phrases = made.answer.made_of();
        let lands = |part: &usize| phrases.get(*part).is_some_and(|part| part.target.is_some());
        let landed = made.answer.parts_of(index).take_while(|part| *part < now).filter(lands);
        let landed: Vec<usize> = landed.collect();
        let goes_on = landed.last().and_then(|last| phrases.get(last + 1)).map(|part| part.from);
        let cuts = goes_on.map(|at| (at, landed.len())).into_iter().chain([(onset, 0)]);
        // A note that begins where the phrase goes on anyway.
        let cuts = cuts.filter(|(at, before)| *before > 0 || goes_on != Some(*at));
        for (at, before) in cuts {
            cut(&mut chosen.phrases, (index, before), moment(chords, at)?, chords);
            index += 1;
        }
        Some(index)
    }

    /// The phrase goes on to the end of the next: it is joined with the one before.
    pub(super) fn join_before(&mut self, shared: &mut Shared) {
        let index = self.in_hand();
        if index == 0 {
            shared.tell("no phrase comes before the first one");
            return;
        }
        let Some((mut chosen, chords)) = self.with_phrases(shared) else { return };
        join(&mut chosen.phrases, index, &chords);
        if self.take(chosen, shared) {
            shared.tell(format!("phrase {} goes on to here", name(index - 1)));
        }
    }

    /// The phrase answers the one before, or the next one above it: the same figures from the same
    /// beat of the bar on; at last none.
    pub(super) fn answer(&mut self, shared: &mut Shared) {
        let index = self.in_hand();
        if index == 0 {
            shared.tell("no phrase comes before the first one, which it could answer");
            return;
        }
        let Some((chosen, chords)) = self.with_phrases(shared) else { return };
        let Some(now) = chosen.phrases.get(index) else { return };
        let like = now.like.as_deref().and_then(index_of);
        let next = match like {
            None => Some(index - 1),
            Some(like) => like.checked_sub(1),
        };
        let Some(next) = next else {
            self.answer_none(chosen, index, shared);
            return;
        };
        let answer = AskedPhrase { like: Some(name(next)), ..of_the_line(now) };
        let question = chosen.phrases.get(next);
        let aligned = question.and_then(|one| same_beat(&chords, &one.from, &now.from));
        for from in aligned.into_iter().chain([now.from.clone()]) {
            let mut answering = chosen.clone();
            if let Some(phrase) = answering.phrases.get_mut(index) {
                *phrase = AskedPhrase { from, ..answer.clone() };
            }
            if is_in_order(&answering, &chords) && self.take(answering, shared) {
                shared.tell(format!("phrase {} answers phrase {}", name(index), name(next)));
                return;
            }
        }
    }

    fn answer_none(&mut self, mut chosen: Chosen, index: usize, shared: &mut Shared) {
        self.spell_out(&mut chosen, index, index);
        if self.take(chosen, shared) {
            shared.tell(format!("phrase {} answers none", name(index)));
        }
    }

    /// The phrase begins an eighth later or earlier.
    pub(super) fn displace(&mut self, way: Way, shared: &mut Shared) {
        let index = self.in_hand();
        let Some((mut chosen, chords)) = self.with_phrases(shared) else { return };
        let from = |phrase: &AskedPhrase| moment_of(&chords, &phrase.from);
        let now = chosen.phrases.get(index).and_then(from);
        let next = now.and_then(|now| match way {
            Way::Next => now.checked_add(Quarters::EIGHTH),
            Way::Before => now.checked_sub(Quarters::EIGHTH),
        });
        let before = index.checked_sub(1).and_then(|before| chosen.phrases.get(before));
        let after = chosen.phrases.get(index + 1).and_then(from).unwrap_or(chords.end());
        let is_free = |next: &Quarters| {
            before.and_then(from).is_none_or(|before| before < *next) && *next < after
        };
        let written = next.filter(is_free).and_then(|next| Some((next, moment(&chords, next)?)));
        let Some((next, written)) = written else {
            shared.tell(match way {
                Way::Next => "no later: the phrase would have no time",
                Way::Before => "no earlier: something else begins there",
            });
            return;
        };
        if let Some(before) = index.checked_sub(1).and_then(|at| chosen.phrases.get_mut(at)) {
            let end = before.to.as_deref().and_then(|to| moment_of(&chords, to));
            before.to = before.to.take().filter(|_| end.is_some_and(|end| end < next));
            // What comes before ends where it ended, and a breath lies between.
            if let (Way::Next, None, Some(now)) = (way, &before.to, now) {
                before.to = moment(&chords, now);
            }
        }
        if let Some(phrase) = chosen.phrases.get_mut(index) {
            phrase.from = written;
        }
        if self.take(chosen, shared) {
            self.cursor = self.first_note(|phrase| phrase == index).unwrap_or(self.cursor);
        }
    }

    /// The middle note of each triad of the phrase an octave higher, or where it was.
    pub(super) fn widen(&mut self, shared: &mut Shared) {
        self.change_own(shared, |phrase| phrase.is_wide = !phrase.is_wide);
    }

    /// Copies the phrases as the text of a file.
    pub(super) fn copy_phrases(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        let Some(made) = self.made() else {
            shared.tell("there is no line to copy");
            return Vec::new();
        };
        let written = self.phrases_of(made).unwrap_or_default();
        let text = text_of_phrases(&all_spelled_out(&written, &made.answer));
        vec![ScreenEffect::Copy { what: "the phrases", text }]
    }

    /// Changes the phrase in hand, which is one of its own from then on.
    pub(in crate::tui::line) fn change_own(
        &mut self,
        shared: &mut Shared,
        change: impl FnOnce(&mut AskedPhrase),
    ) -> bool {
        let index = self.in_hand();
        let Some((mut chosen, _)) = self.with_phrases(shared) else { return false };
        self.make_own(&mut chosen, index);
        if let Some(phrase) = chosen.phrases.get_mut(index) {
            change(phrase);
        }
        self.take(chosen, shared)
    }

    /// The choices with all phrases written out; none, with the reason, where that cannot be.
    pub(super) fn with_phrases(&self, shared: &mut Shared) -> Option<(Chosen, LineChords)> {
        let made = self.made()?;
        if self.chosen.key != 0 {
            shared.tell("phrases are cut in the key in which the line was made");
            return None;
        }
        let Some(phrases) =
            self.phrases_of(made).filter(|all| all.len() <= MOST_PHRASES - MOST_CUTS)
        else {
            shared.tell("these are too many phrases, or one begins between all parts of a beat");
            return None;
        };
        // What the line aims at its phrases do now.
        let targets = Vec::new();
        let chosen = Chosen { phrases, targets, ..self.chosen.clone() };
        Some((chosen, made.answer.question.chords.clone()))
    }

    fn phrases_of(&self, made: &Made) -> Option<Vec<AskedPhrase>> {
        match self.chosen.phrases.as_slice() {
            [] => written_out(&made.answer),
            written => Some(written.to_vec()),
        }
    }

    /// The phrase says by itself what it plays.
    fn make_own(&self, chosen: &mut Chosen, index: usize) {
        if chosen.phrases.get(index).is_some_and(|phrase| !is_own(phrase)) {
            self.spell_out(chosen, index, self.in_hand());
        }
    }

    /// The phrase says all that another one plays now.
    fn spell_out(&self, chosen: &mut Chosen, index: usize, played: usize) {
        let played = self.made().and_then(|made| made.played(played));
        let told = played.and_then(|played| spelled_out(&chosen.phrases, index, played));
        if let (Some(phrase), Some(told)) = (chosen.phrases.get_mut(index), told) {
            *phrase = told;
        }
    }

    /// The first note of which the phrase, as it is written out, is such a one.
    fn first_note(&self, is_such: impl Fn(usize) -> bool) -> Option<usize> {
        let made = self.made()?;
        self.notes().iter().position(|told| is_such(made.asked_phrase_of(told)))
    }

    /// Is the note at the cursor one on which its phrase lands?
    fn lands_here(&self) -> bool {
        let Some(part) = self.note().map(|told| told.note.phrase) else { return false };
        let target = self.made().and_then(|made| made.answer.phrases.get(part)?.target);
        let last = self.notes().iter().rposition(|told| told.note.phrase == part);
        target.is_some() && last == Some(self.cursor)
    }
}

/// Does each phrase begin after the one before?
fn is_in_order(chosen: &Chosen, chords: &LineChords) -> bool {
    chosen
        .phrases
        .is_sorted_by(|one, next| moment_of(chords, &one.from) < moment_of(chords, &next.from))
}

/// The same beat of the bar as one moment, in the bar of another.
fn same_beat(chords: &LineChords, beat_of: &str, bar_of: &str) -> Option<String> {
    let (beat, bar) = (beat_of.parse::<BarBeat>().ok()?, bar_of.parse::<BarBeat>().ok()?);
    let at = BarBeat { bar: bar.bar, ..beat };
    chords.moment(at).map(|_| at.to_string())
}
