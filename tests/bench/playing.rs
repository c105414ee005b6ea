//! Playing: how soon it is heard, and what it costs, beside the least program that plays a file.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    dead_code,
    reason = "a benchmark prints what it measured, and takes its part of what tests share"
)]

#[path = "../support/sound_server.rs"]
mod sound_server;

use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, Instant};
use std::{env, fs, thread};

use fretloom::sound::{Mix, Performance, PlayStyle, Player, Struck, SystemPlayer};
use fretloom_theory::{Pitch, Quarters, Score};
use sound_server::{Recorder, SoundServer};

fn main() {
    // `cargo test --benches` only shows that it works.
    let is_measured = env::args().any(|word| word == "--bench");
    let (times, seconds) = if is_measured { (30, 20) } else { (1, 1) };
    if !cfg!(target_os = "linux") {
        return;
    }
    let Some(server) = SoundServer::start("bench") else { return };
    let file = server.folder().join("line.raw");
    fs::write(&file, bytes_of(&line())).unwrap();

    let ours = median(times, || first_sound(&server, || playing(&server)));
    let plain = median(times, || first_sound(&server, || Pacat::playing(&server, &file)));
    println!("playing: first sound after the start");
    println!("  pacat plays a file      {plain:>8.1?}");
    println!("  SystemPlayer            {ours:>8.1?}");

    let limit = Duration::from_secs(seconds);
    let pacat = Pacat::playing(&server, &file);
    let plain = share(&format!("/proc/{}/stat", pacat.0.id()), limit);
    drop(pacat);
    let player = playing(&server);
    let ours = share("/proc/self/stat", limit);
    player.silence();
    println!("playing: share of one core while it plays");
    println!("  pacat plays a file      {plain:>8.2} %");
    println!("  SystemPlayer            {ours:>8.2} %");
    println!("  and when it is silent   {:>8.2} %", share("/proc/self/stat", limit));
}

/// Two minutes of eighths at 120, each ringing on for a beat.
fn line() -> Performance {
    let note = |number: u64| Struck {
        onset: Quarters::new(number, 2).unwrap(),
        end: Quarters::new(number + 2, 2).unwrap(),
        pitches: vec![Pitch::from_midi(50 + (number * 5 % 24) as u8).unwrap()],
        accent: number.is_multiple_of(8),
    };
    let notes: Vec<Struck> = (0..480).map(note).collect();
    Performance::new(&Score::default(), &notes, &PlayStyle::default())
}

fn bytes_of(performance: &Performance) -> Vec<u8> {
    let mut samples = performance.samples(&Arc::new(Mix::default()));
    let mut block = [0.0; 4_800];
    let mut bytes = Vec::new();
    loop {
        let given = samples.fill(&mut block);
        bytes.extend(block[..given].iter().flat_map(|one| one.to_le_bytes()));
        if given < block.len() {
            return bytes;
        }
    }
}

fn playing(server: &SoundServer) -> SystemPlayer {
    let player = SystemPlayer::new(server.places());
    player.start(line().samples(&Arc::new(Mix::default())));
    player
}

/// The program that comes with the server, which plays a file and does nothing else.
struct Pacat(Child);

impl Pacat {
    fn playing(server: &SoundServer, file: &Path) -> Pacat {
        let mut command = Command::new("pacat");
        command.env("XDG_RUNTIME_DIR", server.folder()).env("HOME", server.folder());
        command.args(["--raw", "--rate=48000", "--channels=1", "--format=float32le"]);
        command.arg("--latency-msec=100").arg(file).stderr(Stdio::null());
        Pacat(command.spawn().unwrap())
    }
}

impl Drop for Pacat {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// From the start until something is recorded that is not silence.
fn first_sound<T>(server: &SoundServer, start: impl FnOnce() -> T) -> Duration {
    let recorder = Recorder::of(server);
    let asked = Instant::now();
    let playing = start();
    let until = asked + Duration::from_secs(5);
    while recorder.first_sound().is_none() && Instant::now() < until {
        thread::sleep(Duration::from_millis(5));
    }
    let heard = recorder.first_sound().unwrap() - asked;
    drop(playing);
    // What was playing fades before the next is heard.
    thread::sleep(Duration::from_millis(200));
    heard
}

fn median(times: usize, mut measure: impl FnMut() -> Duration) -> Duration {
    let mut measured: Vec<Duration> = (0..times).map(|_| measure()).collect();
    measured.sort();
    measured[times / 2]
}

/// How many hundredths of one core a process uses in this time.
fn share(stat: &str, time: Duration) -> f64 {
    let before = ticks(stat);
    thread::sleep(time);
    (ticks(stat) - before) / time.as_secs_f64()
}

/// What it has used so far, in hundredths of a second: those in it and those of the system for it.
fn ticks(stat: &str) -> f64 {
    let stat = fs::read_to_string(stat).unwrap();
    let (_, fields) = stat.rsplit_once(')').unwrap();
    let number =
        |index: usize| fields.split_whitespace().nth(index).unwrap().parse::<f64>().unwrap();
    number(11) + number(12)
}
