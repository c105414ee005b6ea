//! Terminals that go away, that do not read, that flood the program, and that lie about their size.

use std::fs;
use std::io::Write;
use std::process::Command;
use std::thread;
use std::time::Duration;

use super::bare_pty::{BarePty, end_of, fretloom};
use super::program::Home;
use super::{DEADLINE, FIRST_CHORD, LEAVE_SCREEN, SHOW_CURSOR, count, signal};

/// Types without waiting until it has been read.
fn type_aside(pty: &BarePty, text: Vec<u8>) {
    let mut keyboard = pty.keyboard();
    thread::spawn(move || {
        let _ = keyboard.write_all(&text);
        // Dropping the keyboard would type an Enter and the end of the input.
        std::mem::forget(keyboard);
    });
}

/// The second pair is in hand, in what was kept.
fn kept_second_pair(home: &Home) -> bool {
    let session = fs::read_to_string(home.folder().join("fretloom/session.json"));
    session.is_ok_and(|session| session.contains("G & F#m") || session.contains("G & F♯m"))
}

#[test]
fn a_terminal_that_goes_away_without_a_signal_ends_the_program() {
    let (pty, home) = (BarePty::new(24, 80), Home::new());
    let mut program = fretloom(&pty, &pty, home.folder());
    pty.read_until(FIRST_CHORD.as_bytes());
    drop(pty);
    assert_eq!(end_of(&mut program, DEADLINE).code(), Some(1));
    assert!(home.folder().join("fretloom/session.json").exists());
}

#[test]
fn each_of_two_terminals_ends_the_program_when_it_goes_away() {
    for keys_go in [true, false] {
        let (keys, screen, home) = (BarePty::new(24, 80), BarePty::new(24, 80), Home::new());
        let mut program = fretloom(&keys, &screen, home.folder());
        screen.read_until(FIRST_CHORD.as_bytes());
        let (gone, left) = if keys_go { (keys, screen) } else { (screen, keys) };
        drop(gone);
        left.read_on();
        assert_eq!(end_of(&mut program, DEADLINE).code(), Some(1));
        assert!(left.is_in_line_mode());
        assert!(home.folder().join("fretloom/session.json").exists());
    }
}

#[test]
fn a_burst_of_keys_is_read_to_its_last() {
    let (pty, home) = (BarePty::new(24, 80), Home::new());
    let mut program = fretloom(&pty, &pty, home.folder());
    pty.read_until(FIRST_CHORD.as_bytes());
    pty.read_on();
    type_aside(&pty, [&[b'j'; 3000][..], b"q"].concat());
    assert_eq!(end_of(&mut program, 2 * DEADLINE).code(), Some(0));
}

#[test]
fn ctrl_c_overtakes_a_flood() {
    let (pty, home) = (BarePty::new(24, 80), Home::new());
    let mut program = fretloom(&pty, &pty, home.folder());
    pty.read_until(FIRST_CHORD.as_bytes());
    pty.read_on();
    type_aside(&pty, [&[b'j'; 1_000_000][..], b"\x03"].concat());
    assert_eq!(end_of(&mut program, 2 * DEADLINE).code(), Some(0));
}

/// Has the program write more than the system holds for a terminal that does not read.
fn stuff(pty: &BarePty, program: u32) {
    for columns in 300..340 {
        pty.resize(100, columns);
        // It is not the program's controlling terminal, so nobody else tells it.
        signal("WINCH", program);
        thread::sleep(Duration::from_millis(20));
    }
}

#[test]
fn a_terminal_that_does_not_read_is_given_back_and_the_session_kept() {
    for (name, status) in [("TERM", 143), ("HUP", 129), ("INT", 130)] {
        let (pty, home) = (BarePty::new(24, 80), Home::new());
        let mut program = fretloom(&pty, &pty, home.folder());
        pty.read_until(FIRST_CHORD.as_bytes());
        stuff(&pty, program.id());
        type_aside(&pty, b"j".to_vec());
        thread::sleep(Duration::from_millis(100));
        signal(name, program.id());
        assert_eq!(end_of(&mut program, Duration::from_secs(1)).code(), Some(status), "{name}");
        assert!(pty.is_in_line_mode(), "{name}");
        assert!(kept_second_pair(&home), "{name}");
        // Once it reads again, it is told what it has to know.
        let read = pty.read_until(SHOW_CURSOR);
        assert_eq!(count(&read, LEAVE_SCREEN), 1, "{name}");
    }
}

#[test]
fn a_quit_is_heard_while_the_terminal_does_not_read() {
    let (pty, home) = (BarePty::new(24, 80), Home::new());
    let mut program = fretloom(&pty, &pty, home.folder());
    pty.read_until(FIRST_CHORD.as_bytes());
    stuff(&pty, program.id());
    type_aside(&pty, b"q".to_vec());
    end_of(&mut program, Duration::from_secs(2));
    assert!(pty.is_in_line_mode());
}

/// Opening a pipe would wait until somebody reads it.
#[test]
fn pipes_where_files_should_be_keep_nobody_waiting() {
    for (name, told) in [
        ("lock", &b"its lock is no file"[..]),
        ("session.json.new", LEAVE_SCREEN),
        ("session.json", LEAVE_SCREEN),
    ] {
        let (pty, home) = (BarePty::new(24, 80), Home::new());
        let pipe = home.folder().join("fretloom").join(name);
        fs::create_dir_all(pipe.parent().unwrap()).unwrap();
        assert!(Command::new("mkfifo").arg(pipe).status().unwrap().success());
        let mut program = fretloom(&pty, &pty, home.folder());
        pty.read_until(FIRST_CHORD.as_bytes());
        type_aside(&pty, b"q".to_vec());
        pty.read_until(told);
        pty.read_on();
        assert_eq!(end_of(&mut program, DEADLINE).code(), Some(0), "{name}");
    }
}

/// 65535 × 65535 cells would take some hundred gigabytes.
#[test]
fn no_size_that_a_terminal_claims_takes_much_memory() {
    let (pty, home) = (BarePty::new(u16::MAX, u16::MAX), Home::new());
    let mut program = fretloom(&pty, &pty, home.folder());
    pty.read_until(FIRST_CHORD.as_bytes());
    pty.read_on();
    #[cfg(target_os = "linux")]
    {
        let status = fs::read_to_string(format!("/proc/{}/status", program.id())).unwrap();
        let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap();
        let kb: u64 = peak.trim().trim_end_matches(" kB").parse().unwrap();
        assert!(kb < 300_000, "{kb} kB");
    }
    type_aside(&pty, b"q".to_vec());
    assert_eq!(end_of(&mut program, 2 * DEADLINE).code(), Some(0));
}
