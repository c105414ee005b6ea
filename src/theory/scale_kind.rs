//! Kinds of scales: what two scales on different roots have in common.
//!
//! The kinds that have names are one table of constants, `scale_kind/named.rs`.

mod named;

use std::borrow::Cow;

use crate::text::edits;
use crate::{Degree, Degrees, PitchClass, PitchClassSet};

/// What makes a Dorian scale Dorian: its degrees, its names, the scale it is a mode of.
///
/// # Example
///
/// ```
/// use fretloom_theory::ScaleKind;
/// let kind = ScaleKind::named("super locrian").unwrap();
/// assert_eq!(kind.name(), "altered");
/// assert_eq!(kind.parent(), Some(("melodic minor", 7)));
/// assert!(ScaleKind::named("Hyperdorian").is_none());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ScaleKind {
    name: Cow<'static, str>,
    also: &'static [&'static str],
    degrees: Degrees,
    parent: Option<(&'static str, u8)>,
}

impl ScaleKind {
    /// The kind with this name, or one of its other names; case does not matter, and a sharp or
    /// flat sign may stand for `natural`.
    #[must_use]
    pub fn named(name: &str) -> Option<&'static ScaleKind> {
        // Most names come as they stand; evening out every known one takes longer.
        let exact = ScaleKind::all().iter().find(|kind| kind.names().any(|known| known == name));
        exact.or_else(|| ScaleKind::all().iter().find(|kind| kind.is_called(name)))
    }

    /// Is this one of its names? Case and signs are read as in [`named`](Self::named).
    #[must_use]
    pub fn is_called(&self, name: &str) -> bool {
        let wanted = simplified(name);
        !wanted.is_empty() && self.names().any(|known| simplified(known) == wanted)
    }

    /// The named kind that has these notes over C, if there is one.
    #[must_use]
    pub fn sounding(on_c: PitchClassSet) -> Option<&'static ScaleKind> {
        ScaleKind::all().iter().find(|kind| kind.set_over(PitchClass::C) == on_c)
    }

    /// The named kind whose name is nearest to a misspelled one.
    #[must_use]
    pub fn nearest(name: &str) -> Option<&'static ScaleKind> {
        let wanted = simplified(name);
        let distance =
            |kind: &&ScaleKind| kind.names().map(|known| edits(&simplified(known), &wanted)).min();
        ScaleKind::all().iter().min_by_key(distance).filter(|kind| distance(kind) <= Some(4))
    }

    /// A kind of one's own. `None` unless there are three to twelve degrees, the root first, no
    /// two of them sounding alike.
    #[must_use]
    pub fn own(name: impl Into<String>, degrees: &[Degree]) -> Option<ScaleKind> {
        let mut list = Degrees::EMPTY;
        let fits = degrees.iter().all(|&degree| list.push(degree));
        let kind =
            ScaleKind { name: Cow::Owned(name.into()), also: &[], degrees: list, parent: None };
        let distinct = kind.set_over(PitchClass::C).len() == degrees.len();
        let from_root = degrees.first() == Some(&Degree::ROOT);
        (fits && distinct && from_root && degrees.len() >= 3).then_some(kind)
    }

    /// Its name; empty for a typed scale that sounds like no named one.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Other names in use.
    #[must_use]
    pub fn also(&self) -> &'static [&'static str] {
        self.also
    }

    /// Its degrees, the root first, in the scale's own spelling.
    #[must_use]
    pub fn degrees(&self) -> &[Degree] {
        &self.degrees
    }

    /// Is there one letter for each degree? So it is in scales of seven notes, and only in them:
    /// their triads can be told apart by letters, those of other scales only by sound.
    ///
    /// ```
    /// use fretloom_theory::ScaleKind;
    /// assert!(ScaleKind::named("Dorian").unwrap().has_a_letter_for_each_degree());
    /// assert!(!ScaleKind::named("whole tone").unwrap().has_a_letter_for_each_degree());
    /// ```
    #[must_use]
    pub fn has_a_letter_for_each_degree(&self) -> bool {
        self.degrees.len() == 7
    }

    /// The kind it is a mode of, and which mode: Dorian is mode 2 of `major`. A parent is its own
    /// mode 1. `None` for scales that players do not think of as modes.
    #[must_use]
    pub fn parent(&self) -> Option<(&'static str, u8)> {
        self.parent
    }

    /// Its notes over `root`.
    pub(crate) const fn set_over(&self, root: PitchClass) -> PitchClassSet {
        self.degrees.set_over(root)
    }

    fn names(&self) -> impl Iterator<Item = &str> {
        std::iter::once(self.name()).chain(self.also.iter().copied())
    }
}

/// A scale name with case, spacing and signs evened out.
fn simplified(name: &str) -> String {
    let name = name.to_lowercase().replace('♭', "b").replace(['♯', '♮'], "#");
    let words = name.split([' ', '-', '_']).filter(|word| !word.is_empty());
    words.map(|word| if word == "natural" { "#" } else { word }).collect()
}
