//! Playing through a real sound server that has no sound card: what is recorded of it is what was sent, the
//! position is that of what is heard, and nothing waits for a server that does not answer.

#![cfg(target_os = "linux")]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "the functions of a test are a test too, and say what they measured"
)]

#[path = "support/program.rs"]
mod program;
#[path = "support/sound_server.rs"]
mod sound_server;

use std::f32::consts::TAU;
use std::process::{Command, Stdio};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use fretloom::sound::{Frames, Player, PlayerState, RATE, Samples, SoundError, SystemPlayer, Ways};
use program::{Home, Said};
use sound_server::{Recorder, SoundServer};

/// Times are measured here, so one test at a time.
fn alone() -> MutexGuard<'static, ()> {
    static ONE: Mutex<()> = Mutex::new(());
    ONE.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Samples by their number.
struct By<F>(u64, u64, F);

impl<F: Fn(u64) -> f32 + Send> Samples for By<F> {
    fn fill(&mut self, block: &mut [f32]) -> usize {
        let By(next, end, sample) = self;
        let given = block.len().min((*end - *next) as usize);
        for one in &mut block[..given] {
            *one = sample(*next);
            *next += 1;
        }
        given
    }
}

/// Each sample tells its number: over 10 s it rises from a little above nothing to 1.
fn ramp() -> Box<dyn Samples> {
    Box::new(By(0, RAMP, ramp_at))
}

const RAMP: u64 = 480_000;

fn ramp_at(frame: u64) -> f32 {
    (frame + 4_800) as f32 / (RAMP + 4_800) as f32
}

fn frame_of_ramp(sample: f32) -> f64 {
    f64::from(sample) * (RAMP + 4_800) as f64 - 4_800.0
}

/// A tone of A3, for ever.
fn tone() -> Box<dyn Samples> {
    Box::new(By(0, u64::MAX, tone_at))
}

fn tone_at(frame: u64) -> f32 {
    0.5 * (TAU * 220.0 * (frame % 48_000) as f32 / RATE as f32).sin()
}

const fn ms(number: u64) -> Duration {
    Duration::from_millis(number)
}

fn wait_for(
    player: &SystemPlayer,
    limit: Duration,
    wanted: impl Fn(&PlayerState) -> bool,
) -> Duration {
    let begin = Instant::now();
    while !wanted(&player.state()) {
        let (state, elapsed) = (player.state(), begin.elapsed());
        assert!(elapsed < limit, "still {state:?} after {elapsed:?}");
        thread::sleep(ms(1));
    }
    begin.elapsed()
}

fn is_playing(state: &PlayerState) -> bool {
    *state == PlayerState::Playing
}

#[test]
fn what_is_recorded_is_what_was_sent() {
    let _alone = alone();
    let Some(server) = SoundServer::start("same") else { return };
    let recorder = Recorder::of(&server);
    let player = SystemPlayer::new(server.places());
    assert_eq!((player.state(), player.way()), (PlayerState::Silent, None));
    let second = |frame| if frame == 0 { 0.9 } else { tone_at(frame) };
    player.start(Box::new(By(0, 48_000, second)));
    wait_for(&player, ms(5_000), |state| *state == PlayerState::Ended);
    assert_eq!(player.position(), Frames(48_000));
    let socket = server.folder().join("pulse/native");
    assert_eq!(player.way(), Some(format!("the sound server at {}", socket.display())));
    thread::sleep(ms(200));
    let recorded = recorder.samples();
    let begin = recorded.iter().position(|one| *one == 0.9).expect("the first sample is there");
    for (frame, heard) in recorded[begin..][..48_000].iter().enumerate() {
        assert_eq!(*heard, second(frame as u64), "{frame}");
    }
    let after = &recorded[begin + 48_000..];
    assert!(after.iter().all(|one| *one == 0.0), "nothing comes after it");
}

#[test]
fn what_is_shorter_than_the_buffer_is_heard_whole() {
    let _alone = alone();
    let Some(server) = SoundServer::start("short") else { return };
    let recorder = Recorder::of(&server);
    let player = SystemPlayer::new(server.places());
    for length in [1, 480, 2_000] {
        player.start(Box::new(By(0, length, |_| 0.25)));
        let took = wait_for(&player, ms(5_000), |state| *state == PlayerState::Ended);
        assert!(took < ms(1_000), "{length} frames take {took:?}");
    }
    thread::sleep(ms(200));
    let sounding = recorder.samples().iter().filter(|one| **one == 0.25).count();
    assert_eq!(sounding, 2_481);
}

