//! A message of the server, as far as it is needed here.

use std::io::Cursor;

use pulseaudio::protocol::{
    CommandTag, DESCRIPTOR_SIZE, PlaybackLatency, ProtocolError, PulseError, Request,
    TagStructReader, read_descriptor,
};

/// What the server says.
#[derive(Debug)]
pub(super) enum Message {
    /// The answer to the message of that number, still to be read.
    Reply(u32, Body),
    /// The message of that number was refused.
    Refusal(u32, Option<PulseError>),
    /// So many more bytes of samples are wanted.
    Wanted(u32),
    /// The stream has begun to be heard.
    Begun,
    /// The server has given the stream up.
    Killed,
    /// Something that says nothing here.
    Other,
}

/// What follows the head of an answer.
#[derive(Debug)]
pub(super) struct Body {
    bytes: Cursor<Vec<u8>>,
    version: u16,
}

/// No message that is needed here is as long.
const LONGEST: usize = 1 << 16;

impl Message {
    /// Takes the first whole message off these bytes; `None` where it has not come whole.
    ///
    /// # Errors
    ///
    /// Where the bytes are no message.
    pub(super) fn take(
        bytes: &mut Vec<u8>,
        version: u16,
    ) -> Result<Option<Message>, ProtocolError> {
        if bytes.len() < DESCRIPTOR_SIZE {
            return Ok(None);
        }
        let head = read_descriptor(&mut bytes.as_slice())?;
        let length = head.length as usize;
        if length > LONGEST {
            return Err(ProtocolError::Invalid(format!("a message of {length} bytes")));
        }
        if bytes.len() < DESCRIPTOR_SIZE + length {
            return Ok(None);
        }
        let message = bytes[DESCRIPTOR_SIZE..DESCRIPTOR_SIZE + length].to_vec();
        bytes.drain(..DESCRIPTOR_SIZE + length);
        if head.channel == COMMAND {
            Message::read(message, version).map(Some)
        } else {
            Ok(Some(Message::Other))
        }
    }

    fn read(bytes: Vec<u8>, version: u16) -> Result<Message, ProtocolError> {
        let mut body = Body { bytes: Cursor::new(bytes), version };
        let mut reader = body.reader();
        let Ok(tag) = reader.read_enum() else { return Ok(Message::Other) };
        let number = reader.read_u32()?;
        Ok(match tag {
            CommandTag::Reply => Message::Reply(number, body),
            CommandTag::Error => Message::Refusal(number, reader.read_enum().ok()),
            CommandTag::Request => Message::Wanted(reader.read::<Request>()?.length),
            CommandTag::Started => Message::Begun,
            CommandTag::PlaybackStreamKilled => Message::Killed,
            _ => Message::Other,
        })
    }
}

/// The channel of messages that are no samples.
const COMMAND: u32 = u32::MAX;

impl Body {
    fn reader(&mut self) -> TagStructReader<'_> {
        TagStructReader::new(&mut self.bytes, self.version)
    }

    /// The version of the protocol that the server speaks.
    pub(super) fn version(mut self) -> Result<u16, ProtocolError> {
        let version = self.reader().read_u32()?;
        // The upper half says what else the server can do.
        Ok((version & 0xffff) as u16)
    }

    /// The number of a new stream, and how many bytes it wants to begin with.
    pub(super) fn new_stream(mut self) -> Result<(u32, u32), ProtocolError> {
        let mut reader = self.reader();
        let (channel, _index) = (reader.read_u32()?, reader.read_u32()?);
        Ok((channel, reader.read_u32()?))
    }

    /// How far a stream has come.
    pub(super) fn latency(mut self) -> Result<PlaybackLatency, ProtocolError> {
        self.reader().read()
    }
}
