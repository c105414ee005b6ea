//! A stream of samples to a sound server.

use std::time::{Duration, Instant, UNIX_EPOCH};

use pulseaudio::protocol::stream::{BufferAttr, StreamFlags};
use pulseaudio::protocol::{
    ChannelMap, Command, LatencyParams, PlaybackLatency, PlaybackStreamParams, Prop, Props,
    SampleFormat, SampleSpec,
};

use super::super::super::samples::{Frames, RATE};
use super::super::session::Session;
use super::super::voice::Voice;
use super::connection::{Connection, Trouble};
use super::message::Message;

/// A stream that waits for samples.
pub(super) struct Stream {
    connection: Connection,
    channel: u32,
    /// How many bytes the server wants.
    wanted: usize,
    /// The question how far it has come that has no answer yet, and when it was asked.
    asked: Option<(u32, Instant)>,
    next_question: Instant,
    /// The wish to be told when all has been heard.
    draining: Option<u32>,
    /// How many waits in a row have brought no message.
    vain: u32,
}

/// How much the server has before it is heard. With 30 ms it ran dry now and then.
const BUFFER: Duration = Duration::from_millis(100);
/// It begins with so much.
const BEGIN: Duration = Duration::from_millis(40);
/// It asks for so much at a time.
const PORTION: Duration = Duration::from_millis(20);
/// How often it is asked how far it has come.
const QUESTIONS: Duration = Duration::from_millis(50);
/// A server that says nothing in so many waits for an answer, two seconds, is given up. Waits are counted and
/// not the clock read, since it goes on while this program is stopped.
const IN_VAIN: u32 = 40;
/// A sample is a number of four bytes.
const SAMPLE: usize = 4;

impl Stream {
    pub(super) fn open(mut connection: Connection, until: Instant) -> Result<Stream, Trouble> {
        let command = Command::CreatePlaybackStream(wishes());
        let (channel, wanted) = connection.ask(&command, until)?.new_stream()?;
        let now = Instant::now();
        Ok(Stream {
            connection,
            channel,
            wanted: wanted as usize,
            asked: None,
            next_question: now,
            draining: None,
            vain: 0,
        })
    }

    /// Plays until all has been heard.
    pub(super) fn play(&mut self, voice: &mut Voice, session: &Session) -> Result<(), Trouble> {
        while !session.is_given_up() {
            self.send_wanted(voice, session)?;
            if voice.has_ended() && self.draining.is_none() {
                self.draining =
                    Some(self.connection.send(&Command::DrainPlaybackStream(self.channel))?);
            }
            self.ask_how_far()?;
            match self.connection.hear(self.until(session))? {
                Some(message) => {
                    self.vain = 0;
                    if self.heed(message, session)? {
                        return Ok(());
                    }
                }
                None if self.vain > IN_VAIN => return Err(Trouble::Silent),
                None if session.is_to_stop() => {}
                None => self.vain += 1,
            }
        }
        Ok(())
    }

    /// Until when to listen. One that is to stop may be given up at any moment.
    fn until(&self, session: &Session) -> Instant {
        let soon = Instant::now() + Duration::from_millis(10);
        if session.is_to_stop() { self.next_question.min(soon) } else { self.next_question }
    }

    fn send_wanted(&mut self, voice: &mut Voice, session: &Session) -> Result<(), Trouble> {
        while self.wanted >= SAMPLE && !voice.has_ended() {
            let mut block = [0.0; 1_024];
            let length = block.len().min(self.wanted / SAMPLE);
            let given = session.take(voice, &mut block[..length]);
            let bytes: Vec<u8> = block[..given].iter().flat_map(|one| one.to_le_bytes()).collect();
            if !bytes.is_empty() {
                self.connection.send_samples(self.channel, &bytes)?;
            }
            self.wanted -= bytes.len();
        }
        Ok(())
    }

    fn ask_how_far(&mut self) -> Result<(), Trouble> {
        let now = Instant::now();
        if now < self.next_question {
            return Ok(());
        }
        self.next_question = now + QUESTIONS;
        if self.asked.is_none() {
            // The server sends this time back, and nothing more: ours is kept here.
            let question = LatencyParams { channel: self.channel, now: UNIX_EPOCH };
            let number = self.connection.send(&Command::GetPlaybackLatency(question))?;
            self.asked = Some((number, now));
        }
        Ok(())
    }

    /// Is it over now?
    fn heed(&mut self, message: Message, session: &Session) -> Result<bool, Trouble> {
        match message {
            Message::Wanted(bytes) => self.wanted = self.wanted.saturating_add(bytes as usize),
            Message::Begun => self.next_question = Instant::now(),
            Message::Killed => return Err(Trouble::Refused("it gave the sound up".to_owned())),
            Message::Reply(number, _) if Some(number) == self.draining => return Ok(true),
            Message::Reply(number, body) => {
                if let Some((_, at)) = self.asked.take_if(|(asked, _)| *asked == number) {
                    measure(&body.latency()?, at, session);
                }
            }
            Message::Refusal(number, _) if Some(number) == self.draining => return Ok(true),
            Message::Refusal(_, _) => self.asked = None,
            Message::Other => {}
        }
        Ok(false)
    }
}

/// What was heard when the server answered: half the way there and back after it was asked.
fn measure(latency: &PlaybackLatency, asked: Instant, session: &Session) {
    if !latency.playing {
        return;
    }
    let read = u64::try_from(latency.read_offset).unwrap_or(0) / SAMPLE as u64;
    let on_its_way = Frames::in_time(Duration::from_micros(latency.sink_usec));
    session.measure(Frames(read.saturating_sub(on_its_way.0)), asked + asked.elapsed() / 2);
}

fn wishes() -> PlaybackStreamParams {
    let mut names = Props::new();
    names.set(Prop::MediaName, c"a line");
    names.set(Prop::MediaRole, c"music");
    PlaybackStreamParams {
        sample_spec: SampleSpec { format: SampleFormat::Float32Le, channels: 1, sample_rate: RATE },
        channel_map: ChannelMap::mono(),
        buffer_attr: BufferAttr {
            target_length: bytes_in(BUFFER),
            pre_buffering: bytes_in(BEGIN),
            minimum_request_length: bytes_in(PORTION),
            ..BufferAttr::default()
        },
        props: names,
        flags: StreamFlags { adjust_latency: true, ..StreamFlags::default() },
        ..PlaybackStreamParams::default()
    }
}

fn bytes_in(time: Duration) -> u32 {
    let bytes = Frames::in_time(time).0.saturating_mul(SAMPLE as u64);
    u32::try_from(bytes).unwrap_or(u32::MAX)
}
