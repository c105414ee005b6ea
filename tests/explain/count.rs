//! What was read beside what was meant, counted.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use fretloom_theory::{ExplainedBar, Explanation, NamedPitch, Pitch, PitchClass, TriadPair};

use crate::evident::{in_groups, is_evident, pieces};
use crate::generator::{MeantBar, Tune, What};
use crate::grid::{QUARTER, quarters};
use crate::line::Line;
use crate::other_lines::Manner;
use crate::pair_lines::Meant;
use crate::teacher::named;

/// Counted over bars and notes.
#[derive(Default)]
pub(crate) struct Count {
    pub(crate) bars: usize,
    pub(crate) evident: Share,
    /// Bars of pairs that got a pair that cuts them into more pieces.
    pub(crate) worse: Share,
    /// Bars of pairs, evident or not, that got theirs or one as short.
    pub(crate) pairs: Share,
    /// Bars of other things that got a pair.
    pub(crate) others: Share,
    pub(crate) of_manners: BTreeMap<Manner, Share>,
    /// Free notes told as free.
    pub(crate) free: Share,
    /// Notes of groups told as notes of their triad, in bars whose pair was told.
    pub(crate) grouped: Share,
    /// Groups before their bar, or after it, told as of their chord.
    pub(crate) shifted: Share,
    /// What went wrong, as notes and chords.
    pub(crate) failures: Vec<String>,
}

#[derive(Clone, Copy, Default)]
pub(crate) struct Share {
    pub(crate) part: usize,
    pub(crate) of: usize,
}

impl Share {
    pub(crate) fn add(&mut self, counts: bool) {
        self.part += usize::from(counts);
        self.of += 1;
    }

    pub(crate) fn percent(self) -> f64 {
        100.0 * self.part as f64 / self.of.max(1) as f64
    }
}

impl fmt::Display for Share {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.2} % of {}", self.percent(), self.of)
    }
}

/// How a pair that was told compares with the pair that was meant.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Told {
    Same,
    AsShort,
    Worse,
    /// As short, but the pair that was meant is not named beside it.
    Alone,
    None,
}

impl Count {
    /// Explains a tune and counts.
    pub(crate) fn add(&mut self, tune: &Tune) {
        let explanation = Explanation::of(&tune.score, &tune.score.parts[0]);
        let free: BTreeSet<usize> =
            explanation.bars.iter().flat_map(|bar| bar.free.iter().copied()).collect();
        let in_groups = in_groups(tune);
        for bar in &tune.bars {
            let told = told_at(&explanation, bar);
            self.bars += 1;
            match &bar.what {
                What::Other(manner) => self.add_other(*manner, bar, told, tune),
                What::Pair(meant) => {
                    let is_evident = is_evident(meant, &tune.line, &in_groups);
                    self.add_pair(is_evident, meant, bar, told, tune);
                    self.add_notes(meant, &free);
                }
            }
        }
    }

    fn add_other(&mut self, manner: Manner, bar: &MeantBar, told: &ExplainedBar, tune: &Tune) {
        self.others.add(told.pair.is_some());
        self.of_manners.entry(manner).or_default().add(told.pair.is_some());
        if told.pair.is_some() {
            self.fail(&format!("{manner:?}, no pair"), bar, told, &tune.line);
        }
    }

    fn add_pair(
        &mut self,
        is_evident: bool,
        meant: &Meant,
        bar: &MeantBar,
        told: &ExplainedBar,
        tune: &Tune,
    ) {
        let how = compared(meant, bar, told, &tune.line);
        let right = matches!(how, Told::Same | Told::AsShort);
        if matches!(how, Told::Same | Told::None) {
            self.add_groups(meant, bar, told, &tune.line);
        }
        self.pairs.add(right);
        self.worse.add(how == Told::Worse);
        if is_evident {
            self.evident.add(right);
        }
        if is_evident && !right || how == Told::Worse {
            let evident = if is_evident { "evident" } else { "not evident" };
            self.fail(&format!("{}, {evident}", named(pair_of(meant))), bar, told, &tune.line);
        }
    }

