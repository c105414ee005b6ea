//! `shapes`, and shapes as other answers have them.

use fretloom_fretboard::{Barre as FlatFinger, Finger, StringNumber, Voicing};
use fretloom_theory::Inversion;
use fretloom_theory::SpelledTriad;
use serde::Serialize;

use super::AsJson;
use super::ascii::Ascii;
use super::tunings::Tuning;
use crate::answer::{NamedShape, ShapesAnswer};

/// A shape; its lists run from the highest string number to the lowest.
#[derive(Serialize)]
pub(super) struct Shape {
    triad: Ascii<SpelledTriad>,
    inversion: Ascii<Inversion>,
    by_name_only: bool,
    voicing: Ascii<Voicing>,
    strings: [u8; 3],
    frets: [u8; 3],
    pitches: [u8; 3],
    /// Null where no hand could hold it at once.
    fingers: Option<[u8; 3]>,
    stretch_mm: f64,
    position: u8,
}

impl Shape {
    pub(super) fn new(named: &NamedShape) -> Shape {
        let shape = &named.shape;
        Shape {
            triad: Ascii(named.triad),
            inversion: Ascii(shape.inversion()),
            by_name_only: shape.by_name_only(),
            voicing: Ascii(shape.voicing()),
            strings: shape.strings().map(StringNumber::number),
            frets: named.frets.map(|fret| fret.number()),
            pitches: shape.pitches().map(|pitch| pitch.midi()),
            fingers: shape.fingers().map(|fingers| fingers.map(Finger::number)),
            stretch_mm: named.stretch_mm(),
            position: shape.position().number(),
        }
    }
}

#[derive(Serialize)]
struct Shapes<'a> {
    tuning: Tuning<'a>,
    shapes: Vec<ListedShape>,
}

/// A shape with the finger that lies flat, if one does.
#[derive(Serialize)]
struct ListedShape {
    #[serde(flatten)]
    shape: Shape,
    barre: Option<Barre>,
}

#[derive(Serialize)]
struct Barre {
    finger: u8,
    fret: u8,
    strings: Vec<u8>,
}

impl Barre {
    fn new(barre: FlatFinger) -> Barre {
        Barre {
            finger: barre.finger.number(),
            fret: barre.fret.number(),
            strings: barre.strings.iter().map(StringNumber::number).collect(),
        }
    }
}

impl ListedShape {
    fn new(named: &NamedShape) -> ListedShape {
        ListedShape { shape: Shape::new(named), barre: named.shape.barre().map(Barre::new) }
    }
}

impl AsJson for ShapesAnswer {
    fn as_json(&self) -> impl Serialize {
        Shapes {
            tuning: Tuning::new(&self.tuning),
            shapes: self.shapes.iter().map(ListedShape::new).collect(),
        }
    }
}
