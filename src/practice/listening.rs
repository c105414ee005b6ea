//! What is to be named by ear on a day: a short list, mixed, and made of what is practised.

use std::cmp::Reverse;

use jiff::civil::Date;

use super::chance::Chance;
use super::rules::PracticeRules;
use super::today::Why;
use crate::store::{Asked, Keeper, KeeperId, KeyAway, TriedBy, Try, Unit, Verdict};

/// The questions of a day, one after another.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Listening {
    /// The day.
    pub day: Date,
    /// The questions. None is of the same keeper as the one before, where there are others.
    pub questions: Vec<Asking>,
}

/// A question by ear: of which keeper, in which key, and what is to be named.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Asking {
    /// The keeper.
    pub keeper: KeeperId,
    /// The key: one in which it has been got with the hands, or its own.
    pub key: KeyAway,
    /// What is to be named.
    pub asked: Asked,
    /// Why today.
    pub why: Why,
    /// Settles what sounds.
    pub seed: u64,
    /// Has it been got today?
    pub is_done: bool,
}

impl Listening {
    /// The questions of a day.
    ///
    /// First come keepers of which a question is due, the longest first; then those that are practised and of
    /// which something was never asked, what was played last first; then the others. `may_ask` says
    /// whether there is anything to name. Of each keeper every question is asked once at most; keepers
    /// and questions take turns, and there are no more of either than the rules say.
    ///
    /// What is tried on the day itself has no say in its list, which stays the same all day.
    ///
    /// # Example
    ///
    /// ```
    /// use fretloom::practice::{Listening, PracticeRules};
    /// use fretloom::store::{Asked, Keeper, KeeperId, Kept, NewKeeper};
    /// use jiff::civil::date;
    ///
    /// let kept = Kept { chord: Some("Dm7".to_owned()), ..Kept::default() };
    /// let new = NewKeeper { kept, ..NewKeeper::default() };
    /// let keepers = [Keeper::new(KeeperId::new(1).unwrap(), new)];
    /// let rules = PracticeRules::default();
    /// let today = Listening::of(&keepers, &rules, date(2026, 5, 4), |_, _| true);
    /// let asked: Vec<Asked> = today.questions.iter().map(|question| question.asked).collect();
    /// assert_eq!(asked, [Asked::Pair, Asked::Qualities, Asked::LeftOut]);
    /// ```
    #[must_use]
    pub fn of(
        keepers: &[Keeper],
        rules: &PracticeRules,
        day: Date,
        may_ask: impl Fn(&Keeper, Asked) -> bool,
    ) -> Listening {
        let mut ranked: Vec<Candidate<'_>> =
            keepers.iter().map(|keeper| Candidate::of(keeper, day)).collect();
        // Sorting keeps the player's order of equals.
        ranked.sort_by_key(Candidate::rank);
        let with_something = ranked.into_iter().filter_map(|candidate| {
            let candidate = candidate.among(&may_ask);
            (!candidate.asked.is_empty()).then_some(candidate)
        });
        let found: Vec<Candidate<'_>> = with_something
            .take(rules.items.into())
            .enumerate()
            .map(|(place, candidate)| candidate.beginning_with(place))
            .collect();
        let rounds = (0..Asked::ALL.len()).flat_map(|round| {
            found.iter().filter_map(move |it| Some((it.keeper, it.asked.get(round)?)))
        });
        let questions = rounds.take(rules.questions.into());
        let asking = |(keeper, asked): (&Keeper, &(Why, Asked))| Asking::new(keeper, *asked, day);
        Listening { day, questions: questions.map(asking).collect() }
    }
}

