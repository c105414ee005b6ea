//! What is known of a line's bars because the line was made so.

use fretloom_theory::{
    ExplainedBar, ExplainedGroup, Explanation, GroupTiming, Phrase, Pitch, Role, TriadPair,
    WhichTriad,
};

use super::note::ToldNote;

/// The explanation with the pairs of bars that would not tell them to a stranger: where an approach
/// takes the place of a note, one of the two triads is not whole, and the line knows better. One of
/// them is whole all the same.
pub(super) fn with_known_pairs(
    mut explanation: Explanation,
    notes: &[ToldNote],
    made_of: &[Phrase],
) -> Explanation {
    for bar in explanation.bars.iter_mut().filter(|bar| bar.pair.is_none()) {
        if let Some((pair, groups)) = known(bar, notes, made_of) {
            bar.free.retain(|index| groups.iter().all(|group| !group.notes.contains(index)));
            (bar.pair, bar.groups, bar.movement) = (Some(pair), groups, None);
        }
    }
    explanation
}

/// The pair that a bar was made of, with its groups.
fn known(
    bar: &ExplainedBar,
    notes: &[ToldNote],
    made_of: &[Phrase],
) -> Option<(TriadPair, Vec<ExplainedGroup>)> {
    let told = |index: &usize| notes.get(*index).map(|told| told.note);
    let in_phrase = bar.free.iter().filter_map(told).filter(|note| note.onset >= bar.from);
    let phrase = in_phrase.filter(|note| note.role != Role::Free).map(|note| note.phrase).max()?;
    let pair = made_of.get(phrase)?.pair;
    let whose = |index: &usize| {
        let note = told(index)?;
        let Role::Triad(which) = note.role else { return None };
        let is_its = which.triad_of(pair).set().contains(note.pitch.pitch_class());
        is_its.then_some((note.phrase, note.group, which))
    };
    let of_pair: Vec<usize> =
        bar.free.iter().filter(|index| whose(index).is_some()).copied().collect();
    let group = |indices: &[usize]| {
        let (_, _, which) = whose(indices.first()?)?;
        let heard = indices.iter().filter_map(|index| Some((*index, told(index)?.pitch)));
        let heard: Vec<(usize, Pitch)> = heard.collect();
        Some(ExplainedGroup::of(which.triad_of(pair), &heard, GroupTiming::OnTime))
    };
    let groups: Vec<ExplainedGroup> =
        of_pair.chunk_by(|one, next| whose(one) == whose(next)).filter_map(group).collect();
    let sounds = |which: WhichTriad| groups.iter().any(|one| one.triad == which.triad_of(pair));
    let one_is_whole = groups.iter().any(|group| group.inversion.is_some());
    let is_known = one_is_whole && WhichTriad::BOTH.into_iter().all(sounds);
    is_known.then_some((pair, groups))
}
