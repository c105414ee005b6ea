//! From musical time to seconds as they are played.

use std::collections::{BTreeMap, BTreeSet};

use fretloom_theory::{Bars, Quarters, Swing, TempoMap};

use super::struck::Struck;

/// When each moment of the music is heard: its tempi, and its eighths as they swing.
///
/// Two eighths that fill a quarter swing. A quarter in which something else begins, such as a triplet
/// or a sixteenth, stays as it is written, and so do all of a meter that is counted in eighths.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct TimeMap {
    /// In order, the first from the beginning.
    pieces: Vec<Piece>,
}

/// From here on, at one pace.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Piece {
    from: Quarters,
    from_s: f64,
    /// How long a quarter note lasts, in seconds.
    quarter_s: f64,
}

/// Half a quarter, played longer or shorter than it is written.
#[derive(Clone, Copy)]
struct Half {
    to: Quarters,
    /// It takes a part of what this stretch takes as it is written.
    of: (Quarters, Quarters),
    part: f64,
}

/// A quarter that eighths may divide.
#[derive(Clone, Copy)]
struct Beat {
    /// When it begins; `None` where only its second half is there, as in a pick-up of one eighth.
    from: Option<Quarters>,
    middle: Quarters,
    to: Quarters,
}

impl TimeMap {
    pub(super) fn of(tempi: &TempoMap, bars: &Bars, notes: &[Struck], swing: Swing) -> TimeMap {
        let halves = swung_halves(bars, notes, swing);
        let mut moments = BTreeSet::from([Quarters::ZERO]);
        moments.extend(halves.iter().flat_map(|(from, half)| [*from, half.to]));
        let is_within = |moment: Quarters| {
            let before = halves.range(..moment).next_back();
            before.is_some_and(|(_, half)| moment < half.to)
        };
        let changes = tempi.changes().map(|(from, _)| from);
        moments.extend(changes.filter(|from| !is_within(*from)));
        let mut pieces: Vec<Piece> = Vec::with_capacity(moments.len());
        for from in moments {
            let from_s = pieces.last().map_or(0.0, |last| last.seconds_at(from));
            let quarter_s = pace(tempi, from, halves.get(&from));
            pieces.push(Piece { from, from_s, quarter_s });
        }
        TimeMap { pieces }
    }

    /// Seconds from the beginning.
    pub(super) fn seconds_at(&self, moment: Quarters) -> f64 {
        let after = self.pieces.partition_point(|piece| piece.from <= moment);
        self.before(after).map_or(0.0, |piece| piece.seconds_at(moment))
    }

    /// The moment that is heard after so many seconds.
    pub(super) fn moment_at(&self, seconds: f64) -> Quarters {
        let after = self.pieces.partition_point(|piece| piece.from_s <= seconds);
        let at = |piece: &Piece| {
            let since = (seconds - piece.from_s) / piece.quarter_s;
            Quarters::nearest(piece.from.to_f64() + since)
        };
        self.before(after).and_then(at).unwrap_or_default()
    }

    fn before(&self, index: usize) -> Option<&Piece> {
        index.checked_sub(1).and_then(|index| self.pieces.get(index))
    }
}

impl Piece {
    fn seconds_at(self, moment: Quarters) -> f64 {
        self.from_s + (moment.to_f64() - self.from.to_f64()) * self.quarter_s
    }
}

/// How long a quarter note lasts from a moment on.
fn pace(tempi: &TempoMap, from: Quarters, half: Option<&Half>) -> f64 {
    match half {
        None => tempi.tempo_at(from).quarter_s(),
        Some(half) => {
            let (begins, ends) = half.of;
            let whole_s = tempi.seconds_at(ends) - tempi.seconds_at(begins);
            whole_s * half.part / (half.to.to_f64() - from.to_f64())
        }
    }
}

/// The halves of all quarters that swing.
fn swung_halves(bars: &Bars, notes: &[Struck], swing: Swing) -> BTreeMap<Quarters, Half> {
    let mut halves = BTreeMap::new();
    if swing == Swing::STRAIGHT {
        return halves;
    }
    let onsets: BTreeSet<Quarters> = notes.iter().map(|note| note.onset).collect();
    // Where a note ends in the middle of a quarter, it swings with the eighths.
    let moments = onsets.iter().copied().chain(notes.iter().map(|note| note.end));
    let first_part = swing.first_part();
    for beat in moments.filter_map(|moment| Beat::with_middle(bars, moment)) {
        if !beat.has_only_eighths(&onsets) {
            continue;
        }
        let Beat { from, middle, to } = beat;
        match from {
            Some(from) => {
                let of = (from, to);
                halves.insert(from, Half { to: middle, of, part: first_part });
                halves.insert(middle, Half { to, of, part: 1.0 - first_part });
            }
            None => {
                let part = 2.0 * (1.0 - first_part);
                halves.insert(middle, Half { to, of: (middle, to), part });
            }
        }
    }
    halves
}

impl Beat {
    /// The quarter, as a bar counts them, that has its middle at this moment.
    fn with_middle(bars: &Bars, middle: Quarters) -> Option<Beat> {
        let at = bars.at(middle)?;
        let counted = at.bar.missing.checked_add(at.into)?;
        let (_, after_quarter) = counted.divided_with_rest(Quarters::ONE)?;
        let ends_within = at.into.checked_add(Quarters::EIGHTH)? <= at.bar.length;
        let is_middle = after_quarter == Quarters::EIGHTH && at.bar.meter.kind() <= 4;
        let from = at.into.checked_sub(Quarters::EIGHTH);
        let from = from.and_then(|_| middle.checked_sub(Quarters::EIGHTH));
        let to = middle.checked_add(Quarters::EIGHTH)?;
        (is_middle && ends_within).then_some(Beat { from, middle, to })
    }

