//! A player whose clock its owner moves: what the silent one and the one that writes have in common.

use std::time::Duration;

use super::super::samples::{Frames, Samples};
use super::state::PlayerState;
use super::voice::Voice;

/// What is played, and how much of it has passed.
#[derive(Default)]
pub(super) struct Clocked {
    voice: Option<Voice>,
    /// What sounds when the fade of the one before is over.
    next: Option<Box<dyn Samples>>,
    state: PlayerState,
    /// All time that has passed, so that no part of a frame is lost.
    clock: Duration,
}

impl Clocked {
    pub(super) fn start(&mut self, samples: Box<dyn Samples>) {
        if self.state.is_sounding() {
            self.stop();
            self.next = Some(samples);
        } else {
            self.begin(samples);
        }
    }

    fn begin(&mut self, samples: Box<dyn Samples>) {
        (self.voice, self.state) = (Some(Voice::new(samples)), PlayerState::Playing);
    }

    pub(super) fn stop(&mut self) {
        self.next = None;
        if let Some(voice) = self.voice.as_mut().filter(|_| self.state.is_sounding()) {
            voice.fade();
            self.state = PlayerState::Stopping;
        }
    }

    pub(super) fn position(&self) -> Frames {
        match (&self.voice, &self.next) {
            (Some(voice), None) => voice.given(),
            (_, Some(_)) | (None, None) => Frames::default(),
        }
    }

    pub(super) fn state(&self) -> PlayerState {
        self.state.clone()
    }

    pub(super) fn fail(&mut self, state: PlayerState) {
        (self.state, self.next) = (state, None);
    }

    /// Lets time pass; what is heard in it is handed on, block by block.
    pub(super) fn advance(&mut self, time: Duration, mut hear: impl FnMut(&[f32])) {
        let Frames(before) = Frames::in_time(self.clock);
        self.clock = self.clock.saturating_add(time);
        let mut frames = Frames::in_time(self.clock).0 - before;
        while frames > 0 && self.state.is_sounding() {
            let heard = self.hear_block(frames, &mut hear);
            frames -= heard as u64;
        }
    }

    /// Hears what is left of the time, as much of it as a block holds.
    fn hear_block(&mut self, frames: u64, hear: &mut impl FnMut(&[f32])) -> usize {
        let mut block = [0.0; BLOCK];
        let wanted = usize::try_from(frames).map_or(BLOCK, |frames| frames.min(BLOCK));
        let Some(voice) = &mut self.voice else { return wanted };
        let given = voice.fill(&mut block[..wanted]);
        hear(&block[..given]);
        if voice.has_ended() {
            self.end();
        }
        given
    }

    fn end(&mut self) {
        let was_stopped = self.voice.as_ref().is_some_and(Voice::is_fading);
        match self.next.take() {
            Some(next) => self.begin(next),
            None if was_stopped => self.state = PlayerState::Silent,
            None => self.state = PlayerState::Ended,
        }
    }
}

const BLOCK: usize = 1_024;
