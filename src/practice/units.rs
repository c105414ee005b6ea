//! What is practised of a keeper.

use fretloom_fretboard::StringSet;
use fretloom_theory::KeyCycle;

use crate::store::{Keeper, KeptThing, KeyAway, Limit, Unit};

/// The word of a keeper that is practised in its own key alone.
const HERE: &str = "here";

/// All that is practised of a keeper with the hands, in the order in which it is begun: key after key, in
/// each the string sets, first without a limit and then under each.
#[must_use]
pub fn units(keeper: &Keeper, usual: KeyCycle) -> Vec<Unit> {
    let (sets, limits) = (sets(keeper), limits(keeper));
    let mut units = Vec::new();
    for key in keys(keeper, usual) {
        for strings in &sets {
            for limit in &limits {
                units.push(Unit { key, strings: *strings, limit: *limit, ..Unit::default() });
            }
        }
    }
    units
}

/// A plan stays in the key of its tune. An order that cannot be read is the usual one.
fn keys(keeper: &Keeper, usual: KeyCycle) -> Vec<KeyAway> {
    let word = keeper.practice.keys.as_deref();
    if matches!(keeper.kept.what, KeptThing::Plan(_)) || word == Some(HERE) {
        return vec![KeyAway::HERE];
    }
    let cycle = word.and_then(|word| word.parse().ok()).unwrap_or(usual);
    cycle.semitones_up().map(KeyAway::up).to_vec()
}

fn sets(keeper: &Keeper) -> Vec<Option<StringSet>> {
    match keeper.practice.sets.as_slice() {
        [] => vec![keeper.kept.strings],
        sets => sets.iter().copied().map(Some).collect(),
    }
}

fn limits(keeper: &Keeper) -> Vec<Option<Limit>> {
    let limits = keeper.practice.limits.iter().copied().map(Some);
    std::iter::once(None).chain(limits).collect()
}
