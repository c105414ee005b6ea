//! Where the beats of a bar are, and where a reader wants to see them.

use fretloom_theory::{Bar, Quarters};

use super::value::{Value, longest_within};

/// The beats of a bar.
pub(crate) struct Beats {
    from: Quarters,
    /// How much of the meter's bar lies before.
    missing: Quarters,
    beat: Quarters,
    /// The middle of the bar, where that is a beat and has another beat on each side.
    middle: Option<Quarters>,
    is_whole: bool,
}

impl Beats {
    pub(crate) fn of(bar: &Bar) -> Beats {
        let (beat, beats) = (bar.meter.beat(), u32::from(bar.meter.beats()));
        let has_middle = beats >= 4 && beats.is_multiple_of(2);
        let middle = beat.times(beats / 2).filter(|_| has_middle);
        let middle =
            middle.and_then(|middle| bar.from.checked_add(middle)?.checked_sub(bar.missing));
        let is_whole = bar.is_whole();
        Beats { from: bar.from, missing: bar.missing, beat, middle, is_whole }
    }

    /// Is the bar as long as its meter says?
    pub(crate) fn is_whole(&self) -> bool {
        self.is_whole
    }

    /// How long after the beginning of the bar.
    pub(crate) fn into(&self, moment: Quarters) -> Quarters {
        moment.checked_sub(self.from).unwrap_or_default()
    }

    /// How long after the last beat.
    fn after_beat(&self, moment: Quarters) -> Quarters {
        let counted = self.into(moment).checked_add(self.missing).unwrap_or_default();
        counted.divided_with_rest(self.beat).map(|(_, rest)| rest).unwrap_or_default()
    }

    pub(crate) fn is_beat(&self, moment: Quarters) -> bool {
        self.after_beat(moment).is_zero()
    }

    /// The first beat after a moment.
    fn next(&self, moment: Quarters) -> Option<Quarters> {
        let left = self.beat.checked_sub(self.after_beat(moment))?;
        moment.checked_add(left)
    }

    /// The beats between two moments.
    pub(crate) fn within(&self, from: Quarters, to: Quarters) -> impl Iterator<Item = Quarters> {
        let beats = std::iter::successors(self.next(from), |beat| self.next(*beat));
        beats.take_while(move |beat| *beat < to)
    }

    /// The values of a note, tied to one another.
    pub(crate) fn note(&self, from: Quarters, to: Quarters) -> Vec<Quarters> {
        self.cut(from, to, |from, to| self.hides(from, to))
    }

    /// The values of a silence, which show every beat that does not begin them.
    pub(crate) fn rest(&self, from: Quarters, to: Quarters) -> Vec<Quarters> {
        self.cut(from, to, |from, to| {
            let next = self.next(from).filter(|next| *next < to && !self.is_beat(from));
            let middle = self.middle.filter(|middle| from < *middle && *middle < to);
            let last = || self.within(from, to).last().filter(|_| !self.is_beat(to));
            next.or(middle).or_else(last)
        })
    }

    /// Where a note hides a beat that a reader looks for: the middle of the bar, unless it goes from
    /// beat to beat; any beat, where it begins on no half of one.
    fn hides(&self, from: Quarters, to: Quarters) -> Option<Quarters> {
        let is_from_beat_to_beat = self.is_beat(from) && self.is_beat(to);
        let middle = self.middle.filter(|middle| from < *middle && *middle < to);
        let middle = middle.filter(|_| !is_from_beat_to_beat);
        let is_half = self
            .after_beat(from)
            .times(2)
            .is_none_or(|twice| twice.is_zero() || twice == self.beat);
        let is_single = to.checked_sub(from).is_some_and(|length| Value::of(length).is_some());
        let beat = self.next(from).filter(|beat| *beat < to);
        let beat = beat.filter(|_| !is_half || !is_single && !self.is_beat(from));
        middle.into_iter().chain(beat).min()
    }

    /// Lengths of single values from one moment to another, cut where `wanted` says, else after the
    /// longest value that fits.
    fn cut(
        &self,
        from: Quarters,
        to: Quarters,
        wanted: impl Fn(Quarters, Quarters) -> Option<Quarters>,
    ) -> Vec<Quarters> {
        let mut waiting = vec![(from, to)];
        let mut lengths = Vec::new();
        while let Some((from, to)) = waiting.pop() {
            let Some(length) = to.checked_sub(from).filter(|length| !length.is_zero()) else {
                continue;
            };
            let longest = || from.checked_add(longest_within(length)?);
            let at = wanted(from, to)
                .or_else(|| if Value::of(length).is_some() { None } else { longest() });
            match at.filter(|at| from < *at && *at < to) {
                Some(at) => waiting.extend([(at, to), (from, at)]),
                None => lengths.push(length),
            }
        }
        lengths
    }
}

#[cfg(test)]
mod tests {
    use fretloom_theory::{Bars, Meter};

    use super::*;

    fn beats(meter: &str) -> Beats {
        Beats::of(&Bars::of(meter.parse::<Meter>().unwrap()).bar(0).unwrap())
    }

    /// Lengths in sixteenths.
    fn sixteenths(lengths: Vec<Quarters>) -> Vec<u64> {
        let of = |length: Quarters| length.part_of(Quarters::new(1, 4).unwrap()).unwrap().0;
        lengths.into_iter().map(of).collect()
    }

    fn at(sixteenth: u64) -> Quarters {
        Quarters::new(sixteenth, 4).unwrap()
    }

    /// Common practice, no source: syncopations of eighths keep their value within half a bar, and
    /// the middle of the bar is seen.
    #[test]
    fn notes_show_the_middle_of_the_bar_and_keep_their_value_else() {
        let note = |meter, from, to| sixteenths(beats(meter).note(at(from), at(to)));
        assert_eq!(note("4/4", 0, 16), [16]);
        assert_eq!(note("4/4", 2, 6), [4]); // the quarter of eighth, quarter, eighth
        assert_eq!(note("4/4", 6, 10), [2, 2]); // over the middle
        assert_eq!(note("4/4", 4, 12), [8]); // quarter, half, quarter
        assert_eq!(note("4/4", 0, 10), [8, 2]);
        assert_eq!(note("4/4", 0, 6), [6]);
        assert_eq!(note("4/4", 3, 5), [1, 1]); // from a sixteenth over a beat
        assert_eq!(note("3/4", 2, 12), [2, 8]);
        assert_eq!(note("6/8", 2, 8), [4, 2]);
        assert_eq!(note("6/8", 0, 12), [12]);
        assert_eq!(note("5/4", 0, 20), [16, 4]);
    }

    #[test]
    fn rests_show_the_beats() {
        let rest = |meter, from, to| sixteenths(beats(meter).rest(at(from), at(to)));
        assert_eq!(rest("4/4", 2, 16), [2, 4, 8]);
        assert_eq!(rest("4/4", 4, 12), [4, 4]);
        assert_eq!(rest("4/4", 0, 8), [8]);
        assert_eq!(rest("6/8", 2, 12), [4, 6]);
        assert_eq!(rest("4/4", 8, 14), [4, 2]);
        assert_eq!(rest("3/4", 0, 10), [8, 2]);
    }
}
