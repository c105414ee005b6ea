//! Views: which places of a pair a player looks at, and in which order.
//!
//! A pair has some seventy places on a guitar. A view chooses those that are played together or
//! one after another, says which finger takes them, and names what it hides.

mod chain;
mod chain_query;
mod chain_search;
mod contents;
mod hidden;
mod place;
mod position;
mod set;
mod two;

use std::fmt;

use fretloom_theory::TriadPair;

use crate::{Hand, Neck};

pub use chain::Chain;
pub use chain_query::{ChainQuery, Overlap};
pub use contents::ViewContents;
pub use hidden::Hidden;
pub use place::ViewPlace;
pub use position::PositionView;
pub use set::{SetStep, SetView};
pub use two::{TwoAString, TwoAStringQuery};

/// A way to look at the places of a pair.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Hand, HandPosition, Neck, PositionView, Tuning, View};
/// use fretloom_theory::{SpelledTriad, TriadPair};
/// let neck = Neck::new(Tuning::read("EADGBE").unwrap());
/// let [first, second] =
///     ["F", "G"].map(|name| name.parse::<SpelledTriad>().unwrap().triad());
/// let pair = TriadPair::in_order(first, second).unwrap();
/// let fifth = View::Position(PositionView::at(HandPosition::new(5).unwrap()));
/// let seen = fifth.contents(&neck, pair, Hand::default(), 0);
/// let lost = seen.hides()[0].words(|pitch| pitch.midi().to_string());
/// assert_eq!(lost, "59 is out of the box without a stretch");
/// ```
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum View {
    /// Everything under one hand.
    Position(PositionView),
    /// Everything on some strings.
    Set(SetView),
    /// A chain of close shapes across the strings.
    Across(ChainQuery),
    /// The six notes of the pair, two on a string.
    Two(TwoAStringQuery),
}

impl View {
    /// The word for it: `position`, `set`, `across`, `two`.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            View::Position(_) => "position",
            View::Set(_) => "set",
            View::Across(_) => "across",
            View::Two(_) => "two",
        }
    }

    /// What is seen of a pair. Where the view leaves a choice, `choice` is its number from 0; where
    /// there is no such choice nothing is seen.
    #[must_use]
    pub fn contents(
        &self,
        neck: &Neck,
        pair: TriadPair,
        hand: Hand,
        choice: usize,
    ) -> ViewContents {
        self.choices(neck, pair, hand).contents(neck, choice)
    }

    /// Everything that the view leaves to choose from. Only this searches; after it one choice can
    /// be looked at after another.
    #[must_use]
    pub fn choices(&self, neck: &Neck, pair: TriadPair, hand: Hand) -> ViewChoices {
        let found = match self {
            View::Position(view) => Found::Position(*view),
            View::Set(view) => Found::Set(*view),
            View::Across(query) => Found::Chains(query.chains(neck, pair, hand)),
            View::Two(query) => Found::Runs(query.runs(neck, pair, hand)),
        };
        ViewChoices { pair, found }
    }
}

/// What a view of a pair leaves to choose from, the best first.
#[derive(Clone, PartialEq, Debug)]
pub struct ViewChoices {
    pair: TriadPair,
    found: Found,
}

#[derive(Clone, PartialEq, Debug)]
enum Found {
    Position(PositionView),
    Set(SetView),
    Chains(Vec<Chain>),
    Runs(Vec<TwoAString>),
}

impl ViewChoices {
    /// How many choices there are; 1 where the view leaves none.
    #[must_use]
    pub const fn count(&self) -> usize {
        match &self.found {
            Found::Position(_) | Found::Set(_) => 1,
            Found::Chains(chains) => chains.len(),
            Found::Runs(runs) => runs.len(),
        }
    }

    /// The chain with this number, from 0, where the view is one of chains.
    #[must_use]
    pub fn chain(&self, number: usize) -> Option<&Chain> {
        match &self.found {
            Found::Chains(chains) => chains.get(number),
            Found::Position(_) | Found::Set(_) | Found::Runs(_) => None,
        }
    }

    /// The run with this number, from 0, where the view has two notes on a string.
    #[must_use]
    pub fn run(&self, number: usize) -> Option<&TwoAString> {
        match &self.found {
            Found::Runs(runs) => runs.get(number),
            Found::Position(_) | Found::Set(_) | Found::Chains(_) => None,
        }
    }

    /// What the choice with this number, from 0, shows; nothing where there is no such choice.
    #[must_use]
    pub fn contents(&self, neck: &Neck, number: usize) -> ViewContents {
        let (places, lost) = match &self.found {
            Found::Position(view) => view.places(neck, self.pair),
            Found::Set(view) => (view.places(neck, self.pair), Vec::new()),
            Found::Chains(chains) => {
                (chains.get(number).map(Chain::places).unwrap_or_default(), Vec::new())
            }
            Found::Runs(runs) => {
                (runs.get(number).map(TwoAString::places).unwrap_or_default(), Vec::new())
            }
        };
        ViewContents::new(neck, self.pair, places, lost)
    }
}

impl fmt::Display for View {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

#[cfg(test)]
mod tests;
