//! Moments of a line as bars and beats, and back.

use fretloom_theory::Quarters;

use super::bar_beat::{BarBeat, InBeat};
use super::chords::LineChords;

impl LineChords {
    /// When a beat comes; `None` after the first beat that follows the line.
    #[must_use]
    pub fn moment(&self, at: BarBeat) -> Option<Quarters> {
        let index = at.bar.checked_sub(self.first_number())?;
        let bar = self.bars().bar(index)?;
        let moment = self.bars().moment(index, at.beat, at.place.after(bar.meter.beat())?)?;
        (moment <= self.end()).then_some(moment)
    }

    /// The bar and beat of a moment, as a player counts them; `None` where no part of a beat says it.
    #[must_use]
    pub fn bar_beat(&self, moment: Quarters) -> Option<BarBeat> {
        let at = self.bars().at(moment)?;
        let (above, below) = at.after_beat.part_of(at.bar.meter.beat())?;
        let place = InBeat::part(u32::try_from(above).ok()?, below)?;
        let bar = at.index.checked_add(self.first_number())?;
        Some(BarBeat { bar, beat: u32::try_from(at.beat).ok()?, place })
    }

    /// How many bars there are, the pick-up apart.
    #[must_use]
    pub fn bar_count(&self) -> u64 {
        let count = self.bars().at(self.end()).map_or(0, |at| at.index);
        (count + self.first_number()).saturating_sub(1)
    }

    /// The number of the first bar: 0 for a pick-up.
    fn first_number(&self) -> u64 {
        let has_pick_up = self.bars().bar(0).is_some_and(|first| !first.missing.is_zero());
        u64::from(!has_pick_up)
    }
}

#[cfg(test)]
mod tests {
    use fretloom_theory::Meter;

    use super::*;
    use crate::answer::AskedChords;

    fn chords(meter: &str) -> LineChords {
        LineChords::read(&AskedChords::plain("Dm7 | G7 | Cmaj7", meter.parse::<Meter>().unwrap()))
            .unwrap()
    }

    /// By hand: a beat of 6/8 is a dotted quarter.
    #[test]
    fn beats_are_counted_as_players_count() {
        for (meter, text, moment) in [
            ("4/4", "1.1", (0, 1)),
            ("4/4", "2.4&", (15, 2)),
            ("4/4", "2.1+1/3", (13, 3)),
            ("4/4", "4.1", (12, 1)),
            ("6/8", "1.2", (3, 2)),
            ("6/8", "1.1+1/3", (1, 2)),
            ("6/8", "2.2&", (21, 4)),
        ] {
            let at = chords(meter).moment(text.parse().unwrap());
            assert_eq!(at, Quarters::new(moment.0, moment.1), "{meter} {text}");
            assert_eq!(chords(meter).bar_beat(at.unwrap()).unwrap().to_string(), text);
        }
        assert_eq!(chords("4/4").moment("4.2".parse().unwrap()), None);
        assert_eq!(chords("4/4").moment("0.1".parse().unwrap()), None);
        assert_eq!(chords("4/4").bar_count(), 3);
    }
}
