//! Which moment of the music is heard.

use std::sync::Arc;

use fretloom_theory::Quarters;

use super::laid::{Laid, MOST_BEATS_A_FRAME};
use super::samples::{Frames, RATE};
use super::style::Rounds;

/// Says which moment of the music is heard after how many frames.
///
/// Moments are those of the music as it is written: the count-in and the rounds before are taken out,
/// and eighths that swing come when they are heard.
#[derive(Clone, Debug)]
pub struct Clock {
    laid: Arc<Laid>,
    /// How much is left out at the beginning, the count-in among it.
    skipped: u64,
}

/// What is heard.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Heard {
    /// The count-in: the last beat of its bar that has been struck, from 1.
    CountIn {
        /// Which beat.
        beat: u32,
    },
    /// The music.
    At {
        /// Which moment of it.
        moment: Quarters,
        /// How many rounds have been played before.
        round: u64,
    },
    /// The music is over; at most it rings on.
    Over,
}

impl Clock {
    pub(super) fn new(laid: &Arc<Laid>) -> Clock {
        Clock { laid: Arc::clone(laid), skipped: 0 }
    }

    pub(super) fn from(laid: &Arc<Laid>, frame: Frames) -> Clock {
        Clock { laid: Arc::clone(laid), skipped: laid.lead.saturating_add(frame.0) }
    }

    /// What is heard after so many frames.
    #[must_use]
    pub fn at(&self, heard: Frames) -> Heard {
        let frame = heard.0.saturating_add(self.skipped);
        let Some(since) = frame.checked_sub(self.laid.lead) else {
            let struck = self.laid.count_in.iter().take_while(|click| click.at <= frame);
            return Heard::CountIn { beat: struck.last().map_or(1, |click| click.beat) };
        };
        let (round, within) = (since / self.laid.length, since % self.laid.length);
        let is_over = match self.laid.rounds {
            Rounds::Once => round > 0,
            Rounds::Endless => false,
        };
        if is_over {
            return Heard::Over;
        }
        Heard::At { moment: self.moment(within), round }
    }

    /// After how many frames a moment of the first round is heard; at once if it has gone by.
    #[must_use]
    pub fn frames_at(&self, moment: Quarters) -> Frames {
        let frame = self.laid.lead.saturating_add(self.laid.frame_at(moment).0);
        Frames(frame.saturating_sub(self.skipped))
    }

    /// After how many frames the next bar begins, which may be the first of the next round; `None`
    /// where none comes any more.
    #[must_use]
    pub fn next_bar(&self, heard: Frames) -> Option<Frames> {
        let frame = heard.0.saturating_add(self.skipped);
        let Some(since) = frame.checked_sub(self.laid.lead) else {
            return Some(Frames(self.laid.lead - self.skipped.min(self.laid.lead)));
        };
        let (round, within) = (since / self.laid.length, since % self.laid.length);
        let at = self.laid.bars.at(self.moment(within))?;
        let later = (at.index + 1..).map_while(|index| self.laid.bars.bar(index));
        // The moment is rounded, so the bar after it may be the one that begins now.
        let next = later.take(MOST_BEATS_A_FRAME).find_map(|bar| {
            let frame = self.laid.frame_at(bar.from).0;
            (frame > within).then_some(frame)
        })?;
        let next = next.min(self.laid.length);
        let is_end = next == self.laid.length;
        let comes = match self.laid.rounds {
            Rounds::Once => round == 0 && !is_end,
            Rounds::Endless => true,
        };
        let from = self.laid.lead.checked_add(round.checked_mul(self.laid.length)?)?;
        comes.then(|| Frames(from.saturating_add(next).saturating_sub(self.skipped)))
    }

    fn moment(&self, frame: u64) -> Quarters {
        self.laid.map.moment_at(frame as f64 / f64::from(RATE))
    }
}
