//! A connection to a sound server on which nothing waits without a limit.

use std::fmt;
use std::io::{self, Read, Write};
use std::os::unix::net::UnixStream;
use std::path::Path;
use std::time::{Duration, Instant};

use pulseaudio::protocol::{
    AuthParams, Command, MAX_VERSION, MIN_VERSION, Prop, Props, ProtocolError, PulseError,
    write_command_message, write_memblock,
};
use rustix::net::{
    AddressFamily, SocketAddrUnix, SocketFlags, SocketType, connect, socket_with, sockopt,
};

use super::cookie::cookie;
use super::message::{Body, Message};
use crate::words::in_plain_words;

/// A connection, with what came on it and was not read yet.
pub(super) struct Connection {
    socket: UnixStream,
    unread: Vec<u8>,
    version: u16,
    next: u32,
}

/// What a server can do to us.
#[derive(Debug)]
pub(super) enum Trouble {
    /// It is not there, or not for us; why.
    Unreachable(String),
    /// It is gone.
    Ended,
    /// It does not answer.
    Silent,
    /// It says no; why.
    Refused(String),
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Trouble::Unreachable(why) => write!(f, "cannot be reached: {why}"),
            Trouble::Ended => f.write_str("has ended"),
            Trouble::Silent => f.write_str("does not answer"),
            Trouble::Refused(why) => write!(f, "refuses: {why}"),
        }
    }
}

impl From<io::Error> for Trouble {
    fn from(error: io::Error) -> Trouble {
        match error.kind() {
            io::ErrorKind::WouldBlock | io::ErrorKind::TimedOut => Trouble::Silent,
            io::ErrorKind::BrokenPipe
            | io::ErrorKind::ConnectionReset
            | io::ErrorKind::UnexpectedEof => Trouble::Ended,
            _ => Trouble::Unreachable(in_plain_words(&error)),
        }
    }
}

impl From<ProtocolError> for Trouble {
    fn from(error: ProtocolError) -> Trouble {
        match error {
            ProtocolError::Io(error) => error.into(),
            other => Trouble::Refused(format!("it is not understood: {other}")),
        }
    }
}

/// How long a server may leave what is sent unread: it is on this machine, and reads at once.
const SENDING: Duration = Duration::from_secs(1);

impl Connection {
    /// Connects, and says who we are.
    pub(super) fn open(path: &Path, until: Instant) -> Result<Connection, Trouble> {
        let socket = connected(path, until)?;
        socket.set_write_timeout(Some(SENDING))?;
        let mut connection =
            Connection { socket, unread: Vec::new(), version: MAX_VERSION, next: 0 };
        connection.greet(until)?;
        Ok(connection)
    }

    fn greet(&mut self, until: Instant) -> Result<(), Trouble> {
        let who = AuthParams {
            version: MAX_VERSION,
            supports_shm: false,
            supports_memfd: false,
            cookie: cookie(),
        };
        let version = self.ask(&Command::Auth(who), until)?.version()?;
        if version < MIN_VERSION {
            return Err(Trouble::Refused(format!("it is too old (protocol {version})")));
        }
        self.version = version.min(MAX_VERSION);
        let mut names = Props::new();
        names.set(Prop::ApplicationName, c"fretloom");
        self.ask(&Command::SetClientName(names), until)?;
        Ok(())
    }

    /// Sends a command; its number comes back with the answer.
    pub(super) fn send(&mut self, command: &Command) -> Result<u32, Trouble> {
        let number = self.next;
        self.next = self.next.wrapping_add(1);
        let mut message = Vec::new();
        write_command_message(&mut message, number, command, self.version)?;
        self.socket.write_all(&message)?;
        Ok(number)
    }

    /// Sends samples of a stream.
    pub(super) fn send_samples(&mut self, stream: u32, samples: &[u8]) -> Result<(), Trouble> {
        Ok(write_memblock(&mut self.socket, stream, samples, 0)?)
    }

    /// Sends a command and waits for its answer; what comes before it is dropped.
    pub(super) fn ask(&mut self, command: &Command, until: Instant) -> Result<Body, Trouble> {
        let asked = self.send(command)?;
        loop {
            match self.hear(until)?.ok_or(Trouble::Silent)? {
                Message::Reply(number, body) if number == asked => return Ok(body),
                Message::Refusal(number, why) if number == asked => return Err(refused(why)),
                _ => {}
            }
        }
    }

    /// The next message; `None` where none has come by then.
    pub(super) fn hear(&mut self, until: Instant) -> Result<Option<Message>, Trouble> {
        loop {
            if let Some(message) = Message::take(&mut self.unread, self.version)? {
                return Ok(Some(message));
            }
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() || !self.read_more(left)? {
                return Ok(None);
            }
        }
    }

    fn read_more(&mut self, limit: Duration) -> Result<bool, Trouble> {
        self.socket.set_read_timeout(Some(limit))?;
        let mut bytes = [0; 4_096];
        match self.socket.read(&mut bytes) {
            Ok(0) => Err(Trouble::Ended),
            Ok(read) => {
                self.unread.extend_from_slice(&bytes[..read]);
                Ok(true)
            }
            Err(error) if error.kind() == io::ErrorKind::Interrupted => Ok(true),
            Err(error) => match error.into() {
                Trouble::Silent => Ok(false),
                trouble => Err(trouble),
            },
        }
    }
}

/// A connection within that time: a server that does not take up new ones would be waited for for ever.
fn connected(path: &Path, until: Instant) -> Result<UnixStream, Trouble> {
    let flags = SocketFlags::CLOEXEC;
    let socket = socket_with(AddressFamily::UNIX, SocketType::STREAM, flags, None);
    let socket = socket.map_err(io::Error::from)?;
    // What is sent then says who sends it, which a server may take in place of the cookie.
    #[cfg(target_os = "linux")]
    sockopt::set_socket_passcred(&socket, true).map_err(io::Error::from)?;
    let limit = until.saturating_duration_since(Instant::now());
    sockopt::set_socket_timeout(&socket, sockopt::Timeout::Send, Some(limit))
        .map_err(io::Error::from)?;
    let address = SocketAddrUnix::new(path).map_err(io::Error::from)?;
    connect(&socket, &address).map_err(|error| match io::Error::from(error) {
        error if error.kind() == io::ErrorKind::ConnectionRefused => {
            Trouble::Unreachable("nobody listens there".to_owned())
        }
        error => error.into(),
    })?;
    Ok(UnixStream::from(socket))
}

fn refused(why: Option<PulseError>) -> Trouble {
    Trouble::Refused(match why {
        Some(PulseError::NoEntity) => "it has no output".to_owned(),
        Some(PulseError::AccessDenied | PulseError::AuthKey) => {
            "it does not let this user in".to_owned()
        }
        Some(PulseError::Busy) => "its output is busy".to_owned(),
        Some(other) => other.to_string().to_lowercase(),
        None => "it does not say why".to_owned(),
    })
}
