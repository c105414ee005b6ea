//! Parts and tracks as a player chooses among them.

use std::fmt;

use fretloom_theory::{NamedPitch, Pitch};

use super::limits::LONGEST_NAME;

/// How many notes there are, from the lowest to the highest.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub(super) struct Tally {
    pub(super) notes: usize,
    range: Option<(Pitch, Pitch)>,
}

impl Tally {
    /// One note more.
    pub(super) fn count(&mut self, pitch: Pitch) {
        self.notes += 1;
        let (low, high) = self.range.unwrap_or((pitch, pitch));
        self.range = Some((low.min(pitch), high.max(pitch)));
    }

    /// Both together.
    pub(super) fn and(self, other: Tally) -> Tally {
        let range = match (self.range, other.range) {
            (Some((low, high)), Some((lower, higher))) => Some((low.min(lower), high.max(higher))),
            (one, another) => one.or(another),
        };
        Tally { notes: self.notes + other.notes, range }
    }
}

/// A part or a track, as a player chooses it; prints as `2 Guitar, 40 notes, E2 to B4`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Offer {
    /// Counted from 1.
    pub(super) number: usize,
    /// What the file itself calls it by.
    pub(super) id: Option<String>,
    pub(super) name: Option<String>,
    pub(super) tally: Tally,
}

impl fmt::Display for Offer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.number)?;
        if let Some(name) = &self.name {
            write!(f, " {}", short(name))?;
        }
        if let Some(id) = self.id.as_ref().filter(|id| **id != format!("P{}", self.number)) {
            write!(f, " ({})", short(id))?;
        }
        match (self.tally.notes, self.tally.range) {
            (0, _) | (_, None) => f.write_str(", no notes"),
            (1, Some((low, _))) => write!(f, ", one note, {}", name_of(low)),
            (notes, Some((low, high))) => {
                write!(f, ", {notes} notes, {} to {}", name_of(low), name_of(high))
            }
        }
    }
}

/// A pitch by its everyday name, in ASCII as in other messages about a file.
fn name_of(pitch: Pitch) -> String {
    format!("{:#}", NamedPitch::everyday(pitch))
}

/// A name that leaves room for others.
fn short(name: &str) -> String {
    const SHOWN: usize = 30;
    name.chars().take(SHOWN).collect()
}

/// All that may be chosen; of many the first.
pub(super) fn listed(offers: &[Offer]) -> String {
    const SHOWN: usize = 16;
    let shown: Vec<String> = offers.iter().take(SHOWN).map(ToString::to_string).collect();
    match offers.len().saturating_sub(SHOWN) {
        0 => shown.join("; "),
        more => format!("{}; and {more} more", shown.join("; ")),
    }
}

/// What a part or a track may be called by.
#[derive(Clone, Copy, Debug)]
pub(super) struct Called<'a> {
    pub(super) number: usize,
    pub(super) id: Option<&'a str>,
    pub(super) name: Option<&'a str>,
}

impl Offer {
    /// What it may be called by.
    pub(super) fn called(&self) -> Called<'_> {
        Called { number: self.number, id: self.id.as_deref(), name: self.name.as_deref() }
    }
}

/// Which of these are meant, by what the file calls one, else by its number, else by its name, else
/// by a piece of that; letters may be large or small. None of them, one, or several of one name.
pub(super) fn meant(wanted: &str, all: &[Called<'_>]) -> Vec<usize> {
    let wanted = wanted.trim();
    let folded: String = wanted.chars().take(LONGEST_NAME).collect::<String>().to_lowercase();
    let name = |called: &Called<'_>| called.name.map(str::to_lowercase);
    let ways: [&dyn Fn(&Called<'_>) -> bool; 4] = [
        &|called| called.id == Some(wanted),
        &|called| called.number.to_string() == wanted,
        &|called| name(called).is_some_and(|name| name == folded),
        &|called| !folded.is_empty() && name(called).is_some_and(|name| name.contains(&folded)),
    ];
    let found = |is_meant: &dyn Fn(&Called<'_>) -> bool| -> Vec<usize> {
        all.iter().filter(|called| is_meant(called)).map(|called| called.number).collect()
    };
    ways.into_iter().map(found).find(|found| !found.is_empty()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_id_comes_before_a_number_and_that_before_a_name() {
        let offers = [
            (1, Some("P1"), Some("Tenor Sax")),
            (2, Some("3"), Some("Guitar")),
            (3, Some("P3"), Some("Bass Guitar")),
            (4, None, Some("bass guitar")),
            (5, None, None),
        ];
        let offers = offers.map(|(number, id, name)| Called { number, id, name });
        for (wanted, found) in [
            ("P1", &[1][..]),
            ("3", &[2]),
            ("4", &[4]),
            ("guitar", &[2]),
            ("TENOR", &[1]),
            (" Bass Guitar ", &[3, 4]),
            ("bass", &[3, 4]),
            ("flute", &[]),
            ("", &[]),
            ("6", &[]),
        ] {
            assert_eq!(meant(wanted, &offers), found, "{wanted}");
        }
    }

    #[test]
    fn an_offer_says_what_it_is() {
        let mut tally = Tally::default();
        let offer = |id: &str, tally| Offer {
            number: 2,
            id: Some(id.to_owned()),
            name: Some("Guitar".to_owned()),
            tally,
        };
        assert_eq!(offer("P2", tally).to_string(), "2 Guitar, no notes");
        tally.count(Pitch::from_midi(64).unwrap());
        assert_eq!(offer("P2", tally).to_string(), "2 Guitar, one note, E4");
        tally.count(Pitch::from_midi(40).unwrap());
        tally.count(Pitch::from_midi(71).unwrap());
        assert_eq!(offer("x", tally).to_string(), "2 Guitar (x), 3 notes, E2 to B4");
        let many: Vec<Offer> = (0..20).map(|_| offer("P2", tally)).collect();
        assert!(listed(&many).ends_with("; 2 Guitar, 3 notes, E2 to B4; and 4 more"));
    }
}
