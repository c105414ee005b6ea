//! A phrase that goes on through changes of chords.

use fretloom_theory::{AtChange, Begin, Ending, NotesFrom, Quarters, WrittenPhrase};

use super::chords::{LineChord, LineChords};

/// A phrase in parts, one for each chord, each with the pair of its chord where it has none of its
/// own. A pattern that runs on has no part of its own where the pair stays. Where it changes, the line
/// goes to the nearest note. What the phrase aims at ends the last part. In rests there are none, and
/// it begins again after them. Notes that are entered stay as they are.
pub(super) fn through(
    chords: &LineChords,
    phrase: &WrittenPhrase,
    end: Quarters,
    at_change: AtChange,
) -> Vec<WrittenPhrase> {
    if let NotesFrom::Entered(_) = phrase.notes {
        return vec![phrase.clone()];
    }
    let until = phrase.target.map_or(end, |target| target.at.min(end));
    let rests = chords.rests();
    let begins = changes(chords, phrase, at_change);
    let of_rests = rests.iter().flat_map(|rest| [rest.from, rest.to]);
    let within = |moment: &Quarters| phrase.from < *moment && *moment < until;
    let mut moments: Vec<Quarters> = [phrase.from]
        .into_iter()
        .chain(begins.into_iter().chain(of_rests).filter(within))
        .collect();
    moments.sort_unstable();
    moments.dedup();
    let rests_at =
        |moment: Quarters| rests.iter().any(|rest| rest.from <= moment && moment < rest.to);
    let ends: Vec<Quarters> = moments.iter().skip(1).copied().chain([until]).collect();
    let spans = moments.iter().copied().zip(ends).filter(|(from, _)| !rests_at(*from));
    let spans: Vec<(Quarters, Quarters)> = spans.collect();
    let mut parts = Vec::with_capacity(spans.len());
    let mut ended = None;
    for (index, (from, to)) in spans.iter().enumerate() {
        let is_last = index + 1 == spans.len();
        let goes_on = ended == Some(*from);
        parts.push(WrittenPhrase {
            from: *from,
            // What is aimed at is held until the end of the phrase.
            to: if is_last && phrase.target.is_some() { phrase.to } else { Some(*to) },
            begin: match at_change {
                _ if index == 0 => phrase.begin,
                AtChange::RunsOn if goes_on => Begin::RunsOn,
                AtChange::RunsOn | AtChange::BeginsAgain | AtChange::CutShort => Begin::Again,
            },
            ending: Some(match at_change {
                AtChange::CutShort if !is_last => Ending::WholeGroup,
                AtChange::CutShort | AtChange::RunsOn | AtChange::BeginsAgain => Ending::Anywhere,
            }),
            start: phrase.start.filter(|_| index == 0),
            target: phrase.target.filter(|_| is_last),
            ..phrase.clone()
        });
        ended = Some(*to);
    }
    parts
}

/// When a phrase begins anew, or goes on in another pair.
fn changes(chords: &LineChords, phrase: &WrittenPhrase, at_change: AtChange) -> Vec<Quarters> {
    let pair = |chord: &LineChord| phrase.pair.unwrap_or(chord.pair.pair());
    // Before the first chord it is that one's pair.
    let mut before = chords.chords().first().map(pair);
    let is_change = |chord: &&LineChord| {
        let is_kept = before.replace(pair(chord)) == Some(pair(chord));
        at_change != AtChange::RunsOn || !is_kept
    };
    chords.chords().iter().filter(is_change).map(|chord| chord.from).collect()
}
