//! One set of strings before and after, and the words for it.

use fretloom_fretboard::{
    Ladder, Neck, OpenString, Rung, ShapeQuery, StringNumber, StringSet, Tuning,
};

use super::family::{Family, set_of};
use crate::answer::pairs::NamedPair;
use crate::answer::shapes::NamedShape;
use crate::words::dashed;

/// Three strings of one tuning and their partners in the other.
#[derive(Clone, PartialEq, Debug)]
pub struct SetAnswer {
    /// The strings in the first tuning.
    pub a: StringSet,
    /// The strings in the second.
    pub b: StringSet,
    /// What becomes of the close shapes.
    pub shapes: Survival,
    /// Why, in words.
    pub why: String,
    /// Semitones from string to string in the first tuning, in the order of its strings.
    pub a_steps: [i32; 2],
    /// The same in the second.
    pub b_steps: [i32; 2],
    /// Where shapes change: the sets of the first tuning that have the grips of this one.
    pub grips_of: Vec<StringSet>,
    /// What becomes of the ladder of a pair, in words.
    pub ladder: String,
}

/// What becomes of the close shapes on three strings.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Survival {
    /// They have the same form.
    Survive,
    /// They have the same frets nevertheless: strings an octave apart turn one inversion into
    /// another.
    OnlyInversionsChange,
    /// They have another form.
    Change,
}

/// How many rungs of a ladder are told: enough to hear which way it goes.
const RUNGS_TOLD: usize = 4;

/// Three strings of the tuning that is left, and their partners in the one that is taken up.
pub(super) struct Change<'a> {
    to: &'a Neck,
    before: [StringNumber; 3],
    after: [StringNumber; 3],
    old: Family,
    new: Family,
    /// Semitones that each string sounds higher than its partner did, fret for fret.
    raised: [i32; 3],
    /// The sets of the old tuning with the grips of the new set.
    known: Vec<StringSet>,
}

impl<'a> Change<'a> {
    pub(super) fn new(
        from: &Tuning,
        to: &'a Neck,
        before: [StringNumber; 3],
        after: [StringNumber; 3],
    ) -> Option<Change<'a>> {
        let (old, new) = (Family::of(from, before)?, Family::of(to.tuning(), after)?);
        let mut raised = [0; 3];
        for ((raised, before), after) in raised.iter_mut().zip(before).zip(after) {
            let (low, high) = (from.string(before)?, to.tuning().string(after)?);
            *raised = at_the_nut(high) - at_the_nut(low);
        }
        let known = new.sets_on(from);
        Some(Change { to, before, after, old, new, raised, known })
    }

    pub(super) fn answer(&self, pair: Option<NamedPair>) -> SetAnswer {
        let survive = self.survives();
        SetAnswer {
            a: set_of(self.before),
            b: set_of(self.after),
            shapes: self.survival(),
            why: if survive { self.why_it_survives() } else { self.why_it_changes() },
            a_steps: self.old.steps(),
            b_steps: self.new.steps(),
            grips_of: if survive { Vec::new() } else { self.known.clone() },
            ladder: self.ladder(pair),
        }
    }

    fn survival(&self) -> Survival {
        if self.survives() {
            Survival::Survive
        } else if self.only_inverts() {
            Survival::OnlyInversionsChange
        } else {
            Survival::Change
        }
    }

    fn survives(&self) -> bool {
        self.old == self.new
    }

    /// Are the frets of every grip the same although the steps are not? So it is where the lowest
    /// string or the lower two have gone up by an octave over the rest, past the highest one: what
    /// was the lowest note of a close shape is then the highest, still within an octave.
    fn only_inverts(&self) -> bool {
        let [first, second] = self.old.steps();
        let [one, two, three] = self.raised;
        let mut strings = [(0, one), (first, two), (first + second, three)];
        strings.sort_unstable();
        let [(lowest, low), (_, middle), (highest, high)] = strings;
        let up = [low - high, middle - high];
        self.old.starts_like(self.new) && highest - lowest < 12 && (up == [12, 0] || up == [12, 12])
    }

    fn why_it_survives(&self) -> String {
        let steps = steps(self.new);
        match self.raised[0] {
            0 => format!("the same strings, {steps}: every shape stays where it is"),
            up if up % 12 == 0 => {
                format!("the same {steps}: the same frets sound {}", octaves(up))
            }
            up => format!(
                "the same {steps}: the shapes sound {} {}; a chord lies {}",
                count(up.unsigned_abs(), "semitone"),
                if up > 0 { "higher" } else { "lower" },
                frets_away(-up)
            ),
        }
    }

    fn why_it_changes(&self) -> String {
        let (old, new) = (steps(self.old), steps(self.new));
        let kept = "the same frets, with other inversions".to_owned();
        let mut told = vec![if self.only_inverts() { kept } else { grips(&self.known) }];
        let common = self.common_rise();
        let strings = self.after.iter().zip(self.raised);
        told.extend(strings.filter_map(|(string, raised)| moved(*string, raised - common)));
        if common != 0 {
            let way = if common > 0 { "higher" } else { "lower" };
            let semitones = count(common.unsigned_abs(), "semitone");
            told.push(format!("and all of it sounds {semitones} {way}"));
        }
        format!("{old} become {new}: {}", told.join("; "))
    }

    /// By how many semitones most of the strings rise together; 0 where one of them stays, or no
    /// two agree.
    fn common_rise(&self) -> i32 {
        let [one, two, three] = self.raised;
        if self.raised.contains(&0) {
            0
        } else if one == two || one == three {
            one
        } else if two == three {
            two
        } else {
            0
        }
    }

    fn ladder(&self, pair: Option<NamedPair>) -> String {
        let on = set_of(self.after);
        let of = pair.map_or_else(
            || "the ladder of a pair".to_owned(),
            |pair| format!("the ladder of {pair}"),
        );
        match (self.survives(), self.raised[0], pair) {
            _ if !self.new.holds_triads() => {
                format!("no ladder on {on}: two of these strings sound alike")
            }
            (true, up, _) if up % 12 == 0 => format!("play {of} on {on} as before"),
            (true, up, _) => format!("play {of} on {on} as before, {}", frets_away(-up)),
            (false, up, _) if self.only_inverts() => {
                let at =
                    if up % 12 == 0 { "at the same frets".to_owned() } else { frets_away(-up) };
                format!("play {of} on {on} {at}; its order by height changes")
            }
            (false, _, None) => format!("{of} on {on} takes {}", grips(&self.known)),
            (false, _, Some(pair)) => format!("on {on} {of} begins {}", self.first_rungs(pair)),
        }
    }

    /// `F 3-2-1, G 5-4-3, …`
    fn first_rungs(&self, pair: NamedPair) -> String {
        let query = ShapeQuery::default().on(set_of(self.after));
        let ladder = Ladder::new(self.to, pair.pair(), &query);
        let told = |rung: &Rung| {
            let named = NamedShape::of_rung(self.to, pair, rung);
            format!("{} {}", named.triad, dashed(named.shape.frets()))
        };
        let rungs: Vec<String> = ladder.rungs().iter().take(RUNGS_TOLD).map(told).collect();
        rungs.join(", ")
    }
}