#[test]
fn the_position_is_that_of_what_is_heard() {
    let _alone = alone();
    let Some(server) = SoundServer::start("position") else { return };
    let recorder = Recorder::of(&server);
    let player = SystemPlayer::new(server.places());
    player.start(ramp());
    wait_for(&player, ms(2_000), is_playing);
    thread::sleep(ms(300));
    let begin = Instant::now();
    let (mut worst, mut last) = (0.0f64, Frames(0));
    while begin.elapsed() < ms(4_000) {
        thread::sleep(ms(7));
        let Some((at, sample)) = recorder.last() else { continue };
        let position = player.position();
        assert!(position >= last, "it goes back from {last:?} to {position:?}");
        last = position;
        let heard = frame_of_ramp(sample) + at.elapsed().as_secs_f64() * f64::from(RATE);
        let off = (position.0 as f64 - heard) / 48.0;
        if off.abs() > worst.abs() {
            worst = off;
        }
    }
    println!("the position is {worst:.1} ms from what is heard at worst");
    assert!(worst.abs() < 60.0, "{worst} ms");
    let advanced = last.0 as f64 / 48.0;
    assert!(advanced > 4_000.0, "{advanced} ms");
}

#[test]
fn a_stop_is_heard_within_150_ms_and_without_a_click() {
    let _alone = alone();
    let Some(server) = SoundServer::start("stop") else { return };
    let mut slowest = Duration::ZERO;
    for _ in 0..5 {
        let recorder = Recorder::of(&server);
        let player = SystemPlayer::new(server.places());
        player.start(tone());
        wait_for(&player, ms(2_000), is_playing);
        thread::sleep(ms(500));
        let asked = Instant::now();
        player.stop();
        assert!(asked.elapsed() < ms(5), "a stop does not wait");
        assert_eq!(player.state(), PlayerState::Stopping);
        let told = wait_for(&player, ms(300), |state| *state == PlayerState::Silent);
        thread::sleep(ms(200));
        let heard = recorder.last_sound().unwrap().saturating_duration_since(asked);
        slowest = slowest.max(told).max(heard);
        no_click_at_the_end(&recorder.samples());
    }
    println!("a stop takes {slowest:?} at most");
    assert!(slowest < ms(150), "{slowest:?}");
}

/// The tone itself never moves by more from sample to sample than its steepest, and a fade makes it less.
fn no_click_at_the_end(recorded: &[f32]) {
    let end = recorded.iter().rposition(|one| *one != 0.0).unwrap();
    let fade = &recorded[end - 600..=end + 1];
    let steepest = fade.windows(2).map(|two| (two[1] - two[0]).abs()).fold(0.0, f32::max);
    assert!(steepest < 0.5 * TAU * 220.0 / 48_000.0 * 1.1, "{steepest}");
    let loudest = |part: &[f32]| part.iter().fold(0.0f32, |loudest, one| loudest.max(one.abs()));
    assert!(loudest(&fade[560..]) < 0.02, "it ends in nothing");
}

#[test]
fn what_is_started_next_waits_for_the_fade() {
    let _alone = alone();
    let Some(server) = SoundServer::start("next") else { return };
    let recorder = Recorder::of(&server);
    let player = SystemPlayer::new(server.places());
    player.start(tone());
    wait_for(&player, ms(2_000), is_playing);
    thread::sleep(ms(200));
    player.start(Box::new(By(0, 9_600, |_| 0.9)));
    assert_eq!(player.position(), Frames(0));
    wait_for(&player, ms(3_000), |state| *state == PlayerState::Ended);
    thread::sleep(ms(200));
    let recorded = recorder.samples();
    let begin = recorded.iter().position(|one| *one == 0.9).unwrap();
    assert!(recorded[begin..][..9_600].iter().all(|one| *one == 0.9), "nothing is mixed in");
    assert_eq!(recorded[begin - 1], 0.0);
}

