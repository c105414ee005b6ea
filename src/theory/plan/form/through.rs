//! What it costs to come through each spot.

use super::{Form, Round};

impl Form {
    /// For each chord and each of its spots what the cheapest way through it costs; going round, the
    /// cheapest that goes round twice on each side and need not close. For comparing the spots of one
    /// chord.
    pub(in crate::plan) fn through(&self) -> Vec<Vec<u64>> {
        let count = self.chords.len();
        let steps = match self.round {
            Round::Open => count,
            Round::Closed => 2 * count,
        };
        let own = |chord: usize| self.chords[chord].own.iter().map(|own| u64::from(*own));
        let mut coming: Vec<Vec<u64>> = vec![own(0).collect()];
        for step in 1..steps {
            let chord = step % count;
            let before = &coming[step - 1];
            let reach = |(spot, own): (usize, u64)| {
                let ways = before.iter().zip(self.row(chord, spot));
                own + ways.map(|(cost, step)| cost + u64::from(*step)).min().unwrap_or(0)
            };
            coming.push(own(chord).enumerate().map(reach).collect());
        }
        // From the end, so that the first time round is what comes after the last.
        let mut going = vec![0; self.chords[count - 1].own.len()];
        let mut through: Vec<Vec<u64>> = vec![Vec::new(); count];
        for step in (0..steps).rev() {
            let chord = step % count;
            let reached = &coming[step + steps - count - step / count * count];
            through[chord] =
                going.iter().zip(reached).map(|(after, before)| after + before).collect();
            if step == 0 {
                break;
            }
            let mut least = vec![u64::MAX; self.chords[self.before(chord)].own.len()];
            for (spot, (own, after)) in own(chord).zip(&going).enumerate() {
                for (least, way) in least.iter_mut().zip(self.row(chord, spot)) {
                    *least = (*least).min(u64::from(*way) + own + after);
                }
            }
            going = least;
        }
        through
    }
}
