//! The program in a real pseudo-terminal, with a terminal's eyes on what it writes.
//!
//! Nothing here sleeps for luck: every wait is for something to be seen, with a deadline.

#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

use std::fs;
use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Arc, Condvar, Mutex};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

/// Long enough for a busy machine; a passing test never waits for it.
pub(crate) const DEADLINE: Duration = Duration::from_secs(5);

const LOOK_AGAIN: Duration = Duration::from_millis(5);

/// A program running in a pseudo-terminal of its own.
pub(crate) struct Session {
    master: Option<Box<dyn MasterPty + Send>>,
    keyboard: Option<Box<dyn Write + Send>>,
    watcher: Option<JoinHandle<()>>,
    child: Box<dyn Child + Send + Sync>,
    seen: Arc<Seen>,
    /// The folder of its state, gone with it.
    state: PathBuf,
}

/// A folder that is not there yet.
fn state_folder() -> PathBuf {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    let number = NEXT.fetch_add(1, Ordering::Relaxed);
    std::env::temp_dir().join(format!("fretloom-pty-{}-{number}", std::process::id()))
}

/// What the program has written so far.
struct Seen {
    output: Mutex<Output>,
    grew: Condvar,
}

struct Output {
    raw: Vec<u8>,
    screen: vt100::Parser,
    closed: bool,
}

impl Session {
    /// Starts fretloom itself.
    pub(crate) fn start(args: &[&str], rows: u16, columns: u16, env: &[(&str, &str)]) -> Session {
        Session::start_program(env!("CARGO_BIN_EXE_fretloom"), args, rows, columns, env)
    }

    /// Starts any program, such as a shell with job control that starts fretloom.
    pub(crate) fn start_program(
        program: &str,
        args: &[&str],
        rows: u16,
        columns: u16,
        env: &[(&str, &str)],
    ) -> Session {
        let pair = native_pty_system().openpty(size(rows, columns)).unwrap();
        let mut command = CommandBuilder::new(program);
        command.args(args);
        command.cwd(env!("CARGO_MANIFEST_DIR"));
        command.env("TERM", "xterm-256color");
        // What the developer has set for themselves must not change what is seen.
        command.env("RUST_BACKTRACE", "0");
        command.env("LANG", "C.UTF-8");
        for name in ["LC_ALL", "LC_CTYPE", "NO_COLOR", "COLORTERM", "FRETLOOM_CONFIG"] {
            command.env_remove(name);
        }
        // A folder without files of the player's own.
        command.env("XDG_CONFIG_HOME", env!("CARGO_TARGET_TMPDIR"));
        // Nothing that was kept before, and nothing kept for other tests.
        let state = state_folder();
        command.env("XDG_STATE_HOME", &state);
        for (name, value) in env {
            command.env(name, value);
        }
        let child = pair.slave.spawn_command(command).unwrap();
        let seen = Arc::new(Seen::nothing(rows, columns));
        let reader = pair.master.try_clone_reader().unwrap();
        let keyboard = pair.master.take_writer().unwrap();
        let watcher = thread::spawn({
            let seen = Arc::clone(&seen);
            move || seen.watch(reader)
        });
        Session {
            master: Some(pair.master),
            keyboard: Some(keyboard),
            watcher: Some(watcher),
            child,
            seen,
            state,
        }
    }

    /// Types these bytes.
    pub(crate) fn send(&mut self, bytes: impl AsRef<[u8]>) {
        let keyboard = self.keyboard.as_mut().unwrap();
        keyboard.write_all(bytes.as_ref()).unwrap();
        keyboard.flush().unwrap();
    }

    /// Gives the window another size, as a player's hand on its corner does.
    pub(crate) fn resize(&mut self, rows: u16, columns: u16) {
        let mut output = self.seen.output.lock().unwrap();
        output.screen.set_size(cells(rows), cells(columns));
        let master = self.master.as_ref().unwrap();
        master.resize(size(rows, columns)).unwrap();
    }

    /// Waits until the screen shows this text.
    pub(crate) fn wait_for(&self, text: &str, timeout: Duration) {
        self.wait_until(&format!("{text:?} on the screen"), timeout, |_, screen| {
            screen.contents().contains(text)
        });
    }

    /// Waits until these bytes have been written at least so many times since the start.
    pub(crate) fn wait_for_bytes(&self, bytes: &[u8], times: usize, timeout: Duration) {
        let what = format!("{times} times {:?}", bytes.escape_ascii().to_string());
        self.wait_until(&what, timeout, |raw, _| count(raw, bytes) >= times);
    }

