//! Which course a phrase takes.

use super::error::LineError;
use super::event::Events;
use super::group::Group;
use super::landing::Landing;
use super::phrase::{Begin, Phrase, Start, Target, Travel};
use super::reach::Reach;
use super::rung::Rung;
use super::slots::Slots;
use super::walk::{Course, Walk};
use crate::{Direction, Pitch, TriadPair};

/// How many places to begin are tried for a target.
const STARTS: usize = 12;
/// How many groups before a target may be the first that goes the other way.
const LAST_GROUPS: usize = 16;

/// The best course of a phrase: its events, where it was going at the end, and how it lands.
pub(super) struct Chosen {
    pub(super) events: Events,
    pub(super) direction: Direction,
    pub(super) turns: usize,
    pub(super) landing: Option<Landing>,
}

/// What a phrase may do.
pub(super) struct Courses<'a> {
    pub(super) index: usize,
    pub(super) phrase: &'a Phrase,
    pub(super) slots: &'a Slots,
    pub(super) reach: &'a Reach,
    /// The note before, and where it was going.
    pub(super) before: Option<Pitch>,
    pub(super) direction: Option<Direction>,
}

impl Courses<'_> {
    pub(super) fn best(&self) -> Result<Chosen, LineError> {
        let groups = Group::all(self.slots);
        let Some(first) = groups.first() else { return Ok(self.silent()) };
        let starts = self.starts(first)?;
        let is_free = self.phrase.target.is_none() && self.phrase.travel != Travel::Arc;
        if is_free {
            let start = *starts.first().ok_or_else(|| self.walk(&groups).no_shape(first))?;
            return self.along(&groups, Course { start, direction: self.way(), turns_at: None });
        }
        self.least(&groups, &starts)
    }

    /// The course with the least cost among those that do what is asked for.
    fn least(&self, groups: &[Group], starts: &[Rung]) -> Result<Chosen, LineError> {
        let mut best: Option<(i32, Chosen)> = None;
        let mut failed: Option<LineError> = None;
        for (rank, start) in (0..).zip(starts.iter().take(STARTS)) {
            for (detour, direction, turns_at) in self.ways(groups.len()) {
                let course = Course { start: *start, direction, turns_at };
                match self.along(groups, course) {
                    Ok(chosen) => {
                        let landing = chosen.landing.as_ref().map_or(0, |landing| landing.cost);
                        let cost = 4 * landing + rank + detour;
                        if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                            best = Some((cost, chosen));
                        }
                    }
                    Err(error) => failed = failed.or(Some(error)),
                }
            }
        }
        let nothing = || failed.unwrap_or(LineError::NoTarget { phrase: self.index });
        best.map(|(_, chosen)| chosen).ok_or_else(nothing)
    }

    /// The ways that may be taken, each with what it costs to go that way.
    fn ways(&self, groups: usize) -> Vec<(i32, Direction, Option<usize>)> {
        let way = self.way();
        if self.phrase.travel == Travel::Arc {
            // The highest group is the last one before the turn.
            return (1..groups).map(|turn| (0, way, Some(turn))).collect();
        }
        let first = groups.saturating_sub(LAST_GROUPS).max(1);
        let turns = || (first..groups).map(Some);
        let ahead = turns().map(|turn| (2, way, turn));
        let back = turns().map(|turn| (5, way.other(), turn));
        let mut ways = vec![(0, way, None)];
        ways.extend(ahead);
        if self.phrase.begin == Begin::Again {
            ways.push((3, way.other(), None));
            ways.extend(back);
        }
        ways
    }

    fn along(&self, groups: &[Group], course: Course) -> Result<Chosen, LineError> {
        let walked = self.walk(groups).along(course)?;
        let events = Events::of(self.slots, groups, &walked.rungs, self.phrase.pair);
        if self.phrase.travel == Travel::Arc && !self.is_arc(&events) {
            return Err(LineError::NoArc { phrase: self.index });
        }
        let landing = match &self.phrase.target {
            Some(target) => Some(self.landing(target, &events)?),
            None => None,
        };
        let (direction, turns) = (walked.direction, walked.turns);
        Ok(Chosen { events, direction, turns, landing })
    }

    fn landing(&self, target: &Target, events: &Events) -> Result<Landing, LineError> {
        let heard = events.heard();
        let scale = self.phrase.over.scale().set();
        let landing = Landing::best(target, &heard, scale, self.reach);
        landing.ok_or_else(|| {
            let (phrase, wanted) = (self.index, target.approach.notes());
            let has_room = heard.len() > wanted;
            if has_room {
                LineError::NoTarget { phrase }
            } else {
                LineError::NoRoom { phrase, wanted }
            }
        })
    }

    /// Is there one highest note, in the third quarter of the notes?
    fn is_arc(&self, events: &Events) -> bool {
        let heard = events.heard();
        let highest = heard.iter().flatten().max();
        let mut at = heard.iter().enumerate().filter(|(_, pitch)| pitch.as_ref() == highest);
        let (first, another) = (at.next(), at.next());
        let third_quarter = heard.len() / 2..(heard.len() * 3).div_ceil(4);
        another.is_none() && first.is_some_and(|(index, _)| third_quarter.contains(&index))
    }

    /// Where it may begin, what is preferred first.
    fn starts(&self, first: &Group) -> Result<Vec<Rung>, LineError> {
        let pair = self.phrase.pair;
        let fitting =
            || Rung::all(pair, first.which).filter(|rung| first.fits(*rung, pair, self.reach));
        let start = match self.phrase.begin {
            Begin::Again => self.phrase.start,
            Begin::RunsOn => Start::FromBefore,
        };
        let (phrase, which) = (self.index, first.which);
        let no_start = |inversion| LineError::NoStart { phrase, which, inversion };
        match start {
            Start::Lowest(inversion) => {
                let rung = fitting().find(|rung| rung.inversion(pair) == Some(inversion));
                rung.map(|rung| vec![rung]).ok_or_else(|| no_start(Some(inversion)))
            }
            Start::Bass(bass) => {
                let rung = fitting().find(|rung| rung.bass == bass);
                rung.map(|rung| vec![rung]).ok_or_else(|| no_start(None))
            }
            Start::Near(pitch) => Ok(self.nearest(fitting().collect(), first, pitch)),
            Start::FromBefore => {
                let mut starts: Vec<Rung> = fitting().collect();
                match self.before.or_else(|| self.middle(&starts)) {
                    Some(pitch) => starts = self.nearest(starts, first, pitch),
                    None => starts.clear(),
                }
                Ok(starts)
            }
        }
    }

    /// Those whose first note is nearest to a pitch first; one that repeats it comes after those
    /// that a step leads to.
    fn nearest(&self, mut starts: Vec<Rung>, first: &Group, pitch: Pitch) -> Vec<Rung> {
        let is_repeat = |by: i32| by == 0 && self.before == Some(pitch);
        starts.sort_by_key(|rung| {
            let by = first.first_note(*rung, self.phrase.pair);
            let by = by.map_or(i32::MAX / 2, |note| pitch.semitones_up_to(note));
            let ahead = match self.way() {
                Direction::Up => by > 0,
                Direction::Down => by < 0,
            };
            (if is_repeat(by) { 3 } else { by.abs() }, !ahead)
        });
        starts
    }

    fn middle(&self, starts: &[Rung]) -> Option<Pitch> {
        starts.get(starts.len() / 2).map(|rung| rung.bass)
    }

    fn way(&self) -> Direction {
        let own = self.phrase.travel.direction();
        match self.phrase.begin {
            Begin::Again => own,
            Begin::RunsOn => self.direction.unwrap_or(own),
        }
    }

    fn walk<'b>(&'b self, groups: &'b [Group]) -> Walk<'b> {
        let (pair, travel): (TriadPair, Travel) = (self.phrase.pair, self.phrase.travel);
        Walk { phrase: self.index, pair, travel, reach: self.reach, groups }
    }

    /// A phrase in which no group sounds.
    fn silent(&self) -> Chosen {
        let events = Events::of(self.slots, &[], &[], self.phrase.pair);
        Chosen { events, direction: self.way(), turns: 0, landing: None }
    }
}
