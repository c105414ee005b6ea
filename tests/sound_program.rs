//! Playing through a program of the machine: here one of the test's own, which keeps what it is given.

#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::panic, reason = "the functions of a test are a test too")]

#[path = "support/program.rs"]
mod program;

use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use std::{fs, thread};

use fretloom::sound::{
    Frames, Player, PlayerState, Samples, SoundError, SoundPlaces, SystemPlayer, Way, Ways,
};
use program::{Home, Said};

/// A folder with programs of the test's own, and no sound server.
struct Machine(Home);

impl Machine {
    fn new() -> Machine {
        Machine(Home::new())
    }

    fn folder(&self) -> &Path {
        self.0.folder()
    }

    /// Puts a shell script there as a program.
    fn with(self, name: &str, script: &str) -> Machine {
        let text = format!("#!/bin/sh\ncd '{}'\n{script}\n", self.folder().display());
        let path = self.0.put(name, &text);
        fs::set_permissions(path, fs::Permissions::from_mode(0o755)).unwrap();
        self
    }

    fn places(&self) -> SoundPlaces {
        let server = Err("is not there".to_owned());
        SoundPlaces { server, programs: vec![self.folder().to_owned()] }
    }

    fn player(&self) -> SystemPlayer {
        SystemPlayer::new(self.places())
    }

    /// The program on this machine. What its own PATH has, the scripts need.
    fn program(&self, arguments: &[&str]) -> Command {
        let mut program = self.0.program();
        let path = format!("{}:{}", self.folder().display(), std::env::var("PATH").unwrap());
        program.env("PATH", path).env("PULSE_SERVER", "unix:/nowhere/native").args(arguments);
        program
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder().join(name)
    }

    /// What a program has written, as soon as it is there.
    fn read(&self, name: &str) -> String {
        let until = Instant::now() + Duration::from_secs(5);
        loop {
            match fs::read_to_string(self.path(name)) {
                Ok(text) if !text.is_empty() => return text,
                _ if Instant::now() > until => panic!("{name} is not written"),
                _ => thread::sleep(ms(5)),
            }
        }
    }

    /// The samples that a program has kept.
    fn samples(&self, name: &str) -> Vec<i16> {
        let bytes = fs::read(self.path(name)).unwrap();
        bytes.chunks_exact(2).map(|two| i16::from_le_bytes([two[0], two[1]])).collect()
    }
}

/// A sound whose samples are numbers: the nth is n / 32,767.
struct Numbers {
    next: i16,
    end: i16,
}

fn numbers(end: i16) -> Box<dyn Samples> {
    Box::new(Numbers { next: 0, end })
}

impl Samples for Numbers {
    fn fill(&mut self, block: &mut [f32]) -> usize {
        let given = block.len().min((self.end - self.next) as usize);
        for sample in &mut block[..given] {
            *sample = f32::from(self.next) / 32_767.0;
            self.next += 1;
        }
        given
    }
}

/// A sound that is always the same.
struct Always(f32);

impl Samples for Always {
    fn fill(&mut self, block: &mut [f32]) -> usize {
        block.fill(self.0);
        block.len()
    }
}

const fn ms(number: u64) -> Duration {
    Duration::from_millis(number)
}

fn wait_for(player: &SystemPlayer, limit: Duration, wanted: impl Fn(&PlayerState) -> bool) {
    let begin = Instant::now();
    while !wanted(&player.state()) {
        let (state, elapsed) = (player.state(), begin.elapsed());
        assert!(elapsed < limit, "still {state:?} after {elapsed:?}");
        thread::sleep(ms(1));
    }
}

fn has_ended(state: &PlayerState) -> bool {
    *state == PlayerState::Ended
}

fn is_running(id: &str) -> bool {
    // A program that has ended and was not waited for still has its number, but no command.
    fs::read(format!("/proc/{}/cmdline", id.trim())).is_ok_and(|words| !words.is_empty())
}

/// Keeps samples as fast as they are played: 10 ms of them at a time.
const IN_TIME: &str = r#"exec perl -MTime::HiRes=time,sleep -e '
    open(my $heard, ">", "heard"); my $due = time;
    while (sysread(STDIN, my $block, 960)) {
        syswrite($heard, $block);
        $due += length($block) / 96000;
        my $left = $due - time;
        sleep($left) if $left > 0;
    }'"#;