    /// Does nothing begin in it but on it and in its middle?
    fn has_only_eighths(self, onsets: &BTreeSet<Quarters>) -> bool {
        let first = self.middle.checked_sub(Quarters::EIGHTH).unwrap_or_default();
        let mut within = onsets.range(first..self.to);
        within.all(|onset| *onset == self.middle || Some(*onset) == self.from)
    }
}

#[cfg(test)]
mod tests {
    use fretloom_theory::{Meter, Pitch, Tempo, Timeline};

    use super::*;

    fn at(numerator: u64, denominator: u32) -> Quarters {
        Quarters::new(numerator, denominator).unwrap()
    }

    /// Notes one after another from the beginning, each of this length.
    fn notes(lengths: &[Quarters]) -> Vec<Struck> {
        let mut onset = Quarters::ZERO;
        let note = |length: &Quarters| {
            let end = onset.checked_add(*length).unwrap();
            let pitches = vec![Pitch::from_midi(60).unwrap()];
            let note = Struck { onset, end, pitches, accent: false };
            onset = end;
            note
        };
        lengths.iter().map(note).collect()
    }

    fn map(bars: &Bars, lengths: &[Quarters], swing: &str) -> TimeMap {
        // A quarter lasts a second.
        let tempi = TempoMap::steady(Tempo::new(60, 1).unwrap());
        TimeMap::of(&tempi, bars, &notes(lengths), swing.parse().unwrap())
    }

    /// By hand, at 60: two eighths, a triplet, an eighth and two sixteenths, a dotted eighth and a
    /// sixteenth, two eighths.
    #[test]
    fn eighths_swing_and_nothing_else_does() {
        let (eighth, third, sixteenth) = (at(1, 2), at(1, 3), at(1, 4));
        let lengths = [
            [eighth, eighth].as_slice(),
            &[third; 3],
            &[eighth, sixteenth, sixteenth],
            &[at(3, 4), sixteenth],
            &[eighth, eighth],
        ]
        .concat();
        let bars = Bars::of(Meter::COMMON);
        for (swing, middle) in [("1:1", 0.5), ("3:2", 0.6), ("2:1", 2.0 / 3.0), ("3:1", 0.75)] {
            let map = map(&bars, &lengths, swing);
            let heard = [
                (at(0, 1), 0.0),
                (at(1, 2), middle),
                (at(1, 1), 1.0),
                (at(4, 3), 4.0 / 3.0),
                (at(5, 3), 5.0 / 3.0),
                (at(5, 2), 2.5),
                (at(11, 4), 2.75),
                (at(15, 4), 3.75),
                (at(4, 1), 4.0),
                (at(9, 2), 4.0 + middle),
                (at(9, 1), 9.0),
            ];
            for (moment, seconds) in heard {
                assert!((map.seconds_at(moment) - seconds).abs() < 1e-12, "{swing} {moment}");
                assert_eq!(map.moment_at(seconds), moment, "{swing} {seconds}");
            }
        }
    }

    /// A note off the beat that is held over the next one, and a rest after a note on the beat.
    #[test]
    fn what_begins_or_ends_off_the_beat_swings() {
        let bars = Bars::of(Meter::COMMON);
        let map = map(&bars, &[at(3, 2), at(2, 1)], "2:1");
        for (moment, seconds) in [(at(1, 2), 0.5), (at(3, 2), 5.0 / 3.0), (at(7, 2), 11.0 / 3.0)] {
            assert!((map.seconds_at(moment) - seconds).abs() < 1e-12, "{moment}");
        }
    }

    #[test]
    fn meters_counted_in_eighths_do_not_swing() {
        for meter in ["6/8", "12/8", "7/8"] {
            let bars = Bars::of(meter.parse().unwrap());
            assert_eq!(map(&bars, &[at(1, 2); 6], "3:1").pieces.len(), 1, "{meter}");
        }
        let halves = Bars::of("2/2".parse().unwrap());
        assert_eq!(map(&halves, &[at(1, 2); 8], "3:1").pieces.len(), 9);
    }

    /// The second eighth of beat 4, and then a bar: the pick-up is a third of a beat long.
    #[test]
    fn a_pick_up_of_an_eighth_is_as_short_as_any_second_eighth() {
        let bars = Bars::with_pick_up(Meter::COMMON, Quarters::EIGHTH).unwrap();
        let map = map(&bars, &[at(1, 2); 5], "2:1");
        for (moment, seconds) in [(at(1, 2), 1.0 / 3.0), (at(1, 1), 1.0), (at(3, 2), 4.0 / 3.0)] {
            assert!((map.seconds_at(moment) - seconds).abs() < 1e-12, "{moment}");
        }
    }

    /// At 120 until the middle of the second beat, then at 60: that beat lasts 0.25 + 0.5 s, and its
    /// first note three quarters of that.
    #[test]
    fn tempi_change_also_within_a_swung_beat() {
        let bars = Bars::of(Meter::COMMON);
        let slow = Tempo::new(60, 1).unwrap();
        let tempi = TempoMap::of(&Timeline::of([(at(3, 2), slow)]));
        let map = TimeMap::of(&tempi, &bars, &notes(&[at(1, 2); 6]), "3:1".parse().unwrap());
        for (moment, seconds) in
            [(at(1, 2), 0.375), (at(1, 1), 0.5), (at(3, 2), 1.0625), (at(2, 1), 1.25)]
        {
            assert!((map.seconds_at(moment) - seconds).abs() < 1e-12, "{moment}");
        }
    }
}
