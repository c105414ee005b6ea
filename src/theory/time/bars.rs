//! Where the bars of a score are.

use super::bar::{Bar, BarLabel, BarPosition};
use super::meter::Meter;
use super::quarters::Quarters;

/// Where the bars of a score are: from the beginning on, one after another, without end.
///
/// There may be a pick-up, the meter may change, and single bars may be shorter or longer than
/// their meter. Bars that are alike are kept together, so the whole is as small as what is written
/// of it. Questions whose exact answer does not fit [`Quarters`] are answered by `None`.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Bars, Meter, Quarters};
/// let bars = Bars::with_pick_up(Meter::COMMON, Quarters::ONE).unwrap();
/// let pick_up = bars.at(Quarters::ZERO).unwrap();
/// assert_eq!((pick_up.bar.label.to_string().as_str(), pick_up.beat), ("0", 4));
/// let and_of_two = bars.at(Quarters::new(5, 2).unwrap()).unwrap();
/// assert_eq!((and_of_two.bar.label.to_string().as_str(), and_of_two.beat), ("1", 2));
/// assert_eq!(and_of_two.after_beat, Quarters::EIGHTH);
/// assert_eq!(Bars::with_pick_up(Meter::COMMON, Quarters::whole(5)), None);
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Bars {
    first: Stretch,
    /// In order of time.
    later: Vec<Stretch>,
}

/// Bars that are alike, one after another until the next stretch begins, which may cut the last one
/// short.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Stretch {
    /// How many bars stand before it.
    index: u64,
    /// Its first bar, which has some length.
    first: Bar,
}

impl Bars {
    /// Bars of one meter, counted from 1.
    #[must_use]
    pub fn of(meter: Meter) -> Bars {
        let label = BarLabel::Number(1);
        let (from, missing) = (Quarters::ZERO, Quarters::ZERO);
        let first = Bar { from, length: meter.bar(), meter, missing, label };
        Bars { first: Stretch { index: 0, first }, later: Vec::new() }
    }

    /// The same after a pick-up, which is bar 0 and ends where bar 1 begins; `None` for one that is
    /// not shorter than a bar, or has no length.
    #[must_use]
    pub fn with_pick_up(meter: Meter, length: Quarters) -> Option<Bars> {
        let missing = meter.bar().checked_sub(length)?;
        if length.is_zero() || missing.is_zero() {
            return None;
        }
        let label = BarLabel::Number(0);
        let pick_up = Bar { from: Quarters::ZERO, length, meter, missing, label };
        Bars::written([pick_up])?.changing(length, meter)
    }

    /// Bars as they are written, in order. Each goes on until the next begins, and the last one's
    /// like follow without end. A bar without length is left out. `None` where none is left, where
    /// one begins before another has begun, and where the first does not begin at the beginning.
    #[must_use]
    pub fn written(bars: impl IntoIterator<Item = Bar>) -> Option<Bars> {
        let mut bars = bars.into_iter().filter(|bar| !bar.length.is_zero());
        let first = bars.next().filter(|bar| bar.from.is_zero())?;
        let mut last = (0, first.from);
        let mut all = Bars { first: Stretch { index: 0, first }, later: Vec::new() };
        for bar in bars {
            if bar.from <= last.1 {
                return None;
            }
            last = (last.0 + 1, bar.from);
            if !all.last().goes_on_with(last.0, &bar) {
                all.later.push(Stretch { index: last.0, first: bar });
            }
        }
        Some(all)
    }

    /// The same until `from`, and from there on bars of that meter. A bar that is cut short by it
    /// counts, and numbers go on. `None` before the last change, or where numbers do not fit.
    #[must_use]
    pub fn changing(mut self, from: Quarters, meter: Meter) -> Option<Bars> {
        let last = self.last();
        let (count, rest) =
            from.checked_sub(last.first.from)?.divided_with_rest(last.first.length)?;
        let count = count.checked_add(u64::from(!rest.is_zero()))?;
        let index = last.index.checked_add(count)?;
        let label = last.first.label.after(count).unwrap_or(BarLabel::Number(index + 1));
        let first = Bar { from, length: meter.bar(), meter, missing: Quarters::ZERO, label };
        match count {
            0 => *self.last_mut() = Stretch { index, first },
            _ => self.later.push(Stretch { index, first }),
        }
        Some(self)
    }