impl Asking {
    fn new(keeper: &Keeper, (why, asked): (Why, Asked), day: Date) -> Asking {
        let mut chance = Chance::new(seed(keeper.id, asked, day));
        let got = keeper.practice.played().filter(|tried| {
            tried.on != day && tried.verdict == Verdict::Got && tried.unit.key != KeyAway::HERE
        });
        let mut keys: Vec<KeyAway> = got.map(|tried| tried.unit.key).collect();
        keys.push(KeyAway::HERE);
        keys.sort_unstable();
        keys.dedup();
        let is_got = |tried: &Try| tried.on == day && tried.verdict == Verdict::Got;
        Asking {
            keeper: keeper.id,
            key: keys.get(chance.below(keys.len())).copied().unwrap_or_default(),
            asked,
            why,
            seed: chance.next(),
            is_done: keeper.practice.heard(asked).any(is_got),
        }
    }

    /// What is tried, for the record.
    #[must_use]
    pub fn unit(&self) -> Unit {
        Unit { key: self.key, by: TriedBy::Ear(self.asked), ..Unit::default() }
    }

    /// The same question with another sound, for those who want to hear more.
    #[must_use]
    pub fn anew(&self) -> Asking {
        Asking { seed: Chance::new(self.seed).next(), is_done: false, ..self.clone() }
    }
}

/// A number that another keeper, question or day does not have.
fn seed(keeper: KeeperId, asked: Asked, day: Date) -> u64 {
    let kind = Asked::ALL.iter().position(|other| *other == asked).unwrap_or(0);
    let (year, of_year) = (day.year().unsigned_abs(), day.day_of_year().unsigned_abs());
    let day = u64::from(year) * 400 + u64::from(of_year);
    (u64::from(keeper.number()) << 32) ^ (day << 2) ^ u64::try_from(kind).unwrap_or(0)
}

/// A keeper with what may be asked of it on this day.
struct Candidate<'a> {
    keeper: &'a Keeper,
    /// By their reasons, what is due longest first.
    asked: Vec<(Why, Asked)>,
    /// The last day before this one on which it was played.
    played: Option<Date>,
}

impl<'a> Candidate<'a> {
    fn of(keeper: &'a Keeper, day: Date) -> Candidate<'a> {
        let practice = &keeper.practice;
        let is_new = practice.tries.iter().all(|tried| tried.on == day);
        let why = |asked: Asked| {
            let before = practice.heard(asked).rev().find(|tried| tried.on != day);
            match before {
                None if is_new => Some(Why::New),
                None => Some(Why::Next),
                Some(tried) => tried.next.filter(|due| *due <= day).map(Why::Due),
            }
        };
        let mut asked: Vec<(Why, Asked)> =
            Asked::ALL.into_iter().filter_map(|asked| Some((why(asked)?, asked))).collect();
        asked.sort_by_key(|(why, _)| *why);
        let played = practice.played().map(|tried| tried.on).filter(|on| *on != day).max();
        Candidate { keeper, asked, played }
    }

    /// What is due, by day; then what was played, the last first; then what was only heard; then what
    /// is new. Those of which nothing is asked stand last.
    fn rank(&self) -> (u8, Option<Date>, Reverse<Option<Date>>) {
        match self.asked.first() {
            Some((Why::Due(since), _)) => (0, Some(*since), Reverse(self.played)),
            Some((Why::Next, _)) => (1, None, Reverse(self.played)),
            Some((Why::New, _)) => (2, None, Reverse(None)),
            None => (3, None, Reverse(None)),
        }
    }

    /// With those questions alone that have an answer.
    fn among(mut self, may_ask: &impl Fn(&Keeper, Asked) -> bool) -> Candidate<'a> {
        self.asked.retain(|(_, asked)| may_ask(self.keeper, *asked));
        self
    }

    /// Of questions with one reason another comes first for each place in the list, so that they are mixed.
    fn beginning_with(mut self, place: usize) -> Candidate<'a> {
        let kinds = Asked::ALL.len();
        let turned = |asked: Asked| {
            let index = Asked::ALL.iter().position(|other| *other == asked).unwrap_or(0);
            (index + kinds - place % kinds) % kinds
        };
        self.asked.sort_by_key(|(why, asked)| (*why, turned(*asked)));
        self
    }
}
