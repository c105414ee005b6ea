//! The shapes of a triad, and the ladder of two.

use fretloom_fretboard::{
    Barre, Ease, Inversion, Ladder, Neck, Rung, Shape, ShapeQuery, Side, StringSet, Voicing,
};
use fretloom_theory::SpelledTriad;
use serde::Serialize;

use super::{FORMAT, Refusal, TuningAnswer, ascii};

/// One way to put a triad on strings and frets. Lists run from the highest string number down.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ShapeAnswer {
    /// The triad.
    #[serde(serialize_with = "ascii::one")]
    pub triad: SpelledTriad,
    /// Which member sounds lowest.
    #[serde(serialize_with = "ascii::one")]
    pub inversion: Inversion,
    /// An augmented triad's inversion is a matter of names.
    pub by_name_only: bool,
    /// Close or open.
    #[serde(serialize_with = "ascii::one")]
    pub voicing: Voicing,
    /// String numbers.
    pub strings: [u8; 3],
    /// Frets, 0 for open, and the capo's fret for a string that it holds.
    pub frets: [u8; 3],
    /// Sounding pitches as MIDI numbers.
    pub pitches: [u8; 3],
    /// Fingers, 0 for open; none where no hand could hold it at once.
    pub fingers: Option<[u8; 3]>,
    /// From the lowest fretted fret to the highest, in millimetres.
    pub stretch_mm: f64,
    /// The fret of the first finger.
    pub position: u8,
    /// The finger that lies flat, if one does; in the JSON of `shapes` alone.
    #[serde(skip)]
    pub barre: Option<BarreAnswer>,
    /// How hard it is for the hand.
    #[serde(skip)]
    pub ease: Ease,
}

impl ShapeAnswer {
    /// The shape of a triad on a neck under its name.
    #[must_use]
    pub fn new(neck: &Neck, triad: SpelledTriad, shape: &Shape) -> ShapeAnswer {
        ShapeAnswer {
            triad,
            inversion: shape.inversion(),
            by_name_only: shape.by_name_only(),
            voicing: shape.voicing(),
            strings: shape.strings().map(|string| string.number()),
            frets: shape.places().map(|place| neck.fret_number(place).number()),
            pitches: shape.pitches().map(|pitch| pitch.midi()),
            fingers: shape.fingers().map(|fingers| fingers.map(|finger| finger.number())),
            stretch_mm: (shape.stretch_mm() * 10.0).round() / 10.0,
            position: shape.position().number(),
            barre: shape.barre().map(BarreAnswer::new),
            ease: shape.ease(),
        }
    }

    /// The shape of one of two triads under the name of that triad.
    #[must_use]
    pub fn of_rung(neck: &Neck, [first, second]: [SpelledTriad; 2], rung: &Rung) -> ShapeAnswer {
        let triad = if rung.side == Side::First { first } else { second };
        ShapeAnswer::new(neck, triad, &rung.shape)
    }
}

/// A finger that lies flat over several strings.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct BarreAnswer {
    /// Which finger, 1 to 4.
    pub finger: u8,
    /// On which fret.
    pub fret: u8,
    /// The strings that it makes sound.
    pub strings: Vec<u8>,
}

impl BarreAnswer {
    fn new(barre: Barre) -> BarreAnswer {
        BarreAnswer {
            finger: barre.finger.number(),
            fret: barre.fret.number(),
            strings: barre.strings.iter().map(|string| string.number()).collect(),
        }
    }
}

/// A shape as `shapes` lists it: with its flat finger.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ListedShape {
    /// The shape.
    #[serde(flatten)]
    pub shape: ShapeAnswer,
    /// The finger that lies flat, if one does.
    pub barre: Option<BarreAnswer>,
}

impl ListedShape {
    fn new(neck: &Neck, triad: SpelledTriad, shape: &Shape) -> ListedShape {
        let shape = ShapeAnswer::new(neck, triad, shape);
        ListedShape { barre: shape.barre.clone(), shape }
    }
}

/// The answer of `shapes TRIAD`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ShapesAnswer {
    format: u32,
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The shapes.
    pub shapes: Vec<ListedShape>,
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
        let shapes = shapes.iter().map(|shape| ListedShape::new(neck, triad, shape)).collect();
        Ok(ShapesAnswer { format: FORMAT, tuning, shapes })
    }
}

/// The answer of `ladder TRIAD TRIAD`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct LadderAnswer {
    format: u32,
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The string set.
    pub strings: Vec<u8>,
    /// The shapes of both triads by height, lowest first.
    pub rungs: Vec<ShapeAnswer>,
}

impl LadderAnswer {
    /// How do these two triads climb this string set?
    ///
    /// # Errors
    ///
    /// Where the triads share a note, or the set is not three strings of the neck.
    pub fn new(
        neck: &Neck,
        tuning: TuningAnswer,
        triads: [SpelledTriad; 2],
        strings: StringSet,
        query: &ShapeQuery,
    ) -> Result<LadderAnswer, Refusal> {
        if !triads[0].triad().set().is_disjoint(triads[1].triad().set()) {
            return Err(Refusal::shared_notes(triads));
        }
        let query = on_strings(neck, Some(strings), *query)?;
        let ladder = Ladder::new(neck, triads.map(|triad| triad.triad()), &query);
        let answer = |rung: &Rung| ShapeAnswer::of_rung(neck, triads, rung);
        Ok(LadderAnswer {
            format: FORMAT,
            tuning,
            strings: strings.iter().map(|string| string.number()).collect(),
            rungs: ladder.rungs().iter().map(answer).collect(),
        })
    }
}

fn on_strings(
    neck: &Neck,
    strings: Option<StringSet>,
    query: ShapeQuery,
) -> Result<ShapeQuery, Refusal> {
    let Some(strings) = strings else { return Ok(query) };
    Refusal::unless_on(neck, strings)?;
    if strings.three().is_none() {
        return Err(Refusal::NotThreeStrings { strings: strings.to_string() });
    }
    Ok(query.on(strings))
}
