//! Reads a line of notes from a file: our JSON, a track of a MIDI file, a part of MusicXML.
//!
//! What a file is, its content says and not its name. What comes out is a checked [`Line`]: times
//! are finite and not negative, and every note knows where it stood, so that a message can point
//! there. Nothing here opens a file, and nothing panics, whatever the bytes are. The limits, past
//! which a file is refused, are [`LONGEST_FILE`], [`MOST_NOTES`], [`LONGEST_LINE_S`] and, for XML,
//! [`DEEPEST_NESTING`].

mod error;
mod json;
mod line;
mod locator;
mod midi;
mod music_xml;
mod tempo;
mod whereabouts;

pub use error::{At, LineError};
pub use line::{FretsFrom, Line, WrittenNote};
pub use whereabouts::Whereabouts;

/// The longest file that is read, in bytes: 16 MiB. A whole score in MusicXML takes a few.
pub const LONGEST_FILE: usize = 16 * 1024 * 1024;

/// The most notes that a line may have: some fourteen hours of eighths at 120.
pub const MOST_NOTES: usize = 200_000;

/// The longest line in seconds: a day.
pub const LONGEST_LINE_S: f64 = 86_400.0;

/// How deep XML may nest. MusicXML itself goes about ten deep.
pub const DEEPEST_NESTING: usize = 100;

/// What to take from a file that holds more than one line.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub struct Choice {
    /// The track of a MIDI file, counted from 1; else the first one with notes.
    pub track: Option<usize>,
    /// The part of a score, by its id or counted from 1; else the first one.
    pub part: Option<String>,
}

/// Reads the line in a file's bytes.
///
/// # Errors
///
/// Where the bytes are none of the three kinds, are not well formed, or pass a limit; where the
/// choice names what the file does not have.
///
/// # Example
///
/// ```
/// use fretloom::line_file::{self, Choice};
/// let file = br#"{"notes":[{"onset_s":0.5,"duration_s":0.2,"midi":60,"string":3}]}"#;
/// let line = line_file::read(file, &Choice::default()).unwrap();
/// assert_eq!(line.notes()[0].pitch.midi(), 60);
/// let error = line_file::read(b"do re mi", &Choice::default()).unwrap_err();
/// assert!(error.to_string().contains("expected"));
/// ```
pub fn read(bytes: &[u8], choice: &Choice) -> Result<Line, LineError> {
    if bytes.len() > LONGEST_FILE {
        return Err(too_long());
    }
    let kind = Kind::of(bytes)?;
    kind.check(choice)?;
    match kind {
        Kind::Midi => midi::read(bytes, choice.track),
        Kind::MusicXml => music_xml::read(utf8(bytes)?, choice.part.as_deref()),
        Kind::Json => json::read(utf8(bytes)?),
    }
}

/// What is said of a file that is longer than [`LONGEST_FILE`].
#[must_use]
pub fn too_long() -> LineError {
    LineError::whole("it is longer than 16 MiB", "a shorter file")
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Kind {
    Json,
    Midi,
    MusicXml,
}

const KINDS: &str = "a MIDI file, uncompressed MusicXML or JSON with notes";

impl Kind {
    fn of(bytes: &[u8]) -> Result<Kind, LineError> {
        if bytes.starts_with(b"MThd") {
            return Ok(Kind::Midi);
        }
        if bytes.starts_with(b"PK\x03\x04") {
            let expected = "the score itself: unpack it, and read the .xml file in it";
            return Err(LineError::whole("it is compressed, as .mxl files are", expected));
        }
        if bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff") {
            return Err(LineError::whole("it is UTF-16 text", "UTF-8 text"));
        }
        match without_mark(bytes).trim_ascii_start().first() {
            Some(b'<') => Ok(Kind::MusicXml),
            Some(b'{') => Ok(Kind::Json),
            Some(_) => Err(LineError::whole("its beginning is unknown", KINDS)),
            None => Err(LineError::whole("it is empty", KINDS)),
        }
    }

    /// Is the choice one that this kind of file gives?
    fn check(self, choice: &Choice) -> Result<(), LineError> {
        if choice.track.is_some() && self != Kind::Midi {
            return Err(LineError::whole(
                "it has no tracks",
                "a MIDI file where a track is chosen",
            ));
        }
        if choice.part.is_some() && self != Kind::MusicXml {
            return Err(LineError::whole("it has no parts", "MusicXML where a part is chosen"));
        }
        Ok(())
    }
}

/// The bytes without the mark that some programs put before UTF-8.
fn without_mark(bytes: &[u8]) -> &[u8] {
    bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes)
}

fn utf8(bytes: &[u8]) -> Result<&str, LineError> {
    let bytes = without_mark(bytes);
    std::str::from_utf8(bytes).map_err(|error| {
        let at = At::Byte { offset: error.valid_up_to(), track: None };
        LineError::new(at, "it is not UTF-8 there", "UTF-8 text")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(bytes: &[u8], choice: &Choice) -> String {
        read(bytes, choice).unwrap_err().to_string()
    }

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

    #[test]
    fn other_files_are_refused_with_what_they_are() {
        let any = Choice::default();
        for (bytes, words) in [
            (&b""[..], "it is empty"),
            (b"PK\x03\x04\x14", "it is compressed, as .mxl files are"),
            (b"\xff\xfe<\0", "it is UTF-16 text"),
            (b"RIFF", "its beginning is unknown"),
            (b"{\"notes\": \xff}", "it is not UTF-8 there"),
        ] {
            let said = refused(bytes, &any);
            assert!(said.contains(words) && said.contains("expected"), "{said}");
        }
    }

    #[test]
    fn a_file_of_the_longest_length_is_looked_at_and_a_longer_one_is_not() {
        let longest = vec![b' '; LONGEST_FILE];
        assert!(refused(&longest, &Choice::default()).contains("it is empty"));
        let longer = vec![b' '; LONGEST_FILE + 1];
        assert!(refused(&longer, &Choice::default()).contains("longer than 16 MiB"));
    }

    #[test]
    fn a_choice_must_be_one_that_the_file_gives() {
        let track = Choice { track: Some(1), part: None };
        let part = Choice { track: None, part: Some("P1".to_owned()) };
        assert!(refused(b"{}", &track).contains("no tracks"));
        assert!(refused(b"<score-partwise/>", &track).contains("no tracks"));
        assert!(refused(b"MThd", &part).contains("no parts"));
    }
}
