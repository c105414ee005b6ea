//! From nothing to the first frame, beside reading the same files; and the whole process beside
//! one that does nothing.

#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a benchmark prints what it measured")]

#[path = "support/effort.rs"]
mod effort;
#[path = "support/ratio.rs"]
mod ratio;

#[cfg(target_os = "linux")]
#[path = "support/process.rs"]
mod process;

#[cfg(target_os = "linux")]
#[path = "../support/pty.rs"]
mod pty;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use divan::{Bencher, black_box};
use fretloom::library::Library;
use fretloom::tui::program::Program;
use fretloom_theory::Spelling;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratio::Ratios;

/// A player's folder with a copy of every built-in tuning, gone at the end.
struct Player(PathBuf);

impl Player {
    fn new(name: &str) -> Player {
        let folder = format!("fretloom-bench-{name}-{}", std::process::id());
        let player = Player(std::env::temp_dir().join(folder));
        fs::create_dir_all(player.tunings()).unwrap();
        for file in files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tunings")) {
            fs::copy(&file, player.tunings().join(file.file_name().unwrap())).unwrap();
        }
        player
    }

    fn tunings(&self) -> PathBuf {
        self.0.join("tunings")
    }

    fn read_files(&self) -> usize {
        files(&self.tunings()).iter().map(|file| fs::read_to_string(file).unwrap().len()).sum()
    }

    fn first_frame(&self) -> Buffer {
        let library = Library::load(Some(black_box(&self.0)));
        let program = Program::open(Some("Gmaj7#11"), "guitar-standard", library, Spelling::Plain);
        let area = Rect::new(0, 0, 80, 24);
        let mut buffer = Buffer::empty(area);
        program.unwrap().draw(area, &mut buffer);
        buffer
    }
}

impl Drop for Player {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn files(folder: &Path) -> Vec<PathBuf> {
    fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect()
}

fn run(program: &str, arguments: &[&str]) {
    let mut command = Command::new(program);
    assert!(command.args(arguments).stdout(Stdio::null()).status().unwrap().success());
}

fn run_pairs() {
    run(env!("CARGO_BIN_EXE_fretloom"), &["pairs", "Gmaj7#11"]);
}

#[divan::bench]
fn read_the_files(bencher: Bencher<'_, '_>) {
    let player = Player::new("read");
    bencher.bench(|| player.read_files());
}

#[divan::bench]
fn first_frame(bencher: Bencher<'_, '_>) {
    let player = Player::new("frame");
    bencher.bench(|| player.first_frame());
}

#[cfg(target_os = "linux")]
#[divan::bench(sample_count = 20, sample_size = 1)]
fn process_that_does_nothing() {
    run("/bin/true", &[]);
}

#[cfg(target_os = "linux")]
#[divan::bench(sample_count = 20, sample_size = 1)]
fn process_that_prints_pairs() {
    run_pairs();
}

fn main() {
    divan::main();
    let player = Player::new("ratio");
    Ratios::to("read the player's files", || player.read_files())
        .and("tunings, chord, first frame at 80x24", || player.first_frame())
        .print("start");
    if cfg!(target_os = "linux") {
        Ratios::to("/bin/true", || run("/bin/true", &[]))
            .and("fretloom pairs Gmaj7#11", run_pairs)
            .print("whole process");
        #[cfg(target_os = "linux")]
        process::measure();
    }
}
