//! What kind of file some bytes are.

use super::choice::Choice;
use super::error::ScoreFileError;

/// What kind of file some bytes are, as they say themselves.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Kind {
    Json,
    Midi,
    MusicXml,
}

const KINDS: &str = "a MIDI file, uncompressed MusicXML or JSON with notes";

impl Kind {
    pub(super) fn of(bytes: &[u8]) -> Result<Kind, ScoreFileError> {
        if bytes.starts_with(b"MThd") {
            return Ok(Kind::Midi);
        }
        if bytes.starts_with(b"PK\x03\x04") {
            let expected = "the score itself: unpack it, and read the .xml file in it";
            return Err(ScoreFileError::whole("it is compressed, as .mxl files are", expected));
        }
        if bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff") {
            return Err(ScoreFileError::whole("it is UTF-16 text", "UTF-8 text"));
        }
        match without_mark(bytes).trim_ascii_start().first() {
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
        if choice.part.is_some() && self != Kind::MusicXml {
            return Err(ScoreFileError::whole(
                "it has no parts",
                "MusicXML where a part is chosen",
            ));
        }
        Ok(())
    }
}

/// The bytes without the mark that some programs put before UTF-8.
pub(super) fn without_mark(bytes: &[u8]) -> &[u8] {
    bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes)
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
        ] {
            assert_eq!(Kind::of(bytes), Ok(kind));
        }
    }
}
