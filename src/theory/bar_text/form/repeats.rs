//! Repeats and their endings.

use super::super::mark::OpeningMark;
use super::super::pass::Pass;
use super::super::problem::{Problem, Spot};
use super::super::written_bar::WrittenBar;

/// The repeats of a text, and how often each has been heard so far.
pub(super) struct Repeats {
    repeats: Vec<Repeat>,
    /// The repeats by the bars that they begin and end in, for each written bar.
    bars: Vec<Role>,
}

struct Repeat {
    from: usize,
    endings: Vec<Ending>,
    /// The time through that is heard now.
    pass: Pass,
    last_pass: Pass,
}

struct Ending {
    from: usize,
    /// Where among the opening marks of that bar it stands.
    spot: usize,
    first: Pass,
    last: Pass,
    /// The bar that `:|` ends.
    until: Option<usize>,
}

/// What a written bar is to the repeats; each names its repeat.
#[derive(Clone, Copy, Default)]
struct Role {
    /// It begins an ending of this repeat.
    begins_ending: Option<usize>,
    /// `:|` stands at its end.
    ends: Option<usize>,
    /// It lies before the last `:|` of this repeat.
    inside: Option<usize>,
    /// It lies in an ending that is not the last.
    in_early_ending: bool,
}

impl Repeats {
    /// # Errors
    ///
    /// Where `|:`, `:|` and endings do not belong together.
    pub(super) fn of(bars: &[WrittenBar], whole: usize) -> Result<Repeats, Problem> {
        let mut finding = Finding { open: None, floor: Some(whole), repeats: Vec::new() };
        for (index, bar) in bars.iter().enumerate() {
            finding.bar(index, bar)?;
        }
        finding.end()?;
        let repeats = finding.repeats;
        Ok(Repeats {
            bars: roles(&repeats, bars.len()),
            repeats: repeats.into_iter().map(|(repeat, _)| repeat).collect(),
        })
    }

    /// The bar that is heard where the written order asks for this one: an ending is skipped that is
    /// for another time through.
    pub(super) fn enter(&self, at: usize) -> usize {
        let role = self.bars.get(at).copied().unwrap_or_default();
        let Some(repeat) = role.begins_ending.and_then(|index| self.repeats.get(index)) else {
            return at;
        };
        let now = |ending: &&Ending| ending.first <= repeat.pass && repeat.pass <= ending.last;
        repeat.endings.iter().find(now).map_or(at, |ending| ending.from)
    }

    /// Where `:|` at the end of this bar leads back to; `None` where one goes on.
    pub(super) fn leave(&mut self, at: usize) -> Option<usize> {
        let role = self.bars.get(at).copied().unwrap_or_default();
        let repeat = role.ends.and_then(|index| self.repeats.get_mut(index))?;
        if repeat.pass == repeat.last_pass {
            return None;
        }
        repeat.pass = repeat.pass.next();
        Some(repeat.from)
    }

    /// Is this bar heard for the last time, going back apart?
    pub(super) fn is_last_pass(&self, at: usize) -> bool {
        let role = self.bars.get(at).copied().unwrap_or_default();
        let repeat = role.inside.and_then(|index| self.repeats.get(index));
        repeat.is_none_or(|repeat| repeat.pass == repeat.last_pass)
    }

    /// Does it lie in an ending that is not the last?
    pub(super) fn is_in_early_ending(&self, at: usize) -> bool {
        self.bars.get(at).is_some_and(|role| role.in_early_ending)
    }
}

fn roles(repeats: &[(Repeat, usize)], bars: usize) -> Vec<Role> {
    let mut roles = vec![Role::default(); bars];
    for (index, (repeat, until)) in repeats.iter().enumerate() {
        for role in roles.iter_mut().take(until + 1).skip(repeat.from) {
            role.inside = Some(index);
        }
        if let Some(role) = roles.get_mut(*until) {
            role.ends = Some(index);
        }
        for ending in &repeat.endings {
            if let Some(role) = roles.get_mut(ending.from) {
                role.begins_ending = Some(index);
            }
            let Some(until) = ending.until else { continue };
            for role in roles.iter_mut().take(until + 1).skip(ending.from) {
                role.in_early_ending = true;
            }
            if let Some(role) = roles.get_mut(until) {
                role.ends = Some(index);
            }
        }
    }
    roles
}

/// The repeats while bar after bar is looked at.
struct Finding {
    open: Option<Open>,
    /// Where `:|` goes back to without a `|:`; `None` after endings, of which the last has no end,
    /// and in the coda, which no repeat leaves.
    floor: Option<usize>,
    /// Each with its last bar that `:|` ends.
    repeats: Vec<(Repeat, usize)>,
}

struct Open {
    from: usize,
    endings: Vec<Ending>,
}

