//! How fast the tune goes.

use fretloom_theory::Tempo;

use super::super::state::ChangesScreen;
use super::Way;
use crate::tui::shared::Shared;

/// How many beats a minute a key makes it faster, and how slow and fast it goes.
const STEP: i64 = 4;
const TEMPI: std::ops::RangeInclusive<i64> = 20..=400;

impl ChangesScreen {
    pub(super) fn step_tempo(&mut self, way: Way, shared: &mut Shared) {
        let Some(chart) = self.chosen.chart() else { return Self::tell_no_bars(shared) };
        let now = chart.tempo.unwrap_or(Tempo::USUAL).a_minute().round() as i64;
        let next = match way {
            Way::Next => now + STEP,
            Way::Before => now - STEP,
        };
        let next = next.clamp(*TEMPI.start(), *TEMPI.end());
        let mut chart = chart.clone();
        chart.tempo = u64::try_from(next).ok().and_then(|next| Tempo::new(next, 1));
        self.take_chart(chart);
    }
}
