//! The shapes of a triad.

use fretloom_fretboard::{Fret, Neck, Shape, ShapeQuery, StringSet};
use fretloom_theory::SpelledTriad;

use super::refusal::Refusal;
use super::tunings::TuningAnswer;

/// A shape under the name of its triad.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct NamedShape {
    /// The triad.
    pub triad: SpelledTriad,
    /// Its shape.
    pub shape: Shape,
    /// Its frets as they are written, from the highest string number down: an open string is 0, or
    /// the fret of the capo where that holds it.
    pub frets: [Fret; 3],
}

impl NamedShape {
    /// The shape of a triad on a neck under its name.
    #[must_use]
    pub fn new(neck: &Neck, triad: SpelledTriad, shape: &Shape) -> NamedShape {
        let frets = shape.places().map(|place| neck.fret_number(place));
        NamedShape { triad, shape: *shape, frets }
    }

    /// Its stretch as it is told: to a tenth of a millimetre.
    #[must_use]
    pub fn stretch_mm(&self) -> f64 {
        to_a_tenth(self.shape.stretch_mm())
    }
}

/// Millimetres to a tenth: no hand is measured more finely.
pub(super) fn to_a_tenth(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

/// The answer of `shapes TRIAD`.
#[derive(Clone, PartialEq, Debug)]
pub struct ShapesAnswer {
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The triad.
    pub triad: SpelledTriad,
    /// Its shapes.
    pub shapes: Vec<NamedShape>,
    /// How many more the end of the neck cuts off.
    pub cut_off: usize,
}

impl ShapesAnswer {
    /// Where on this neck is this triad?
    ///
    /// # Errors
    ///
    /// Where the query names strings that the neck does not have or that hold no triad.
    pub fn new(
        neck: &Neck,
        tuning: TuningAnswer,
        triad: SpelledTriad,
        strings: Option<StringSet>,
        query: &ShapeQuery,
    ) -> Result<ShapesAnswer, Refusal> {
        let query = on_strings(neck, strings, *query)?;
        let shapes = query.shapes(neck, triad.triad());
        Ok(ShapesAnswer {
            tuning,
            triad,
            shapes: shapes.iter().map(|shape| NamedShape::new(neck, triad, shape)).collect(),
            cut_off: query.cut_off(neck, triad.triad()),
        })
    }
}

/// The query on some strings, where some are asked for: three strings of the neck.
pub(super) fn on_strings(
    neck: &Neck,
    strings: Option<StringSet>,
    query: ShapeQuery,
) -> Result<ShapeQuery, Refusal> {
    let Some(strings) = strings else { return Ok(query) };
    Refusal::unless_on(neck, strings)?;
    Refusal::unless_three(strings)?;
    Ok(query.on(strings))
}
