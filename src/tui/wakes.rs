//! Everything that waits for the main thread: one queue, and waiting for it is the only waiting.
//!
//! Putting something in never waits. So the thread that reads the keyboard always sees the next key
//! and the end of the terminal, and the one that answers signals is free for the next signal.

use std::collections::VecDeque;
use std::mem;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use super::event::{Event, Wake};
use super::key::{Key, KeyCode, Modifiers};

/// How many events are handled before a frame is drawn. Whoever is further behind than that sees
/// Ctrl-C overtake them.
pub(super) const BATCH: usize = 1024;

/// How many events wait at most. What is typed after that is dropped: nobody types so far ahead, and
/// a program that is sent a book must neither fill the memory nor stop listening.
const MOST: usize = 64 * 1024;

/// The queue, which every thread of the program shares.
#[derive(Default)]
pub(super) struct Wakes {
    waiting: Mutex<Waiting>,
    came: Condvar,
}

#[derive(Default)]
struct Waiting {
    /// What is handled first: signals, and news of the terminal.
    urgent: VecDeque<Wake>,
    /// What the player did, in order, and at last that nothing more can be read.
    in_turn: VecDeque<Wake>,
}

impl Wakes {
    /// Puts in what the player did. Ctrl-C overtakes everything that would take longer than a frame.
    pub(super) fn put(&self, event: Event) {
        let mut waiting = self.lock();
        let (is_behind, is_leaving) = (waiting.in_turn.len() >= BATCH, is_ctrl_c(&event));
        if is_behind && is_leaving {
            waiting.in_turn.push_front(Wake::Event(event));
        } else if waiting.in_turn.len() < MOST {
            waiting.in_turn.push_back(Wake::Event(event));
        }
        self.came.notify_one();
    }

    /// Puts in what comes after everything that was typed before.
    pub(super) fn put_last(&self, wake: Wake) {
        self.lock().in_turn.push_back(wake);
        self.came.notify_one();
    }

    /// Puts in what is handled next. News that waits already does not wait twice; whoever ends the
    /// program is always answered.
    pub(super) fn put_first(&self, wake: Wake) {
        let mut waiting = self.lock();
        let kind = mem::discriminant(&wake);
        let is_news = !matches!(wake, Wake::Ending(_));
        let mut urgent = waiting.urgent.iter();
        if !(is_news && urgent.any(|other| mem::discriminant(other) == kind)) {
            waiting.urgent.push_back(wake);
        }
        self.came.notify_one();
    }

    /// The next; waits until there is one, or until then.
    pub(super) fn wait(&self, until: Option<Instant>) -> Option<Wake> {
        let mut waiting = self.lock();
        loop {
            if let Some(wake) = waiting.take() {
                return Some(wake);
            }
            waiting = match until.map(|until| until.saturating_duration_since(Instant::now())) {
                None => self.came.wait(waiting).unwrap_or_else(PoisonError::into_inner),
                Some(Duration::ZERO) => return None,
                Some(left) => {
                    let woken = self.came.wait_timeout(waiting, left);
                    woken.unwrap_or_else(PoisonError::into_inner).0
                }
            };
        }
    }

    /// The next, if there is one.
    pub(super) fn next(&self) -> Option<Wake> {
        self.lock().take()
    }

    /// The queue is whole after every change of it, so a panic elsewhere does not matter.
    fn lock(&self) -> MutexGuard<'_, Waiting> {
        self.waiting.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Waiting {
    fn take(&mut self) -> Option<Wake> {
        self.urgent.pop_front().or_else(|| self.in_turn.pop_front())
    }
}

fn is_ctrl_c(event: &Event) -> bool {
    let ctrl = Modifiers { ctrl: true, ..Modifiers::default() };
    *event == Event::Key(Key::new(KeyCode::Char('c'), ctrl))
}

#[cfg(test)]
mod tests {
    use std::io;

    use super::*;

    fn key(text: &str) -> Event {
        Event::Key(text.parse().unwrap())
    }

    fn all(wakes: &Wakes) -> Vec<String> {
        std::iter::from_fn(|| wakes.next()).map(|wake| format!("{wake:?}")).collect()
    }

    fn is(wake: &str, event: &str) -> bool {
        wake == format!("{:?}", Wake::Event(key(event)))
    }

    #[test]
    fn what_is_typed_keeps_its_order_and_the_end_comes_last() {
        let wakes = Wakes::default();
        wakes.put(key("a"));
        wakes.put(key("ctrl-c"));
        wakes.put_last(Wake::InputFailed(io::ErrorKind::NotConnected.into()));
        let all = all(&wakes);
        assert!(is(&all[0], "a") && is(&all[1], "ctrl-c") && all[2].starts_with("InputFailed"));
    }

    #[test]
    fn ctrl_c_overtakes_more_than_a_frame_of_keys() {
        let wakes = Wakes::default();
        (0..BATCH).for_each(|_| wakes.put(key("j")));
        wakes.put(key("ctrl-c"));
        let all = all(&wakes);
        assert!(is(&all[0], "ctrl-c") && all[1..].iter().all(|wake| is(wake, "j")));
        assert_eq!(all.len(), BATCH + 1);
    }

    #[test]
    fn a_flood_is_bounded_and_ctrl_c_still_gets_in() {
        let wakes = Wakes::default();
        (0..1_000_000).for_each(|_| wakes.put(key("j")));
        wakes.put(key("ctrl-c"));
        let all = all(&wakes);
        assert_eq!(all.len(), MOST + 1);
        assert!(is(&all[0], "ctrl-c"));
    }

    #[test]
    fn news_comes_first_and_once() {
        let wakes = Wakes::default();
        wakes.put(key("j"));
        (0..1000).for_each(|_| wakes.put_first(Wake::Resized));
        let all = all(&wakes);
        assert_eq!(all.len(), 2);
        assert!(all[0] == "Resized" && is(&all[1], "j"));
    }
}
