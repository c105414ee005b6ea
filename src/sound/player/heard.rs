//! What has been heard of what was sent.

use std::time::Instant;

use super::super::samples::Frames;

/// The clock of what is heard.
///
/// A way out says from time to time how far it has come. In between the wall clock counts on, but never
/// beyond what was given away; and what was told once is not taken back.
#[derive(Default)]
pub(super) struct Heard {
    measured: Option<(Frames, Instant)>,
    given: Frames,
    told: Frames,
}

impl Heard {
    /// So much had been heard at that moment.
    pub(super) fn measure(&mut self, frames: Frames, at: Instant) {
        self.measured = Some((frames, at));
    }

    /// So much has been given away since the start.
    pub(super) fn give(&mut self, given: Frames) {
        self.given = given;
    }

    /// Everything that was given has been heard.
    pub(super) fn complete(&mut self) {
        self.told = self.given;
    }

    /// How much has been heard now.
    pub(super) fn position(&mut self, now: Instant) -> Frames {
        if let Some((Frames(frames), at)) = self.measured {
            let since = Frames::in_time(now.saturating_duration_since(at));
            let heard = Frames(frames.saturating_add(since.0)).min(self.given);
            self.told = self.told.max(heard);
        }
        self.told
    }
}

#[cfg(test)]
mod tests {
    use std::time::Duration;

    use super::*;

    #[test]
    fn it_counts_on_up_to_what_was_given_and_never_back() {
        let begin = Instant::now();
        let after = |ms| begin + Duration::from_millis(ms);
        let mut heard = Heard::default();
        heard.give(Frames(4_800));
        assert_eq!(heard.position(after(50)), Frames(0), "nothing is known yet");
        heard.measure(Frames(480), after(50));
        assert_eq!(heard.position(after(50)), Frames(480));
        assert_eq!(heard.position(after(60)), Frames(960));
        // A later look says that it was a little less.
        heard.measure(Frames(900), after(60));
        assert_eq!(heard.position(after(60)), Frames(960));
        assert_eq!(heard.position(after(70)), Frames(1_380));
        assert_eq!(heard.position(after(1_000)), Frames(4_800));
        heard.give(Frames(5_000));
        heard.complete();
        assert_eq!(heard.position(after(1_000)), Frames(5_000));
    }
}
