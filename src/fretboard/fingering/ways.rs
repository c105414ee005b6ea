//! Fingerings that differ musically, each the best under a condition that has a name.

use std::fmt;

use super::cheapest::Cheapest;
use super::cost::Avoid;
use super::{Fingering, FingeringError, FingeringQuery, LineNote};
use crate::{HandPosition, Neck, StringSet};

/// The condition under which a fingering is the best.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Why {
    /// None: it is the cheapest of all.
    Easiest,
    /// The hand shifts as rarely as it can.
    FewestShifts,
    /// Shifts come only where an open string or a pause gives the hand its time.
    EasedShifts,
    /// No open string.
    NoOpenString,
    /// Open strings cost nothing.
    OpenStrings,
    /// Everything on these strings.
    OnStrings(StringSet),
    /// The hand stays in this part of the neck.
    Positions(HandPosition, HandPosition),
    /// None: it is the next cheapest after those before it.
    NextCheapest,
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Why::Easiest => f.write_str("the easiest of all"),
            Why::FewestShifts => f.write_str("the fewest shifts"),
            Why::EasedShifts => f.write_str("shifts on open strings and pauses only"),
            Why::NoOpenString => f.write_str("no open string"),
            Why::OpenStrings => f.write_str("open strings wherever they help"),
            Why::OnStrings(strings) if strings.len() == 1 => {
                write!(f, "all on string {strings}")
            }
            Why::OnStrings(strings) => write!(f, "all on strings {strings}"),
            Why::Positions(low, high) => write!(f, "in positions {low} to {high}"),
            Why::NextCheapest => f.write_str("the next easiest"),
        }
    }
}

/// A pause this long lets the hand go where it likes.
pub(super) const PAUSE_S: f64 = 0.5;
/// The positions of one part of the neck.
const PART: u8 = 4;

pub(super) fn ways(
    query: &FingeringQuery,
    neck: &Neck,
    line: &[LineNote],
    count: usize,
) -> Result<Vec<Fingering>, FingeringError> {
    let mut found = Found { count, ways: vec![query.best(neck, line)?] };
    if line.is_empty() || count <= 1 {
        return Ok(found.ways);
    }
    let asked = Asked { query, neck, line };
    for way in asked.conditions() {
        found.add(way);
    }
    found.ways[1..].sort_by(|a, b| a.cost().total_cmp(&b.cost()));
    found.ways.truncate(count);
    if found.ways.len() < count {
        asked.fill(&mut found)?;
    }
    Ok(found.ways)
}

struct Found {
    count: usize,
    ways: Vec<Fingering>,
}

impl Found {
    fn add(&mut self, way: Fingering) {
        let playable = self.ways.first().is_none_or(|easiest| way.is_as_playable_as(easiest));
        if playable && !self.ways.iter().any(|known| known.has_places_of(&way)) {
            self.ways.push(way);
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
    fn conditions(&self) -> Vec<Fingering> {
        let shifts = [self.fewest_shifts(), self.eased_shifts()];
        let open = [self.no_open_string(), self.open_strings()];
        let sets = (1..=3).map(|size| self.on_strings(size));
        let ways = shifts.into_iter().chain(open).chain(sets).flatten();
        ways.chain(self.parts_of_the_neck()).collect()
    }

    /// The best under `narrower`, at this question's cost.
    fn under(&self, narrower: &FingeringQuery, why: Why) -> Option<Fingering> {
        narrower.best(self.neck, self.line).ok().map(|way| way.because(why))
    }

    fn fewest_shifts(&self) -> Option<Fingering> {
        let way = self.query.best_without(self.neck, self.line, Avoid::EveryShift).ok()?;
        Some(way.because(Why::FewestShifts))
    }

    fn eased_shifts(&self) -> Option<Fingering> {
        let way = self.query.best_without(self.neck, self.line, Avoid::HurriedShifts).ok()?;
        let eased = way.shifts() > 0 && way.hurried_shifts(self.line) == 0;
        eased.then(|| way.because(Why::EasedShifts))
    }

    fn no_open_string(&self) -> Option<Fingering> {
        self.under(&self.query.without_open_strings(), Why::NoOpenString)
    }

    fn open_strings(&self) -> Option<Fingering> {
        let liked = self.query.to_taste(self.query.taste().with_open_strings_at_mm(0.0));
        let way = self.under(&liked, Why::OpenStrings)?;
        let cost = self.query.cost_of(self.neck, self.line, way.notes())?;
        (way.open_strings() > 0).then(|| way.at_cost(cost))
    }

    /// The best set of `size` neighbouring strings.
    fn on_strings(&self, size: usize) -> Option<Fingering> {
        let strings = self.neck.tuning().string_count();
        let sets = StringSet::neighbours(strings, size).filter(|_| size < strings);
        let sets = sets.filter(|set| self.query.allows_strings(*set));
        sets.filter_map(|set| self.under(&self.query.on(set), Why::OnStrings(set)))
            .min_by(|a, b| a.cost().total_cmp(&b.cost()))
    }

    /// The best in each part of the neck; none where positions are asked for anyway.
    fn parts_of_the_neck(&self) -> impl Iterator<Item = Fingering> {
        let whole = !self.query.asks_for_positions();
        let last = if whole { self.neck.tuning().last_fret().number() } else { 0 };
        (1..=last).step_by(usize::from(PART)).filter_map(move |first| {
            let low = HandPosition::new(first)?;
            let high = HandPosition::new((first + PART - 1).min(last))?;
            let way = self.under(&self.query.in_positions(low, high), Why::Positions(low, high))?;
            way.stays_within(low, high).then_some(way)
        })
    }

    /// Adds the next cheapest until there are as many as were asked for.
    fn fill(&self, found: &mut Found) -> Result<(), FingeringError> {
        self.query.solve(self.neck, self.line, |moments, rest| {
            // Each of those that are there may come once more.
            let more = Cheapest::new(moments, rest).take(2 * found.count);
            for path in more {
                if found.ways.len() == found.count {
                    break;
                }
                found.add(rest.fingering(&path, Why::NextCheapest));
            }
        })
    }
}
