//! The pieces of a MIDI file: a header and its tracks.

use crate::score_file::error::{At, ScoreFileError};

/// A piece of the file: where its content begins, and the content.
#[derive(Clone, Copy, Default, Debug)]
pub(super) struct Chunk<'a> {
    /// How many bytes of the file stand before the content.
    pub(super) offset: usize,
    /// The bytes that its length promises, all of them there.
    pub(super) content: &'a [u8],
}

/// What the header says.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Header {
    tracks: u16,
    pub(super) division: Division,
}

/// What a tick is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Division {
    /// So many in a quarter note; at least one.
    Quarter(u16),
    /// So many in a frame of film, of which so many pass in a second; both at least one.
    Frame {
        /// 24, 25, 29 (which means 29.97) or 30.
        frames_per_second: u8,
        /// Ticks in a frame.
        ticks: u8,
    },
}

/// The header, and the tracks that are there whole of those that it promises.
#[derive(Debug)]
pub(super) struct Chunks<'a> {
    pub(super) header: Header,
    pub(super) tracks: Vec<Chunk<'a>>,
    /// Why there are no more of them.
    pub(super) cut: Option<ScoreFileError>,
}

/// The pieces of a file. Those of other kinds are passed over, as the specification of Standard MIDI
/// Files asks (from memory), and what follows the last track too.
pub(super) fn chunks(bytes: &[u8]) -> Result<Chunks<'_>, ScoreFileError> {
    let Split { content, mut rest, .. } = Split::at(bytes, 0)?;
    let header = Header::read(content)?;
    let mut tracks = Vec::new();
    let cut = loop {
        if tracks.len() >= usize::from(header.tracks) {
            break None;
        }
        match next(bytes, rest, &header, tracks.len()) {
            Ok(split) => {
                if split.kind == b"MTrk" {
                    let offset = bytes.len() - rest.len() + 8;
                    tracks.push(Chunk { offset, content: split.content });
                }
                rest = split.rest;
            }
            Err(error) if tracks.is_empty() => return Err(error),
            Err(error) => break Some(error),
        }
    };
    Ok(Chunks { header, tracks, cut })
}

/// The next piece after so many tracks, which the header promises.
fn next<'a>(
    bytes: &[u8],
    rest: &'a [u8],
    header: &Header,
    tracks: usize,
) -> Result<Split<'a>, ScoreFileError> {
    let at = bytes.len() - rest.len();
    if rest.is_empty() {
        let wrong = format!("the file ends after {tracks} tracks");
        let expected = format!("{}, as its header says", header.tracks);
        return Err(ScoreFileError::new(byte(at), wrong, expected));
    }
    Split::at(rest, at)
}

fn byte(offset: usize) -> At {
    At::Byte { offset, track: None }
}

/// One piece, and what follows it.
struct Split<'a> {
    kind: &'a [u8],
    content: &'a [u8],
    rest: &'a [u8],
}

impl<'a> Split<'a> {
    /// The piece that `bytes` begin with, which is at `at` in the file. Its length is held to what
    /// is there before anything is made of it.
    fn at(bytes: &'a [u8], at: usize) -> Result<Split<'a>, ScoreFileError> {
        let cut =
            || ScoreFileError::new(byte(at), "the file ends within a piece's head", "eight bytes");
        let (kind, rest) = bytes.split_at_checked(4).ok_or_else(cut)?;
        let (length, rest) = rest.split_first_chunk::<4>().ok_or_else(cut)?;
        let length = u32::from_be_bytes(*length);
        let content = usize::try_from(length).ok().and_then(|length| rest.split_at_checked(length));
        let (content, rest) = content.ok_or_else(|| {
            let wrong = format!("a piece of {length} bytes, and the file has {} more", rest.len());
            ScoreFileError::new(byte(at), wrong, "a length that the file holds")
        })?;
        Ok(Split { kind, content, rest })
    }
}

impl Header {
    fn read(content: &[u8]) -> Result<Header, ScoreFileError> {
        let [f0, f1, t0, t1, d0, d1, ..] = *content else {
            let wrong = format!("a header of {} bytes", content.len());
            return Err(ScoreFileError::new(byte(0), wrong, "six bytes"));
        };
        match u16::from_be_bytes([f0, f1]) {
            0 | 1 => {}
            2 => {
                let wrong = "format 2, whose tracks are pieces of their own";
                return Err(ScoreFileError::new(byte(8), wrong, "format 0 or 1"));
            }
            other => {
                let wrong = format!("format {other}");
                return Err(ScoreFileError::new(byte(8), wrong, "format 0 or 1"));
            }
        }
        let tracks = u16::from_be_bytes([t0, t1]);
        Ok(Header { tracks, division: Division::read([d0, d1])? })
    }
}

impl Division {
    /// The highest bit tells the two apart; frames are then written as a negative number.
    fn read([first, second]: [u8; 2]) -> Result<Division, ScoreFileError> {
        let fail = |wrong: String, expected| Err(ScoreFileError::new(byte(12), wrong, expected));
        if first & 0x80 == 0 {
            return match u16::from_be_bytes([first, second]) {
                0 => fail("no ticks in a quarter note".to_owned(), "1 to 32767"),
                ticks => Ok(Division::Quarter(ticks)),
            };
        }
        match (first.wrapping_neg(), second) {
            (_, 0) => fail("no ticks in a frame".to_owned(), "1 to 255"),
            (frames_per_second @ (24 | 25 | 29 | 30), ticks) => {
                Ok(Division::Frame { frames_per_second, ticks })
            }
            (other, _) => fail(format!("{other} frames a second"), "24, 25, 29 or 30"),
        }
    }
}
