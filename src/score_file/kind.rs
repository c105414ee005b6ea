//! What kind of file some bytes are.

use super::archive;
use super::choice::{Choice, Repeats};
use super::error::ScoreFileError;

/// What kind of file some bytes are, as they say themselves.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Kind {
    Json,
    Midi,
    MusicXml,
    /// MusicXML in an archive.
    Compressed,
}

const KINDS: &str = "a MIDI file, MusicXML (also .mxl) or JSON with notes";

impl Kind {
    pub(super) fn of(bytes: &[u8]) -> Result<Kind, ScoreFileError> {
        if bytes.starts_with(b"MThd") {
            return Ok(Kind::Midi);
        }
        if archive::is_archive(bytes) {
            return Ok(Kind::Compressed);
        }
        match first_sign(bytes) {
            Some(b'<') => Ok(Kind::MusicXml),
            Some(b'{') => Ok(Kind::Json),
            Some(_) => Err(ScoreFileError::whole("its beginning is unknown", KINDS)),
            None => Err(ScoreFileError::whole("it is empty", KINDS)),
        }
    }

    /// Is the choice one that this kind of file gives?
    pub(super) fn check(self, choice: &Choice) -> Result<(), ScoreFileError> {
        if choice.track.is_some() && self != Kind::Midi {
            return Err(ScoreFileError::whole(
                "it has no tracks",
                "a MIDI file where a track is chosen",
            ));
        }
        let is_score = matches!(self, Kind::MusicXml | Kind::Compressed);
        if choice.part.is_some() && !is_score {
            return Err(ScoreFileError::whole(
                "it has no parts",
                "MusicXML where a part is chosen",
            ));
        }
        if choice.repeats == Repeats::Unfolded && !is_score {
            return Err(ScoreFileError::whole(
                "it has no repeats",
                "MusicXML where repeats are to be unfolded",
            ));
        }
        Ok(())
    }
}

/// The first byte of text that is no space, whatever marks and zeros of UTF-16 stand before it.
fn first_sign(bytes: &[u8]) -> Option<&u8> {
    let bytes = [&b"\xef\xbb\xbf"[..], b"\xff\xfe", b"\xfe\xff"]
        .iter()
        .find_map(|mark| bytes.strip_prefix(*mark))
        .unwrap_or(bytes);
    bytes.iter().find(|byte| **byte != 0 && !byte.is_ascii_whitespace())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_content_says_what_a_file_is() {
        for (bytes, kind) in [
            (&b"MThd...."[..], Kind::Midi),
            (b"\xef\xbb\xbf<?xml", Kind::MusicXml),
            (b"\n <score-partwise>", Kind::MusicXml),
            (b"\n\t{}", Kind::Json),
            (b"\xff\xfe\n\0<\0", Kind::MusicXml),
            (b"\xfe\xff\0{", Kind::Json),
            (b"\0<\0?", Kind::MusicXml),
            (b"PK\x03\x04\x14", Kind::Compressed),
        ] {
            assert_eq!(Kind::of(bytes), Ok(kind));
        }
    }
}
