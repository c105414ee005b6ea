//! What only Linux shows in its files: a stopped program, one in the background, an idle one.

use std::fs;
use std::thread;
use std::time::{Duration, Instant};

use super::{
    DEADLINE, ENTER_SCREEN, LEAVE_SCREEN, ONCE_A_FRAME, SHOW_CURSOR, Session, assert_given_back,
    signal, start,
};

/// Runs the program twice through Ctrl-Z and `fg`, waiting for Enter while it is stopped.
const SHELL: &str = "set -m; \"$0\"; read line; fg; read line; fg";

/// A process's state letter and parent.
fn state(process: u32) -> Option<(char, u32)> {
    let stat = fs::read_to_string(format!("/proc/{process}/stat")).ok()?;
    // The name before it may hold anything, even brackets.
    let mut fields = stat.rsplit_once(')')?.1.split_whitespace();
    let letter = fields.next()?.chars().next()?;
    Some((letter, fields.next()?.parse().ok()?))
}

pub(super) fn child_of(parent: u32) -> u32 {
    find_child_of(parent).unwrap()
}

fn find_child_of(parent: u32) -> Option<u32> {
    let processes = fs::read_dir("/proc").unwrap();
    processes
        .filter_map(|entry| entry.unwrap().file_name().to_str()?.parse().ok())
        .find(|&process| state(process).is_some_and(|(_, its_parent)| its_parent == parent))
}

pub(super) fn wait_for_state(process: u32, wanted: &[char]) {
    let end = Instant::now() + DEADLINE;
    while !state(process).is_some_and(|(letter, _)| wanted.contains(&letter)) {
        assert!(Instant::now() < end, "{:?}", state(process));
        thread::sleep(Duration::from_millis(5));
    }
}

#[test]
fn ctrl_z_stops_and_the_shell_continues_it_twice() {
    let program = env!("CARGO_BIN_EXE_fretloom");
    let mut session = Session::start_program("sh", &["-c", SHELL, program], 24, 80, &[]);
    session.wait_for("frets 1–11 of 22", DEADLINE);
    let fretloom = child_of(session.process_id());
    for round in 1..=2 {
        session.send("\x1a");
        session.wait_for_bytes(SHOW_CURSOR, round, DEADLINE);
        wait_for_state(fretloom, &['T']);
        assert_given_back(&session, round);
        // The window changes while nobody looks: there is room for one fret more.
        session.resize(24, 80 + 6 * u16::try_from(round).unwrap());
        session.send("\n");
        session.wait_for_bytes(ENTER_SCREEN, round + 1, DEADLINE);
        session.wait_for(&format!("frets 1–{} of 22", 11 + round), DEADLINE);
    }
    session.send("q");
    assert_eq!(session.wait_exit(DEADLINE), 0);
    assert_given_back(&session, 3);
}

#[test]
fn every_stop_from_outside_gives_the_terminal_back_until_it_is_continued() {
    let program = env!("CARGO_BIN_EXE_fretloom");
    for name in ["TSTP", "TTIN", "TTOU"] {
        let mut session = Session::start_program("sh", &["-c", SHELL, program], 24, 80, &[]);
        session.wait_for("frets 1–11 of 22", DEADLINE);
        let fretloom = child_of(session.process_id());
        for round in 1..=2 {
            signal(name, fretloom);
            session.wait_for_bytes(SHOW_CURSOR, round, DEADLINE);
            wait_for_state(fretloom, &['T']);
            assert_given_back(&session, round);
            session.send("\n");
            session.wait_for_bytes(ENTER_SCREEN, round + 1, DEADLINE);
            session.wait_for_bytes(ONCE_A_FRAME, round + 1, DEADLINE);
            session.wait_for("frets 1–11 of 22", DEADLINE);
            // Taken again with the mouse: buttons and wheel.
            session.wait_for_bytes(b"\x1b[?1000h", round + 1, DEADLINE);
        }
        session.send("q");
        assert_eq!(session.wait_exit(DEADLINE), 0, "{name}");
        assert_given_back(&session, 3);
    }
}

/// The shell starts it in the background, waits for a line, lets it go on there, waits for another
/// and brings it to the front.
#[test]
fn a_program_in_the_background_leaves_the_terminal_alone_until_it_is_called() {
    const IN_THE_BACKGROUND: &str = "set -m; \"$0\" & read line; bg; read line; fg";
    let program = env!("CARGO_BIN_EXE_fretloom");
    let arguments = ["-c", IN_THE_BACKGROUND, program];
    let mut session = Session::start_program("sh", &arguments, 24, 80, &[]);
    let end = Instant::now() + DEADLINE;
    while find_child_of(session.process_id()).is_none() {
        assert!(Instant::now() < end);
        thread::sleep(Duration::from_millis(5));
    }
    for _ in 0..2 {
        wait_for_state(child_of(session.process_id()), &['T']);
        assert_eq!(super::count(&session.raw(), ENTER_SCREEN), 0);
        assert!(session.is_in_line_mode());
        session.send("\n");
    }
    session.wait_for("frets 1–11 of 22", DEADLINE);
    session.send("q");
    assert_eq!(session.wait_exit(DEADLINE), 0);
    assert_given_back(&session, 1);
}

#[test]
fn a_stop_from_outside_ends_in_a_whole_redraw() {
    let session = start(&[]);
    signal("STOP", session.process_id());
    wait_for_state(session.process_id(), &['T']);
    signal("CONT", session.process_id());
    session.wait_for_bytes(ONCE_A_FRAME, 2, DEADLINE);
    assert_eq!(super::count(&session.raw(), LEAVE_SCREEN), 0);
}

/// How often any thread of the process has been put to sleep or taken off its processor.
pub(super) fn switches(process: u32) -> u64 {
    let threads = fs::read_dir(format!("/proc/{process}/task")).unwrap();
    threads
        .map(|thread| {
            let status = fs::read_to_string(thread.unwrap().path().join("status")).unwrap();
            let counts = status.lines().filter_map(|line| line.split_once("ctxt_switches:"));
            counts.map(|(_, n)| n.trim().parse::<u64>().unwrap()).sum::<u64>()
        })
        .sum()
}

#[test]
fn an_idle_program_never_wakes() {
    let mut session = start(&[]);
    session.send("n");
    session.wait_for("shown: degree", DEADLINE);
    wait_for_state(session.process_id(), &['S']);
    // The one wait that cannot be for something to be seen: nothing must happen in it.
    thread::sleep(Duration::from_millis(100));
    let before = switches(session.process_id());
    thread::sleep(Duration::from_millis(400));
    assert_eq!(switches(session.process_id()), before);
}

/// The processor time of a process so far, in the system's ticks of usually 10 ms.
fn ticks(process: u32) -> u64 {
    let stat = fs::read_to_string(format!("/proc/{process}/stat")).unwrap();
    // Fields 14 and 15 of proc(5), counted from the third, which follows the name.
    let fields = stat.rsplit_once(')').unwrap().1.split_whitespace();
    fields.skip(11).take(2).map(|field| field.parse::<u64>().unwrap()).sum()
}

#[test]
fn two_idle_seconds_cost_no_processor_time() {
    let session = start(&[]);
    let before = ticks(session.process_id());
    thread::sleep(Duration::from_secs(2));
    let used = ticks(session.process_id()) - before;
    assert!(used <= 1, "{used} ticks");
}
