//! The phrases of a line as its player writes them out: the list, and how it is cut and joined.
//!
//! Phrases are those of a file of phrases. They are called by their numbers, in order of time. One is
//! its own where it says what is played in it; the others go along with the whole line.

use fretloom_theory::{Begin, NotesFrom, Phrase, Quarters, Timing};

use super::targets::{aims_of, written_aims};
use crate::answer::{BarBeat, LineAnswer, LineChords};
use crate::library::AskedPhrase;

/// Is it one of its own, or does it go along with the whole line?
pub(super) fn is_own(phrase: &AskedPhrase) -> bool {
    let AskedPhrase { pattern, like, notes, area, .. } = phrase;
    pattern.is_some() || like.is_some() || notes.is_some() || area.is_some()
}

/// A phrase with what it takes from the one that it answers.
pub(super) fn in_full(phrases: &[AskedPhrase], index: usize) -> Option<AskedPhrase> {
    let (above, here) = phrases.split_at_checked(index)?;
    here.first().map(|phrase| phrase.in_full(above))
}

/// The phrases that a line is made of, written out so that the same line comes of them. `None` where
/// a moment cannot be said by bar and beat.
pub(super) fn written_out(answer: &LineAnswer) -> Option<Vec<AskedPhrase>> {
    let (chords, made_of) = (&answer.question.chords, answer.made_of());
    let phrase = |index: usize, phrase: &Phrase| {
        let told = answer.phrases.get(index)?;
        let target = told.target.map(|target| format!("{target:#}"));
        let next = made_of.get(index + 1).map(|next| next.from);
        let rests = next.is_some_and(|next| end_of(phrase) < next);
        let to = if rests { Some(moment(chords, end_of(phrase))?) } else { None };
        let runs_on = phrase.begin == Begin::RunsOn;
        let plain = AskedPhrase::beginning(&name(index), &moment(chords, phrase.from)?);
        Some(AskedPhrase { to, target, runs_on, ..plain })
    };
    made_of.iter().enumerate().map(|(index, one)| phrase(index, one)).collect()
}

/// When what it plays ends.
fn end_of(phrase: &Phrase) -> Quarters {
    let held = phrase.target.and_then(|target| {
        let late = match target.timing {
            Timing::Late(by) => by,
            Timing::OnTime | Timing::Early(_) => Quarters::ZERO,
        };
        target.at.checked_add(target.length.checked_sub(late)?)
    });
    held.unwrap_or(phrase.to)
}

/// The phrase with this index, with all that it plays said by itself.
pub(super) fn spelled_out(
    phrases: &[AskedPhrase],
    index: usize,
    played: &Phrase,
) -> Option<AskedPhrase> {
    let is_of_pair = played.notes == NotesFrom::Pair;
    let full = in_full(phrases, index)?;
    Some(AskedPhrase {
        pattern: is_of_pair.then(|| played.pattern.clone()),
        rhythm: is_of_pair.then(|| played.rhythm.clone()),
        travel: is_of_pair.then_some(played.travel),
        is_wide: false,
        ..full
    })
}

/// Phrases that need no line around them: each with its pair too. One that goes through notes over
/// several chords, in the pair of each, comes as a phrase for each of the pairs.
pub(super) fn all_spelled_out(asked: &[AskedPhrase], answer: &LineAnswer) -> Vec<AskedPhrase> {
    let all = (0..asked.len()).filter_map(|index| of_each_pair(asked, index, answer)).flatten();
    let named = |(index, phrase)| AskedPhrase { name: name(index), ..phrase };
    all.enumerate().map(named).collect()
}

fn of_each_pair(
    asked: &[AskedPhrase],
    index: usize,
    answer: &LineAnswer,
) -> Option<Vec<AskedPhrase>> {
    let (chords, made_of) = (&answer.question.chords, answer.made_of());
    let parts: Vec<&Phrase> = answer.parts_of(index).filter_map(|at| made_of.get(at)).collect();
    let full = spelled_out(asked, index, parts.first()?)?;
    if full.notes.is_some() || full.at_change.is_some() {
        return Some(vec![full]);
    }
    let mut aims = aims_of(&full, chords).into_iter();
    let mut of_each = Vec::new();
    for parts in parts.chunk_by(|one, next| one.pair == next.pair) {
        let first = parts.first()?;
        let here = parts.iter().filter(|part| part.target.is_some()).count();
        let target = written_aims(&aims.by_ref().take(here).collect::<Vec<_>>());
        let phrase = AskedPhrase { pair: Some(first.pair), target, to: None, ..full.clone() };
        of_each.push(if of_each.is_empty() {
            phrase
        } else {
            let from = moment(chords, first.from)?;
            AskedPhrase { from, runs_on: false, start: None, ..phrase }
        });
    }
    if let Some(last) = of_each.last_mut() {
        last.to = full.to;
    }
    Some(of_each)
}

/// The phrase as the whole line has it.
pub(super) fn of_the_line(phrase: &AskedPhrase) -> AskedPhrase {
    let plain = AskedPhrase::beginning(&phrase.name, &phrase.from);
    let AskedPhrase { to, target, runs_on, .. } = phrase.clone();
    AskedPhrase { to, target, runs_on, ..plain }
}

