//! The shapes of a triad, and the ladder of two.

use fretloom_fretboard::{
    Barre, Ease, Inversion, Ladder, Neck, Rung, Shape, ShapeQuery, Side, StringSet, Voicing, Way,
};
use fretloom_theory::SpelledTriad;
use serde::Serialize;

use super::{Refusal, TuningAnswer, ascii};

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
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The shapes.
    pub shapes: Vec<ListedShape>,
    /// How many more the end of the neck cuts off.
    #[serde(skip)]
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
        let cut_off = query.cut_off(neck, triad.triad());
        let shapes = query.shapes(neck, triad.triad());
        let shapes = shapes.iter().map(|shape| ListedShape::new(neck, triad, shape)).collect();
        Ok(ShapesAnswer { tuning, shapes, cut_off })
    }
}

/// The answer of `ladder TRIAD TRIAD`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct LadderAnswer {
    /// The tuning.
    pub tuning: TuningAnswer,
    /// The string set; of a ladder across sets the one where it begins.
    pub strings: Vec<u8>,
    /// The shapes of both triads in the order of climbing, lowest first.
    pub rungs: Vec<ShapeAnswer>,
    /// The sets that a ladder across sets climbs, one after another; in the JSON of such a ladder
    /// alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sets: Option<Vec<[u8; 3]>>,
    /// How many more shapes the end of the neck cuts off.
    #[serde(skip)]
    pub cut_off: usize,
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
        unless_a_pair(triads)?;
        let query = on_strings(neck, Some(strings), *query)?;
        let ladder = Ladder::new(neck, triads.map(|triad| triad.triad()), &query);
        let answer = |rung: &Rung| ShapeAnswer::of_rung(neck, triads, rung);
        Ok(LadderAnswer {
            tuning,
            strings: strings.iter().map(|string| string.number()).collect(),
            rungs: ladder.rungs().iter().map(answer).collect(),
            sets: None,
            cut_off: cut_off(neck, triads, &query),
        })
    }

    /// How do these two triads climb the whole neck, from one set of neighbouring strings on to
    /// the next? It begins on the lowest shape of `from`, and without it on the lowest of all.
    ///
    /// # Errors
    ///
    /// Where the triads share a note, or `from` is not three strings side by side.
    pub fn across_sets(
        neck: &Neck,
        tuning: TuningAnswer,
        triads: [SpelledTriad; 2],
        from: Option<StringSet>,
        query: &ShapeQuery,
    ) -> Result<LadderAnswer, Refusal> {
        unless_a_pair(triads)?;
        on_strings(neck, from, *query)?;
        from.map_or(Ok(()), Refusal::unless_side_by_side)?;
        let ladder = Ladder::new(neck, triads.map(|triad| triad.triad()), query);
        let rungs = climbed(&ladder, from);
        let rungs = rungs.iter().map(|rung| ShapeAnswer::of_rung(neck, triads, rung));
        let rungs: Vec<ShapeAnswer> = rungs.collect();
        let mut sets: Vec<[u8; 3]> = rungs.iter().map(|rung| rung.strings).collect();
        sets.dedup();
        Ok(LadderAnswer {
            tuning,
            strings: sets.first().map(|set| set.to_vec()).unwrap_or_default(),
            rungs,
            sets: Some(sets),
            cut_off: cut_off(neck, triads, query),
        })
    }
}

/// The rungs of a climb, from the lowest one on `from` or of all to where it ends.
fn climbed(ladder: &Ladder, from: Option<StringSet>) -> Vec<Rung> {
    let begins = |rung: &Rung| from.is_none_or(|set| rung.shape.string_set() == set);
    let first = ladder.rungs().iter().position(begins);
    let next = |rung: &usize| ladder.climb(*rung, Way::Up).map(|step| step.rung);
    let path = std::iter::successors(first, next);
    path.filter_map(|rung| ladder.rungs().get(rung).copied()).collect()
}

/// How many wanted shapes of either triad the end of the neck cuts off.
fn cut_off(neck: &Neck, triads: [SpelledTriad; 2], query: &ShapeQuery) -> usize {
    triads.map(|triad| query.cut_off(neck, triad.triad())).into_iter().sum()
}

fn unless_a_pair(triads: [SpelledTriad; 2]) -> Result<(), Refusal> {
    let [first, second] = triads.map(|triad| triad.triad().set());
    if first.is_disjoint(second) { Ok(()) } else { Err(Refusal::shared_notes(triads)) }
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
