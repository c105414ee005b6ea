//! Playing in a real terminal, through a program of the test's own that takes sound: it has ended before
//! the program stops or ends, and nothing of it is seen.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::thread;
use std::time::{Duration, Instant};

use crate::program::Home;
use crate::pty::{DEADLINE, Session};
use crate::{SHOW_CURSOR, assert_given_back, signal};

/// A machine without a sound server, whose one player takes what it is given until there is no more.
struct Machine {
    home: Home,
    path: String,
}

impl Machine {
    fn with_player() -> Machine {
        let machine = Machine::silent();
        let folder = machine.home.folder().display().to_string();
        // What it says must not come into the screen.
        let script = format!(
            "#!/bin/sh\ncd '{folder}'\necho BROKEN >&2\necho $$ >id\n/bin/cat >heard\necho yes >over\n"
        );
        let path = machine.home.put("pacat", &script);
        fs::set_permissions(path, fs::Permissions::from_mode(0o755)).unwrap();
        Machine { path: format!("{folder}:{}", std::env::var("PATH").unwrap()), ..machine }
    }

    /// A machine on which nothing can be heard.
    fn silent() -> Machine {
        let home = Home::new();
        let path = home.folder().display().to_string();
        Machine { home, path }
    }

    fn env(&self) -> [(&str, &str); 2] {
        [("PATH", &self.path), ("PULSE_SERVER", "unix:/nowhere/native")]
    }

    /// The line screen, playing.
    fn playing(&self) -> Session {
        let mut session = Session::start(&["Dm7"], 24, 80, &self.env());
        session.wait_for("D Dorian", DEADLINE);
        session.send("3 ");
        session.wait_for("▸ playing", DEADLINE);
        self.wait_for("heard");
        session
    }

    /// Waits until the player has written something.
    fn wait_for(&self, name: &str) {
        let end = Instant::now() + DEADLINE;
        while fs::read(self.home.folder().join(name)).map_or(0, |bytes| bytes.len()) == 0 {
            assert!(Instant::now() < end, "no {name}");
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// Has its player been given an end?
    fn is_over(&self) -> bool {
        self.home.folder().join("over").exists()
    }
}

#[test]
fn space_plays_and_stops_and_nothing_of_it_is_seen() {
    let machine = Machine::with_player();
    let mut session = machine.playing();
    // The cursor goes on by itself: to the first note of the second bar.
    session.wait_for("order in bar 2", DEADLINE);
    session.send(" ");
    machine.wait_for("over");
    session.wait_until("playing to be over", DEADLINE, |_, screen| {
        !screen.contents().contains("▸ playing")
    });
    assert!(!session.screen().contains("BROKEN"));
    session.send("q");
    assert_eq!(session.wait_exit(DEADLINE), 0);
    assert_given_back(&session, 1);
}

#[test]
fn the_sound_has_ended_when_the_program_has() {
    for (way, status) in [("q", 0), ("\x03", 0), ("TERM", 143), ("HUP", 129)] {
        let machine = Machine::with_player();
        let mut session = machine.playing();
        match status {
            0 => session.send(way),
            _ => signal(way, session.process_id()),
        }
        assert_eq!(session.wait_exit(DEADLINE), status, "{way:?}");
        // Its last line follows what it was given last.
        machine.wait_for("over");
        assert_given_back(&session, 1);
    }
}

#[test]
fn the_sound_has_ended_before_a_program_that_panics_has() {
    let machine = Machine::with_player();
    let mut env = machine.env().to_vec();
    env.push(("FRETLOOM_PANIC_ON_KEY", "x"));
    let mut session = Session::start(&["Dm7"], 24, 80, &env);
    session.wait_for("D Dorian", DEADLINE);
    session.send("3 ");
    machine.wait_for("heard");
    session.send("x");
    assert_eq!(session.wait_exit(DEADLINE), 101);
    machine.wait_for("over");
}

/// Through a shell with job control: a process without one cannot be stopped.
#[test]
fn the_sound_has_ended_when_ctrl_z_has_stopped_the_program() {
    const SHELL: &str = "set -m; \"$0\" Dm7; read line; fg";
    let machine = Machine::with_player();
    let arguments = ["-c", SHELL, env!("CARGO_BIN_EXE_fretloom")];
    let mut session = Session::start_program("/bin/sh", &arguments, 24, 80, &machine.env());
    session.wait_for("D Dorian", DEADLINE);
    let fretloom = crate::linux::child_of(session.process_id());
    session.send("3 ");
    session.wait_for("▸ playing", DEADLINE);
    machine.wait_for("heard");
    session.send("\x1a");
    session.wait_for_bytes(SHOW_CURSOR, 1, DEADLINE);
    machine.wait_for("over");
    // Until it has stopped, what is typed is still read by the program and not by the shell.
    crate::linux::wait_for_state(fretloom, &['T']);
    session.send("\n");
    session.wait_for("♩=120", DEADLINE);
    session.wait_until("silence to be told", DEADLINE, |_, screen| {
        !screen.contents().contains("▸ playing")
    });
    session.send("q");
    assert_eq!(session.wait_exit(DEADLINE), 0);
}

#[test]
fn where_nothing_can_be_heard_the_screen_says_why_and_what_to_do() {
    let machine = Machine::silent();
    let mut session = Session::start(&["Dm7"], 24, 80, &machine.env());
    session.wait_for("D Dorian", DEADLINE);
    session.send("3 ");
    session.wait_for("no sound can be played here", DEADLINE);
    session.send("Y");
    session.wait_for("Not through pacat: is not on the PATH", DEADLINE);
    assert!(!machine.is_over());
    session.send("q");
    session.send("q");
    assert_eq!(session.wait_exit(DEADLINE), 0);
}

/// After it was stopped nothing wakes any more.
#[test]
fn a_program_that_has_played_is_idle_again() {
    let machine = Machine::with_player();
    let mut session = machine.playing();
    session.send(" ");
    machine.wait_for("over");
    session.wait_until("playing to be over", DEADLINE, |_, screen| {
        !screen.contents().contains("▸ playing")
    });
    // The waits that cannot be for something to be seen: nothing must happen in the second.
    thread::sleep(Duration::from_millis(500));
    let before = crate::linux::switches(session.process_id());
    thread::sleep(Duration::from_millis(400));
    assert_eq!(crate::linux::switches(session.process_id()), before);
}
