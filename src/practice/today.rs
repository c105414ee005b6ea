//! The list of a day: finite, mixed, and made of what is due.

use std::collections::HashMap;

use jiff::civil::Date;

use super::ladder::TempoLadder;
use super::rules::PracticeRules;
use super::units::units;
use crate::store::{Beats, Keeper, KeeperId, TriedBy, Try, Unit, Verdict};

/// What is to be practised on a day, turn by turn.
#[derive(Clone, PartialEq, Debug)]
pub struct Today {
    /// The day.
    pub day: Date,
    /// The turns. No thing comes twice in a row where there is another one.
    pub turns: Vec<Turn>,
}

/// A few minutes with one thing in one key.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Turn {
    /// The keeper.
    pub keeper: KeeperId,
    /// What of it.
    pub unit: Unit,
    /// Why today.
    pub why: Why,
    /// How fast the first try is.
    pub tempo: Beats,
    /// Is a rest proposed before it?
    pub after_rest: bool,
    /// Has it been got today?
    pub is_done: bool,
}

/// Why something is practised today.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Why {
    /// It has been due since that day.
    Due(Date),
    /// It is the next key, string set or limit of something that was begun.
    Next,
    /// It was never tried.
    New,
}

impl Today {
    /// The list of a day.
    ///
    /// First comes what is due, the longest first; then something new; then what comes next of things that
    /// were begun. There are no more things, keys and minutes than the rules say, and the keys of a
    /// thing do not follow one another but take turns with those of the others.
    ///
    /// What is tried on the day itself has no say in what is on its list: so the list stays the same all day,
    /// and its turns are done one by one.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::practice::{PracticeRules, Today, Why};
    /// use fretloom::store::{Keeper, KeeperId, Kept, NewKeeper};
    /// use jiff::civil::date;
    ///
    /// let kept = Kept { chord: Some("Dm7".to_owned()), ..Kept::default() };
    /// let new = NewKeeper { kept, ..NewKeeper::default() };
    /// let keepers = [Keeper::new(KeeperId::new(1).unwrap(), new)];
    /// let today = Today::of(&keepers, &PracticeRules::default(), date(2026, 5, 4));
    /// let keys: Vec<u8> = today.turns.iter().map(|turn| turn.unit.key.semitones()).collect();
    /// assert_eq!(keys, [0, 5, 10]);
    /// assert_eq!(today.turns[0].why, Why::New);
    /// ```
    #[must_use]
    pub fn of(keepers: &[Keeper], rules: &PracticeRules, day: Date) -> Today {
        let mut found: Vec<Candidate<'_>> =
            keepers.iter().filter_map(|keeper| Candidate::of(keeper, rules, day)).collect();
        // Sorting keeps the player's order of equals.
        found.sort_by_key(Candidate::rank);
        let mut new = 0;
        found.retain(|candidate| {
            new += u8::from(candidate.is_new);
            !candidate.is_new || new <= rules.new
        });
        found.truncate(rules.items.into());
        let longest = found.iter().map(|candidate| candidate.units.len()).max().unwrap_or(0);
        let rounds = (0..longest).flat_map(|round| {
            found.iter().filter_map(move |it| Some((it.keeper, it.units.get(round)?)))
        });
        let turns = rounds.take(rules.turns()).scan(0, |since_rest, (keeper, (why, unit))| {
            let after_rest = rules.proposes_rest(*since_rest);
            *since_rest = if after_rest { 0 } else { *since_rest };
            *since_rest += u16::from(rules.turn_minutes);
            let ladder = TempoLadder::going_on(rules.ladder, &keeper.practice, unit);
            let got_today = |tried: &Try| tried.on == day && tried.verdict == Verdict::Got;
            Some(Turn {
                keeper: keeper.id,
                unit: unit.clone(),
                why: *why,
                tempo: ladder.tempo(),
                after_rest,
                is_done: keeper.practice.tries_of(unit).any(got_today),
            })
        });
        Today { day, turns: turns.collect() }
    }
}

/// A keeper that has something for this day.
struct Candidate<'a> {
    keeper: &'a Keeper,
    /// At least one.
    units: Vec<(Why, Unit)>,
    is_new: bool,
    /// The last day before this one on which it was practised.
    last: Option<Date>,
}

impl<'a> Candidate<'a> {
    fn of(keeper: &'a Keeper, rules: &PracticeRules, day: Date) -> Option<Candidate<'a>> {
        let tries = keeper.practice.tries.iter();
        let tries = tries.filter(|tried| tried.unit.by == TriedBy::Hand && tried.on != day);
        let last: HashMap<&Unit, &Try> = tries.map(|tried| (&tried.unit, tried)).collect();
        let is_new = last.is_empty();
        let why = |unit: &Unit| match last.get(unit) {
            None if is_new => Some(Why::New),
            None => Some(Why::Next),
            Some(tried) => tried.next.filter(|due| *due <= day).map(Why::Due),
        };
        let units = units(keeper, rules.key_order).into_iter();
        let mut found: Vec<(Why, Unit)> =
            units.filter_map(|unit| Some((why(&unit)?, unit))).collect();
        // What is due comes first, the longest first.
        found.sort_by_key(|(why, _)| *why);
        let units = in_few_keys(found, rules.keys.into());
        let last = last.values().map(|tried| tried.on).max();
        (!units.is_empty()).then_some(Candidate { keeper, units, is_new, last })
    }

    /// What is due, by day; then what is new; then what comes next, the least practised first.
    fn rank(&self) -> (u8, Option<Date>) {
        match self.units.first() {
            Some((Why::Due(since), _)) => (0, Some(*since)),
            Some((Why::New, _)) => (1, None),
            Some((Why::Next, _)) | None => (2, self.last),
        }
    }
}

/// Those in the first keys that come.
fn in_few_keys(mut units: Vec<(Why, Unit)>, most: usize) -> Vec<(Why, Unit)> {
    let mut keys = Vec::new();
    units.retain(|(_, unit)| {
        if !keys.contains(&unit.key) && keys.len() < most {
            keys.push(unit.key);
        }
        keys.contains(&unit.key)
    });
    units
}
