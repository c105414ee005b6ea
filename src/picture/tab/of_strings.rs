//! Something for each string.

use fretloom_fretboard::StringNumber;

/// At most one thing for each string that there may be.
#[derive(Clone, Debug)]
pub(super) struct OfStrings<T> {
    things: [Option<T>; StringNumber::HIGHEST.number() as usize],
}

impl<T> Default for OfStrings<T> {
    fn default() -> OfStrings<T> {
        OfStrings { things: std::array::from_fn(|_| None) }
    }
}

impl<T> OfStrings<T> {
    /// What a string has.
    pub(super) fn at(&self, string: StringNumber) -> Option<&T> {
        self.things.get(usize::from(string.number()) - 1)?.as_ref()
    }

    /// Gives a string something, in place of what it had.
    pub(super) fn put(&mut self, string: StringNumber, thing: T) {
        if let Some(place) = self.things.get_mut(usize::from(string.number()) - 1) {
            *place = Some(thing);
        }
    }

    /// Takes away what does not fulfil this. Has anything been taken?
    pub(super) fn keep(&mut self, fulfils: impl Fn(&T) -> bool) -> bool {
        let mut has_taken = false;
        for place in &mut self.things {
            if place.as_ref().is_some_and(|thing| !fulfils(thing)) {
                *place = None;
                has_taken = true;
            }
        }
        has_taken
    }

    /// All there is, string 1 first.
    pub(super) fn all(&self) -> impl Iterator<Item = &T> {
        self.things.iter().flatten()
    }
}
