//! What holds from when on.

use super::quarters::Quarters;

/// Values over musical time: each holds from its moment on, until the next one.
///
/// Moments are in order and differ. Before the first one nothing holds.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Quarters, Timeline};
/// let chords = Timeline::of([(Quarters::whole(4), "G7"), (Quarters::ZERO, "Dm7")]);
/// assert_eq!(chords.at(Quarters::whole(3)), Some(&"Dm7"));
/// assert_eq!(chords.at(Quarters::whole(4)), Some(&"G7"));
/// assert_eq!(Timeline::<&str>::default().at(Quarters::ZERO), None);
/// ```
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Timeline<T> {
    changes: Vec<(Quarters, T)>,
}

impl<T> Default for Timeline<T> {
    /// Nothing, ever.
    fn default() -> Timeline<T> {
        Timeline { changes: Vec::new() }
    }
}

impl<T> Timeline<T> {
    /// These values, in any order; of two at one moment the later in the list holds.
    #[must_use]
    pub fn of(changes: impl IntoIterator<Item = (Quarters, T)>) -> Timeline<T> {
        let mut given: Vec<(Quarters, T)> = changes.into_iter().collect();
        given.sort_by_key(|(from, _)| *from);
        let mut changes: Vec<(Quarters, T)> = Vec::with_capacity(given.len());
        for change in given {
            match changes.last_mut() {
                Some(last) if last.0 == change.0 => *last = change,
                _ => changes.push(change),
            }
        }
        Timeline { changes }
    }

    /// What holds at a moment.
    #[must_use]
    pub fn at(&self, moment: Quarters) -> Option<&T> {
        let after = self.changes.partition_point(|(from, _)| *from <= moment);
        let last = after.checked_sub(1).and_then(|index| self.changes.get(index));
        last.map(|(_, value)| value)
    }

    /// The values in order, each with the moment from which it holds.
    #[must_use]
    pub fn changes(&self) -> &[(Quarters, T)] {
        &self.changes
    }

    /// Does nothing ever hold?
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.changes.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_holds_until_the_next() {
        let at = Quarters::whole;
        let line = Timeline::of([(at(2), 'b'), (at(1), 'x'), (at(1), 'a'), (at(5), 'c')]);
        assert_eq!(line.changes(), [(at(1), 'a'), (at(2), 'b'), (at(5), 'c')]);
        for (moment, value) in
            [(0, None), (1, Some('a')), (2, Some('b')), (4, Some('b')), (99, Some('c'))]
        {
            assert_eq!(line.at(at(moment)).copied(), value, "{moment}");
        }
    }
}