#[test]
fn a_hundred_starts_in_a_row_leave_one_that_plays() {
    let _alone = alone();
    let Some(server) = SoundServer::start("many") else { return };
    let player = SystemPlayer::new(server.places());
    for _ in 0..100 {
        player.start(tone());
    }
    wait_for(&player, ms(3_000), is_playing);
    thread::sleep(ms(300));
    let inputs = server.control(&["list", "short", "sink-inputs"]).unwrap();
    assert_eq!(inputs.lines().count(), 1, "{inputs}");
    player.silence();
    assert_eq!(player.state(), PlayerState::Silent);
}

#[test]
fn a_server_that_is_killed_is_told_and_can_be_played_by_again() {
    let _alone = alone();
    let Some(mut server) = SoundServer::start("killed") else { return };
    let player = SystemPlayer::new(server.places());
    player.start(tone());
    wait_for(&player, ms(2_000), is_playing);
    thread::sleep(ms(200));
    server.kill();
    wait_for(&player, ms(500), |state| *state == PlayerState::Failed(SoundError::ServerEnded));
    player.start(tone());
    wait_for(&player, ms(2_500), |state| {
        matches!(state, PlayerState::Failed(SoundError::NoWay(_)))
    });
    server.start_again();
    player.start(Box::new(By(0, 4_800, |_| 0.25)));
    wait_for(&player, ms(3_000), |state| *state == PlayerState::Ended);
}

#[test]
fn a_server_that_does_not_answer_is_given_up() {
    let _alone = alone();
    let Some(server) = SoundServer::start("silent") else { return };
    let player = SystemPlayer::new(server.places());
    server.freeze();
    let begin = Instant::now();
    player.start(tone());
    assert!(begin.elapsed() < ms(50), "whoever starts it does not wait");
    let took = wait_for(&player, ms(2_500), |state| matches!(state, PlayerState::Failed(_)));
    assert!(took > ms(1_500), "{took:?}");
    let PlayerState::Failed(error) = player.state() else { panic!("{:?}", player.state()) };
    assert!(error.to_string().contains("pulse/native does not answer"), "{error}");
    let ways = Ways::look(&server.places());
    assert_eq!(ways.in_use, None);
    assert!(begin.elapsed() < ms(5_500), "looking gives up too");

    // One that is still being opened stops at once, and is never heard.
    player.start(tone());
    player.silence();
    assert_eq!(player.state(), PlayerState::Silent);
    server.thaw();
    thread::sleep(ms(500));
    assert_eq!(server.control(&["list", "short", "sink-inputs"]).unwrap(), "");
    player.start(Box::new(By(0, 4_800, |_| 0.25)));
    wait_for(&player, ms(3_000), |state| *state == PlayerState::Ended);
}

#[test]
fn a_server_that_freezes_while_it_plays_is_told_and_does_not_hold_up_a_stop() {
    let _alone = alone();
    let Some(server) = SoundServer::start("frozen") else { return };
    let player = SystemPlayer::new(server.places());
    player.start(tone());
    wait_for(&player, ms(2_000), is_playing);
    thread::sleep(ms(300));
    server.freeze();
    thread::sleep(ms(100));
    let position = player.position();
    wait_for(&player, ms(3_500), |state| *state == PlayerState::Failed(SoundError::ServerSilent));
    assert!(player.position().0 <= position.0 + 4_800, "the clock stands still with it");
    server.thaw();
    player.start(tone());
    wait_for(&player, ms(3_000), is_playing);
    thread::sleep(ms(300));
    server.freeze();
    let asked = Instant::now();
    player.silence();
    assert!(asked.elapsed() < ms(350), "{:?}", asked.elapsed());
    assert_eq!(player.state(), PlayerState::Silent);
    server.thaw();
}

#[test]
fn a_server_without_an_output_says_so() {
    let _alone = alone();
    let Some(server) = SoundServer::start("bare") else { return };
    server.control(&["unload-module", "module-null-sink"]).unwrap();
    let ways = Ways::look(&server.places());
    assert_eq!(ways.in_use, None);
    let words = ways.untaken[0].to_string();
    assert!(words.ends_with("pulse/native refuses: it has no output"), "{words}");
}

