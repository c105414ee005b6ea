//! Samples that go over to others while they are heard.

use std::sync::{Arc, Mutex, PoisonError, TryLockError};

use super::samples::{Frames, Samples};

/// How long the one fades out while the other fades in, in frames: 10 ms.
const CROSSING: usize = 480;

/// Samples that others take over from, without a gap and without a click.
///
/// What follows is handed in through a [`Baton`], from another thread, and begins at the frame that
/// it was made for. Where more than that has been given by then, its beginning is left out: it is
/// heard when it should be.
///
/// # Example
///
/// ```
/// use fretloom::sound::{Frames, Relay, Samples};
///
/// struct Same(f32);
/// impl Samples for Same {
///     fn fill(&mut self, block: &mut [f32]) -> usize {
///         block.fill(self.0);
///         block.len()
///     }
/// }
///
/// let (mut relay, baton) = Relay::new(Box::new(Same(0.25)));
/// baton.hand_over(Box::new(Same(0.75)), Frames(1_000));
/// let mut block = [0.0; 2_000];
/// assert_eq!(relay.fill(&mut block), 2_000);
/// assert_eq!((block[999], block[1_480]), (0.25, 0.75));
/// ```
pub struct Relay {
    now: Box<dyn Samples>,
    given: u64,
    /// What follows and begins later.
    next: Option<Next>,
    /// What is faded out, and how much of the fade is over.
    leaving: Option<(Box<dyn Samples>, usize)>,
    baton: Baton,
}

/// Hands samples to a [`Relay`].
#[derive(Clone)]
pub struct Baton(Arc<Mutex<Option<Next>>>);

struct Next {
    samples: Box<dyn Samples>,
    at: u64,
}

impl Relay {
    /// A relay that begins with these samples, and what hands it others.
    #[must_use]
    pub fn new(first: Box<dyn Samples>) -> (Relay, Baton) {
        let baton = Baton(Arc::default());
        let relay = Relay { now: first, given: 0, next: None, leaving: None, baton: baton.clone() };
        (relay, baton)
    }

    /// Takes what has been handed in; never waits for whoever is handing it in.
    fn take(&mut self) {
        let handed = match self.baton.0.try_lock() {
            Ok(mut next) => next.take(),
            Err(TryLockError::Poisoned(next)) => next.into_inner().take(),
            Err(TryLockError::WouldBlock) => None,
        };
        self.next = handed.or(self.next.take());
    }

    /// Lets what follows begin, if it is time.
    fn go_over(&mut self) {
        let Some(mut next) = self.next.take_if(|next| next.at <= self.given) else { return };
        skip(next.samples.as_mut(), self.given - next.at);
        let before = std::mem::replace(&mut self.now, next.samples);
        self.leaving = Some((before, 0));
    }

    /// Fills a block in which nothing else begins.
    fn fill_one(&mut self, block: &mut [f32]) -> usize {
        let given = self.now.fill(block);
        self.given = self.given.saturating_add(given as u64);
        if let Some((mut before, over)) = self.leaving.take() {
            let length = given.min(CROSSING - over);
            cross(&mut block[..length], before.as_mut(), over);
            let over = over + length;
            self.leaving = (over < CROSSING && length > 0).then_some((before, over));
        }
        given
    }

    /// How many of the wanted frames come before something else begins, or a fade is over.
    fn until_change(&self, wanted: usize) -> usize {
        let next = self.next.as_ref().map(|next| next.at.saturating_sub(self.given));
        let next = next.and_then(|frames| usize::try_from(frames).ok()).unwrap_or(usize::MAX);
        let fade = self.leaving.as_ref().map_or(usize::MAX, |(_, over)| CROSSING - over);
        wanted.min(next).min(fade)
    }
}

impl Samples for Relay {
    fn fill(&mut self, block: &mut [f32]) -> usize {
        self.take();
        let mut filled = 0;
        while filled < block.len() {
            self.go_over();
            let length = self.until_change(block.len() - filled);
            let given = self.fill_one(&mut block[filled..filled + length]);
            filled += given;
            if given < length {
                break;
            }
        }
        filled
    }
}

impl Baton {
    /// Has these samples follow at a frame of the whole, in place of others that wait to follow.
    pub fn hand_over(&self, samples: Box<dyn Samples>, Frames(at): Frames) {
        *self.0.lock().unwrap_or_else(PoisonError::into_inner) = Some(Next { samples, at });
    }
}

