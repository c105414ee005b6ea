//! A sound server without a sound card, and what is heard of it.

use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};
use std::{env, fs, thread};

use fretloom::sound::SoundPlaces;

/// A sound server in a folder of its own, with one output that nobody hears but a recorder.
pub(crate) struct SoundServer {
    folder: PathBuf,
    child: Child,
}

impl SoundServer {
    /// Starts one; `None`, with a loud word, where this machine has none. `.ci/run` makes that a failure.
    pub(crate) fn start(name: &str) -> Option<SoundServer> {
        let there = Command::new("pulseaudio").arg("--version").stdout(Stdio::null()).status();
        if !there.is_ok_and(|status| status.success()) {
            assert_ne!(env::var("FRETLOOM_SOUND_SERVER").as_deref(), Ok("needed"), "there is none");
            // Not by a macro, whose words a test keeps to itself.
            let word = "SKIPPED, NOTHING WAS TESTED: there is no sound server (package pulseaudio)";
            let _ = writeln!(io::stderr(), "{word}");
            return None;
        }
        let folder = env::temp_dir().join(format!("fretloom-sound-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        let mut server = SoundServer { child: started(&folder), folder };
        server.wait_until_it_listens();
        Some(server)
    }

    /// The same once more, after it was killed.
    pub(crate) fn start_again(&mut self) {
        self.child = started(&self.folder);
        self.wait_until_it_listens();
    }

    fn wait_until_it_listens(&mut self) {
        let until = Instant::now() + Duration::from_secs(20);
        while self.control(&["info"]).is_none() {
            assert!(Instant::now() < until, "the sound server does not start");
            assert_eq!(self.child.try_wait().unwrap(), None, "the sound server ended");
            thread::sleep(Duration::from_millis(50));
        }
    }

    /// What its control program says, where it is answered.
    pub(crate) fn control(&self, arguments: &[&str]) -> Option<String> {
        let said = in_folder("pactl", &self.folder).args(arguments).output().ok()?;
        said.status.success().then(|| String::from_utf8_lossy(&said.stdout).into_owned())
    }

    pub(crate) fn folder(&self) -> &Path {
        &self.folder
    }

    /// This server, and no program beside it.
    pub(crate) fn places(&self) -> SoundPlaces {
        let socket = self.folder.join("pulse/native");
        SoundPlaces { server: Ok(socket), programs: Vec::new() }
    }

    pub(crate) fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// It takes up nothing any more, and does not end.
    pub(crate) fn freeze(&self) {
        self.signal("-STOP");
    }

    pub(crate) fn thaw(&self) {
        self.signal("-CONT");
    }

    fn signal(&self, signal: &str) {
        let id = self.child.id().to_string();
        assert!(Command::new("kill").args([signal, &id]).status().unwrap().success());
    }
}

impl Drop for SoundServer {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
        let _ = fs::remove_dir_all(&self.folder);
    }
}

fn in_folder(program: &str, folder: &Path) -> Command {
    let mut command = Command::new(program);
    command.env("XDG_RUNTIME_DIR", folder).env("HOME", folder).env_remove("PULSE_SERVER");
    command.stdin(Stdio::null()).stderr(Stdio::null());
    command
}

fn started(folder: &Path) -> Child {
    let mut command = in_folder("pulseaudio", folder);
    command.args(["--daemonize=no", "-n", "--exit-idle-time=-1", "--log-level=error"]);
    command.args(["-L", "module-native-protocol-unix"]);
    command.args(["-L", "module-null-sink sink_name=nul rate=48000 format=float32le norewinds=1"]);
    command.stdout(Stdio::null()).spawn().unwrap()
}

/// Records what the server's output plays.
pub(crate) struct Recorder {
    child: Child,
    heard: Arc<Mutex<Vec<Piece>>>,
}

/// Samples, and the moment at which they came.
type Piece = (Instant, Vec<f32>);

impl Recorder {
    pub(crate) fn of(server: &SoundServer) -> Recorder {
        let mut command = in_folder("parec", &server.folder);
        command.args(["-d", "nul.monitor", "--raw", "--format=float32le", "--rate=48000"]);
        command.args(["--channels=1", "--latency-msec=5"]);
        let mut child = command.stdout(Stdio::piped()).spawn().unwrap();
        let mut output = child.stdout.take().unwrap();
        let heard = Arc::new(Mutex::new(Vec::new()));
        let recorder = Recorder { child, heard: Arc::clone(&heard) };
        thread::spawn(move || {
            let mut bytes = [0; 4_096];
            let mut rest = Vec::new();
            while let Ok(read @ 1..) = output.read(&mut bytes) {
                let now = Instant::now();
                rest.extend_from_slice(&bytes[..read]);
                let whole = rest.len() / 4 * 4;
                let samples: Vec<f32> = rest[..whole].chunks(4).map(number).collect();
                rest.drain(..whole);
                heard.lock().unwrap().push((now, samples));
            }
        });
        recorder.wait_until_it_records();
        recorder
    }

    fn wait_until_it_records(&self) {
        let until = Instant::now() + Duration::from_secs(10);
        while self.pieces().is_empty() {
            assert!(Instant::now() < until, "nothing is recorded");
            thread::sleep(Duration::from_millis(10));
        }
    }

    /// What was recorded, with the moment at which each piece came.
    pub(crate) fn pieces(&self) -> Vec<Piece> {
        self.heard.lock().unwrap().clone()
    }

    /// All that was recorded.
    pub(crate) fn samples(&self) -> Vec<f32> {
        self.pieces().into_iter().flat_map(|(_, samples)| samples).collect()
    }

    /// The last piece that came, with its moment.
    pub(crate) fn last(&self) -> Option<(Instant, f32)> {
        let heard = self.heard.lock().unwrap();
        heard.last().and_then(|(at, samples)| Some((*at, *samples.last()?)))
    }

    /// When the first piece came in which something sounds, and how many of its samples come after.
    pub(crate) fn first_sound(&self) -> Option<Instant> {
        let pieces = self.pieces();
        pieces.iter().find(|(_, samples)| samples.iter().any(|one| *one != 0.0)).map(|(at, _)| *at)
    }

    /// When the last piece came in which something sounds.
    pub(crate) fn last_sound(&self) -> Option<Instant> {
        let pieces = self.pieces();
        let sounding =
            pieces.iter().rev().find(|(_, samples)| samples.iter().any(|one| *one != 0.0));
        sounding.map(|(at, _)| *at)
    }
}

fn number(bytes: &[u8]) -> f32 {
    f32::from_le_bytes(bytes.try_into().unwrap())
}

impl Drop for Recorder {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
