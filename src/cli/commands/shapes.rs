//! `shapes` and `ladder`.

use fretloom_fretboard::{FretRange, Neck, Place};
use fretloom_theory::SpelledTriad;

use crate::answer::{
    ArpeggiosAnswer, LadderAnswer, NamedArpeggio, NamedPair, Refusal, ShapesAnswer, TuningAnswer,
    struck_shapes,
};
use crate::cli::answered::Answered;
use crate::cli::args;
use crate::cli::call::Call;
use crate::cli::page_files::PageFiles;
use crate::cli::queries::{arpeggio_query, query, shape_query};
use crate::cli::text;
use crate::sheet::{self, PageLook};
use crate::sound::{Rounds, Strike};

impl Call<'_> {
    pub(super) fn shapes(&self, shapes: &args::Shapes) -> Result<Answered, Refusal> {
        let files = PageFiles::of(&shapes.files)?;
        let look = |paper| PageLook { paper, handed: shapes.hand.handed() };
        let triad: SpelledTriad = shapes.triad.parse()?;
        let strings = args::strings(shapes.strings.as_deref())?;
        let (neck, tuning, frets) = self.neck_within(shapes.where_to.frets.as_deref())?;
        if let Some(per_string) = shapes.arpeggio {
            let query = arpeggio_query(shapes, per_string, frets);
            let answer = ArpeggiosAnswer::new(&neck, tuning, triad, strings, &query)?;
            let places: Vec<Vec<Place>> =
                answer.arpeggios.iter().map(NamedArpeggio::places).collect();
            files.write(|paper| sheet::arpeggios(&answer, &neck, look(paper)))?;
            let text = self.printed(&answer, |answer| text::arpeggios(answer) + &files.told());
            return Ok(heard(text, shapes, &neck, &places, Strike::InTurn));
        }
        let query = shape_query(shapes, frets);
        let answer = ShapesAnswer::new(&neck, tuning, triad, strings, &query)?;
        let places = answer.shapes.iter().map(|named| named.shape.places().to_vec());
        let places: Vec<Vec<Place>> = places.collect();
        let strike = shapes.play.flatten().map_or(Strike::Together, Strike::from);
        files.write(|paper| sheet::shapes(&answer, &neck, look(paper)))?;
        let text = self.printed(&answer, |answer| text::shapes(answer) + &files.told());
        Ok(heard(text, shapes, &neck, &places, strike))
    }

    pub(super) fn ladder(&self, ladder: &args::Ladder) -> Result<String, Refusal> {
        let files = PageFiles::of(&ladder.files)?;
        let (neck, tuning, frets) = self.neck_within(ladder.where_to.frets.as_deref())?;
        let answer = ladder_answer(ladder, &neck, tuning, frets)?;
        let handed = ladder.hand.handed();
        files.write(|paper| sheet::ladder(&answer, &neck, PageLook { paper, handed }))?;
        Ok(self.printed(&answer, |answer| text::ladder(answer) + &files.told()))
    }
}

fn ladder_answer(
    ladder: &args::Ladder,
    neck: &Neck,
    tuning: TuningAnswer,
    frets: FretRange,
) -> Result<LadderAnswer, Refusal> {
    let triads = [ladder.first.parse()?, ladder.second.parse()?];
    let strings = args::strings(ladder.strings.as_deref())?;
    let (pair, query) = (NamedPair::new(triads)?, query(&ladder.where_to, frets));
    if ladder.across_sets {
        return LadderAnswer::across_sets(neck, tuning, pair, strings, &query);
    }
    let strings = strings.map_or_else(|| "3-2-1".parse(), Ok)?;
    LadderAnswer::new(neck, tuning, pair, strings, &query)
}

/// The answer, with its shapes as they are heard where that is asked for.
fn heard(
    text: String,
    shapes: &args::Shapes,
    neck: &Neck,
    places: &[Vec<Place>],
    strike: Strike,
) -> Answered {
    let sound = shapes.plucked.choices();
    let style = sound.style(neck.tuning(), Rounds::Once);
    let wanted = shapes.play.is_some() && !places.is_empty();
    let heard = wanted.then(|| struck_shapes(neck, places, strike, &style));
    Answered::heard(text, heard.as_ref(), sound.mix())
}