/// Leaves out the next frames.
fn skip(samples: &mut dyn Samples, frames: u64) {
    let mut block = [0.0; CROSSING];
    let mut left = frames;
    while left > 0 {
        let length = usize::try_from(left).map_or(CROSSING, |left| left.min(CROSSING));
        if samples.fill(&mut block[..length]) < length {
            return;
        }
        left -= length as u64;
    }
}

/// Mixes what leaves into a block, of whose fade so many frames are over.
fn cross(block: &mut [f32], before: &mut dyn Samples, over: usize) {
    let mut leaving = [0.0; CROSSING];
    let leaving = &mut leaving[..block.len()];
    let given = before.fill(leaving);
    leaving[given..].fill(0.0);
    for (index, (sample, leaving)) in block.iter_mut().zip(leaving).enumerate() {
        let part = (over + index + 1) as f32 / CROSSING as f32;
        *sample = *sample * part + *leaving * (1.0 - part);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Counts its frames, each of them one thousandth; ends after so many.
    struct Count {
        next: usize,
        end: usize,
    }

    fn count(end: usize) -> Box<Count> {
        Box::new(Count { next: 0, end })
    }

    impl Samples for Count {
        fn fill(&mut self, block: &mut [f32]) -> usize {
            let given = block.len().min(self.end - self.next);
            for sample in &mut block[..given] {
                *sample = self.next as f32 / 1_000.0;
                self.next += 1;
            }
            given
        }
    }

    /// All that is given, asked for in blocks of this length, and what is done before each of them.
    fn heard(relay: &mut Relay, block: usize, mut before: impl FnMut(usize)) -> Vec<f32> {
        let mut all = Vec::new();
        loop {
            before(all.len());
            let mut piece = vec![0.0; block];
            let given = relay.fill(&mut piece);
            all.extend(&piece[..given]);
            if given < block {
                return all;
            }
        }
    }

    #[test]
    fn what_follows_begins_at_its_frame_whatever_the_blocks() {
        for block in [1, 7, 480, 500, 4_096] {
            let (mut relay, baton) = Relay::new(count(10_000));
            baton.hand_over(count(2_000), Frames(1_000));
            let all = heard(&mut relay, block, |_| ());
            assert_eq!(all.len(), 3_000, "{block}");
            assert_eq!(all[999], 0.999);
            assert_eq!(all[1_000 + CROSSING], CROSSING as f32 / 1_000.0);
            // Half of each in the middle of the fade: 1240 and 240 thousandths.
            assert!((all[1_239] - 0.739).abs() < 1e-6, "{block}: {}", all[1_239]);
        }
    }

    #[test]
    fn what_comes_late_is_heard_when_it_should_be() {
        let (mut relay, baton) = Relay::new(count(10_000));
        let all = heard(&mut relay, 100, |given| {
            if given == 2_000 {
                baton.hand_over(count(2_000), Frames(1_000));
            }
        });
        assert_eq!(all.len(), 3_000);
        assert_eq!((all[1_999], all[2_600]), (1.999, 1.6));
    }

    #[test]
    fn the_last_that_is_handed_in_follows() {
        let (mut relay, baton) = Relay::new(count(10_000));
        baton.hand_over(count(5), Frames(1_000));
        baton.hand_over(count(3_000), Frames(500));
        assert_eq!(heard(&mut relay, 64, |_| ()).len(), 3_500);
    }

    #[test]
    fn what_has_ended_fades_no_longer_than_it_lasts() {
        let (mut relay, baton) = Relay::new(count(1_010));
        baton.hand_over(count(2_000), Frames(1_000));
        let all = heard(&mut relay, 333, |_| ());
        assert_eq!(all.len(), 3_000);
        // What leaves has ended ten frames into its fade: what follows alone, at its part of the fade.
        assert!((all[1_239] - 0.239 * 0.5).abs() < 1e-6);
    }

    #[test]
    fn what_follows_an_end_is_not_heard() {
        let (mut relay, baton) = Relay::new(count(100));
        baton.hand_over(count(2_000), Frames(1_000));
        assert_eq!(heard(&mut relay, 64, |_| ()).len(), 100);
    }
}
