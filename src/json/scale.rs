//! A scale, as several answers have it.

use fretloom_theory::{Degree, NoteName, ParentScale, Scale as NamedScale, parent_in_words};
use serde::Serialize;

use super::ascii::{self, Ascii};
use crate::answer::{ChosenScale, ScaleReason};

/// A scale over a chord, or by itself.
#[derive(Serialize)]
pub(super) struct Scale<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    rank: Option<usize>,
    name: Ascii<&'a NamedScale>,
    root: Ascii<NoteName>,
    /// Empty for a typed scale without a name.
    kind: &'a str,
    parent: Option<Ascii<ParentScale>>,
    mode: Option<u8>,
    notes: Vec<Ascii<NoteName>>,
    degrees: Vec<Ascii<Degree>>,
    said: Option<String>,
    misses: Vec<Ascii<Degree>>,
    /// Empty where no chord asks for the scale.
    why: Why<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    respelled_from: Option<Ascii<NoteName>>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Why<'a> {
    Chosen(Ascii<&'a ScaleReason>),
    Alone(&'static str),
}

impl<'a> Scale<'a> {
    pub(super) fn new(chosen: &'a ChosenScale) -> Scale<'a> {
        let scale = chosen.scale();
        Scale {
            rank: None,
            name: Ascii(scale),
            root: Ascii(scale.root()),
            kind: scale.kind().name(),
            parent: scale.parent().map(Ascii),
            mode: scale.parent().map(|parent| parent.mode),
            notes: ascii::list(chosen.notes()),
            degrees: ascii::list(chosen.degrees()),
            said: parent_in_words(scale),
            misses: ascii::list(chosen.misses()),
            why: chosen.why().map_or(Why::Alone(""), |why| Why::Chosen(Ascii(why))),
            respelled_from: scale.respelled_from().map(Ascii),
        }
    }

    /// The scale with its place among the scales of a chord, from 1.
    pub(super) fn ranked((chosen, rank): (&'a ChosenScale, usize)) -> Scale<'a> {
        Scale { rank: Some(rank), ..Scale::new(chosen) }
    }
}
