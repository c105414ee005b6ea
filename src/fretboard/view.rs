//! Views: which places of a pair a player looks at, and in which order.
//!
//! A pair has some seventy places on a guitar. A view chooses those that are played together or
//! one after another, says which finger takes them, and names what it hides.

mod chain;
mod chain_query;
mod chain_search;
mod hidden;
mod place;
mod position;
mod seen;
mod set;
mod two;

use std::fmt;

use fretloom_theory::TriadPair;

use crate::{Hand, Neck};

pub use chain::Chain;
pub use chain_query::{ChainQuery, Overlap};
pub use hidden::Hidden;
pub use place::ViewPlace;
pub use position::PositionView;
pub use seen::Seen;
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
/// let seen = fifth.seen(&neck, pair, Hand::default(), 0);
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

    /// What is seen of a pair. Where a view has several ways to choose from, `choice` counts them
    /// from 0; of one that is not there nothing is seen.
    #[must_use]
    pub fn seen(&self, neck: &Neck, pair: TriadPair, hand: Hand, choice: usize) -> Seen {
        self.ways(neck, pair, hand).seen(neck, choice)
    }

    /// Every way to take the view. They are searched for here and nowhere else, so that one can be
    /// looked at after another.
    #[must_use]
    pub fn ways(&self, neck: &Neck, pair: TriadPair, hand: Hand) -> ViewWays {
        let ways = match self {
            View::Position(_) | View::Set(_) => Ways::One,
            View::Across(query) => Ways::Chains(query.chains(neck, pair, hand)),
            View::Two(query) => Ways::Runs(query.runs(neck, pair, hand)),
        };
        ViewWays { view: *self, pair, ways }
    }
}

/// The ways to take a view of a pair, the best first.
#[derive(Clone, PartialEq, Debug)]
pub struct ViewWays {
    view: View,
    pair: TriadPair,
    ways: Ways,
}

#[derive(Clone, PartialEq, Debug)]
enum Ways {
    One,
    Chains(Vec<Chain>),
    Runs(Vec<TwoAString>),
}

impl ViewWays {
    /// How many there are; 1 where the view has only one.
    #[must_use]
    pub const fn count(&self) -> usize {
        match &self.ways {
            Ways::One => 1,
            Ways::Chains(chains) => chains.len(),
            Ways::Runs(runs) => runs.len(),
        }
    }

    /// The chain with this number, from 0, where the view is one of chains.
    #[must_use]
    pub fn chain(&self, number: usize) -> Option<&Chain> {
        match &self.ways {
            Ways::Chains(chains) => chains.get(number),
            _ => None,
        }
    }

    /// The run with this number, from 0, where the view has two notes on a string.
    #[must_use]
    pub fn run(&self, number: usize) -> Option<&TwoAString> {
        match &self.ways {
            Ways::Runs(runs) => runs.get(number),
            _ => None,
        }
    }

    /// What is seen the way with this number, from 0; of one that is not there nothing.
    #[must_use]
    pub fn seen(&self, neck: &Neck, number: usize) -> Seen {
        let (places, lost) = match &self.view {
            View::Position(view) => view.places(neck, self.pair),
            View::Set(view) => (view.places(neck, self.pair), Vec::new()),
            View::Across(_) => {
                (self.chain(number).map(Chain::places).unwrap_or_default(), Vec::new())
            }
            View::Two(_) => {
                (self.run(number).map(TwoAString::places).unwrap_or_default(), Vec::new())
            }
        };
        Seen::new(neck, self.pair, places, lost)
    }
}

impl fmt::Display for View {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

#[cfg(test)]
mod tests;
