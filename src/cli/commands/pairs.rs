//! `pairs`, and the scales under them.

use super::two_triads::read_pair;
use crate::answer::{self, Harmony, Neighbours, PairsAnswer, Refusal, ScalesAnswer};
use crate::cli::args::{self, Wanted};
use crate::cli::call::Call;
use crate::cli::text;

impl Call<'_> {
    pub(super) fn scales(&self, wanted: &args::Scales) -> Result<ScalesAnswer, Refusal> {
        let around = Neighbours::read(&wanted.before, &wanted.after, wanted.key.as_deref())?;
        if around.are_none() {
            return answer::scales_of(&wanted.chord, self.own_scales());
        }
        answer::scales_among(&wanted.chord, &around, self.own_scales())
    }

    pub(super) fn pairs(&self, pairs: &args::Pairs) -> Result<String, Refusal> {
        if pairs.all {
            let answer = answer::every_pair(&pairs.wanted.families, self.spelling());
            return Ok(self.printed(&answer, text::every_pair));
        }
        let harmony = self.harmony(pairs.chord.as_deref(), pairs.scale.as_deref())?;
        if let Some(pair) = &pairs.pair {
            let answer = answer::one_pair(&harmony, read_pair(pair)?, self.spelling())?;
            return Ok(self.printed(&answer, text::one_pair));
        }
        let answer = self.wanted_pairs(&harmony, &pairs.wanted)?;
        let wishes = pairs.wanted.wishes()?;
        Ok(self.printed(&answer, |answer| text::pairs(answer, &wishes)))
    }

    pub(super) fn wanted_pairs(
        &self,
        harmony: &Harmony,
        wanted: &Wanted,
    ) -> Result<PairsAnswer, Refusal> {
        Ok(answer::pairs_over(harmony, &wanted.families, &wanted.wishes()?, self.spelling()))
    }
}
