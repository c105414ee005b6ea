//! What is said of a bar, in one sentence.

use std::fmt::{self, Display};

use super::arrival::Arrival;
use super::bar::{ExplainedApproach, ExplainedBar, ExplainedGroup, GroupTiming};
use super::landing::Landing;
use super::movement::Movement;
use crate::text::count_in_words;
use crate::{
    ChordScale, ChordSymbol, Direction, Inversion, NoteName, PitchClass, Quarters, SpelledTriad,
    Speller, Spelling, Triad, TriadPair, TriadQuality,
};

/// What a teacher would say of a bar; `{:#}` in ASCII.
#[derive(Clone, Debug)]
pub struct Why<'a> {
    bar: &'a ExplainedBar,
    /// Names over the chord; everyday names where there is none.
    speller: Option<Speller>,
}

impl ExplainedBar {
    /// What a teacher would say of it, in a sentence, with names by this policy.
    #[must_use]
    pub fn why(&self, spelling: Spelling) -> Why<'_> {
        let chord = self.chord.as_ref().and_then(|symbol| symbol.chord());
        let over = chord.cloned().zip(self.scale.clone());
        let speller =
            over.map(|(chord, scale)| Speller::new(ChordScale::over(chord, scale), spelling));
        Why { bar: self, speller }
    }
}

/// How many groups, or free notes, a sentence tells one by one.
const TOLD: usize = 6;

impl Display for Why<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.bar.pair {
            Some(pair) => {
                self.pair(pair, f)?;
                self.over(f)?;
                self.groups(f)?;
                self.timings(f)?;
                self.approaches(f)?;
            }
            None => self.movement(f)?,
        }
        self.readings(f)?;
        if let Some(landing) = &self.bar.landing {
            f.write_str("; lands on the ")?;
            write_landing(landing, f)?;
        }
        f.write_str(".")
    }
}

