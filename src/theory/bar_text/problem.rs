//! What is wrong with bars that can be read word by word.

use std::borrow::Cow;

use super::page::Place;

/// What is wrong, and with which written bar.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Problem {
    pub(super) bar: usize,
    pub(super) spot: Spot,
    /// What was expected there.
    pub(super) expected: Cow<'static, str>,
}

/// Where in a written bar.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Spot {
    /// The bar line before it.
    Beginning,
    /// The opening mark with this index.
    Opening(usize),
    /// The sign of its content with this index.
    Content(usize),
    /// The closing mark with this index.
    Closing(usize),
    /// The bar line after it.
    End,
}

/// Where the pieces of a written bar stand in the text.
#[derive(Clone, Default)]
pub(super) struct BarPlaces {
    pub(super) beginning: Option<Place>,
    pub(super) opening: Vec<Place>,
    pub(super) content: Vec<Place>,
    pub(super) closing: Vec<Place>,
    pub(super) end: Place,
}

impl Problem {
    pub(super) fn new(bar: usize, spot: Spot, expected: impl Into<Cow<'static, str>>) -> Problem {
        Problem { bar, spot, expected: expected.into() }
    }
}

impl BarPlaces {
    pub(super) fn of(&self, spot: Spot) -> Place {
        let place = match spot {
            Spot::Beginning => self.beginning,
            Spot::Opening(index) => self.opening.get(index).copied(),
            Spot::Content(index) => self.content.get(index).copied(),
            Spot::Closing(index) => self.closing.get(index).copied(),
            Spot::End => None,
        };
        place.unwrap_or(self.end)
    }
}
