//! How a line is picked: which way the pick goes at each note.

use fretloom_theory::{Bars, Quarters, Stroke};

use crate::StringNumber;

/// How a line is picked.
///
/// # Example
///
/// ```
/// use fretloom_fretboard::{Picking, StringNumber};
/// use fretloom_theory::{Bars, Meter, Quarters, Stroke};
/// let string = StringNumber::new(2).unwrap();
/// // The and of 1, then 2: a rest on the beat does not turn the hand round.
/// let notes = [(Quarters::EIGHTH, string), (Quarters::ONE, string)];
/// let bars = Bars::of(Meter::COMMON);
/// assert_eq!(Picking::WithTheBeat.strokes(&bars, &notes), [Stroke::Up, Stroke::Down]);
/// assert_eq!(Picking::Strict.strokes(&bars, &notes), [Stroke::Down, Stroke::Up]);
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Picking {
    /// Down on the beat and up off it, also after rests: within a beat the hand goes on in the
    /// parts in which its notes begin, whether one is played there or not.
    #[default]
    WithTheBeat,
    /// Down, up, down from the first note on, wherever the beats are.
    Strict,
    /// Down to a string nearer the floor and up to one farther from it; on the same string the
    /// other way than before.
    Economy,
}

/// In how many parts of a beat a hand goes at most: 64th notes in 4/4.
const FINEST: u32 = 64;

impl Picking {
    /// The stroke of each note, given in order of time by onset and string. Notes of one onset are
    /// one stroke.
    #[must_use]
    pub fn strokes(self, bars: &Bars, notes: &[(Quarters, StringNumber)]) -> Vec<Stroke> {
        let moments: Vec<&[(Quarters, StringNumber)]> =
            notes.chunk_by(|one, next| one.0 == next.0).collect();
        let strokes = match self {
            Picking::WithTheBeat => with_the_beat(bars, &moments),
            Picking::Strict => alternating(moments.len()),
            Picking::Economy => economical(&moments),
        };
        let each = strokes.into_iter().zip(&moments);
        each.flat_map(|(stroke, moment)| vec![stroke; moment.len()]).collect()
    }
}

fn alternating(count: usize) -> Vec<Stroke> {
    (0..count).map(|index| if index % 2 == 0 { Stroke::Down } else { Stroke::Up }).collect()
}

fn economical(moments: &[&[(Quarters, StringNumber)]]) -> Vec<Stroke> {
    let mut strokes: Vec<Stroke> = Vec::with_capacity(moments.len());
    let mut before = None;
    for moment in moments {
        let strings = || moment.iter().map(|(_, string)| *string);
        let nearest_floor = strings().min();
        let stroke = match (strokes.last(), before, nearest_floor) {
            (Some(_), Some(before), Some(here)) if here < before => Stroke::Down,
            (Some(_), Some(before), Some(here)) if here > before => Stroke::Up,
            (Some(last), _, _) => last.other(),
            (None, _, _) => Stroke::Down,
        };
        before = nearest_floor;
        strokes.push(stroke);
    }
    strokes
}

/// A moment as the part of a beat.
#[derive(Clone, Copy)]
struct InBeat {
    bar: u64,
    beat: u64,
    /// How many parts after the beat, and how many the beat has; `None` where nobody counts them.
    part: Option<(u64, u32)>,
}

impl InBeat {
    fn of(bars: &Bars, moment: Quarters) -> Option<InBeat> {
        let at = bars.at(moment)?;
        let part = at.after_beat.part_of(at.bar.meter.beat());
        Some(InBeat { bar: at.index, beat: at.beat, part: part.filter(|(_, of)| *of <= FINEST) })
    }

    fn shares_beat_with(&self, other: &InBeat) -> bool {
        (self.bar, self.beat) == (other.bar, other.beat)
    }
}