    /// The bar and the beat of a moment.
    #[must_use]
    pub fn at(&self, moment: Quarters) -> Option<BarPosition> {
        let next = self.later.partition_point(|stretch| stretch.first.from <= moment);
        let stretch = self.before(next);
        let since = moment.checked_sub(stretch.first.from)?;
        let (count, into) = since.divided_with_rest(stretch.first.length)?;
        let bar = self.cut(stretch.bar(count)?, next);
        let counted = bar.missing.checked_add(into)?;
        let (beats, after_beat) = counted.divided_with_rest(bar.meter.beat())?;
        let index = stretch.index.checked_add(count)?;
        Some(BarPosition { index, bar, into, beat: beats.checked_add(1)?, after_beat })
    }

    /// The moment `after_beat` after a beat of the bar that `index` others stand before; beats are
    /// those that a foot taps, counted from 1. The other way round than [`at`](Self::at). `None`
    /// where that does not lie in the bar.
    ///
    /// ```
    /// use fretloom_theory::{Bars, Meter, Quarters};
    /// let bars = Bars::of(Meter::COMMON);
    /// let and_of_three = bars.moment(1, 3, Quarters::EIGHTH);
    /// assert_eq!(and_of_three, Quarters::new(13, 2));
    /// assert_eq!(bars.moment(1, 5, Quarters::ZERO), None);
    /// ```
    #[must_use]
    pub fn moment(&self, index: u64, beat: u32, after_beat: Quarters) -> Option<Quarters> {
        let bar = self.bar(index)?;
        let counted = bar.meter.beat().times(beat.checked_sub(1)?)?.checked_add(after_beat)?;
        let into = counted.checked_sub(bar.missing).filter(|into| *into < bar.length)?;
        bar.from.checked_add(into)
    }

    /// The bar that so many others stand before.
    #[must_use]
    pub fn bar(&self, index: u64) -> Option<Bar> {
        let next = self.later.partition_point(|stretch| stretch.index <= index);
        let stretch = self.before(next);
        stretch.bar(index - stretch.index).map(|bar| self.cut(bar, next))
    }

    /// The next bar after the one that `index` others stand before which is not what follows anyway:
    /// where the meter changes, or a bar is shorter or longer. `None` where all that follow are
    /// alike.
    ///
    /// ```
    /// use fretloom_theory::{Bars, Meter, Quarters};
    /// let three = Meter::new(3, 4).unwrap();
    /// let bars = Bars::of(Meter::COMMON).changing(Quarters::whole(8), three).unwrap();
    /// assert_eq!(bars.next_change(0), Some(2));
    /// assert_eq!(bars.next_change(2), None);
    /// ```
    #[must_use]
    pub fn next_change(&self, index: u64) -> Option<u64> {
        let next = self.later.partition_point(|stretch| stretch.index <= index);
        self.later.get(next).map(|stretch| stretch.index)
    }

    /// The bar, no longer than the later stretch with this index lets it be.
    fn cut(&self, bar: Bar, next: usize) -> Bar {
        let until = self.later.get(next).and_then(|next| next.first.from.checked_sub(bar.from));
        Bar { length: until.map_or(bar.length, |until| bar.length.min(until)), ..bar }
    }

    /// The last stretch before the later one with this index.
    fn before(&self, index: usize) -> &Stretch {
        index.checked_sub(1).and_then(|index| self.later.get(index)).unwrap_or(&self.first)
    }

    fn last(&self) -> &Stretch {
        self.before(self.later.len())
    }

    fn last_mut(&mut self) -> &mut Stretch {
        self.later.last_mut().unwrap_or(&mut self.first)
    }
}

