//! States in the order in which they were, and those that were taken back.

use std::collections::VecDeque;

/// States that one can go back to, and forward again until something new happens.
#[derive(Clone, Debug)]
pub(super) struct History<T> {
    past: VecDeque<T>,
    /// The next one forward is the last.
    future: Vec<T>,
}

impl<T: PartialEq> History<T> {
    /// Longer than an evening of changes; older ones are forgotten.
    const LONGEST: usize = 500;

    /// Nothing has happened yet.
    pub(super) fn new() -> History<T> {
        History { past: VecDeque::new(), future: Vec::new() }
    }

    /// Keeps what was before something new; what had been taken back is gone.
    pub(super) fn record(&mut self, before: T) {
        if self.past.len() == Self::LONGEST {
            self.past.pop_front();
        }
        self.past.push_back(before);
        self.future.clear();
    }

    /// The last state before that differs from `now`; none where there is none.
    pub(super) fn back(&mut self, now: T) -> Option<T> {
        while self.past.back() == Some(&now) {
            self.past.pop_back();
        }
        let before = self.past.pop_back()?;
        self.future.push(now);
        Some(before)
    }

    /// The state that was left by going back.
    pub(super) fn forward(&mut self, now: T) -> Option<T> {
        while self.future.last() == Some(&now) {
            self.future.pop();
        }
        let after = self.future.pop()?;
        self.past.push_back(now);
        Some(after)
    }

    /// How often one can go back, and forward: going either way changes both.
    pub(super) fn steps(&self) -> (usize, usize) {
        (self.past.len(), self.future.len())
    }

    /// How often one can go back.
    pub(super) fn before(&self) -> usize {
        self.past.len()
    }

    /// How often one can go forward.
    pub(super) fn after(&self) -> usize {
        self.future.len()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_new_ends_what_was_taken_back() {
        let mut history = History::new();
        history.record(1);
        history.record(2);
        assert_eq!(history.back(3), Some(2));
        assert_eq!(history.back(2), Some(1));
        assert_eq!(history.back(1), None);
        assert_eq!(history.forward(1), Some(2));
        history.record(2);
        assert_eq!((history.forward(9), history.before(), history.after()), (None, 2, 0));
    }

    #[test]
    fn the_oldest_is_forgotten() {
        let mut history = History::new();
        (0..10_000).for_each(|state| history.record(state));
        assert_eq!(history.before(), History::<i32>::LONGEST);
        assert_eq!(history.back(10_000), Some(9_999));
    }

    /// Going somewhere by another way must not make a step that changes nothing.
    #[test]
    fn no_step_stays_where_it_is() {
        let mut history = History::new();
        history.record("A");
        history.record("B");
        assert_eq!(history.back("B"), Some("A"));
    }
}
