//! The melody of a tune, as the screen keeps it beside the chart.

use std::sync::Arc;

use fretloom_theory::Melody;

use super::sheet::Sheet;

/// A melody that many states share.
#[derive(Clone, Debug, Default)]
pub(super) struct MelodyInHand(Arc<Melody>);

impl MelodyInHand {
    pub(super) fn new(melody: Melody) -> MelodyInHand {
        MelodyInHand(Arc::new(melody))
    }

    pub(super) fn get(&self) -> &Melody {
        &self.0
    }

    /// The same where bars begin and end as before; none where they do not, since nobody knows what
    /// becomes of it then.
    pub(super) fn over(self, before: &Sheet, now: &Sheet) -> MelodyInHand {
        let times = |sheet: &Sheet| {
            let bars = sheet.bars.iter().map(|bar| (bar.from, bar.length));
            bars.collect::<Vec<_>>()
        };
        let stays = self.0.is_empty() || times(before) == times(now);
        if stays { self } else { MelodyInHand::default() }
    }
}

impl PartialEq for MelodyInHand {
    /// The same one is equal without a look at its notes.
    fn eq(&self, other: &MelodyInHand) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0 == other.0
    }
}