impl Stretch {
    /// The bar that comes `count` bars after the first.
    fn bar(&self, count: u64) -> Option<Bar> {
        if count == 0 {
            return Some(self.first.clone());
        }
        let before = self.first.length.times(u32::try_from(count).ok()?)?;
        let from = self.first.from.checked_add(before)?;
        let number = || BarLabel::Number((self.index + count).saturating_add(1));
        let label = self.first.label.after(count).unwrap_or_else(number);
        Some(Bar { from, label, ..self.first.clone() })
    }

    /// Is `bar`, which has this index, what follows in this stretch anyway?
    fn goes_on_with(&self, index: u64, bar: &Bar) -> bool {
        self.first.missing.is_zero() && self.bar(index - self.index).as_ref() == Some(bar)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn quarters(numerator: u64, denominator: u32) -> Quarters {
        Quarters::new(numerator, denominator).unwrap()
    }

    fn meter(text: &str) -> Meter {
        text.parse().unwrap()
    }

    /// Label, beat and what comes after it.
    fn told(bars: &Bars, moment: Quarters) -> (String, u64, Quarters) {
        let at = bars.at(moment).unwrap();
        (at.bar.label.to_string(), at.beat, at.after_beat)
    }

    /// By hand: two bars of 3/4, one of 6/8 cut short after two eighths, then 4/4.
    #[test]
    fn meters_change() {
        let bars = Bars::of(meter("3/4"));
        let bars = bars.changing(Quarters::whole(6), meter("6/8")).unwrap();
        let bars = bars.changing(Quarters::whole(7), meter("4/4")).unwrap();
        for (moment, label, beat, after) in [
            (Quarters::ZERO, "1", 1, Quarters::ZERO),
            (quarters(5, 2), "1", 3, Quarters::EIGHTH),
            (quarters(3, 1), "2", 1, Quarters::ZERO),
            (quarters(13, 2), "3", 1, Quarters::EIGHTH),
            (quarters(7, 1), "4", 1, Quarters::ZERO),
            (quarters(23, 2), "5", 1, Quarters::EIGHTH),
        ] {
            assert_eq!(told(&bars, moment), (label.to_owned(), beat, after), "{moment}");
        }
        assert_eq!(bars.bar(2).unwrap().length, Quarters::ONE);
        assert!(!bars.bar(2).unwrap().is_whole() && bars.bar(3).unwrap().is_whole());
    }

    #[test]
    fn a_meter_that_changes_at_once_leaves_no_bar_behind() {
        let bars = Bars::of(Meter::COMMON).changing(Quarters::ZERO, meter("3/4")).unwrap();
        assert_eq!(bars, Bars::of(meter("3/4")));
        let later = bars.changing(Quarters::whole(3), meter("2/4")).unwrap();
        assert_eq!(later.clone().changing(Quarters::ZERO, meter("2/4")), None);
        let again = later.changing(Quarters::whole(3), meter("5/4")).unwrap();
        assert_eq!(again.bar(1).unwrap().meter, meter("5/4"));
    }

    /// By hand: in 6/8 beats are dotted quarters.
    #[test]
    fn the_fourth_eighth_of_six_is_beat_two() {
        let bars = Bars::of(meter("6/8"));
        assert_eq!(told(&bars, quarters(3, 2)), ("1".to_owned(), 2, Quarters::ZERO));
        assert_eq!(told(&bars, quarters(5, 2)), ("1".to_owned(), 2, Quarters::ONE));
    }

    /// By hand: a pick-up of an eighth in 3/4, a bar called 12a, one that is too short, and 13.
    #[test]
    fn written_bars_keep_their_lengths_and_labels() {
        let bar = |from, length, missing, label| Bar {
            from,
            length,
            meter: meter("3/4"),
            missing,
            label,
        };
        let eighth = Quarters::EIGHTH;
        let none = Quarters::ZERO;
        let three = Quarters::whole(3);
        let text = BarLabel::Text("12a".into());
        let bars = Bars::written([
            bar(none, eighth, quarters(5, 2), BarLabel::Number(0)),
            bar(eighth, none, none, BarLabel::Number(7)),
            bar(eighth, three, none, text),
            bar(quarters(7, 2), Quarters::ONE, none, BarLabel::Number(13)),
            bar(quarters(9, 2), three, none, BarLabel::Number(14)),
            bar(quarters(15, 2), three, none, BarLabel::Number(15)),
        ]);
        let bars = bars.unwrap();
        for (moment, label, beat, after) in [
            (none, "0", 3, eighth),
            (eighth, "12a", 1, none),
            (quarters(7, 2), "13", 1, none),
            (quarters(9, 2), "14", 1, none),
            (quarters(23, 2), "16", 2, none),
        ] {
            assert_eq!(told(&bars, moment), (label.to_owned(), beat, after), "{moment}");
        }
    }

    #[test]
    fn bars_out_of_order_are_none() {
        let bar =
            |from| Bar { from: Quarters::whole(from), ..Bars::of(Meter::COMMON).bar(0).unwrap() };
        assert_eq!(Bars::written([]), None);
        assert_eq!(Bars::written([bar(4)]), None);
        assert_eq!(Bars::written([bar(0), bar(0)]), None);
        assert!(Bars::written([bar(0), bar(4)]).is_some());
    }

    fn any_meter() -> impl Strategy<Value = Meter> {
        (1..=15u8, prop::sample::select(vec![1, 2, 4, 8, 16]))
            .prop_map(|(units, kind)| Meter::new(units, kind).unwrap())
    }

    /// A pick-up or none, and a few changes of meter, some of which cut a bar short.
    fn any_bars() -> impl Strategy<Value = Bars> {
        let changes = prop::collection::vec((0..400u64, any_meter()), 0..6);
        (any_meter(), 1..64u64, changes).prop_map(|(meter, sixteenths, mut changes)| {
            let pick_up = Bars::with_pick_up(meter, quarters(sixteenths, 4));
            changes.sort_by_key(|(at, _)| *at);
            changes.into_iter().fold(pick_up.unwrap_or_else(|| Bars::of(meter)), |bars, change| {
                let (sixteenths, meter) = change;
                let same = bars.clone();
                bars.changing(quarters(sixteenths, 4), meter).unwrap_or(same)
            })
        })
    }

    proptest! {
        #[test]
        fn a_moment_lies_in_its_bar(bars in any_bars(), parts in 0..60_000u64) {
            let moment = quarters(parts, 105);
            let at = bars.at(moment).unwrap();
            prop_assert_eq!(at.bar.from.checked_add(at.into), Some(moment));
            prop_assert!(at.into < at.bar.length);
            prop_assert_eq!(bars.bar(at.index), Some(at.bar.clone()));
            let beats = at.bar.meter.beat().times(u32::try_from(at.beat - 1).unwrap()).unwrap();
            let counted = at.bar.missing.checked_add(at.into);
            prop_assert_eq!(beats.checked_add(at.after_beat), counted);
            prop_assert!(at.after_beat < at.bar.meter.beat());
            let beat = u32::try_from(at.beat).unwrap();
            prop_assert_eq!(bars.moment(at.index, beat, at.after_beat), Some(moment));
        }

        #[test]
        fn bars_follow_one_another(bars in any_bars(), index in 0..200u64) {
            let (bar, next) = (bars.bar(index).unwrap(), bars.bar(index + 1).unwrap());
            prop_assert_eq!(bar.from.checked_add(bar.length), Some(next.from));
            let at = bars.at(bar.from).unwrap();
            prop_assert_eq!((at.index, at.into), (index, Quarters::ZERO));
            prop_assert_eq!(bar.label.after(1), Some(next.label));
        }

        #[test]
        fn bars_written_one_by_one_are_the_same(bars in any_bars()) {
            let list: Vec<Bar> = (0..300).map_while(|index| bars.bar(index)).collect();
            let written = Bars::written(list).unwrap();
            for index in 0..300 {
                prop_assert_eq!(written.bar(index), bars.bar(index));
            }
        }
    }
}
