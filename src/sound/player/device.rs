//! The system's own output, as macOS and Windows have it.

use std::sync::Arc;
use std::sync::mpsc::{self, RecvTimeoutError, Sender};
use std::thread;
use std::time::{Duration, Instant};

use cpal::traits::{DeviceTrait, HostTrait, StreamTrait};
use cpal::{BufferSize, Device, Error, ErrorKind, OutputCallbackInfo, StreamConfig};

use super::super::samples::{Frames, RATE, Samples};
use super::error::SoundError;
use super::places::SoundPlaces;
use super::session::Session;
use super::voice::Voice;
use super::way::{Untaken, Way};

/// How long opening may take.
const OPENING: Duration = Duration::from_secs(2);

/// What the output says while it plays.
enum Word {
    /// The last samples will have been heard at this moment.
    HeardAt(Instant),
    /// It plays no more.
    Failed(String),
}

/// Plays by the output that the player has chosen in the system; returns when all has been heard.
pub(super) fn play(
    samples: Box<dyn Samples>,
    session: &Arc<Session>,
    _places: &SoundPlaces,
) -> Result<(), SoundError> {
    let (device, way) = output().map_err(|why| SoundError::NoWay(vec![why]))?;
    let (say, words) = mpsc::channel();
    let playing = Playing {
        voice: Voice::new(samples),
        session: Arc::clone(session),
        say: Some(say.clone()),
    };
    let stream =
        open(&device, playing, say).map_err(|error| SoundError::NoWay(vec![untaken(&error)]))?;
    if !session.play_by(way) {
        return Ok(());
    }
    stream.play().map_err(|error| SoundError::Device(error.to_string()))?;
    loop {
        match words.recv_timeout(Duration::from_millis(50)) {
            Ok(Word::HeardAt(moment)) => {
                thread::sleep(moment.saturating_duration_since(Instant::now()));
                return Ok(());
            }
            Ok(Word::Failed(why)) => return Err(SoundError::Device(why)),
            Err(RecvTimeoutError::Timeout) if !session.is_given_up() => {}
            Err(_) => return Ok(()),
        }
    }
}

/// The output that would be used. Nothing is heard of it.
pub(super) fn look(_places: &SoundPlaces) -> (Option<Way>, Vec<Untaken>) {
    match output() {
        Ok((_, way)) => (Some(way), Vec::new()),
        Err(why) => (None, vec![why]),
    }
}

fn output() -> Result<(Device, Way), Untaken> {
    let device = cpal::default_host().default_output_device();
    let device = device.ok_or_else(|| Untaken::new(OUTPUT, "the system has none"))?;
    let way = Way::Device(device.to_string());
    Ok((device, way))
}

const OUTPUT: &str = "sound output";

fn untaken(error: &Error) -> Untaken {
    Untaken::new(OUTPUT, error.to_string())
}

/// What the output's own thread holds.
struct Playing {
    voice: Voice,
    session: Arc<Session>,
    /// Gone once it has said when the end will be heard.
    say: Option<Sender<Word>>,
}

fn open(device: &Device, mut playing: Playing, say: Sender<Word>) -> Result<cpal::Stream, Error> {
    let channels = device.default_output_config()?.channels();
    let config = StreamConfig { channels, sample_rate: RATE, buffer_size: BufferSize::Default };
    device.build_output_stream::<f32, _, _>(
        config,
        move |data, info| playing.fill(data, usize::from(channels.max(1)), info),
        move |error| {
            // These go by without an end of the sound.
            let passes = [ErrorKind::DeviceChanged, ErrorKind::Xrun, ErrorKind::RealtimeDenied];
            if !passes.contains(&error.kind()) {
                let _ = say.send(Word::Failed(error.to_string()));
            }
        },
        Some(OPENING),
    )
}

impl Playing {
    /// Puts the same sample on every channel.
    fn fill(&mut self, data: &mut [f32], channels: usize, info: &OutputCallbackInfo) {
        let Frames(before) = self.voice.given();
        let until_heard = delay(info);
        let mut one = vec![0.0; data.len() / channels];
        let given = self.session.take(&mut self.voice, &mut one);
        data.fill(0.0);
        for (frame, sample) in data.chunks_exact_mut(channels).zip(&one[..given]) {
            frame.fill(*sample);
        }
        let heard = before.saturating_sub(Frames::in_time(until_heard).0);
        self.session.measure(Frames(heard), Instant::now());
        if let Some(say) = self.say.take_if(|_| self.voice.has_ended()) {
            let end = until_heard + Frames(given as u64).duration();
            let _ = say.send(Word::HeardAt(Instant::now() + end));
        }
    }
}

/// How long it takes until what is given now is heard.
fn delay(info: &OutputCallbackInfo) -> Duration {
    let timestamp = info.timestamp();
    timestamp.playback.checked_duration_since(timestamp.callback).unwrap_or_default()
}
