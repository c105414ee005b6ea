//! The chord, the scale and the pair of a keeper.

use fretloom_theory::{Families, PitchClassSet, Scale, SpelledTriad};

use super::opening::Opening;
use crate::answer::harmony::Harmony;
use crate::answer::pairs::{PairAnswer, pair_over, pairs_over};
use crate::answer::refusal::Refusal;
use crate::answer::wishes::Wishes;
use crate::store::Kept;

/// A pair over the chord that it is for.
#[derive(Clone, PartialEq, Debug)]
pub struct PairOver {
    /// The chord and its scale, or the scale by itself.
    pub harmony: Harmony,
    /// The pair.
    pub pair: PairAnswer,
}

impl PairOver {
    pub(super) fn of(kept: &Kept, opening: &Opening<'_>) -> Result<PairOver, Refusal> {
        let harmony = harmony(kept, opening)?;
        let pair = match &kept.pair {
            Some(text) => pair_over(&harmony, triads(text)?, opening.spelling)?,
            None => {
                let (families, wishes) = (Families::default(), Wishes::default());
                let listed = pairs_over(&harmony, &families, &wishes, opening.spelling).pairs;
                let scale = harmony.scale().scale().to_string();
                listed.get(0).cloned().ok_or(Refusal::NoPairIn { scale })?
            }
        };
        Ok(PairOver { harmony, pair })
    }
}

fn harmony(kept: &Kept, opening: &Opening<'_>) -> Result<Harmony, Refusal> {
    let own = opening.own;
    let scale = scale(kept, opening);
    match (&kept.chord, &scale) {
        (Some(chord), Some(scale)) => Harmony::of_chord_in(chord, scale, own),
        (Some(chord), None) => Harmony::of_chord_with(chord, own),
        (None, Some(scale)) => Harmony::of_scale_with(scale, own),
        (None, None) => Err(Refusal::NothingUnderIt),
    }
}

/// The scale by its name, or by its notes where the name means something else by now.
fn scale(kept: &Kept, opening: &Opening<'_>) -> Option<String> {
    let set = |text: &str| -> Option<PitchClassSet> {
        Scale::read_with(text, opening.own).ok().map(|scale| scale.set())
    };
    let (name, notes) = (kept.scale.as_ref(), kept.scale_notes.as_ref());
    match (name, notes) {
        (Some(name), Some(notes)) if set(name) != set(notes) => Some(notes.clone()),
        (name, notes) => name.or(notes).cloned(),
    }
}

fn triads(text: &str) -> Result<[SpelledTriad; 2], Refusal> {
    let unread = || Refusal::NotTwoTriads { text: text.to_owned() };
    let (one, other) = text.split_once('&').ok_or_else(unread)?;
    Ok([one.trim().parse()?, other.trim().parse()?])
}
