//! `shapes` and `ladder`.

use fretloom_theory::SpelledTriad;

use crate::answer::{ArpeggiosAnswer, LadderAnswer, NamedPair, Refusal, ShapesAnswer};
use crate::cli::args;
use crate::cli::call::Call;
use crate::cli::queries::{arpeggio_query, query, shape_query};
use crate::cli::text;

impl Call<'_> {
    pub(super) fn shapes(&self, shapes: &args::Shapes) -> Result<String, Refusal> {
        let triad: SpelledTriad = shapes.triad.parse()?;
        let strings = args::strings(shapes.strings.as_deref())?;
        let (neck, tuning, frets) = self.neck_within(shapes.where_to.frets.as_deref())?;
        if let Some(per_string) = shapes.arpeggio {
            let query = arpeggio_query(shapes, per_string, frets);
            let answer = ArpeggiosAnswer::new(&neck, tuning, triad, strings, &query)?;
            return Ok(self.printed(&answer, text::arpeggios));
        }
        let query = shape_query(shapes, frets);
        let answer = ShapesAnswer::new(&neck, tuning, triad, strings, &query)?;
        Ok(self.printed(&answer, text::shapes))
    }

    pub(super) fn ladder(&self, ladder: &args::Ladder) -> Result<LadderAnswer, Refusal> {
        let triads = [ladder.first.parse()?, ladder.second.parse()?];
        let strings = args::strings(ladder.strings.as_deref())?;
        let (neck, tuning, frets) = self.neck_within(ladder.where_to.frets.as_deref())?;
        let (pair, query) = (NamedPair::new(triads)?, query(&ladder.where_to, frets));
        if ladder.across_sets {
            return LadderAnswer::across_sets(&neck, tuning, pair, strings, &query);
        }
        let strings = strings.map_or_else(|| "3-2-1".parse(), Ok)?;
        LadderAnswer::new(&neck, tuning, pair, strings, &query)
    }
}