#[test]
fn a_program_gets_exactly_the_samples_and_ends() {
    let machine = Machine::new().with("pacat", "echo \"$@\" >words; echo $$ >id; cat >heard");
    let player = machine.player();
    player.start(numbers(20_000));
    wait_for(&player, ms(5_000), has_ended);
    assert_eq!(player.position(), Frames(20_000));
    assert_eq!(player.way(), Some(format!("the program {}", machine.path("pacat").display())));
    assert_eq!(machine.samples("heard"), (0..20_000).collect::<Vec<i16>>());
    let words = machine.read("words");
    for word in ["--raw", "--rate=48000", "--channels=1", "--format=s16le"] {
        assert!(words.contains(word), "{words}");
    }
    assert!(!is_running(&machine.read("id")));
}

#[test]
fn it_has_nothing_to_print_to_and_a_process_group_of_its_own() {
    let machine = Machine::new().with(
        "pacat",
        "out=$(readlink /proc/$$/fd/1); err=$(readlink /proc/$$/fd/2); echo $out $err >ends
         cut -d' ' -f1,5 /proc/$$/stat >group
         echo no card >&2; cat >/dev/null",
    );
    let player = machine.player();
    player.start(numbers(100));
    wait_for(&player, ms(5_000), has_ended);
    assert_eq!(machine.read("ends").trim(), "/dev/null /dev/null");
    let group = machine.read("group");
    let (id, group) = group.trim().split_once(' ').unwrap();
    assert_eq!(id, group, "it leads its own group");
}

#[test]
fn a_stop_fades_and_ends_it() {
    let machine = Machine::new().with("aplay", &format!("echo $$ >id; {IN_TIME}"));
    let player = machine.player();
    player.start(Box::new(Always(0.5)));
    wait_for(&player, ms(3_000), |state| *state == PlayerState::Playing);
    let id = machine.read("id");
    thread::sleep(ms(400));
    let asked = Instant::now();
    player.stop();
    assert!(asked.elapsed() < ms(5), "a stop does not wait");
    player.silence();
    assert!(asked.elapsed() < ms(350), "{:?}", asked.elapsed());
    assert_eq!(player.state(), PlayerState::Silent);
    assert!(!is_running(&id));
    let heard = machine.samples("heard");
    assert_eq!(
        heard.iter().find(|one| **one != 16_384),
        heard.iter().rev().nth(575),
        "12 ms of fade"
    );
    assert_eq!(heard.last(), Some(&0));
}

#[test]
fn what_it_plays_is_not_far_behind_what_is_sent() {
    let machine = Machine::new().with("aplay", IN_TIME);
    let player = machine.player();
    player.start(Box::new(Always(0.5)));
    thread::sleep(ms(1_000));
    let (taken, told) = (machine.samples("heard").len(), player.position());
    player.silence();
    assert!(taken > 10_000, "{taken}");
    // It says what was taken, but for the 50 ms that the program was asked to keep.
    let off = told.0 as i64 - (taken as i64 - 2_400);
    assert!(off.abs() < 60 * 48, "{off} frames");
}

#[test]
fn one_that_cannot_play_leaves_everything_to_the_next() {
    let machine = Machine::new()
        .with("pacat", "head -c 500 >taken; exit 1")
        .with("pw-cat", "case \"$*\" in *--raw*) exit 1;; esac; cat >heard");
    let player = machine.player();
    player.start(numbers(20_000));
    wait_for(&player, ms(5_000), has_ended);
    assert_eq!(player.way(), Some(format!("the program {}", machine.path("pw-cat").display())));
    let heard = machine.samples("heard");
    assert_eq!(heard[..20_000], (0..20_000).collect::<Vec<i16>>());
    // 150 ms of silence, since it cuts what it holds at its end.
    assert_eq!(heard[20_000..], [0; 7_200]);
}

#[test]
fn what_is_shorter_than_the_pipe_goes_on_to_the_next_too() {
    let machine = Machine::new().with("pacat", "sleep 0.1; exit 1").with("aplay", "cat >heard");
    let player = machine.player();
    player.start(numbers(100));
    wait_for(&player, ms(5_000), has_ended);
    assert_eq!(machine.samples("heard"), (0..100).collect::<Vec<i16>>());
}

