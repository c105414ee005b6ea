//! How far one is in a list of questions.

use std::collections::VecDeque;

use crate::store::Verdict;

/// How many others come before a question that was missed comes again.
const BETWEEN: usize = 2;

/// How often a question is asked at most that is missed each time.
const MOST: u8 = 3;

/// A walk through a list of questions: one that is missed comes again after two others, three times in
/// all at most. So every walk ends.
///
/// # Example
///
/// ```
/// use fretloom::practice::EarRound;
/// use fretloom::store::Verdict::{Again, Got};
///
/// let mut round = EarRound::through(0..3);
/// let mut asked = Vec::new();
/// for verdict in [Again, Got, Got, Got] {
///     asked.extend(round.now());
///     round = round.after(verdict);
/// }
/// assert_eq!(asked, [0, 1, 2, 0]);
/// assert_eq!(round.now(), None);
/// assert_eq!((round.at_once(), round.later(), round.not_yet()), (2, 1, 0));
/// ```
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct EarRound {
    to_come: VecDeque<Coming>,
    at_once: usize,
    later: usize,
    not_yet: usize,
}

/// A question that is still to come.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Coming {
    /// Its place in the list.
    question: usize,
    /// How often it was missed.
    missed: u8,
}

impl EarRound {
    /// Through these questions, given by their places in a list.
    #[must_use]
    pub fn through(questions: impl IntoIterator<Item = usize>) -> EarRound {
        let coming = |question| Coming { question, missed: 0 };
        EarRound { to_come: questions.into_iter().map(coming).collect(), ..EarRound::default() }
    }

    /// The question that is asked now; `None` at the end.
    #[must_use]
    pub fn now(&self) -> Option<usize> {
        self.to_come.front().map(|coming| coming.question)
    }

    /// Was the question that is asked now missed before?
    #[must_use]
    pub fn is_asked_again(&self) -> bool {
        self.to_come.front().is_some_and(|coming| coming.missed > 0)
    }

    /// The walk after an answer to the question of now.
    #[must_use]
    pub fn after(mut self, verdict: Verdict) -> EarRound {
        let Some(coming) = self.to_come.pop_front() else { return self };
        let missed = coming.missed + 1;
        match verdict {
            Verdict::Got if coming.missed == 0 => self.at_once += 1,
            Verdict::Got => self.later += 1,
            Verdict::Again if missed >= MOST => self.not_yet += 1,
            Verdict::Again => {
                let place = BETWEEN.min(self.to_come.len());
                self.to_come.insert(place, Coming { missed, ..coming });
            }
        }
        self
    }

    /// How many questions are still to come, that of now among them.
    #[must_use]
    pub fn to_come(&self) -> usize {
        self.to_come.len()
    }

    /// How many are done with, got or not.
    #[must_use]
    pub fn done(&self) -> usize {
        self.at_once + self.later + self.not_yet
    }

    /// How many were got when they were asked first.
    #[must_use]
    pub fn at_once(&self) -> usize {
        self.at_once
    }

    /// How many were got after they had been missed.
    #[must_use]
    pub fn later(&self) -> usize {
        self.later
    }

    /// How many were missed each time.
    #[must_use]
    pub fn not_yet(&self) -> usize {
        self.not_yet
    }
}