    /// Waits until what was written satisfies a condition; `what` is for the failing test.
    pub(crate) fn wait_until(
        &self,
        what: &str,
        timeout: Duration,
        met: impl Fn(&[u8], &vt100::Screen) -> bool,
    ) {
        let end = Instant::now() + timeout;
        let mut output = self.seen.output.lock().unwrap();
        while !met(&output.raw, output.screen.screen()) {
            let left = end.saturating_duration_since(Instant::now());
            if left.is_zero() {
                let screen = output.screen.screen().contents();
                let bytes = output.raw.escape_ascii().to_string();
                // Not under the lock: the watcher would fail too, and say less.
                drop(output);
                panic!("waited in vain for {what}; the screen shows:\n{screen}\nbytes: {bytes}");
            }
            output = self.seen.grew.wait_timeout(output, left).unwrap().0;
        }
    }

    /// The text a player sees now.
    pub(crate) fn screen(&self) -> String {
        self.with_screen(vt100::Screen::contents)
    }

    /// Asks the terminal anything else: its cursor, its modes, its cells.
    pub(crate) fn with_screen<T>(&self, ask: impl FnOnce(&vt100::Screen) -> T) -> T {
        ask(self.seen.output.lock().unwrap().screen.screen())
    }

    /// Every byte written since the start.
    pub(crate) fn raw(&self) -> Vec<u8> {
        self.seen.output.lock().unwrap().raw.clone()
    }

    /// The process started.
    pub(crate) fn process_id(&self) -> u32 {
        self.child.process_id().unwrap()
    }

    /// Whether the terminal hands over whole lines with echo, as a shell needs it, and not each
    /// key, as a screen does.
    #[cfg(unix)]
    pub(crate) fn is_in_line_mode(&self) -> bool {
        let modes = self.master.as_ref().unwrap().get_termios().unwrap();
        let local = format!("{:?}", modes.local_flags);
        local.contains("ICANON") && local.contains("ECHO ")
    }

    /// Closes the terminal window under the program, which must be one that answers keys.
    pub(crate) fn close_terminal(&mut self) {
        // A pseudo-terminal closes with its last handle, and the watcher reads from one. Dropping
        // the keyboard types a last Enter and Ctrl-D; the answer wakes the watcher.
        self.seen.output.lock().unwrap().closed = true;
        self.keyboard = None;
        self.watcher.take().unwrap().join().unwrap();
        self.master = None;
    }

    /// Waits for the program to end; its exit status.
    pub(crate) fn wait_exit(&mut self, timeout: Duration) -> u32 {
        let end = Instant::now() + timeout;
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                assert_eq!(status.signal(), None, "ended by a signal");
                return status.exit_code();
            }
            assert!(Instant::now() < end, "still running; {}", self.screen());
            thread::sleep(LOOK_AGAIN);
        }
    }
}

impl Drop for Session {
    fn drop(&mut self) {
        // Only what this session started, and only if it is still there.
        if let Ok(None) = self.child.try_wait() {
            let _ = self.child.kill();
            let _ = self.child.wait();
        }
        let _ = fs::remove_dir_all(&self.state);
    }
}

impl Seen {
    fn nothing(rows: u16, columns: u16) -> Seen {
        Seen {
            output: Mutex::new(Output {
                raw: Vec::new(),
                screen: vt100::Parser::new(cells(rows), cells(columns), 0),
                closed: false,
            }),
            grew: Condvar::new(),
        }
    }

    fn watch(&self, mut reader: Box<dyn Read + Send>) {
        let mut bytes = [0; 4096];
        // The end of a pseudo-terminal is an error on some systems and no bytes on others.
        while let Ok(n @ 1..) = reader.read(&mut bytes) {
            let mut output = self.output.lock().unwrap();
            output.raw.extend_from_slice(&bytes[..n]);
            output.screen.process(&bytes[..n]);
            self.grew.notify_all();
            if output.closed {
                return;
            }
        }
    }
}

/// How often a run of bytes occurs.
pub(crate) fn count(haystack: &[u8], needle: &[u8]) -> usize {
    positions(haystack, needle).count()
}

/// Where a run of bytes occurs.
pub(crate) fn positions(haystack: &[u8], needle: &[u8]) -> impl Iterator<Item = usize> {
    let windows = haystack.windows(needle.len()).enumerate();
    windows.filter_map(move |(at, window)| (window == needle).then_some(at))
}

fn size(rows: u16, cols: u16) -> PtySize {
    PtySize { rows, cols, ..PtySize::default() }
}

fn cells(number: u16) -> NonZeroU16 {
    NonZeroU16::new(number).unwrap()
}