#[test]
fn where_none_can_play_each_says_why() {
    let machine = Machine::new().with("pacat", "exit 3").with("aplay", "exit 1");
    let player = machine.player();
    player.start(numbers(20_000));
    wait_for(&player, ms(5_000), |state| matches!(state, PlayerState::Failed(_)));
    let PlayerState::Failed(error) = player.state() else { panic!("{:?}", player.state()) };
    assert_eq!(
        error.to_string(),
        "no sound can be played here (sound server: is not there; pacat: cannot play: it ends with \
         status 3; pw-cat: is not on the PATH; aplay: cannot play: it ends with status 1)"
    );
    let ways = Ways::look(&machine.places());
    assert_eq!(ways.in_use, None);
    let untaken: Vec<String> = ways.untaken.iter().map(ToString::to_string).collect();
    assert_eq!(
        untaken,
        [
            "sound server: is not there",
            "pacat: cannot play: it ends with status 3",
            "pw-cat: is not on the PATH",
            "aplay: cannot play: it ends with status 1",
        ]
    );
}

#[test]
fn one_that_is_killed_half_way_is_told_and_can_be_played_by_again() {
    let machine = Machine::new().with("pacat", &format!("echo $$ >id; {IN_TIME}"));
    let player = machine.player();
    player.start(Box::new(Always(0.5)));
    let id = machine.read("id");
    thread::sleep(ms(600));
    let killed = Command::new("kill").args(["-KILL", id.trim()]).status().unwrap();
    assert!(killed.success());
    let ended = SoundError::ProgramEnded("pacat".to_owned(), "a signal".to_owned());
    assert_eq!(ended.to_string(), "pacat, which played, ended: a signal");
    wait_for(&player, ms(1_000), |state| *state == PlayerState::Failed(ended.clone()));
    player.start(numbers(10_000));
    wait_for(&player, ms(3_000), has_ended);
}

#[test]
fn one_that_takes_nothing_is_given_up_and_ended() {
    let machine = Machine::new().with("pacat", "echo $$ >id; sleep 60 & echo $! >child; sleep 60");
    let player = machine.player();
    player.start(Box::new(Always(0.5)));
    wait_for(&player, ms(5_000), |state| matches!(state, PlayerState::Failed(_)));
    let PlayerState::Failed(error) = player.state() else { panic!("{:?}", player.state()) };
    assert!(error.to_string().contains("pacat: takes no sound"), "{error}");
    assert!(!is_running(&machine.read("id")));
    let child = machine.read("child");
    let until = Instant::now() + ms(1_000);
    while is_running(&child) && Instant::now() < until {
        thread::sleep(ms(5));
    }
    assert!(!is_running(&child), "nor does anything that it started");

    // A stop does not wait for it either.
    player.start(Box::new(Always(0.5)));
    wait_for(&player, ms(2_000), |state| *state == PlayerState::Playing);
    let asked = Instant::now();
    player.silence();
    assert!(asked.elapsed() < ms(350), "{:?}", asked.elapsed());
    assert_eq!(player.state(), PlayerState::Silent);
}

#[test]
fn one_that_ends_when_it_has_taken_all_but_its_end_stays_open_is_ended() {
    let machine = Machine::new().with("pacat", "echo $$ >id; cat >heard; sleep 60");
    let player = machine.player();
    player.start(numbers(5_000));
    wait_for(&player, ms(4_000), has_ended);
    assert!(!is_running(&machine.read("id")));
}

#[test]
fn a_program_that_starts_in_two_ways_is_in_use_or_is_not() {
    for script in ["exit 0", "case \"$*\" in *--raw*) exit 1;; esac"] {
        let machine = Machine::new().with("pw-cat", script);
        let ways = Ways::look(&machine.places());
        assert_eq!(ways.in_use, Some(Way::Program(machine.path("pw-cat"))), "{script}");
        let others: Vec<&str> = ways.untaken.iter().map(|other| other.what.as_str()).collect();
        assert_eq!(others, ["sound server", "pacat", "aplay"], "{script}");
    }
}

