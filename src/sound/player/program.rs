//! A program of the machine that plays what it is given.

mod known;
mod pipe;

use std::io;
use std::os::unix::process::CommandExt;
use std::path::PathBuf;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use rustix::process::{Pid, Signal, kill_process_group};

use super::super::samples::{Frames, to_16_bits};
use super::error::SoundError;
use super::places::SoundPlaces;
use super::session::Session;
use super::voice::Voice;
use super::way::{Untaken, Way};
use crate::words::in_plain_words;
pub(super) use known::Known;
use pipe::{Pipe, Written};

/// A known program that is on this machine.
pub(super) struct Program {
    known: &'static Known,
    path: PathBuf,
}

/// What was sent, as long as it is not certain that the program plays: the next one begins with it.
///
/// A program that cannot play says so by ending at once, and by then has taken what the pipe holds.
#[derive(Default)]
pub(super) struct Beginning(Vec<u8>);

/// A program that has taken so much plays: half a pipe more than one that only holds it.
const CERTAIN: usize = Pipe::SIZE * 3 / 2;

/// Why a program does not play on.
pub(super) enum Stopped {
    /// It could not play at all; the next one is to be tried.
    Never(Untaken),
    /// It broke off.
    Broken(SoundError),
}

impl Program {
    /// Those of the known ones that are here, in the order in which they are tried, and why the others
    /// are not.
    pub(super) fn all(places: &SoundPlaces) -> Vec<Result<Program, Untaken>> {
        Known::ALL.iter().map(|known| Program::find(known, places)).collect()
    }

    fn find(known: &'static Known, places: &SoundPlaces) -> Result<Program, Untaken> {
        let mut paths = places.programs.iter().map(|folder| folder.join(known.name));
        let found = paths.find(|path| path.is_file());
        let found = found.map(|path| Program { known, path });
        found.ok_or_else(|| Untaken::new(known.name, "is not on the PATH"))
    }

    pub(super) fn way(&self) -> Way {
        Way::Program(self.path.clone())
    }

    pub(super) fn name(&self) -> &'static str {
        self.known.name
    }

    /// Its own standard error and output are closed, and it is in a process group of its own: what it has
    /// to say does not come into the screen, and Ctrl-C is not meant for it.
    fn spawn(&self, input: Stdio) -> io::Result<Running> {
        let mut command = Command::new(&self.path);
        command.args(self.known.arguments);
        command.stdin(input).stdout(Stdio::null()).stderr(Stdio::null()).process_group(0);
        Ok(Running(command.spawn()?))
    }

    /// Can it play? It is given nothing, and says by its status.
    ///
    /// # Errors
    ///
    /// Why it cannot.
    pub(super) fn check(&self) -> Result<(), Untaken> {
        let mut running = self.spawn(Stdio::null()).map_err(|error| self.untaken(&error))?;
        match running.wait(CHECKING) {
            Some(status) if status.success() => Ok(()),
            Some(status) => Err(Untaken::new(
                self.name(),
                format!("cannot play: it ends with {}", words(status)),
            )),
            None => Err(Untaken::new(self.name(), "does not answer")),
        }
    }

    fn untaken(&self, error: &io::Error) -> Untaken {
        Untaken::new(self.name(), format!("cannot be started: {}", in_plain_words(error)))
    }

    /// Plays to the end; returns when it has been heard.
    pub(super) fn play(
        &self,
        beginning: &mut Beginning,
        voice: &mut Voice,
        session: &Session,
    ) -> Result<(), Stopped> {
        let never = |error: &io::Error| Stopped::Never(self.untaken(error));
        let mut running = self.spawn(Stdio::piped()).map_err(|error| never(&error))?;
        let Some(input) = running.0.stdin.take() else { return Ok(()) };
        let mut pipe = Pipe::new(input).map_err(|error| never(&error))?;
        if !session.play_by(self.way()) {
            return Ok(());
        }
        let mut feed = Feed { program: self, pipe: &mut pipe, session, sent: 0 };
        let fed = feed
            .beginning(beginning, &mut running)
            .and_then(|()| feed.rest(beginning, voice, &mut running));
        let sent = feed.sent;
        drop(pipe);
        fed?;
        self.wait_for_end(&mut running, sent, session)
    }

    /// Closing the pipe lets it end when all has been heard.
    fn wait_for_end(
        &self,
        running: &mut Running,
        sent: usize,
        session: &Session,
    ) -> Result<(), Stopped> {
        let until = Instant::now() + HEARD;
        while Instant::now() < until && !session.is_given_up() {
            match running.wait(Duration::from_millis(10)) {
                Some(status) if status.success() => return Ok(()),
                Some(status) if sent <= CERTAIN => return Err(Stopped::Never(self.cannot(status))),
                Some(status) => {
                    let error = SoundError::ProgramEnded(self.name().to_owned(), words(status));
                    return Err(Stopped::Broken(error));
                }
                None => {}
            }
        }
        Ok(())
    }

    fn cannot(&self, status: ExitStatus) -> Untaken {
        Untaken::new(self.name(), format!("cannot play: it ends with {}", words(status)))
    }
}

