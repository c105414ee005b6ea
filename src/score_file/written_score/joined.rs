//! One score after another.

use fretloom_theory::{
    Bar, BarLabel, Bars, Click, DroneChord, Note, Part, Quarters, Score, TempoMap, Timeline,
};

use super::{WrittenScore, bars};

impl WrittenScore {
    /// This score and then another, which begins with the next bar and is called `name`. Bars are
    /// counted on. What is too long to be counted is left out, and writing it says so.
    #[must_use]
    pub fn followed_by(mut self, next: WrittenScore, name: String) -> WrittenScore {
        let Ok(by) = self.end() else { return self };
        let Some(score) = joined(&self.score, &next.score, by) else { return self };
        self.score = score;
        self.notes.extend(next.notes);
        self.drone.extend(next.drone.into_iter().filter_map(|chord| {
            let (from, to) = (chord.from.checked_add(by)?, chord.to.checked_add(by)?);
            Some(DroneChord { from, to, ..chord })
        }));
        self.click.extend(
            next.click
                .into_iter()
                .filter_map(|click| Some(Click { at: click.at.checked_add(by)?, ..click })),
        );
        let sections = std::mem::take(&mut self.sections);
        self.sections = after(&sections, &Timeline::of([(Quarters::ZERO, name)]), by);
        self
    }
}

/// Both, the second `by` later; `None` where that cannot be counted.
fn joined(first: &Score, next: &Score, by: Quarters) -> Option<Score> {
    let Score { title, bars, tempi, keys, chords, parts } = first.clone();
    let (part, next_part) = (parts.into_iter().next()?, next.parts.first()?);
    let end = next_part.end().checked_add(by)?;
    let mut notes = part.notes().to_vec();
    for note in next_part.notes() {
        notes.push(later(note, by)?);
    }
    let joined = Part::new(notes).lasting(end);
    let part = match part.name() {
        Some(name) => joined.named(name),
        None => joined,
    };
    let tempi = after(&Timeline::of(tempi.changes()), &Timeline::of(next.tempi.changes()), by);
    Some(Score {
        title,
        bars: joined_bars(&bars, next, by)?,
        tempi: TempoMap::of(&tempi),
        keys: without_repeats(&after(&keys, &next.keys, by)),
        chords: after(&chords, &next.chords, by),
        parts: vec![part],
    })
}

fn later(note: &Note, by: Quarters) -> Option<Note> {
    let moved = Note::new(note.onset().checked_add(by)?, note.duration(), note.pitch())?;
    let ties = note.ties().iter().filter_map(|tie| tie.checked_add(by));
    Some(moved.in_voice(note.voice()).tied_at(ties))
}

/// What holds in the first until `by`, and in the next from there on.
fn after<T: Clone>(first: &Timeline<T>, next: &Timeline<T>, by: Quarters) -> Timeline<T> {
    let of_first = first.changes().iter().filter(|(from, _)| *from < by).cloned();
    let of_next = next
        .changes()
        .iter()
        .filter_map(|(from, value)| Some((from.checked_add(by)?, value.clone())));
    Timeline::of(of_first.chain(of_next))
}

/// The same values, without those that hold already.
fn without_repeats<T: Copy + PartialEq>(values: &Timeline<T>) -> Timeline<T> {
    let mut held = None;
    let changes = values.changes().iter().copied();
    Timeline::of(changes.filter(|(_, value)| held.replace(*value) != Some(*value)))
}

/// The bars of the first until `by`, then those of the next, counted on.
fn joined_bars(first: &Bars, next: &Score, by: Quarters) -> Option<Bars> {
    let mut joined = bars::until(first, by).ok()?;
    let mut number = match joined.last().map(|bar| bar.label.clone()) {
        Some(BarLabel::Number(number)) => number,
        Some(BarLabel::Text(_)) | None => joined.len() as u64,
    };
    for bar in bars::until(&next.bars, next.end()).ok()? {
        number += 1;
        let label = BarLabel::Number(number);
        joined.push(Bar { from: bar.from.checked_add(by)?, label, ..bar });
    }
    Bars::written(joined)
}