fn with_the_beat(bars: &Bars, moments: &[&[(Quarters, StringNumber)]]) -> Vec<Stroke> {
    let onsets = moments.iter().filter_map(|moment| moment.first()).map(|(onset, _)| *onset);
    // Beyond every bar line that can be counted nobody picks: one beat stands for all of it.
    let nowhere = InBeat { bar: u64::MAX, beat: 0, part: None };
    let places: Vec<InBeat> =
        onsets.map(|onset| InBeat::of(bars, onset).unwrap_or(nowhere)).collect();
    places.chunk_by(InBeat::shares_beat_with).flat_map(strokes_in_beat).collect()
}

/// Within one beat the hand goes down and up in the finest parts that its notes share.
fn strokes_in_beat(places: &[InBeat]) -> Vec<Stroke> {
    let parts: Option<Vec<(u64, u32)>> = places.iter().map(|place| place.part).collect();
    let grid = parts.as_ref().and_then(|parts| {
        (1..=FINEST).find(|grid| parts.iter().all(|(_, of)| grid.is_multiple_of(*of)))
    });
    let (Some(parts), Some(grid)) = (parts, grid) else { return alternating(places.len()) };
    let is_down = |(part, of): (u64, u32)| (part * u64::from(grid / of)).is_multiple_of(2);
    parts.into_iter().map(|at| if is_down(at) { Stroke::Down } else { Stroke::Up }).collect()
}

#[cfg(test)]
mod tests {
    use fretloom_theory::Meter;

    use super::*;

    /// Notes as `eighths of a quarter:string`, strokes as `d` and `u`.
    fn picked(picking: Picking, meter: &str, of_a_quarter: u32, notes: &str) -> String {
        let bars = Bars::of(meter.parse::<Meter>().unwrap());
        let notes = notes.split_whitespace().map(|note| {
            let (onset, string) = note.split_once(':').unwrap();
            let onset = Quarters::new(onset.parse().unwrap(), of_a_quarter).unwrap();
            (onset, StringNumber::new(string.parse().unwrap()).unwrap())
        });
        let strokes = picking.strokes(&bars, &notes.collect::<Vec<_>>());
        strokes.iter().map(|stroke| stroke.word().chars().next().unwrap()).collect()
    }

    /// By hand: common practice, no source.
    #[test]
    fn the_pick_goes_down_on_the_beat_and_up_off_it() {
        let with_the_beat = |of, notes| picked(Picking::WithTheBeat, "4/4", of, notes);
        // Eighths with a rest on beat 2, and two notes at once.
        assert_eq!(with_the_beat(2, "0:1 1:1 3:2 4:3 4:2 5:1"), "duuddu");
        // An eighth and two sixteenths: the hand goes in sixteenths.
        assert_eq!(with_the_beat(4, "0:1 2:1 3:1 4:1"), "ddud");
        // Triplets begin each beat anew.
        assert_eq!(with_the_beat(3, "0:1 1:1 2:1 3:1 4:1 5:1"), "duddud");
        // Dotted quarters are the beats of 6/8.
        let in_six = picked(Picking::WithTheBeat, "6/8", 2, "0:1 1:1 2:1 3:1 5:1");
        assert_eq!(in_six, "duddd");
    }

    #[test]
    fn strict_picking_counts_notes_alone() {
        assert_eq!(picked(Picking::Strict, "4/4", 2, "1:1 2:1 2:2 5:1 6:1"), "duudu");
    }

    /// By hand: up a triad on strings 4-3-2 sweeps down, the way back sweeps up.
    #[test]
    fn economy_goes_on_through_the_strings() {
        assert_eq!(picked(Picking::Economy, "4/4", 2, "0:4 1:3 2:2 3:2 4:3 5:4 6:4"), "ddduuud");
    }

    #[test]
    fn moments_that_nobody_counts_alternate() {
        assert_eq!(picked(Picking::WithTheBeat, "4/4", 1009, "1:1 5:1 7:1"), "dud");
        let last = Quarters::new(u64::MAX, 1).unwrap();
        let notes = [(last, StringNumber::FIRST)];
        let bars = Bars::of(Meter::COMMON);
        assert_eq!(Picking::WithTheBeat.strokes(&bars, &notes).len(), 1);
        assert_eq!(Picking::Economy.strokes(&bars, &[]), []);
    }
}
