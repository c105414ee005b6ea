//! Which way there is, told before anything is played.

use super::outlet;
use super::places::SoundPlaces;
use super::way::{Untaken, Way};

/// The way that would be used, and why the others would not.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Ways {
    /// The way by which sound leaves; `None` where there is none.
    pub in_use: Option<Way>,
    /// The others, in the order in which they are tried.
    pub untaken: Vec<Untaken>,
}

impl Ways {
    /// Looks what there is on this machine. Nothing is heard of it; it may take two seconds where a sound
    /// server does not answer, and a second for each program that does not.
    #[must_use]
    pub fn look(places: &SoundPlaces) -> Ways {
        let (in_use, untaken) = outlet::look(places);
        Ways { in_use, untaken }
    }
}