    fn add_groups(&mut self, meant: &Meant, bar: &MeantBar, told: &ExplainedBar, line: &Line) {
        let end = bar.to;
        for group in &meant.groups {
            let set = meant.triads[group.which].triad().set();
            let alike = told.groups.iter().filter(|told| told.triad.set() == set);
            let alike: BTreeSet<usize> =
                alike.flat_map(|told| told.notes.iter().copied()).collect();
            let said = group.notes.iter().map(|note| alike.contains(note));
            if told.pair.is_some() {
                said.clone().for_each(|said| self.grouped.add(said));
            }
            let mut onsets = group.notes.iter().map(|note| line.onset(*note));
            if onsets.clone().any(|onset| onset < bar.from) || onsets.all(|onset| onset >= end) {
                self.shifted.add(said.into_iter().all(|said| said));
            }
        }
    }

    fn add_notes(&mut self, meant: &Meant, free: &BTreeSet<usize>) {
        for note in &meant.free {
            self.free.add(free.contains(note));
        }
    }

    fn fail(&mut self, meant: &str, bar: &MeantBar, told: &ExplainedBar, line: &Line) {
        let told = told.pair.map_or("none".to_owned(), named);
        let (symbol, notes) = (&bar.symbol, in_words(bar, line));
        self.failures.push(format!("{symbol}: {notes}\n    meant {meant}; told {told}"));
    }
}

impl fmt::Display for Count {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "bars                             {}", self.bars)?;
        writeln!(f, "evident, pair or as short told   {}", self.evident)?;
        writeln!(f, "all of pairs, the same           {}", self.pairs)?;
        writeln!(f, "of pairs, a worse one told       {}", self.worse)?;
        writeln!(f, "of others, a pair told           {}", self.others)?;
        for (manner, share) in &self.of_manners {
            writeln!(f, "  {:30} {share}", format!("{manner:?}"))?;
        }
        writeln!(f, "free notes told as free          {}", self.free)?;
        writeln!(f, "notes of groups, of their triad  {}", self.grouped)?;
        writeln!(f, "groups early or late, of theirs  {}", self.shifted)
    }
}

/// The notes of a bar, free ones in brackets, after the beat that they begin on.
fn in_words(bar: &MeantBar, line: &Line) -> String {
    let free = match &bar.what {
        What::Pair(meant) => meant.free.as_slice(),
        What::Other(_) => &[],
    };
    let name = |note: &usize| {
        let pitch = Pitch::from_midi(u8::try_from(line.pitch(*note)).unwrap()).unwrap();
        let name = format!("{:#}", NamedPitch::everyday(pitch));
        if free.contains(note) { format!("({name})") } else { name }
    };
    let names: Vec<String> = bar.notes.iter().map(name).collect();
    let first = bar.notes.first().map_or(bar.from, |note| line.onset(*note));
    let beat = 1.0 + (f64::from(first) - f64::from(bar.from)) / f64::from(QUARTER);
    format!("from beat {beat}: {}", names.join(" "))
}

/// The entry of a bar. Chords a hair before the bar line are those of the bar.
fn told_at<'a>(explanation: &'a Explanation, bar: &MeantBar) -> &'a ExplainedBar {
    let near = quarters(1);
    let begins = |told: &&ExplainedBar| {
        told.from.checked_add(near) >= Some(quarters(bar.from))
            && told.from <= quarters(bar.from + 1)
    };
    let mut told = explanation.bars.iter().filter(begins);
    told.next().unwrap_or_else(|| panic!("no entry at {} of {}", bar.from, bar.symbol))
}

fn compared(meant: &Meant, bar: &MeantBar, told: &ExplainedBar, line: &Line) -> Told {
    let Some(pair) = told.pair else { return Told::None };
    let pair_meant = pair_of(meant);
    if is_same(pair, pair_meant) {
        return Told::Same;
    }
    let is_named = told.readings.iter().any(|reading| is_same(*reading, pair_meant));
    if pieces(pair, &bar.notes, line) > pieces(pair_meant, &bar.notes, line) {
        Told::Worse
    } else if is_named {
        Told::AsShort
    } else {
        Told::Alone
    }
}

pub(crate) fn pair_of(meant: &Meant) -> TriadPair {
    let [first, second] = meant.triads.map(|triad| triad.triad());
    TriadPair::new(first, second, PitchClass::C).unwrap()
}

/// Do both sound alike, whichever triad is named first?
pub(crate) fn is_same(one: TriadPair, other: TriadPair) -> bool {
    let sets = |pair: TriadPair| {
        let mut sets = pair.triads().map(|triad| triad.set().bits());
        sets.sort_unstable();
        sets
    };
    sets(one) == sets(other)
}
