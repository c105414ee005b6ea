//! When something that was tried comes back.

use jiff::SignedDuration;
use jiff::civil::Date;

use crate::store::{Beats, PracticeRecord, TriedBy, Try, Unit, Verdict};

/// The gaps between the days on which one thing is practised.
///
/// The rule: what was got for the first time comes back after the first gap. Got again when it was due, the
/// gap grows so many times, up to the longest. Got before it was due, the gap stays. What was not got, were it
/// once in a day, begins with the first gap again.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Spacing {
    /// The first gap, in days.
    pub first_days: u8,
    /// How many times the gap grows.
    pub growth: u8,
    /// The longest gap, in days.
    pub longest_days: u16,
}

impl Default for Spacing {
    fn default() -> Spacing {
        Spacing { first_days: 1, growth: 2, longest_days: 60 }
    }
}

impl Spacing {
    /// The day on which something is due again that was tried on this day, after these earlier `tries` of
    /// it, the last one last.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::practice::Spacing;
    /// use fretloom::store::{Try, Unit, Verdict};
    /// use jiff::civil::date;
    ///
    /// let (monday, tuesday) = (date(2026, 5, 4), date(2026, 5, 5));
    /// let spacing = Spacing::default();
    /// assert_eq!(spacing.next(&[], monday, Verdict::Got), tuesday);
    /// let first = Try {
    ///     on: monday,
    ///     unit: Unit::default(),
    ///     tempo: None,
    ///     verdict: Verdict::Got,
    ///     next: Some(tuesday),
    /// };
    /// assert_eq!(spacing.next(&[first], tuesday, Verdict::Got), date(2026, 5, 7));
    /// ```
    #[must_use]
    pub fn next<'a>(
        &self,
        tries: impl IntoIterator<Item = &'a Try>,
        on: Date,
        verdict: Verdict,
    ) -> Date {
        let mut missed = verdict == Verdict::Again;
        let mut before = None;
        for tried in tries {
            match tried.on == on {
                true => missed |= tried.verdict == Verdict::Again,
                false => before = Some(tried),
            }
        }
        let gap = if missed { self.first() } else { self.gap_after(before, on) };
        on.saturating_add(SignedDuration::from_hours(24 * gap))
    }

    /// A try of a unit on this day, with the day on which it comes back. By ear what counts are
    /// the tries at the same question in whatever key.
    #[must_use]
    pub fn tried(
        &self,
        record: &PracticeRecord,
        unit: &Unit,
        (on, tempo, verdict): (Date, Option<Beats>, Verdict),
    ) -> Try {
        let next = match unit.by {
            TriedBy::Hand => self.next(record.tries_of(unit), on, verdict),
            TriedBy::Ear(asked) => self.next(record.heard(asked), on, verdict),
        };
        Try { on, unit: unit.clone(), tempo, verdict, next: Some(next) }
    }

    fn first(&self) -> i64 {
        i64::from(self.first_days.max(1))
    }

    /// The gap in days after one more day on which it was got.
    fn gap_after(&self, before: Option<&Try>, on: Date) -> i64 {
        let got = before.filter(|tried| tried.verdict == Verdict::Got);
        let Some((was_on, was_due)) = got.and_then(|tried| Some((tried.on, tried.next?))) else {
            return self.first();
        };
        let gap = days(was_on, was_due).max(self.first());
        let grown = if on >= was_due { gap * i64::from(self.growth.max(1)) } else { gap };
        grown.min(i64::from(self.longest_days).max(self.first()))
    }
}

/// The days from one day to another.
fn days(from: Date, to: Date) -> i64 {
    from.duration_until(to).as_hours() / 24
}