impl Why<'_> {
    fn pair(&self, pair: TriadPair, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [first, second] = match &self.speller {
            Some(speller) => speller.pair(pair),
            None => pair.triads().map(everyday),
        };
        first.fmt(f)?;
        f.write_str(" & ")?;
        second.fmt(f)
    }

    fn triad(&self, triad: Triad, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // The pair's names go together, so a triad is called as in its pair.
        let of_pair = self.bar.pair.and_then(|pair| {
            let names = self.speller.as_ref().map(|speller| speller.pair(pair))?;
            names.into_iter().find(|name| name.triad() == triad)
        });
        let alone = || self.speller.as_ref().map(|speller| speller.triad(triad));
        of_pair.or_else(alone).unwrap_or_else(|| everyday(triad)).fmt(f)
    }

    fn note(&self, class: PitchClass, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = match &self.speller {
            Some(speller) => Some(speller.note(class)),
            None => NoteName::everyday(class).next(),
        };
        name.map_or(Ok(()), |name| name.fmt(f))
    }

    fn over(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(chord) = &self.bar.chord else { return Ok(()) };
        if *chord == ChordSymbol::NoChord {
            return f.write_str(" without a chord");
        }
        f.write_str(" over ")?;
        chord.fmt(f)
    }

    fn groups(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, group) in self.bar.groups.iter().take(TOLD).enumerate() {
            f.write_str(if at == 0 { ": " } else { ", " })?;
            self.group(group, f)?;
        }
        match self.bar.groups.len().saturating_sub(TOLD) {
            0 => Ok(()),
            1 => f.write_str(" and one more group"),
            more => write!(f, " and {more} more groups"),
        }
    }

    fn group(&self, group: &ExplainedGroup, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(inversion) = group.inversion else {
            let count = group.notes.len();
            f.write_str(&count_in_words(count))?;
            f.write_str(if count == 1 { " note of " } else { " notes of " })?;
            return self.triad(group.triad, f);
        };
        self.triad(group.triad, f)?;
        if group.triad.quality() != TriadQuality::Augmented {
            f.write_str(match inversion {
                Inversion::Root => " in root position",
                Inversion::First => " in first inversion",
                Inversion::Second => " in second inversion",
            })?;
        }
        f.write_str(match group.direction {
            Some(Direction::Up) => " up",
            Some(Direction::Down) => " down",
            None => "",
        })
    }

    fn timings(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for group in &self.bar.groups {
            let (verb, by) = match group.early {
                GroupTiming::OnTime => continue,
                GroupTiming::Early(by) => (" speaks ", by),
                GroupTiming::Late(by) => (" hangs over by ", by),
            };
            f.write_str("; ")?;
            self.triad(group.triad, f)?;
            f.write_str(verb)?;
            f.write_str(&length(by, self.bar.beat))?;
            if matches!(group.early, GroupTiming::Early(_)) {
                f.write_str(" early")?;
            }
        }
        Ok(())
    }

    fn approaches(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let to_one_note =
            |one: &ExplainedApproach, other: &ExplainedApproach| one.into == other.into;
        for approaches in self.bar.approaches.chunk_by(to_one_note).take(TOLD) {
            f.write_str("; ")?;
            match approaches {
                [one, other] if one.direction != other.direction => {
                    self.two(one, other, " enclose ", f)?;
                }
                [one, other] => self.two(one, other, " walk to ", f)?,
                several => several.iter().try_for_each(|approach| self.approach(approach, f))?,
            }
        }
        Ok(())
    }

    fn two(
        &self,
        one: &ExplainedApproach,
        other: &ExplainedApproach,
        verb: &str,
        f: &mut fmt::Formatter<'_>,
    ) -> fmt::Result {
        self.note(one.class, f)?;
        f.write_str(" and ")?;
        self.note(other.class, f)?;
        f.write_str(verb)?;
        self.note(one.target, f)
    }

    fn approach(&self, approach: &ExplainedApproach, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let in_scale = self.bar.scale.as_ref().is_some_and(|s| s.set().contains(approach.class));
        self.note(approach.class, f)?;
        f.write_str(match (approach.arrival, approach.direction) {
            (Arrival::HalfStep, _) if !in_scale => " a chromatic note into ",
            (Arrival::HalfStep, Direction::Up) => " a half step up to ",
            (Arrival::HalfStep, Direction::Down) => " a half step down to ",
            (_, Direction::Up) => " a step up to ",
            (_, Direction::Down) => " a step down to ",
        })?;
        self.note(approach.target, f)
    }

    fn movement(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let movement = self.bar.movement.unwrap_or(Movement::Mixed);
        if movement == Movement::Rests {
            f.write_str("No note begins")?;
            return self.over(f);
        }
        f.write_str("No pair")?;
        self.over(f)?;
        f.write_str(": ")?;
        f.write_str(match movement {
            Movement::Rests | Movement::Mixed => "steps and leaps of no one kind",
            Movement::OneNote => "a single note",
            Movement::Chromatic => "a chromatic line",
            Movement::Scale => "a scale run",
            Movement::Thirds => "broken thirds",
            Movement::OneTriad(_) => "nothing but ",
            Movement::Arpeggio => "an arpeggio",
            Movement::Pentatonic => "a pentatonic line",
        })?;
        match (movement, &self.bar.scale) {
            (Movement::OneTriad(triad), _) => self.triad(triad, f),
            (Movement::Scale | Movement::Thirds, Some(scale)) => {
                f.write_str(" in ")?;
                scale.fmt(f)
            }
            _ => Ok(()),
        }
    }

    fn readings(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, pair) in self.bar.readings.iter().take(TOLD).enumerate() {
            f.write_str(if at == 0 { "; it could also be " } else { " or " })?;
            self.pair(*pair, f)?;
        }
        Ok(())
    }
}

fn everyday(triad: Triad) -> SpelledTriad {
    let fewest = |root: &NoteName| {
        let notes = SpelledTriad::stacked(*root, triad.quality()).notes();
        notes.iter().map(|note| note.accidental().unsigned_abs()).sum::<u8>()
    };
    let root = NoteName::everyday(triad.root()).min_by_key(fewest);
    SpelledTriad::stacked(root.unwrap_or(NoteName::natural(crate::Letter::C)), triad.quality())
}

/// A length as players say it: `an eighth`, `two beats`, `1/3 beats`.
fn length(length: Quarters, beat: Quarters) -> String {
    let halves = beat.divided_into(2).and_then(|half| length.divided_with_rest(half));
    match halves {
        Some((1, rest)) if rest.is_zero() => "half a beat".to_owned(),
        Some((2, rest)) if rest.is_zero() => "a beat".to_owned(),
        Some((3, rest)) if rest.is_zero() => "a beat and a half".to_owned(),
        Some((4, rest)) if rest.is_zero() => "two beats".to_owned(),
        _ => {
            let beats = length.to_f64() / beat.to_f64().max(f64::MIN_POSITIVE);
            let tenths = (beats * 10.0).round() / 10.0;
            format!("{tenths} beats")
        }
    }
}

fn write_landing(landing: &Landing, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    let degree = landing.said();
    match (degree.number(), degree.alteration()) {
        (1, _) => f.write_str("root")?,
        (number, _) => {
            degree.fmt(f)?;
            f.write_str(match number {
                2 => "nd",
                3 => "rd",
                _ => "th",
            })?;
        }
    }
    f.write_str(" of ")?;
    landing.chord.fmt(f)?;
    write!(f, " by {}", landing.arrival)
}
