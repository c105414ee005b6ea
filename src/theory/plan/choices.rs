//! What may be played over a chord, and what that costs there.

use super::chord::PlanChord;
use super::weights::PlanCost;
use super::wishes::Wishes;
use crate::{ChordScale, PairSound, PitchClassSet, Scale, TriadQuality};

/// A scale and a pair over a chord.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Choice {
    pub(super) over: ChordScale,
    pub(super) sound: PairSound,
    pub(super) cost: PlanCost,
}

/// All that may be played over a chord, the cheapest first; each pair once, in the scale in which it
/// costs least: the way to it and from it are the same in all.
pub(super) fn choices(chord: &PlanChord, wishes: Wishes) -> Vec<Choice> {
    let mut choices: Vec<Choice> = Vec::new();
    for (rank, scale) in scales(chord).into_iter().enumerate() {
        let over = ChordScale::over(chord.reading.chord().clone(), scale);
        let later = PlanCost::LATER_SCALE.times(rank).over(chord.thousandths);
        for (rank, sound) in sounds(chord, &over).into_iter().enumerate() {
            if allows(chord, wishes, &sound) {
                let own = cost_of(chord, &over, &sound);
                let rank = PlanCost::RANK.times(rank).over(chord.thousandths);
                choices.push(Choice { over: over.clone(), sound, cost: own + later + rank });
            }
        }
    }
    choices.sort_by_key(|choice| choice.cost);
    let mut each: Vec<Choice> = Vec::new();
    for choice in choices {
        if !each.iter().any(|known| known.sound.pair().is_same_couple(choice.sound.pair())) {
            each.push(choice);
        }
    }
    each
}

/// Does a pair do what is wanted over a chord? One that is settled does.
fn allows(chord: &PlanChord, wishes: Wishes, sound: &PairSound) -> bool {
    chord.pair.is_some() || chord.without.is_disjoint(sound.pair().set()) && wishes.allow(sound)
}

/// The scales that the chord may have, the usual one first. Of a pair that is settled those that hold
/// it; where none does, the first other one that fits the chord and holds it, if there is one that
/// leaves any note out.
fn scales(chord: &PlanChord) -> Vec<Scale> {
    let scales = match &chord.scale {
        Some(scale) => vec![scale.clone()],
        None => chord.reading.planned_scales(chord.melody),
    };
    let Some(pair) = chord.pair else { return scales };
    let holds = |scale: &Scale| pair.set().is_subset(scale.set());
    let holding: Vec<Scale> = scales.iter().filter(|scale| holds(scale)).cloned().collect();
    if !holding.is_empty() {
        return holding;
    }
    let fitting = chord.reading.scales().into_iter().map(|choice| choice.scale().clone());
    let other = fitting.filter(|_| chord.scale.is_none());
    let other = other.filter(|scale| scale.set() != PitchClassSet::CHROMATIC).find(holds);
    other.map_or(scales, |scale| vec![scale])
}

fn sounds(chord: &PlanChord, over: &ChordScale) -> Vec<PairSound> {
    match chord.pair {
        Some(pair) => vec![PairSound::of(pair, over)],
        None => PairSound::ranked(over, TriadQuality::TERTIAN),
    }
}

/// What a pair costs over a chord, its rank and that of its scale aside.
fn cost_of(chord: &PlanChord, over: &ChordScale, sound: &PairSound) -> PlanCost {
    let dropped = sound.drops_named().difference(played_by_a_bass(over));
    let required = dropped.intersection(over.required_tones());
    let alterations = dropped.difference(required);
    let third = over.third().is_some_and(|third| dropped.contains(third));
    let a_bar = PlanCost::RUB.times(sound.rubs().len())
        + PlanCost::NAMED.times(required.len())
        + PlanCost::ALTERATION.times(alterations.len())
        + PlanCost::THIRD.times(usize::from(third));
    let bare = !sound.states_third() && !sound.states_seventh();
    let home = usize::from(chord.reading.is_home());
    let rests = home * usize::from(!sound.states_third());
    a_bar.over(chord.thousandths)
        + PlanCost::NO_GUIDE_TONE.times(usize::from(bare))
        + PlanCost::REST_WITHOUT_THIRD.times(rests)
        + PlanCost::REST_RUB.times(home * sound.rubs().len())
}

/// Root and plain fifth.
fn played_by_a_bass(over: &ChordScale) -> PitchClassSet {
    let root = over.root().pitch_class();
    PitchClassSet::EMPTY.with(root).with(root.up(7))
}
