//! Slurs that are suggested: from the upbeat into the beat.

use fretloom_theory::{Bars, Slur};

use super::note::ToldNote;
use crate::answer::finger::FingeredAnswer;

/// How each note is slurred to. The pick takes the upbeat, and the next finger sounds the beat,
/// where it is on the same string and nothing comes between.
pub(super) fn into_the_beat(
    bars: &Bars,
    notes: &[ToldNote],
    places: &[FingeredAnswer],
) -> Vec<Option<Slur>> {
    let mut slurs = vec![None; notes.len()];
    for (index, slur) in slurs.iter_mut().enumerate().skip(1) {
        let two = notes.get(index - 1..=index).zip(places.get(index - 1..=index));
        let Some(([before, note], [from, to])) = two else { continue };
        let is_alone = notes.get(index + 1).is_none_or(|next| next.note.onset > note.note.onset);
        let follows = before.note.end() == note.note.onset && is_alone && !note.note.accent;
        if follows && !is_on_beat(bars, before) && is_on_beat(bars, note) {
            *slur = slur_between(from, to);
        }
    }
    slurs
}

fn is_on_beat(bars: &Bars, note: &ToldNote) -> bool {
    bars.at(note.note.onset).is_some_and(|at| at.after_beat.is_zero())
}

/// How the second of two notes is slurred to, where one finger after the other can do so.
pub(super) fn slur_between(from: &FingeredAnswer, to: &FingeredAnswer) -> Option<Slur> {
    let one_hand = from.place.string == to.place.string
        && from.position == to.position
        && from.finger != to.finger;
    if !one_hand {
        return None;
    }
    match from.place.fret.cmp(&to.place.fret) {
        std::cmp::Ordering::Less => Some(Slur::HammerOn),
        std::cmp::Ordering::Greater => Some(Slur::PullOff),
        std::cmp::Ordering::Equal => None,
    }
}