/// Cuts a phrase in two. The second begins anew, and has what the first aims at and its end, but for
/// so many notes that come `before`.
pub(super) fn cut(
    phrases: &mut Vec<AskedPhrase>,
    (index, before): (usize, usize),
    from: String,
    chords: &LineChords,
) {
    let Some(first) = phrases.get_mut(index) else { return };
    let aims = aims_of(first, chords);
    let (before, after) = aims.split_at_checked(before).unwrap_or((&aims, &[]));
    let target = written_aims(after);
    let again = AskedPhrase { runs_on: false, start: None, notes: None, ..first.clone() };
    let second = AskedPhrase { from, target, ..again };
    (first.to, first.target) = (None, written_aims(before));
    phrases.insert(index + 1, second);
    // Those after it are called by other numbers from now on.
    renumber(phrases, |old| if old > index { old + 1 } else { old });
}

/// Joins a phrase with the one before, which goes on to its end instead of landing. What answers it
/// plays what it played.
pub(super) fn join(phrases: &mut Vec<AskedPhrase>, index: usize, chords: &LineChords) {
    let own = name(index);
    let answering: Vec<Option<AskedPhrase>> =
        (0..phrases.len()).map(|at| in_full(phrases, at)).collect();
    for (phrase, full) in phrases.iter_mut().zip(answering) {
        if let Some(full) = full.filter(|_| phrase.like.as_ref() == Some(&own)) {
            *phrase = full;
        }
    }
    let joined = phrases.remove(index);
    if let Some(before) = index.checked_sub(1).and_then(|before| phrases.get_mut(before)) {
        let mut aims = aims_of(before, chords);
        aims.pop();
        aims.extend(aims_of(&joined, chords));
        (before.to, before.target) = (joined.to, written_aims(&aims));
    }
    renumber(phrases, |old| if old > index { old - 1 } else { old });
}

/// Calls all by their numbers again; what answers a phrase answers it by its new one.
fn renumber(phrases: &mut [AskedPhrase], new: impl Fn(usize) -> usize) {
    for (index, phrase) in phrases.iter_mut().enumerate() {
        let like = phrase.like.as_deref().and_then(index_of);
        phrase.like = like.map(|old| name(new(old)));
        phrase.name = name(index);
    }
}

/// What the phrase with this index is called.
pub(super) fn name(index: usize) -> String {
    (index + 1).to_string()
}

pub(super) fn index_of(name: &str) -> Option<usize> {
    name.parse::<usize>().ok()?.checked_sub(1)
}

/// A moment as it is written.
pub(super) fn moment(chords: &LineChords, moment: Quarters) -> Option<String> {
    chords.bar_beat(moment).map(|at| at.to_string())
}

/// A moment as it was written.
pub(super) fn moment_of(chords: &LineChords, written: &str) -> Option<Quarters> {
    chords.moment(written.parse::<BarBeat>().ok()?)
}

#[cfg(test)]
mod tests {
    use fretloom_theory::Meter;

    use super::*;
    use crate::answer::AskedChords;

    fn numbered(count: usize) -> Vec<AskedPhrase> {
        (0..count).map(|at| AskedPhrase::beginning(&name(at), &format!("{}.1", at + 1))).collect()
    }

    fn chords() -> LineChords {
        LineChords::read(&AskedChords::plain("Dm7 | G7 | Cmaj7 | %", Meter::COMMON)).unwrap()
    }

    fn told(phrases: &[AskedPhrase]) -> Vec<String> {
        let words = |phrase: &AskedPhrase| {
            let AskedPhrase { name, from, like, target, .. } = phrase;
            let like = like.as_ref().map(|like| format!(" like {like}")).unwrap_or_default();
            let target = target.as_ref().map(|target| format!(" to {target}")).unwrap_or_default();
            format!("{name}: {from}{like}{target}")
        };
        phrases.iter().map(words).collect()
    }

    #[test]
    fn what_answers_a_phrase_still_does_when_others_are_cut_and_joined() {
        let mut phrases = numbered(3);
        phrases[0].target = Some("3@1.4".to_owned());
        phrases[1].pattern = Some("123".parse().unwrap());
        phrases[2].like = Some(name(1));
        let chords = chords();
        cut(&mut phrases, (0, 0), "1.3".to_owned(), &chords);
        assert_eq!(told(&phrases), ["1: 1.1", "2: 1.3 to 3@1.4", "3: 2.1", "4: 3.1 like 3"]);
        join(&mut phrases, 1, &chords);
        assert_eq!(told(&phrases), ["1: 1.1 to 3@1.4", "2: 2.1", "3: 3.1 like 2"]);
        // The phrase that was answered is gone, and the answer plays what it played.
        join(&mut phrases, 1, &chords);
        assert_eq!(told(&phrases), ["1: 1.1", "2: 3.1"]);
        assert_eq!(phrases[1].pattern.as_ref().unwrap().to_string(), "123");
    }

    #[test]
    fn what_is_aimed_at_stays_with_the_part_in_which_it_lies() {
        let mut phrases = numbered(1);
        // Typed out of order: they count as they come in time.
        phrases[0].target = Some("3@3.1:below b7@2.1 5@4.1".to_owned());
        cut(&mut phrases, (0, 2), "3.2".to_owned(), &chords());
        let apart = ["1: 1.1 to b7@2.1 3@3.1:below", "2: 3.2 to 5@4.1"];
        assert_eq!(told(&phrases), apart);
        // Joined, it goes through all but the one on which it landed.
        join(&mut phrases, 1, &chords());
        assert_eq!(told(&phrases), ["1: 1.1 to b7@2.1 5@4.1"]);
    }
}
