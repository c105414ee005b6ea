//! Which moment of the music is heard, also after others have taken over.

use crate::sound::{Clock, Frames, Heard};

/// The clocks of what is played: each from the frame on at which its music took over.
pub(super) struct Clocks(Vec<(Frames, Clock)>);

impl Clocks {
    pub(super) fn of(first: Clock) -> Clocks {
        Clocks(vec![(Frames(0), first)])
    }

    /// From this frame on another clock counts. Those are forgotten that nobody asks any more.
    pub(super) fn take_over(&mut self, from: Frames, clock: Clock, heard: Frames) {
        self.0.retain(|(begins, _)| *begins < from);
        let past = self.0.iter().take_while(|(begins, _)| *begins <= heard).count();
        self.0.drain(..past.saturating_sub(1));
        self.0.push((from, clock));
    }

    /// What is heard after so many frames of the whole.
    pub(super) fn at(&self, heard: Frames) -> Heard {
        match self.current(heard) {
            Some((begins, clock)) => clock.at(Frames(heard.0.saturating_sub(begins.0))),
            None => Heard::Over,
        }
    }

    /// The frame of the whole at which the next bar begins, if there is one.
    pub(super) fn next_bar(&self, heard: Frames) -> Option<Frames> {
        let (begins, clock) = self.current(heard)?;
        let next = clock.next_bar(Frames(heard.0.saturating_sub(begins.0)))?;
        Some(Frames(begins.0.saturating_add(next.0)))
    }

    fn current(&self, heard: Frames) -> Option<&(Frames, Clock)> {
        self.0.iter().rev().find(|(begins, _)| *begins <= heard)
    }
}
