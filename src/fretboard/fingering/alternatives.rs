//! Fingerings that differ musically, each the best under a condition that has a name.

use super::cheapest::Cheapest;
use super::condition::FingeringCondition;
use super::cost::Avoid;
use super::error::FingeringError;
use super::fingered_line::Fingering;
use super::line_note::LineNote;
use super::query::FingeringQuery;
use crate::{HandPosition, Neck, StringSet};

/// The positions of one part of the neck.
const PART: u8 = 4;

impl FingeringQuery {
    /// Up to `count` fingerings that differ musically: the cheapest of all, then others by cost.
    /// Each is the best under a [condition](Fingering::condition): no shift, no open string, on one
    /// set of strings, in another part of the neck … Where these are too few, the next cheapest
    /// follow.
    ///
    /// # Errors
    ///
    /// As [`best`](FingeringQuery::best).
    pub fn alternatives(
        &self,
        neck: &Neck,
        line: &[LineNote],
        count: usize,
    ) -> Result<Vec<Fingering>, FingeringError> {
        let mut found = Found { count, fingerings: vec![self.best(neck, line)?] };
        if line.is_empty() || count <= 1 {
            return Ok(found.fingerings);
        }
        let asked = Asked { query: self, neck, line };
        for fingering in asked.under_conditions() {
            found.add(fingering);
        }
        found.fingerings[1..].sort_by(|a, b| a.cost().total_cmp(&b.cost()));
        found.fingerings.truncate(count);
        if found.fingerings.len() < count {
            asked.fill(&mut found)?;
        }
        Ok(found.fingerings)
    }
}

/// The fingerings found so far, no two with the same places.
struct Found {
    count: usize,
    fingerings: Vec<Fingering>,
}

impl Found {
    fn add(&mut self, fingering: Fingering) {
        let easiest = self.fingerings.first();
        let playable = easiest.is_none_or(|easiest| fingering.is_as_playable_as(easiest));
        if playable && !self.fingerings.iter().any(|known| known.has_places_of(&fingering)) {
            self.fingerings.push(fingering);
        }
    }
}

/// A question, asked again under one condition after another.
struct Asked<'a> {
    query: &'a FingeringQuery,
    neck: &'a Neck,
    line: &'a [LineNote],
}

impl Asked<'_> {
    /// The best fingering under each condition that can be fulfilled.
    fn under_conditions(&self) -> Vec<Fingering> {
        let shifts = [self.fewest_shifts(), self.eased_shifts()];
        let open = [self.no_open_string(), self.open_strings()];
        let sets = (1..=3).map(|size| self.on_strings(size));
        let best = shifts.into_iter().chain(open).chain(sets).flatten();
        best.chain(self.parts_of_the_neck()).collect()
    }

    /// The best answer to another question, as the best under a condition.
    fn best_of(&self, query: &FingeringQuery, condition: FingeringCondition) -> Option<Fingering> {
        query.best(self.neck, self.line).ok().map(|fingering| fingering.under(condition))
    }

    fn fewest_shifts(&self) -> Option<Fingering> {
        let fingering = self.query.best_without(self.neck, self.line, Avoid::EveryShift).ok()?;
        Some(fingering.under(FingeringCondition::FewestShifts))
    }

    fn eased_shifts(&self) -> Option<Fingering> {
        let fingering = self.query.best_without(self.neck, self.line, Avoid::HurriedShifts).ok()?;
        let eased = fingering.shifts() > 0 && fingering.hurried_shifts(self.line) == 0;
        eased.then(|| fingering.under(FingeringCondition::EasedShifts))
    }

    fn no_open_string(&self) -> Option<Fingering> {
        self.best_of(&self.query.without_open_strings(), FingeringCondition::NoOpenString)
    }

    fn open_strings(&self) -> Option<Fingering> {
        let liked = self.query.to_taste(self.query.taste().with_open_strings_at_mm(0.0));
        let fingering = self.best_of(&liked, FingeringCondition::OpenStrings)?;
        let cost = self.query.cost_of(self.neck, self.line, fingering.notes())?;
        (fingering.open_strings() > 0).then(|| fingering.at_cost(cost))
    }

    /// The best set of `size` neighbouring strings.
    fn on_strings(&self, size: usize) -> Option<Fingering> {
        let strings = self.neck.tuning().string_count();
        let sets = StringSet::neighbours(strings, size).filter(|_| size < strings);
        let sets = sets.filter(|set| self.query.allows_strings(*set));
        sets.filter_map(|set| self.best_of(&self.query.on(set), FingeringCondition::OnStrings(set)))
            .min_by(|a, b| a.cost().total_cmp(&b.cost()))
    }

    /// The best in each part of the neck; none where positions are asked for anyway.
    fn parts_of_the_neck(&self) -> impl Iterator<Item = Fingering> {
        let whole = !self.query.asks_for_positions();
        let last = if whole { self.neck.tuning().last_fret().number() } else { 0 };
        (1..=last).step_by(usize::from(PART)).filter_map(move |first| {
            let low = HandPosition::new(first)?;
            let high = HandPosition::new((first + PART - 1).min(last))?;
            let fingering = self.best_of(
                &self.query.in_positions(low, high),
                FingeringCondition::Positions(low, high),
            )?;
            fingering.stays_within(low, high).then_some(fingering)
        })
    }

    /// Adds the next cheapest until there are as many as were asked for.
    fn fill(&self, found: &mut Found) -> Result<(), FingeringError> {
        self.query.solve(self.neck, self.line, |onsets, to_go| {
            // Each of those that are there may come once more.
            let more = Cheapest::new(onsets, to_go).take(2 * found.count);
            for path in more {
                if found.fingerings.len() == found.count {
                    break;
                }
                found.add(to_go.fingering(&path, FingeringCondition::NextCheapest));
            }
        })
    }
}
