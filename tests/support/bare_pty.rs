//! A pseudo-terminal that nobody reads unless asked, and that is not the program's controlling one:
//! the system sends no signal when it goes away.

#![allow(clippy::unwrap_used, reason = "the functions of a test are a test too")]

use std::fs::{File, OpenOptions};
use std::io::{Read, Write};
use std::os::unix::fs::OpenOptionsExt;
use std::path::Path;
use std::process::{Child, Command, ExitStatus};
use std::thread;
use std::time::{Duration, Instant};

use portable_pty::{MasterPty, PtySize, native_pty_system};

/// `open` must not make it the controlling terminal of the test.
#[cfg(target_os = "linux")]
const O_NOCTTY: i32 = 0o400;
#[cfg(not(target_os = "linux"))]
const O_NOCTTY: i32 = 0x2_0000;

pub(crate) struct BarePty {
    master: Box<dyn MasterPty + Send>,
    /// The program's end; a terminal goes away with the last of the other.
    path: std::path::PathBuf,
}

impl BarePty {
    pub(crate) fn new(rows: u16, columns: u16) -> BarePty {
        let pair = native_pty_system().openpty(size(rows, columns)).unwrap();
        let path = pair.master.tty_name().unwrap();
        BarePty { master: pair.master, path }
    }

    /// The program's end, once more.
    pub(crate) fn end(&self) -> File {
        OpenOptions::new().read(true).write(true).custom_flags(O_NOCTTY).open(&self.path).unwrap()
    }

    /// What is typed here is never waited for.
    pub(crate) fn keyboard(&self) -> Box<dyn Write + Send> {
        self.master.take_writer().unwrap()
    }

    pub(crate) fn resize(&self, rows: u16, columns: u16) {
        self.master.resize(size(rows, columns)).unwrap();
    }

    /// Reads what the program writes until these bytes have come.
    pub(crate) fn read_until(&self, bytes: &[u8]) -> Vec<u8> {
        let mut reader = self.master.try_clone_reader().unwrap();
        let (mut all, mut piece) = (Vec::new(), [0; 4096]);
        while !all.windows(bytes.len()).any(|window| window == bytes) {
            let read = reader.read(&mut piece).unwrap();
            assert_ne!(read, 0, "closed after {}", all.escape_ascii());
            all.extend(&piece[..read]);
        }
        all
    }

    /// Reads all the time, so that the program never waits.
    pub(crate) fn read_on(&self) {
        let mut reader = self.master.try_clone_reader().unwrap();
        thread::spawn(move || {
            let mut piece = [0; 4096];
            while reader.read(&mut piece).is_ok_and(|read| read > 0) {}
        });
    }

    pub(crate) fn is_in_line_mode(&self) -> bool {
        let local = format!("{:?}", self.master.get_termios().unwrap().local_flags);
        local.contains("ICANON") && local.contains("ECHO ")
    }
}

/// fretloom with its standard input on one pseudo-terminal and its output on another, or the same.
/// Its state is kept in this home.
pub(crate) fn fretloom(input: &BarePty, output: &BarePty, home: &Path) -> Child {
    let mut program = Command::new(env!("CARGO_BIN_EXE_fretloom"));
    program.env_clear().env("LANG", "C.UTF-8").env("TERM", "xterm-256color");
    program.env("XDG_CONFIG_HOME", home).env("XDG_STATE_HOME", home);
    program.stdin(input.end()).stdout(output.end()).stderr(output.end()).spawn().unwrap()
}

/// Waits for the end; a program that goes on is ended, and fails the test.
pub(crate) fn end_of(child: &mut Child, within: Duration) -> ExitStatus {
    let end = Instant::now() + within;
    loop {
        if let Some(status) = child.try_wait().unwrap() {
            return status;
        }
        if Instant::now() > end {
            child.kill().unwrap();
            child.wait().unwrap();
            panic!("still running after {within:?}");
        }
        thread::sleep(Duration::from_millis(5));
    }
}

fn size(rows: u16, cols: u16) -> PtySize {
    PtySize { rows, cols, ..PtySize::default() }
}
