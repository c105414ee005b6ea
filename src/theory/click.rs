//! Clicks: what a metronome strikes.

use std::fmt;
use std::str::FromStr;

use crate::ReadError;
use crate::time::{Bar, Bars, Meter, Quarters};

/// Which beats a metronome strikes.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Bars, ClickBeats, Meter, Quarters};
/// let bars = Bars::of(Meter::COMMON);
/// let clicks = ClickBeats::TwoAndFour.clicks(&bars, Quarters::ZERO, Quarters::whole(8));
/// let moments: Vec<String> = clicks.map(|click| click.at.to_string()).collect();
/// assert_eq!(moments, ["1", "3", "5", "7"]);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum ClickBeats {
    /// None.
    #[default]
    Off,
    /// Two and four; in 3/4 two, in longer bars every second beat. A bar of halves is struck
    /// as one of quarters: 2/2 on its second and fourth quarter.
    TwoAndFour,
    /// Every beat that a foot taps, the first of a bar with an accent.
    Every,
}

/// A stroke of a metronome.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Click {
    /// When.
    pub at: Quarters,
    /// Is it the first beat of a bar?
    pub accented: bool,
}

impl ClickBeats {
    /// All of them, in the order in which a key goes round.
    pub const ALL: [ClickBeats; 3] = [ClickBeats::Off, ClickBeats::TwoAndFour, ClickBeats::Every];

    /// As it is typed.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            ClickBeats::Off => "off",
            ClickBeats::TwoAndFour => "2-and-4",
            ClickBeats::Every => "every-beat",
        }
    }

    /// The clicks from one moment until before another, in order; made as they are asked for.
    pub fn clicks(
        self,
        bars: &Bars,
        from: Quarters,
        until: Quarters,
    ) -> impl Iterator<Item = Click> + use<'_> {
        let first = match self {
            ClickBeats::Off => None,
            ClickBeats::TwoAndFour | ClickBeats::Every => bars.at(from).map(|at| at.index),
        };
        let indices = first.into_iter().flat_map(|first| first..);
        let begun =
            indices.map_while(|index| bars.bar(index)).take_while(move |bar| bar.from < until);
        let clicks = begun.flat_map(move |bar| self.in_bar(&bar));
        clicks.filter(move |click| from <= click.at && click.at < until)
    }

    /// The clicks of a bar.
    fn in_bar(self, bar: &Bar) -> impl Iterator<Item = Click> + use<> {
        let Bar { from, length, missing, .. } = *bar;
        let beat = self.beat(bar.meter);
        let end = missing.checked_add(length).unwrap_or(length);
        let counted = (0..).map_while(move |index| Some((index, beat.times(index)?)));
        let begun = counted.take_while(move |(_, into)| *into < end);
        let struck = begun.filter(move |(index, _)| self.strikes(*index));
        struck.filter_map(move |(index, into)| {
            let at = from.checked_add(into.checked_sub(missing)?)?;
            Some(Click { at, accented: index == 0 })
        })
    }

    /// How far apart beats are.
    const fn beat(self, meter: Meter) -> Quarters {
        match self {
            // A half is two beats to whoever claps on two and four.
            ClickBeats::TwoAndFour if meter.kind() <= 2 => Quarters::ONE,
            ClickBeats::Off | ClickBeats::TwoAndFour | ClickBeats::Every => meter.beat(),
        }
    }

    /// Does it strike the beat that so many others of the bar stand before?
    const fn strikes(self, index: u32) -> bool {
        match self {
            ClickBeats::Off => false,
            ClickBeats::TwoAndFour => index % 2 == 1,
            ClickBeats::Every => true,
        }
    }
}

impl fmt::Display for ClickBeats {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

impl FromStr for ClickBeats {
    type Err = ReadError;

    /// Reads `off`, `2-and-4` or `every-beat`.
    ///
    /// # Errors
    ///
    /// For any other word.
    fn from_str(text: &str) -> Result<ClickBeats, ReadError> {
        let found = ClickBeats::ALL.into_iter().find(|beats| beats.word() == text.trim());
        found.ok_or_else(|| ReadError::whole("click", text, "off, 2-and-4 or every-beat"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(beats: ClickBeats, bars: &Bars, from: Quarters, until: Quarters) -> String {
        let told = |click: Click| format!("{}{}", click.at, if click.accented { "!" } else { "" });
        beats.clicks(bars, from, until).map(told).collect::<Vec<_>>().join(" ")
    }

    /// By hand: two bars of each meter, in quarter notes; an accent is marked.
    #[test]
    fn clicks_stand_on_the_beats_of_their_meter() {
        for (meter, until, every, two_and_four) in [
            ("4/4", 8, "0! 1 2 3 4! 5 6 7", "1 3 5 7"),
            ("3/4", 6, "0! 1 2 3! 4 5", "1 4"),
            ("5/4", 10, "0! 1 2 3 4 5! 6 7 8 9", "1 3 6 8"),
            ("6/8", 6, "0! 3/2 3! 9/2", "3/2 9/2"),
            ("12/8", 12, "0! 3/2 3 9/2 6! 15/2 9 21/2", "3/2 9/2 15/2 21/2"),
            ("2/2", 8, "0! 2 4! 6", "1 3 5 7"),
            ("2/4", 4, "0! 1 2! 3", "1 3"),
        ] {
            let bars = Bars::of(meter.parse().unwrap());
            let until = Quarters::whole(until);
            let all = told(ClickBeats::Every, &bars, Quarters::ZERO, until);
            assert_eq!(all, every, "{meter}");
            let some = told(ClickBeats::TwoAndFour, &bars, Quarters::ZERO, until);
            assert_eq!(some, two_and_four, "{meter}");
            assert_eq!(told(ClickBeats::Off, &bars, Quarters::ZERO, until), "");
        }
    }

    /// A pick-up of one quarter is beat 4; a bar of 3/4 follows the first of 4/4.
    #[test]
    fn a_pick_up_counts_with_the_bar_that_it_leads_to() {
        let bars = Bars::with_pick_up(Meter::COMMON, Quarters::ONE).unwrap();
        let bars = bars.changing(Quarters::whole(5), "3/4".parse().unwrap()).unwrap();
        let until = Quarters::whole(8);
        assert_eq!(told(ClickBeats::Every, &bars, Quarters::ZERO, until), "0 1! 2 3 4 5! 6 7");
        assert_eq!(told(ClickBeats::TwoAndFour, &bars, Quarters::ZERO, until), "0 2 4 6");
        assert_eq!(told(ClickBeats::Every, &bars, Quarters::whole(3), Quarters::whole(5)), "3 4");
    }

    #[test]
    fn every_word_is_read_back() {
        for beats in ClickBeats::ALL {
            assert_eq!(beats.to_string().parse(), Ok(beats));
        }
        let said = "2".parse::<ClickBeats>().unwrap_err().to_string();
        assert!(said.contains("expected off, 2-and-4 or every-beat"), "{said}");
    }
}