impl Open {
    /// The last ending, if `:|` has ended it.
    fn ended(&self) -> Option<&Ending> {
        self.endings.last().filter(|ending| ending.until.is_some())
    }

    fn next_pass(&self) -> Pass {
        self.endings.last().map_or(Pass::FIRST, |ending| ending.last.next())
    }
}

impl Finding {
    fn bar(&mut self, index: usize, bar: &WrittenBar) -> Result<(), Problem> {
        let mut endings = bar.endings().peekable();
        if endings.peek().is_none() {
            self.refuse_a_missing_ending()?;
        }
        if bar.opening.contains(&OpeningMark::Coda) {
            self.floor = None;
        }
        if bar.repeat_begins {
            self.begin(index)?;
        }
        if endings.peek().is_some() {
            self.ending(index, endings)?;
        }
        match bar.repeat_ends {
            Some(last) => self.close(index, last),
            None => Ok(()),
        }
    }

    /// After an ending with `:|` another one has to come.
    fn refuse_a_missing_ending(&self) -> Result<(), Problem> {
        let Some(open) = &self.open else { return Ok(()) };
        let Some(until) = open.ended().and_then(|ending| ending.until) else { return Ok(()) };
        let next = open.next_pass();
        let expected = format!("a {next}. ending after this :|, or a |: where its repeat begins");
        Err(Problem::new(until, Spot::End, expected))
    }

    fn begin(&mut self, index: usize) -> Result<(), Problem> {
        self.finish()?;
        self.open = Some(Open { from: index, endings: Vec::new() });
        Ok(())
    }

    fn ending(
        &mut self,
        index: usize,
        passes: impl Iterator<Item = (usize, Pass)>,
    ) -> Result<(), Problem> {
        let floor = self.floor;
        for (count, (spot, pass)) in passes.enumerate() {
            let wrong = |expected: String| Problem::new(index, Spot::Opening(spot), expected);
            let open = match (&mut self.open, floor) {
                (Some(open), _) => open,
                (open, Some(from)) => open.insert(Open { from, endings: Vec::new() }),
                (None, None) => return Err(wrong(WHERE_IT_BEGINS.to_owned())),
            };
            if count == 0 && !open.endings.is_empty() && open.ended().is_none() {
                return Err(wrong("a :| at the end of the ending before".to_owned()));
            }
            let next = open.next_pass();
            if pass != next {
                return Err(wrong(format!("{next}.: endings are counted from 1")));
            }
            match open.endings.last_mut() {
                Some(ending) if count > 0 => ending.last = pass,
                _ => open.endings.push(Ending {
                    from: index,
                    spot,
                    first: pass,
                    last: pass,
                    until: None,
                }),
            }
        }
        self.floor = None;
        Ok(())
    }

    fn close(&mut self, index: usize, last: Pass) -> Result<(), Problem> {
        let wrong = |expected: &'static str| Problem::new(index, Spot::End, expected);
        match self.open.as_mut().map(|open| (open.from, open.endings.last_mut())) {
            Some((_, Some(_))) if last != Pass::SECOND => {
                Err(wrong(":| without a number, as the endings say how often"))
            }
            Some((_, Some(ending))) => {
                ending.until = Some(index);
                Ok(())
            }
            open => {
                let from = open.map(|(from, _)| from).or(self.floor);
                let from = from.filter(|from| *from <= index);
                let from = from.ok_or_else(|| wrong(WHERE_IT_BEGINS))?;
                let repeat =
                    Repeat { from, endings: Vec::new(), pass: Pass::FIRST, last_pass: last };
                self.repeats.push((repeat, index));
                self.open = None;
                self.floor = Some(index + 1);
                Ok(())
            }
        }
    }

    /// The open repeat has no more bars.
    fn finish(&mut self) -> Result<(), Problem> {
        let Some(open) = self.open.take() else { return Ok(()) };
        let Some((last, before)) = open.endings.split_last() else {
            let expected = "a :| for this |: before another one and before the end";
            return Err(Problem::new(open.from, Spot::Beginning, expected));
        };
        let wrong = |expected: String| Problem::new(last.from, Spot::Opening(last.spot), expected);
        let Some(until) = before.last().and_then(|ending| ending.until) else {
            return Err(wrong(format!(
                "a :| at the end of this ending and a {}. after it",
                last.last.next()
            )));
        };
        if last.first != last.last {
            return Err(wrong("one number, as the last ending is heard once".to_owned()));
        }
        let last_pass = last.last;
        let repeat =
            Repeat { from: open.from, endings: open.endings, pass: Pass::FIRST, last_pass };
        self.repeats.push((repeat, until));
        Ok(())
    }

    fn end(&mut self) -> Result<(), Problem> {
        self.refuse_a_missing_ending()?;
        self.finish()
    }
}

const WHERE_IT_BEGINS: &str = "a |: where this repeat begins";
