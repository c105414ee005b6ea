//! The pairs of a chord or a scale, ranked, with what each says.

mod every;
mod list;
mod named;
mod pair;
mod six_notes;

use fretloom_theory::{Families, PairSound, SpelledTriad, Spelling, TranspositionClass, TriadPair};

use super::harmony::Harmony;
use super::refusal::Refusal;
use super::wishes::Wishes;

pub use every::{EveryPairAnswer, PairAlone, every_pair};
pub use list::PairList;
pub use named::NamedPair;
pub(super) use pair::left_out;
pub use pair::{LeftOut, PairAnswer, TriadAnswer};
pub use six_notes::SixNotes;

/// The answer of `pairs`.
#[derive(Clone, PartialEq, Debug)]
pub struct PairsAnswer {
    /// The chord with its scale, or the scale by itself, that the pairs sound over.
    pub harmony: Harmony,
    /// The pairs, the first one first.
    pub pairs: PairList,
    /// The list with pairs put together that are one pair moved, as most are in a symmetric scale.
    pub classes: Vec<TranspositionClass>,
}

/// Which pairs does a scale hold, and what does each say over the chord?
#[must_use]
pub fn pairs_over(
    harmony: &Harmony,
    families: &Families,
    wishes: &Wishes,
    spelling: Spelling,
) -> PairsAnswer {
    let over = harmony.chord_scale();
    let mut sounds = PairSound::ranked(over, families.qualities());
    sounds.retain(|sound| wishes.allow(sound.pair().set(), over));
    listed(harmony, sounds, spelling)
}

/// What does one pair of the player's own say? Its notes may lie outside the scale.
///
/// # Errors
///
/// Where the triads share a note.
pub fn pair_over(
    harmony: &Harmony,
    triads: [SpelledTriad; 2],
    spelling: Spelling,
) -> Result<PairAnswer, Refusal> {
    let sound = sound_of(harmony, triads)?;
    Ok(PairAnswer::new(&sound, 1, &harmony.speller(spelling)))
}

/// The answer of `pairs --pair`: a list of one pair, the player's own.
///
/// # Errors
///
/// Where the triads share a note.
pub fn one_pair(
    harmony: &Harmony,
    triads: [SpelledTriad; 2],
    spelling: Spelling,
) -> Result<PairsAnswer, Refusal> {
    Ok(listed(harmony, vec![sound_of(harmony, triads)?], spelling))
}

fn sound_of(harmony: &Harmony, triads: [SpelledTriad; 2]) -> Result<PairSound, Refusal> {
    let over = harmony.chord_scale();
    let [one, other] = triads.map(|triad| triad.triad());
    let pair = TriadPair::new(one, other, over.root().pitch_class());
    Ok(PairSound::of(pair.ok_or(Refusal::NoPair(triads))?, over))
}

fn listed(harmony: &Harmony, sounds: Vec<PairSound>, spelling: Spelling) -> PairsAnswer {
    PairsAnswer {
        classes: TranspositionClass::all(&sounds, harmony.scale().scale().set()),
        pairs: PairList::new(harmony.speller(spelling), sounds),
        harmony: harmony.clone(),
    }
}
