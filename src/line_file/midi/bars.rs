//! Bars and beats of a MIDI file.

/// A time signature and where it begins.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Signature {
    at_tick: u64,
    beats: u8,
    beat_quarters: f64,
}

impl Signature {
    /// `beats` over two to the power of `power`; `None` where no music is written so: without
    /// beats, or in beats shorter than a 64th.
    pub(super) fn new(at_tick: u64, beats: u8, power: u8) -> Option<Signature> {
        let beat_quarters = 4.0 / f64::from(1u32.checked_shl(u32::from(power))?);
        (beats > 0 && power <= 6).then_some(Signature { at_tick, beats, beat_quarters })
    }
}

/// Which bar and which beat a tick is in.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct BarMap {
    /// In order of time; never empty.
    stretches: Vec<Stretch>,
}

/// Bars of one signature.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Stretch {
    from_tick: u64,
    /// How many bars stand before it.
    bars_before: u64,
    beats: f64,
    beat_ticks: f64,
}

impl BarMap {
    /// Four quarters a bar until something else is said, the default of MIDI.
    pub(super) fn of(mut signatures: Vec<Signature>, ticks_per_quarter: u16) -> BarMap {
        signatures.sort_by_key(|signature| signature.at_tick);
        let quarter = f64::from(ticks_per_quarter);
        let mut last = Stretch { from_tick: 0, bars_before: 0, beats: 4.0, beat_ticks: quarter };
        let mut stretches = vec![last];
        for signature in signatures {
            last = Stretch {
                from_tick: signature.at_tick,
                bars_before: last.bars_up_to(signature.at_tick),
                beats: f64::from(signature.beats),
                beat_ticks: quarter * signature.beat_quarters,
            };
            stretches.push(last);
        }
        BarMap { stretches }
    }

    /// The bar and the beat, both counted from 1.
    pub(super) fn at(&self, tick: u64) -> (u64, f64) {
        let after = self.stretches.partition_point(|stretch| stretch.from_tick <= tick);
        let stretch = self.stretches.get(after.saturating_sub(1));
        stretch.map_or((1, 1.0), |stretch| stretch.at(tick))
    }
}

impl Stretch {
    fn beats_at(&self, tick: u64) -> f64 {
        tick.saturating_sub(self.from_tick) as f64 / self.beat_ticks
    }

    /// How many bars have begun before `tick`; a bar that a new signature cuts short counts.
    fn bars_up_to(&self, tick: u64) -> u64 {
        self.bars_before + (self.beats_at(tick) / self.beats).ceil() as u64
    }

    fn at(&self, tick: u64) -> (u64, f64) {
        let beats = self.beats_at(tick);
        let bars = (beats / self.beats).floor();
        (self.bars_before + bars as u64 + 1, beats - bars * self.beats + 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: two bars of 3/4, one of 6/8 cut short after two eighths, then 4/4.
    #[test]
    fn signatures_count_on() {
        let signature = |tick, beats, power| Signature::new(tick, beats, power).unwrap();
        let list = vec![signature(0, 3, 2), signature(60, 6, 3), signature(70, 4, 2)];
        let map = BarMap::of(list, 10);
        for (tick, bar, beat) in
            [(0, 1, 1.0), (25, 1, 3.5), (30, 2, 1.0), (65, 3, 2.0), (70, 4, 1.0), (115, 5, 1.5)]
        {
            assert_eq!(map.at(tick), (bar, beat), "{tick}");
        }
    }

    #[test]
    fn signatures_that_no_music_has_are_left_alone() {
        for (beats, power) in [(0, 2), (4, 7), (4, 40)] {
            assert_eq!(Signature::new(0, beats, power), None);
        }
        assert_eq!(BarMap::of(Vec::new(), 10).at(45), (2, 1.5));
    }
}