#[test]
fn the_first_sound_comes_soon_after_the_start() {
    let _alone = alone();
    let Some(server) = SoundServer::start("first") else { return };
    let mut times = Vec::new();
    for _ in 0..10 {
        let recorder = Recorder::of(&server);
        let player = SystemPlayer::new(server.places());
        thread::sleep(ms(50));
        let asked = Instant::now();
        player.start(Box::new(By(0, 9_600, |_| 0.25)));
        wait_for(&player, ms(3_000), |state| *state == PlayerState::Ended);
        thread::sleep(ms(100));
        times.push(recorder.first_sound().unwrap() - asked);
    }
    times.sort();
    println!("first sound after {:?} (median), {:?} (slowest)", times[5], times[9]);
    assert!(times[9] < ms(500), "{times:?}");
}

#[test]
fn a_command_plays_through_it_and_ctrl_c_stops_it() {
    let _alone = alone();
    let Some(server) = SoundServer::start("command") else { return };
    let recorder = Recorder::of(&server);
    let home = Home::new();
    let mut program = home.program();
    program.env("XDG_RUNTIME_DIR", server.folder());
    let told = Said::by(program.args(["settings"])).printed();
    let socket = server.folder().join("pulse/native").display().to_string();
    assert!(
        told.contains(&format!("\nsound is played by the sound server at {socket}\n")),
        "{told}"
    );

    let mut program = home.program();
    program.env("XDG_RUNTIME_DIR", server.folder());
    program.args(["line", "Dm7", "--bars", "64", "--play"]);
    let playing = program.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    thread::sleep(ms(1_500));
    let asked = Instant::now();
    let id = playing.id().to_string();
    assert!(Command::new("kill").args(["-INT", &id]).status().unwrap().success());
    let said = Said::from(playing.wait_with_output().unwrap());
    assert!(asked.elapsed() < ms(500), "{:?}", asked.elapsed());
    assert_eq!((said.status, said.err.as_str()), (Some(130), ""));
    thread::sleep(ms(300));
    let recorded = recorder.samples();
    let heard = recorded.iter().filter(|one| **one != 0.0).count();
    assert!(heard > 24_000, "{heard} samples are heard");
    let silent = recorded.iter().rev().take_while(|one| **one == 0.0).count();
    assert!(silent > 4_800, "and none in the end");
}

/// pacat finds the server by its own settings, which are none of ours.
#[test]
fn a_program_that_reaches_a_server_plays_and_stops_in_time() {
    let _alone = alone();
    let Some(server) = SoundServer::start("pacat") else { return };
    let recorder = Recorder::of(&server);
    let home = Home::new();
    let socket = server.folder().join("pulse/native");
    let settings = format!("default-server = unix:{}\n", socket.display());
    home.put(".config/pulse/client.conf", &settings);
    let mut program = home.program();
    program.env("HOME", home.folder()).env("PATH", std::env::var("PATH").unwrap());
    program.args(["line", "Dm7", "--bars", "64", "--play"]);
    let begin = Instant::now();
    let playing = program.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    thread::sleep(ms(2_000));
    let asked = Instant::now();
    let id = playing.id().to_string();
    assert!(Command::new("kill").args(["-INT", &id]).status().unwrap().success());
    let said = Said::from(playing.wait_with_output().unwrap());
    assert_eq!((said.status, said.err.as_str()), (Some(130), ""));
    thread::sleep(ms(300));
    let first = recorder.first_sound().unwrap() - begin;
    let last = recorder.last_sound().unwrap().saturating_duration_since(asked);
    println!("by pacat the first sound comes after {first:?}, and a stop takes {last:?}");
    assert!(last < ms(250), "{last:?}");
    no_click_in_the_end(&recorder.samples());
}

/// The last 12 ms are never louder than what is before them, and end in nothing.
fn no_click_in_the_end(recorded: &[f32]) {
    let end = recorded.iter().rposition(|one| *one != 0.0).unwrap();
    let loudest = |part: &[f32]| part.iter().fold(0.0f32, |loudest, one| loudest.max(one.abs()));
    let before = loudest(&recorded[end - 2_400..end - 576]);
    assert!(loudest(&recorded[end - 30..=end]) < before / 20.0, "it is cut off");
}
