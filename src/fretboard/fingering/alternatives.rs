//! Fingerings that differ musically, each the best under a condition that has a name.

use super::cheapest::Cheapest;
use super::condition::FingeringCondition;
use super::cost::Avoid;
use super::error::FingeringError;
use super::fingered_line::Fingering;
use super::line_note::LineNote;
use super::query::FingeringQuery;
use super::search::tolerance;
use crate::{HandPosition, Neck, StringSet};
use std::cell::Cell;

/// The positions of one part of the neck.
const PART: u8 = 4;

/// How many notes are fingered under conditions, at most, all conditions together. Up to some eight
/// thousand notes all of them are tried; of 200,000, the first two.
const MOST_NOTES: usize = 400_000;

/// Fingerings that differ musically.
#[derive(Clone, PartialEq, Debug)]
pub struct Alternatives {
    /// The cheapest of all, then others by cost.
    pub fingerings: Vec<Fingering>,
    /// Is the line so long that not every condition was tried? Then there may be others.
    pub is_cut_short: bool,
}

impl FingeringQuery {
    /// Up to `count` fingerings that differ musically: the cheapest of all, then others by cost.
    /// Each is the best under a [condition](Fingering::condition): no shift, no open string, on one
    /// set of strings, in another part of the neck … Where these are too few, the next cheapest
    /// join them. Of long lines fewer are looked for, so that time and memory are bounded; which of
    /// them are found does not depend on the time.
    ///
    /// # Errors
    ///
    /// As [`best`](FingeringQuery::best).
    pub fn alternatives(
        &self,
        neck: &Neck,
        line: &[LineNote],
        count: usize,
    ) -> Result<Alternatives, FingeringError> {
        let mut found = Found { count, fingerings: vec![self.best(neck, line)?] };
        if line.is_empty() || count <= 1 {
            return Ok(Alternatives { fingerings: found.fingerings, is_cut_short: false });
        }
        let asked = Asked { query: self, neck, line, left: Cell::new(Some(MOST_NOTES)) };
        asked.under_conditions(&mut found);
        found.fingerings.truncate(count);
        let is_whole = found.fingerings.len() >= count || asked.fill(&mut found)?;
        let is_cut_short = !is_whole || asked.left.get().is_none();
        Ok(Alternatives { fingerings: found.fingerings, is_cut_short })
    }
}

/// The fingerings found so far, no two with the same places: the cheapest of all, then the others by
/// cost.
struct Found {
    count: usize,
    fingerings: Vec<Fingering>,
}

impl Found {
    /// Adds a fingering after all that cost no more, if it is new and breaks no more chords.
    fn add(&mut self, fingering: Fingering) {
        let easiest = self.fingerings.first();
        let playable = easiest.is_none_or(|easiest| fingering.is_as_playable_as(easiest));
        if playable && !self.fingerings.iter().any(|known| known.has_places_of(&fingering)) {
            let clearly = fingering.cost() + tolerance(fingering.cost());
            let dearer = self.fingerings.iter().skip(1).position(|known| known.cost() > clearly);
            let at = dearer.map_or(self.fingerings.len(), |at| at + 1);
            self.fingerings.insert(at, fingering);
        }
    }
}

/// A question, asked again under one condition after another.
struct Asked<'a> {
    query: &'a FingeringQuery,
    neck: &'a Neck,
    line: &'a [LineNote],
    /// How many notes may still be fingered; `None` once a condition was left out for want of them.
    left: Cell<Option<usize>>,
}

impl Asked<'_> {
    /// Adds the best fingering under each condition that can be fulfilled.
    fn under_conditions(&self, found: &mut Found) {
        let shifts = [Asked::fewest_shifts, Asked::eased_shifts];
        let open = [Asked::no_open_string, Asked::open_strings];
        shifts.iter().chain(&open).filter_map(|best| best(self)).for_each(|it| found.add(it));
        (1..=3).filter_map(|size| self.on_strings(size)).for_each(|it| found.add(it));
        self.parts_of_the_neck().for_each(|it| found.add(it));
    }

    /// May the line be fingered once more?
    fn spend(&self) -> Option<()> {
        self.left.set(self.left.get().and_then(|left| left.checked_sub(self.line.len())));
        self.left.get().map(|_| ())
    }

    /// The best answer to another question, as the best under a condition.
    fn best_of(&self, query: &FingeringQuery, condition: FingeringCondition) -> Option<Fingering> {
        self.spend()?;
        query.best(self.neck, self.line).ok().map(|fingering| fingering.under(condition))
    }

    fn best_without(&self, avoid: Avoid) -> Option<Fingering> {
        self.spend()?;
        self.query.best_without(self.neck, self.line, avoid).ok()
    }

    fn fewest_shifts(&self) -> Option<Fingering> {
        let fingering = self.best_without(Avoid::EveryShift)?;
        Some(fingering.under(FingeringCondition::FewestShifts))
    }

    fn eased_shifts(&self) -> Option<Fingering> {
        let fingering = self.best_without(Avoid::HurriedShifts)?;
        let eased = fingering.shifts() > 0 && fingering.hurried_shifts() == 0;
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

    /// Adds the next cheapest until there are as many as were asked for; `false` where the line is
    /// too long to list them.
    fn fill(&self, found: &mut Found) -> Result<bool, FingeringError> {
        self.query.solve(self.neck, self.line, |onsets, to_go| {
            // Each of those that are there may come once more.
            let mut more = Cheapest::new(onsets, to_go, 2 * found.count);
            while found.fingerings.len() < found.count {
                let Some(path) = more.next() else { break };
                found.add(to_go.fingering(&path, FingeringCondition::NextCheapest));
            }
            found.fingerings.len() == found.count || !more.is_spent()
        })
    }
}
