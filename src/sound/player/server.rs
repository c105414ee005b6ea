//! A sound server that speaks the protocol of PulseAudio, which PipeWire understands too.
//!
//! The crate gives the messages. They are sent and read here and not by its client, since that waits for
//! ever where a server does not answer, and starts threads of its own.

mod connection;
mod cookie;
mod message;
mod stream;

use std::path::PathBuf;
use std::time::{Duration, Instant};

use super::error::SoundError;
use super::places::SoundPlaces;
use super::session::Session;
use super::voice::Voice;
use super::way::{Untaken, Way};
use connection::{Connection, Trouble};
use stream::Stream;

/// A sound server that has said who it is.
pub(super) struct Server {
    socket: PathBuf,
    connection: Connection,
}

/// How long opening may take.
const OPENING: Duration = Duration::from_secs(2);

impl Server {
    /// Greets the server at that socket.
    ///
    /// # Errors
    ///
    /// Why there is none, after two seconds at most.
    pub(super) fn find(places: &SoundPlaces) -> Result<Server, Untaken> {
        let socket = places.server.clone().map_err(untaken)?;
        let opened = Connection::open(&socket, Instant::now() + OPENING);
        match opened {
            Ok(connection) => Ok(Server { socket, connection }),
            Err(trouble) => Err(untaken(format!("{} {trouble}", socket.display()))),
        }
    }

    pub(super) fn way(&self) -> Way {
        Way::Server(self.socket.clone())
    }

    /// Opens a stream.
    ///
    /// # Errors
    ///
    /// Where the server has no output, or none for us.
    pub(super) fn open(self) -> Result<OpenServer, Untaken> {
        let way = self.way();
        match Stream::open(self.connection, Instant::now() + OPENING) {
            Ok(stream) => Ok(OpenServer { way, stream }),
            Err(trouble) => Err(untaken(format!("{} {trouble}", self.socket.display()))),
        }
    }
}

fn untaken(why: impl Into<String>) -> Untaken {
    Untaken::new("sound server", why)
}

/// A sound server with a stream that waits for samples.
pub(super) struct OpenServer {
    way: Way,
    stream: Stream,
}

impl OpenServer {
    pub(super) fn way(&self) -> Way {
        self.way.clone()
    }

    /// Plays to the end; returns when it has been heard.
    ///
    /// # Errors
    ///
    /// Where the server ends, falls silent or gives the stream up.
    pub(super) fn play(mut self, voice: &mut Voice, session: &Session) -> Result<(), SoundError> {
        self.stream.play(voice, session).map_err(|trouble| match trouble {
            Trouble::Ended => SoundError::ServerEnded,
            Trouble::Silent => SoundError::ServerSilent,
            Trouble::Refused(why) | Trouble::Unreachable(why) => SoundError::ServerRefused(why),
        })
    }
}
