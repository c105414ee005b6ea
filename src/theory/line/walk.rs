//! From rung to rung: which inversion each group is played on.

use super::error::LineError;
use super::group::Group;
use super::phrase::{Link, Travel};
use super::reach::Reach;
use super::rung::Rung;
use crate::{Direction, Pitch, TriadPair, Turn, WhichTriad};

/// Where the groups of a phrase may go.
#[derive(Clone, Copy)]
pub(super) struct Walk<'a> {
    pub(super) phrase: usize,
    pub(super) pair: TriadPair,
    pub(super) travel: Travel,
    pub(super) reach: &'a Reach,
    pub(super) groups: &'a [Group],
}

/// How a walk begins, and where it turns without need.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Course {
    pub(super) start: Rung,
    pub(super) direction: Direction,
    /// Before which group it turns.
    pub(super) turns_at: Option<usize>,
}

/// The rungs of a walk, one a group.
pub(super) struct Walked {
    pub(super) rungs: Vec<Rung>,
    /// How many times it turned where it had to.
    pub(super) turns: usize,
    pub(super) direction: Direction,
}

/// Where the walk is.
struct Here {
    rung: Rung,
    last_note: Option<Pitch>,
    direction: Direction,
    turns: usize,
    /// The two shapes between which a phrase stays.
    shapes: [Option<Rung>; 2],
}

impl Walk<'_> {
    /// Walks a course.
    pub(super) fn along(&self, course: Course) -> Result<Walked, LineError> {
        let mut rungs: Vec<Rung> = Vec::with_capacity(self.groups.len());
        let mut here: Option<Here> = None;
        for (index, group) in self.groups.iter().enumerate() {
            let mut now = match here {
                None => Here::at(course),
                Some(last) => self.step(last, group, course.turns_at == Some(index))?,
            };
            now.last_note = group.last_note(now.rung, self.pair);
            now.shapes[slot(now.rung.which)] = Some(now.rung);
            rungs.push(now.rung);
            here = Some(now);
        }
        let (turns, direction) =
            here.map_or((0, course.direction), |here| (here.turns, here.direction));
        Ok(Walked { rungs, turns, direction })
    }

    fn step(&self, mut here: Here, group: &Group, turns: bool) -> Result<Here, LineError> {
        if turns {
            here.direction = here.direction.other();
        }
        let stays = group.turn == Turn::Same && group.which == here.rung.which;
        if stays && self.fits(group, here.rung) {
            return Ok(here);
        }
        let next = match self.travel {
            Travel::Ladder(_) | Travel::Arc => self.on_the_ladder(&here, group),
            Travel::Linked(link, _) => self.linked(&here, group, link),
            Travel::Stay => here.shapes[slot(group.which)]
                .filter(|rung| self.fits(group, *rung))
                .map(|rung| (rung, here.direction))
                .or_else(|| self.on_the_ladder(&here, group)),
        };
        let (rung, direction) = next.ok_or_else(|| self.no_shape(group))?;
        here.turns += usize::from(direction != here.direction);
        Ok(Here { rung, direction, ..here })
    }

    /// The next rung that way; at the end the next one the other way; where neither has all the
    /// notes, the nearest that has.
    fn on_the_ladder(&self, here: &Here, group: &Group) -> Option<(Rung, Direction)> {
        let (ahead, back) = (here.direction, here.direction.other());
        let next = |way| self.beyond(here.rung, group.which, way).next();
        let fitting = |way| self.beyond(here.rung, group.which, way).find(|r| self.fits(group, *r));
        let with = |way| move |rung| (rung, way);
        let next_fits = |way| next(way).filter(|rung| self.fits(group, *rung)).map(with(way));
        next_fits(ahead)
            .or_else(|| next_fits(back))
            .or_else(|| fitting(ahead).map(with(ahead)))
            .or_else(|| fitting(back).map(with(back)))
    }

    /// The inversions of a triad above a rung going up, or below it going down, the nearest first.
    fn beyond(
        &self,
        here: Rung,
        which: WhichTriad,
        way: Direction,
    ) -> Box<dyn Iterator<Item = Rung>> {
        let all = Rung::all(self.pair, which);
        match way {
            Direction::Up => Box::new(all.filter(move |rung| rung.bass > here.bass)),
            Direction::Down => Box::new(all.rev().filter(move |rung| rung.bass < here.bass)),
        }
    }

    /// The rung on which the group begins with the note that the link asks for.
    fn linked(&self, here: &Here, group: &Group, link: Link) -> Option<(Rung, Direction)> {
        let last = here.last_note?;
        let landings = Rung::all(self.pair, group.which).filter(|rung| self.fits(group, *rung));
        let steps = |rung: &Rung| Some(last.semitones_up_to(group.first_note(*rung, self.pair)?));
        let landings: Vec<(i32, Rung)> =
            landings.filter_map(|rung| Some((steps(&rung)?, rung))).collect();
        let nearest = |wanted: &dyn Fn(i32) -> bool| {
            let wanted = landings.iter().filter(|(by, _)| *by != 0 && wanted(*by));
            let ahead = |by: i32| match here.direction {
                Direction::Up => by > 0,
                Direction::Down => by < 0,
            };
            wanted.min_by_key(|(by, _)| (by.abs(), !ahead(*by))).map(|(_, rung)| *rung)
        };
        let wanted = match link {
            Link::Below => nearest(&|by| by < 0),
            Link::Above => nearest(&|by| by > 0),
            Link::Nearest => None,
        };
        let (rung, turned) = match wanted {
            Some(rung) => (rung, false),
            None => (nearest(&|_| true)?, link != Link::Nearest),
        };
        Some((rung, if turned { here.direction.other() } else { here.direction }))
    }

    pub(super) fn fits(&self, group: &Group, rung: Rung) -> bool {
        rung.which == group.which && group.fits(rung, self.pair, self.reach)
    }

    pub(super) fn no_shape(&self, group: &Group) -> LineError {
        let (phrase, which) = (self.phrase, group.which);
        LineError::NoShape { phrase, which, figures: group.written() }
    }
}

impl Here {
    fn at(course: Course) -> Here {
        let Course { start, direction, .. } = course;
        Here { rung: start, last_note: None, direction, turns: 0, shapes: [None; 2] }
    }
}

const fn slot(which: WhichTriad) -> usize {
    match which {
        WhichTriad::First => 0,
        WhichTriad::Second => 1,
    }
}
