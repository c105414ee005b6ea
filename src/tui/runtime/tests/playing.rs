//! Playing: told while something sounds and never else, and silent before anything stands still.

use std::panic::{self, AssertUnwindSafe};
use std::sync::{Arc, mpsc};
use std::thread;
use std::time::Duration;

use super::small::{Stage, Told};
use crate::sound::{Frames, Player, PlayerState, Samples, SilentPlayer};
use crate::tui::event::{Event, Wake};
use crate::tui::runtime::app::Effect;
use crate::tui::wakes::Wakes;

/// So many samples of nothing.
struct Nothing(usize);

impl Samples for Nothing {
    fn fill(&mut self, block: &mut [f32]) -> usize {
        let given = block.len().min(self.0);
        block[..given].fill(0.0);
        self.0 -= given;
        given
    }
}

/// A tenth of a second.
fn short() -> Vec<Effect<u32>> {
    vec![Effect::Play(Box::new(Nothing(4_800)))]
}

fn endless() -> Vec<Effect<u32>> {
    vec![Effect::Play(Box::new(Nothing(usize::MAX)))]
}

fn quit() -> Vec<Effect<u32>> {
    vec![Effect::Quit]
}

/// Types `q` after much more time than a tick takes.
fn quit_soon(wakes: &Arc<Wakes>) {
    let wakes = Arc::clone(wakes);
    thread::spawn(move || {
        thread::sleep(Duration::from_millis(150));
        wakes.put(Event::Key("q".parse().unwrap()));
    });
}

#[test]
fn the_app_is_told_how_far_it_is_until_it_has_ended_and_never_again() {
    let stage = Stage::default();
    let mut told = Vec::new();
    let done = stage.run("p", |what| match what {
        Told::Key(key) if key == "p" => short(),
        Told::Sound(news) => {
            if news.state == PlayerState::Ended {
                quit_soon(&stage.wakes);
            }
            told.push((news.state, news.position));
            stage.player.advance(Duration::from_millis(40));
            Vec::new()
        }
        Told::Key(_) | Told::Answer(_) => quit(),
    });
    assert!(done.is_ok());
    let playing = [0, 1_920, 3_840].map(|at| (PlayerState::Playing, Frames(at)));
    assert_eq!(told[..3], playing);
    assert_eq!(told[3..], [(PlayerState::Ended, Frames(4_800))]);
}

#[test]
fn nothing_ticks_before_anything_is_played_or_after_it_was_stopped() {
    let stage = Stage::default();
    let mut told = Vec::new();
    quit_soon(&stage.wakes);
    let done = stage.run("", |what| match what {
        Told::Sound(_) | Told::Answer(_) => panic!("told without a reason"),
        Told::Key(_) => quit(),
    });
    assert!(done.is_ok());
    let done = stage.run("p s", |what| match what {
        Told::Key(key) if key == "p" => endless(),
        Told::Key(key) if key == "s" => vec![Effect::StopPlaying],
        Told::Sound(news) => {
            if news.state == PlayerState::Silent {
                quit_soon(&stage.wakes);
            }
            told.push(news.state);
            stage.player.advance(Duration::from_millis(40));
            Vec::new()
        }
        Told::Key(_) | Told::Answer(_) => quit(),
    });
    assert!(done.is_ok());
    assert_eq!(told, [PlayerState::Stopping, PlayerState::Silent]);
}

/// A hand that never rests does not keep the app from being told, and no tick is told twice.
#[test]
fn many_keys_do_not_hold_up_the_time() {
    let stage = Stage::default();
    let mut keys = 0;
    let done = stage.run("p", |what| match what {
        Told::Key(key) if key == "p" => {
            stage.type_keys("j");
            endless()
        }
        Told::Key(_) => {
            keys += 1;
            assert!(keys < 10_000_000, "never told");
            stage.type_keys("j");
            Vec::new()
        }
        Told::Sound(news) if news.position == Frames(0) => {
            stage.player.advance(Duration::from_millis(10));
            Vec::new()
        }
        Told::Sound(_) | Told::Answer(_) => quit(),
    });
    assert!(done.is_ok());
    assert!(keys > 0);
}

#[test]
fn a_frame_is_kept_where_nothing_has_changed() {
    let stage = Stage::default();
    let mut ticks = 0;
    let done = stage.run("p", |what| match what {
        Told::Key(_) => endless(),
        Told::Sound(_) => {
            ticks += 1;
            if ticks == 5 { quit() } else { vec![Effect::KeepFrame] }
        }
        Told::Answer(_) => quit(),
    });
    assert!(done.is_ok());
    // The first, and one for the key.
    assert_eq!(stage.frames.get(), 2);
}

#[test]
fn it_is_silent_before_the_process_stops_and_the_app_is_told() {
    let stage = Stage::default();
    let mut told = Vec::new();
    let done = stage.run("p", |what| match what {
        Told::Key(key) if key == "p" => {
            let mut effects = endless();
            effects.push(Effect::Suspend);
            effects
        }
        Told::Sound(news) => {
            told.push(news.state);
            quit()
        }
        Told::Key(_) | Told::Answer(_) => quit(),
    });
    assert!(done.is_ok());
    assert_eq!(stage.stopped_with.take(), Some(PlayerState::Silent));
    assert_eq!(told, [PlayerState::Silent]);
}

#[test]
fn it_is_silent_before_a_signal_ends_the_program_and_nothing_begins_after() {
    let stage = Stage::default();
    let (kept, was_kept) = mpsc::sync_channel(1);
    let mut kept = Some(kept);
    let mut heard = None;
    let done = stage.run("p", |what| match what {
        Told::Key(key) if key == "p" => {
            stage.wakes.put_first(Wake::Ending(kept.take().unwrap()));
            stage.type_keys("n q");
            endless()
        }
        Told::Key(key) if key == "n" => {
            heard = was_kept.try_recv().is_ok().then(|| stage.player.state());
            endless()
        }
        Told::Key(_) => {
            assert_eq!(stage.player.state(), PlayerState::Silent);
            quit()
        }
        Told::Sound(_) | Told::Answer(_) => Vec::new(),
    });
    assert!(done.is_ok());
    assert_eq!(heard, Some(PlayerState::Silent));
}

#[test]
fn it_is_silent_after_the_end_and_after_a_panic() {
    let after = |end: fn() -> Vec<Effect<u32>>| {
        let stage = Stage::default();
        let ran = panic::catch_unwind(AssertUnwindSafe(|| {
            let _ = stage.run("p q", |what| match what {
                Told::Key(key) if key == "p" => endless(),
                Told::Key(_) | Told::Sound(_) | Told::Answer(_) => end(),
            });
        }));
        (ran.is_ok(), SilentPlayer::state(&stage.player))
    };
    assert_eq!(after(quit), (true, PlayerState::Silent));
    assert_eq!(after(|| panic!("as a test wants it")), (false, PlayerState::Silent));
}
