//! The program as a process in a real pseudo-terminal (Linux): until its first frame, at rest, its
//! memory and its size.

use std::fs;
use std::time::{Duration, Instant};

use crate::effort::Effort;
use crate::pty::{DEADLINE, Session};

/// How often the program is started.
const STARTS: usize = 21;

/// How long it is left alone.
const REST: Duration = Duration::from_secs(10);

/// The kernel counts processor time in hundredths of a second.
const TICK_MS: u64 = 10;

/// Measures all of it, and prints it beside what it may be at most.
pub(crate) fn measure() {
    let (times, rest) = Effort::of_this_run().choose((STARTS, REST), (1, Duration::ZERO));
    let mut starts: Vec<Duration> = (0..times).map(|_| first_frame().1).collect();
    starts.sort_unstable();
    println!("\nthe process in a pseudo-terminal, with every built-in tuning");
    println!(
        "  start to first frame    {:>9.1?} of 20 ms, {:.1?} at worst",
        starts[times / 2],
        starts[times - 1]
    );
    let (mut session, _) = first_frame();
    let id = session.process_id();
    let before = processor_ms(id);
    std::thread::sleep(rest);
    println!("  processor at rest       {:>6} ms in {rest:?}", processor_ms(id) - before);
    for key in ["j", "s", " ", "v", "x", "g", "banjo", "\u{1b}", "\u{1b}", "?"] {
        session.send(key);
        std::thread::sleep(Duration::from_millis(60));
    }
    println!("  peak memory after keys  {:>6} KiB of 20480", peak_kib(id));
    println!("  the binary              {:>6} KiB of 8192", binary_kib());
}

/// The program on a large screen, and how long it took until that was drawn to its last line.
fn first_frame() -> (Session, Duration) {
    let start = Instant::now();
    let session = Session::start(&["Gmaj7#11"], 50, 200, &[]);
    session.wait_until("a last line", DEADLINE, |_, screen| {
        screen.rows(0, u16::MAX).last().is_some_and(|line| !line.trim().is_empty())
    });
    (session, start.elapsed())
}

/// The time that its threads have run, in milliseconds: the 14th and 15th field of `stat`.
fn processor_ms(id: u32) -> u64 {
    let stat = fs::read_to_string(format!("/proc/{id}/stat")).unwrap();
    // The second field is the name, in parentheses, which might hold spaces.
    let (_, fields) = stat.rsplit_once(')').unwrap();
    let ticks = fields.split_whitespace().skip(11).take(2);
    ticks.map(|ticks| ticks.parse::<u64>().unwrap()).sum::<u64>() * TICK_MS
}

fn peak_kib(id: u32) -> u64 {
    let status = fs::read_to_string(format!("/proc/{id}/status")).unwrap();
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap();
    peak.trim().trim_end_matches(" kB").parse().unwrap()
}

fn binary_kib() -> u64 {
    fs::metadata(env!("CARGO_BIN_EXE_fretloom")).unwrap().len() / 1024
}