/// The pitch that a string would have if it began at the nut.
fn at_the_nut(open: OpenString) -> i32 {
    i32::from(open.pitch().midi()) - i32::from(open.starts_at().number())
}

/// `the grips of 6-5-4 and 5-4-3`
pub(super) fn grips(known: &[StringSet]) -> String {
    let sets: Vec<String> = known.iter().map(StringSet::to_string).collect();
    match sets.split_last() {
        None => "new grips, on no set before".to_owned(),
        Some((last, [])) => format!("the grips of {last}"),
        Some((last, before)) => format!("the grips of {} and {last}", before.join(", ")),
    }
}

/// `steps 5 4`
fn steps(family: Family) -> String {
    let [first, second] = family.steps();
    format!("steps {first} {second}")
}

/// `string 6 two frets up`: where the notes of a string that was raised have gone.
fn moved(string: StringNumber, raised: i32) -> Option<String> {
    if raised == 0 {
        return None;
    }
    if raised % 12 == 0 {
        return Some(format!("string {string} sounds {}", octaves(raised)));
    }
    let way = if raised > 0 { "down" } else { "up" };
    Some(format!("string {string} {} {way}", count(raised.unsigned_abs(), "fret")))
}

/// `two frets higher`, and the other way round the octave where that is a long way down.
fn frets_away(up: i32) -> String {
    let up = up % 12;
    let frets = count(up.unsigned_abs(), "fret");
    if up > 0 {
        return format!("{frets} higher");
    }
    format!("{frets} lower, or {} higher", count(12 - up.unsigned_abs(), "fret"))
}

fn octaves(semitones: i32) -> String {
    let way = if semitones > 0 { "higher" } else { "lower" };
    match semitones.unsigned_abs() / 12 {
        1 => format!("an octave {way}"),
        octaves => format!("{} {way}", count(octaves, "octave")),
    }
}

/// `one fret`, `two frets`, `13 frets`
fn count(number: u32, what: &str) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve",
    ];
    let word = usize::try_from(number).ok().and_then(|index| WORDS.get(index));
    let word = word.map_or_else(|| number.to_string(), |word| (*word).to_owned());
    let plural = if number == 1 { "" } else { "s" };
    format!("{word} {what}{plural}")
}