#[test]
fn looking_plays_nothing() {
    let machine = Machine::new().with("pacat", "cat >heard");
    let ways = Ways::look(&machine.places());
    assert_eq!(ways.in_use, Some(Way::Program(machine.path("pacat"))));
    assert_eq!(machine.samples("heard"), Vec::<i16>::new());
}

/// A line of two bars that is over soon, without what depends on the machine.
const LINE: [&str; 6] = ["line", "Dm7", "--bars", "2", "--tempo", "400"];

#[test]
fn a_line_is_played_as_it_is_written_to_a_file_and_printed_as_ever() {
    let machine = Machine::new().with("pacat", "cat >heard");
    let plain = Said::by(&mut machine.program(&LINE)).printed();
    let played = Said::by(machine.program(&LINE).args(["--play", "--drone", "--a4=442"]));
    assert_eq!(played.printed(), plain);
    let wav = machine.path("line.wav");
    let written = Said::by(machine.program(&LINE).args(["--drone", "--a4=442", "--wav"]).arg(&wav));
    written.printed();
    let file = fs::read(wav).unwrap();
    assert!(file.len() > 100_000, "{}", file.len());
    // The head of the file has 44 bytes.
    assert_eq!(fs::read(machine.path("heard")).unwrap(), file[44..]);
}

#[test]
fn shapes_are_played_struck_or_in_turn() {
    let machine = Machine::new().with("pacat", "cat >heard");
    let shapes = ["shapes", "G", "--strings", "3-2-1", "--frets", "0-5"];
    let plain = Said::by(&mut machine.program(&shapes)).printed();
    let mut lengths = Vec::new();
    for how in ["--play", "--play=together", "--play=in-turn"] {
        assert_eq!(Said::by(machine.program(&shapes).arg(how)).printed(), plain);
        let heard = machine.samples("heard");
        assert!(heard.iter().any(|one| one.abs() > 300), "{how} is heard");
        lengths.push(heard.len());
    }
    assert_eq!(lengths[0], lengths[1]);
    assert!(lengths[2] > lengths[1], "one after another takes longer: {lengths:?}");
    let arpeggios =
        machine.program(&["shapes", "G", "--arpeggio", "2", "--frets", "0-4", "--play"]).output();
    assert!(arpeggios.unwrap().status.success());
    let refused =
        Said::by(&mut machine.program(&["shapes", "G", "--arpeggio", "2", "--play=together"]));
    assert_eq!(refused.status, Some(2), "{}", refused.err);
}

#[test]
fn ctrl_c_fades_what_is_played() {
    let machine = Machine::new().with("pacat", &format!("echo $$ >id; {IN_TIME}"));
    let mut program = machine.program(&["line", "Dm7", "--bars", "64", "--play"]);
    let playing = program.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let id = machine.read("id");
    thread::sleep(ms(800));
    let asked = Instant::now();
    assert!(
        Command::new("kill").args(["-INT", &playing.id().to_string()]).status().unwrap().success()
    );
    let said = Said::from(playing.wait_with_output().unwrap());
    assert!(asked.elapsed() < ms(500), "{:?}", asked.elapsed());
    assert_eq!((said.status, said.err.as_str()), (Some(130), ""));
    assert!(said.out.contains("Dm7"), "it was printed while it was played");
    assert!(!is_running(&id));
    let heard = machine.samples("heard");
    assert!(heard.len() > 10_000 && heard.last().unwrap().abs() < 10, "it ends in nothing");
}

#[test]
fn where_nothing_plays_a_command_says_so_and_prints_nothing() {
    let machine = Machine::new();
    for command in [&LINE[..], &["shapes", "G"]] {
        let mut program = machine.program(command);
        let said = Said::by(program.arg("--play").env("PATH", machine.folder()));
        assert_eq!((said.status, said.out.as_str()), (Some(1), ""));
        assert_eq!(
            said.err,
            "fretloom: no sound can be played here (sound server: /nowhere/native cannot be \
             reached: there is no such file; pacat: is not on the PATH; pw-cat: is not on the PATH; \
             aplay: is not on the PATH); expected a sound server or a program that plays; fretloom \
             line --wav FILE writes what would be heard\n"
        );
    }
}
