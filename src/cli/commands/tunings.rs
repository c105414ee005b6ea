//! `tunings compare`.

use super::two_triads::read_pair;
use crate::answer::{self, CompareAnswer, NamedPair, Refusal};
use crate::cli::call::Call;

impl Call<'_> {
    /// Which shapes of one tuning survive in another, of a pair where one is given.
    pub(super) fn compared(
        &self,
        a: &str,
        b: &str,
        pair: Option<&str>,
    ) -> Result<CompareAnswer, Refusal> {
        let pair = pair.map(read_pair).transpose()?.map(NamedPair::new).transpose()?;
        let loaded = self.tunings();
        let a = answer::find_tuning(loaded, a)?;
        let b = answer::find_tuning(loaded, b)?;
        Ok(CompareAnswer::new(a, b, pair))
    }
}
