//! The triads of a scale.

use fretloom_theory::{Degree, ScaleKind, SpelledTriad, Spelling, Triad, TriadQuality};

use super::harmony::Harmony;
use super::refusal::Refusal;
use super::scales::ChosenScale;

/// The answer of `triads SCALE`.
#[derive(Clone, PartialEq, Debug)]
pub struct TriadsAnswer {
    /// The scale.
    pub scale: ChosenScale,
    /// Its triads, going up.
    pub triads: Vec<ScaleTriad>,
}

/// A triad on a degree of a scale.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ScaleTriad {
    /// The degree that its root is.
    pub degree: Degree,
    /// The triad.
    pub triad: SpelledTriad,
    /// Does the scale spell it in thirds? Otherwise it is there by sound only.
    pub in_thirds: bool,
}

/// Which triads does this scale hold, degree by degree? A scale of seven notes answers with those
/// that it spells in thirds, one a degree; any other scale with every triad that sounds in it.
///
/// # Errors
///
/// Where the scale cannot be read.
pub fn triads_of(
    scale: &str,
    spelling: Spelling,
    own: &[ScaleKind],
) -> Result<TriadsAnswer, Refusal> {
    let harmony = Harmony::of_scale_with(scale, own)?;
    let (speller, scale) = (harmony.speller(spelling), harmony.scale().scale());
    let by_letters_only = scale.kind().has_a_letter_for_each_degree();
    let answer = |triad: Triad| ScaleTriad {
        degree: harmony.chord_scale().degree(triad.root()),
        triad: speller.triad(triad),
        in_thirds: scale.spells(triad),
    };
    let triads = scale.triads(TriadQuality::TERTIAN).into_iter().map(answer);
    let triads = triads.filter(|triad| triad.in_thirds || !by_letters_only).collect();
    Ok(TriadsAnswer { scale: harmony.scale().clone(), triads })
}
