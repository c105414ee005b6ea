//! Runs the real program as a player's shell does, and keeps what it said.

#![allow(dead_code, reason = "each test program uses its own part of this")]

use std::ffi::OsStr;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::{fs, thread};

/// A player's empty home, gone when the test is over.
pub(crate) struct Home(PathBuf);

impl Home {
    pub(crate) fn new() -> Home {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let name = format!("fretloom-home-{}-{number}", std::process::id());
        let folder = std::env::temp_dir().join(name);
        fs::create_dir_all(&folder).unwrap();
        Home(folder)
    }

    /// Where it is.
    pub(crate) fn folder(&self) -> &Path {
        &self.0
    }

    /// Puts a file there and says where it is.
    pub(crate) fn put(&self, name: &str, content: &str) -> PathBuf {
        let path = self.0.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, content).unwrap();
        path
    }

    /// The program in this home, where it also stands: no other environment than a UTF-8 locale.
    pub(crate) fn program(&self) -> Command {
        let mut program = Command::new(env!("CARGO_BIN_EXE_fretloom"));
        program.env_clear().env("XDG_CONFIG_HOME", &self.0).env("LANG", "C.UTF-8");
        program.env("XDG_DATA_HOME", self.0.join("data"));
        program.stdin(Stdio::null()).current_dir(&self.0);
        program
    }

    /// Runs the program to its end.
    pub(crate) fn run<A: AsRef<OsStr>>(&self, arguments: &[A]) -> Said {
        Said::by(self.program().args(arguments))
    }
}

impl Drop for Home {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// What a run said, and its exit status.
#[derive(PartialEq, Eq, Debug)]
pub(crate) struct Said {
    pub(crate) status: Option<i32>,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Said {
    pub(crate) fn by(program: &mut Command) -> Said {
        Said::from(program.output().unwrap())
    }

    /// Runs the program with text on its standard input.
    pub(crate) fn by_piping(text: &str, program: &mut Command) -> Said {
        let pipes = program.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = pipes.spawn().unwrap();
        let mut stdin = child.stdin.take().unwrap();
        let text = text.to_owned();
        let writer = thread::spawn(move || stdin.write_all(text.as_bytes()));
        let said = Said::from(child.wait_with_output().unwrap());
        writer.join().unwrap().unwrap();
        said
    }

    /// What a run printed that had nothing to complain about.
    pub(crate) fn printed(self) -> String {
        assert_eq!((self.status, self.err.as_str()), (Some(0), ""), "{}", self.out);
        self.out
    }
}

impl From<std::process::Output> for Said {
    fn from(output: std::process::Output) -> Said {
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        Said { status: output.status.code(), out: text(output.stdout), err: text(output.stderr) }
    }
}
