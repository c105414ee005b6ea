//! `triads`

use fretloom_theory::{Degree, NoteName};
use serde::Serialize;

use super::AsJson;
use super::ascii::{self, Ascii};
use super::scale::Scale;
use crate::answer::{ScaleTriad, TriadsAnswer};

#[derive(Serialize)]
struct Triads<'a> {
    scale: Scale<'a>,
    triads: Vec<Triad>,
}

#[derive(Serialize)]
struct Triad {
    degree: Ascii<Degree>,
    root: Ascii<NoteName>,
    quality: &'static str,
    notes: Vec<Ascii<NoteName>>,
    in_thirds: bool,
}

impl Triad {
    fn new(found: &ScaleTriad) -> Triad {
        Triad {
            degree: Ascii(found.degree),
            root: Ascii(found.triad.root()),
            quality: found.triad.quality().word(),
            notes: ascii::list(found.triad.notes()),
            in_thirds: found.in_thirds,
        }
    }
}

impl AsJson for TriadsAnswer {
    fn as_json(&self) -> impl Serialize {
        Triads {
            scale: Scale::new(&self.scale),
            triads: self.triads.iter().map(Triad::new).collect(),
        }
    }
}
