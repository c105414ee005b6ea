//! Jobs: keys do not wait for them, the newest counts, the end cancels them.

use std::panic::{self, AssertUnwindSafe};
use std::sync::mpsc;
use std::sync::{Arc, Mutex};
use std::time::Duration;

use super::small::{Stage, Told};
use crate::tui::runtime::app::Effect;
use crate::tui::runtime::jobs::{Job, Subject};

/// Long enough for a busy machine; a passing test never waits for it.
const DEADLINE: Duration = Duration::from_secs(5);

fn quit() -> Vec<Effect<u32>> {
    vec![Effect::Quit]
}

#[test]
fn keys_are_answered_while_a_job_runs() {
    let (go, gone) = mpsc::channel();
    let mut gone = Some(gone);
    let mut heard = Vec::new();
    let done = Stage::default().run("w g", |told| match told {
        Told::Key(key) if key == "w" => {
            let gone = gone.take().unwrap();
            vec![Effect::Work(Job::new(move |_| gone.recv_timeout(DEADLINE).map_or(0, |()| 7)))]
        }
        // Only this key lets the job end.
        Told::Key(_) => {
            go.send(()).unwrap();
            Vec::new()
        }
        Told::Answer(answer) => {
            heard.push(answer);
            quit()
        }
        Told::Sound(_) => quit(),
    });
    assert!(done.is_ok());
    assert_eq!(heard, [7]);
}

/// The first runs and is cancelled, the second never begins, the third is done and answered once.
#[test]
fn one_runs_and_the_newest_waits() {
    let (began, has_begun) = mpsc::channel();
    let log = Arc::new(Mutex::new(Vec::new()));
    let write = |what: &'static str| log.lock().unwrap().push(what);
    let job = |number: u32| {
        let (log, began) = (Arc::clone(&log), began.clone());
        Effect::Work(Job::new(move |cancelled| {
            began.send(()).unwrap();
            while number == 1 && !cancelled.is_set() {
                std::thread::yield_now();
            }
            log.lock().unwrap().push(if cancelled.is_set() { "cancelled" } else { "done" });
            number
        }))
    };
    let stage = Stage::default();
    let done = stage.run("1", |told| match told {
        Told::Key(key) if key == "1" => {
            stage.type_keys("2");
            vec![job(1)]
        }
        Told::Key(_) => {
            has_begun.recv_timeout(DEADLINE).unwrap();
            vec![job(2), job(3)]
        }
        Told::Answer(3) => {
            write("three");
            quit()
        }
        Told::Answer(_) | Told::Sound(_) => {
            write("stale");
            quit()
        }
    });
    assert!(done.is_ok());
    assert_eq!(*log.lock().unwrap(), ["cancelled", "done", "three"]);
}

/// An answer that has come, and waits while another job is asked for, is stale too.
#[test]
fn what_was_found_before_the_newest_was_asked_for_is_dropped() {
    let stage = Stage::default();
    let (found, has_found) = mpsc::channel();
    let mut answers = Vec::new();
    let done = stage.run("1", |told| match told {
        Told::Key(_) => {
            let found = found.clone();
            let told_elsewhere = Job::new(move |_| {
                found.send(()).unwrap();
                1
            });
            vec![Effect::Work(told_elsewhere)]
        }
        Told::Answer(1) => {
            has_found.recv_timeout(DEADLINE).unwrap();
            answers.push(1);
            // Both are asked for before the loop looks again.
            vec![Effect::Work(Job::new(|_| 2)), Effect::Work(Job::new(|_| 3))]
        }
        Told::Answer(answer) => {
            answers.push(answer);
            quit()
        }
        Told::Sound(_) => quit(),
    });
    assert!(done.is_ok());
    assert_eq!(answers, [1, 3]);
}

#[test]
fn the_end_waits_for_no_job_and_cancels_it() {
    let (cancelled, was_cancelled) = mpsc::channel();
    let done = Stage::default().run("w q", |told| match told {
        Told::Key(key) if key == "w" => {
            let cancelled = cancelled.clone();
            vec![Effect::Work(Job::new(move |wanted| {
                while !wanted.is_set() {
                    std::thread::yield_now();
                }
                let _ = cancelled.send(());
                0
            }))]
        }
        Told::Key(_) | Told::Answer(_) | Told::Sound(_) => quit(),
    });
    assert!(done.is_ok());
    // It may have been cancelled before it began, and then there is nothing to hear.
    drop(cancelled);
    let told = was_cancelled.recv_timeout(DEADLINE);
    assert!(matches!(told, Ok(()) | Err(mpsc::RecvTimeoutError::Disconnected)));
}

#[test]
fn a_panic_in_a_job_is_the_programs() {
    let ran = panic::catch_unwind(AssertUnwindSafe(|| {
        Stage::default().run("w", |told| match told {
            Told::Key(_) => vec![Effect::Work(Job::new(|_| panic!("as a test wants it")))],
            Told::Answer(_) | Told::Sound(_) => quit(),
        })
    }));
    let panic = ran.map(drop).unwrap_err();
    assert_eq!(panic.downcast_ref(), Some(&"as a test wants it"));
}

/// Each waits for its own subject alone.
#[test]
fn jobs_about_different_things_leave_one_another_alone() {
    let mut answers = Vec::new();
    let done = Stage::default().run("1", |told| match told {
        Told::Key(_) => {
            let first = [(1, Subject::Sound), (2, Subject::Plan)];
            let others = [(3, Subject::File), (4, Subject::Keepers)];
            let about = first.into_iter().chain(others);
            about
                .map(|(number, about)| Effect::Work(Job::new(move |_| number).about(about)))
                .collect()
        }
        Told::Answer(answer) => {
            answers.push(answer);
            if answers.len() == 4 { quit() } else { Vec::new() }
        }
        Told::Sound(_) => quit(),
    });
    assert!(done.is_ok());
    answers.sort_unstable();
    assert_eq!(answers, [1, 2, 3, 4]);
}
