//! Bars written out again: four in a line, a new line where a section begins.

use std::fmt;

use super::pass::Pass;
use super::pick_up::PickUp;
use super::written_bar::{BarContent, BeatSign, WrittenBar, WrittenChord};
/// How many bars stand in a line.
const BARS_A_LINE: usize = 4;

/// What is printed, `comments` after the last bar.
pub(super) struct Printed<'a> {
    pub(super) pick_up: Option<PickUp>,
    pub(super) bars: &'a [WrittenBar],
    pub(super) comments: &'a [Box<str>],
}

impl fmt::Display for Printed<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut in_line = 0;
        for (index, bar) in self.bars.iter().enumerate() {
            let before = index.checked_sub(1).and_then(|index| self.bars.get(index));
            let breaks = !bar.comments.is_empty()
                || bar.section().is_some()
                || in_line + bar.heard_bars() > BARS_A_LINE;
            match before {
                Some(before) if breaks => {
                    writeln!(f, " {}", end_of(before))?;
                    in_line = 0;
                }
                Some(before) => write!(f, " {} ", between(before, bar))?,
                None => {}
            }
            write_comments(f, &bar.comments)?;
            if let (None, Some(pick_up)) = (before, self.pick_up) {
                write!(f, "pickup={pick_up} ")?;
            }
            if before.is_none() || breaks {
                f.write_str(beginning_of(bar))?;
                f.write_str(" ")?;
            }
            bar.fmt(f)?;
            // A pick-up is none of the four.
            in_line +=
                if before.is_none() && self.pick_up.is_some() { 0 } else { bar.heard_bars() };
        }
        if let Some(last) = self.bars.last() {
            write!(f, " {}", end_of(last))?;
        }
        for comment in self.comments {
            write!(f, "\n# {comment}")?;
        }
        Ok(())
    }
}

fn write_comments(f: &mut fmt::Formatter<'_>, comments: &[Box<str>]) -> fmt::Result {
    comments.iter().try_for_each(|comment| writeln!(f, "# {comment}"))
}

fn beginning_of(bar: &WrittenBar) -> &'static str {
    if bar.repeat_begins { "|:" } else { "|" }
}

fn end_of(bar: &WrittenBar) -> String {
    match bar.repeat_ends {
        None => "|".to_owned(),
        Some(Pass::SECOND) => ":|".to_owned(),
        Some(last) => format!(":|{last}"),
    }
}

fn between(bar: &WrittenBar, next: &WrittenBar) -> String {
    match (bar.repeat_ends, next.repeat_begins) {
        (None, true) => "|:".to_owned(),
        (Some(Pass::SECOND), true) => ":|:".to_owned(),
        (Some(_), true) => format!("{} |:", end_of(bar)),
        (None | Some(_), false) => end_of(bar),
    }
}

impl fmt::Display for WrittenBar {
    /// What stands between the bar lines.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for mark in &self.opening {
            write!(f, "{mark} ")?;
        }
        self.content.fmt(f)?;
        self.closing.iter().try_for_each(|mark| write!(f, " {mark}"))
    }
}

impl WrittenBar {
    /// How it is typed on a line of its own, where only the bar lines of repeats are written:
    /// `|: Dm7 G7`, `Cmaj7 :|`.
    pub(crate) fn on_its_line(&self) -> String {
        let begins = if self.repeat_begins { "|: " } else { "" };
        match self.repeat_ends {
            Some(_) => format!("{begins}{self} {}", end_of(self)),
            None => format!("{begins}{self}"),
        }
    }
}

impl fmt::Display for BarContent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BarContent::Shared(chords) => spaced(f, chords),
            BarContent::Beats(signs) => spaced(f, signs),
            BarContent::BarBefore => f.write_str("%"),
            BarContent::TwoBarsBefore => f.write_str("%%"),
            BarContent::Unread(bar) => bar.fmt(f),
        }
    }
}

fn spaced<T: fmt::Display>(f: &mut fmt::Formatter<'_>, all: &[T]) -> fmt::Result {
    for (index, one) in all.iter().enumerate() {
        if index > 0 {
            f.write_str(" ")?;
        }
        one.fmt(f)?;
    }
    Ok(())
}

impl fmt::Display for BeatSign {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BeatSign::Chord(chord) => chord.fmt(f),
            BeatSign::Slash => f.write_str("/"),
        }
    }
}

impl fmt::Display for WrittenChord {
    /// `G7`, `(G7)`
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.optional {
            return self.symbol.fmt(f);
        }
        f.write_str("(")?;
        self.symbol.fmt(f)?;
        f.write_str(")")
    }
}