/// How long a program may take to say whether it can play.
const CHECKING: Duration = Duration::from_secs(1);
/// How long a program may take to play what it holds.
const HEARD: Duration = Duration::from_secs(2);
/// A program that has no room in so many waits, two seconds, takes nothing any more. Waits are counted and
/// not the clock read, since it goes on while this program is stopped.
const STUCK: u32 = 100;

/// What is being fed to a program.
struct Feed<'a> {
    program: &'a Program,
    pipe: &'a mut Pipe,
    session: &'a Session,
    sent: usize,
}

impl Feed<'_> {
    /// What a program before this one was given, and could not play.
    fn beginning(&mut self, beginning: &Beginning, running: &mut Running) -> Result<(), Stopped> {
        self.send(&beginning.0, running)
    }

    fn rest(
        &mut self,
        beginning: &mut Beginning,
        voice: &mut Voice,
        running: &mut Running,
    ) -> Result<(), Stopped> {
        while !voice.has_ended() {
            let mut block = [0.0; BLOCK];
            let given = self.session.take(voice, &mut block);
            let bytes = in_bytes(&block[..given]);
            if beginning.0.len() <= CERTAIN {
                beginning.0.extend_from_slice(&bytes);
            }
            self.send(&bytes, running)?;
            self.say_how_far(voice.given());
        }
        let tail = vec![0; self.program.known.silence_at_end()];
        self.send(&tail, running)
    }

    fn send(&mut self, mut bytes: &[u8], running: &mut Running) -> Result<(), Stopped> {
        let mut vain = 0;
        while !bytes.is_empty() && !self.session.is_given_up() {
            match self.pipe.write(bytes) {
                Ok(Written::Nothing) if vain > STUCK => return Err(self.stuck()),
                Ok(Written::Nothing) => vain += 1,
                Ok(Written::Some(written)) => {
                    bytes = &bytes[written..];
                    self.sent += written;
                    vain = 0;
                }
                Err(_) => return Err(self.ended(running)),
            }
        }
        Ok(())
    }

    fn stuck(&self) -> Stopped {
        let name = self.program.name();
        if self.sent <= CERTAIN {
            return Stopped::Never(Untaken::new(name, "takes no sound"));
        }
        Stopped::Broken(SoundError::ProgramStuck(name.to_owned()))
    }

    fn ended(&self, running: &mut Running) -> Stopped {
        let name = self.program.name();
        let how = running
            .wait(Duration::from_millis(100))
            .map_or("it closed its input".to_owned(), words);
        if self.sent <= CERTAIN {
            return Stopped::Never(Untaken::new(name, format!("cannot play: it ends with {how}")));
        }
        Stopped::Broken(SoundError::ProgramEnded(name.to_owned(), how))
    }

    /// A program does not tell what is heard. It is what was sent, without what is still in the pipe and
    /// what the program was asked to keep.
    fn say_how_far(&mut self, given: Frames) {
        let in_pipe = Frames((self.pipe.holds() / SAMPLE) as u64);
        let kept = Frames::in_time(Known::LATENCY);
        let heard = given.0.saturating_sub(in_pipe.0 + kept.0);
        if heard > 0 {
            self.session.measure(Frames(heard), Instant::now());
        }
    }
}

/// A sample is a whole number of two bytes.
const SAMPLE: usize = 2;
/// Samples that are sent at a time: 10 ms.
const BLOCK: usize = 480;

fn in_bytes(samples: &[f32]) -> Vec<u8> {
    samples.iter().flat_map(|one| to_16_bits(*one).to_le_bytes()).collect()
}

fn words(status: ExitStatus) -> String {
    status.code().map_or("a signal".to_owned(), |code| format!("status {code}"))
}

/// A program that runs, and ends with this value.
struct Running(Child);

impl Running {
    /// Its status, where it ends in this time.
    fn wait(&mut self, limit: Duration) -> Option<ExitStatus> {
        let until = Instant::now() + limit;
        loop {
            match self.0.try_wait() {
                Ok(Some(status)) => return Some(status),
                Ok(None) if Instant::now() < until => thread::sleep(Duration::from_millis(2)),
                Ok(None) | Err(_) => return None,
            }
        }
    }
}

impl Drop for Running {
    /// Nothing that it may have started stays behind either.
    fn drop(&mut self) {
        if let Ok(Some(_)) = self.0.try_wait() {
            return;
        }
        if let Some(group) = Pid::from_raw(self.0.id().cast_signed()) {
            let _ = kill_process_group(group, Signal::KILL);
        }
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}
