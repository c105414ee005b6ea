//! Files of music in both directions.
//!
//! [`read`] takes a score from a file: our JSON, a track of a MIDI file, a part of MusicXML,
//! compressed or not. A [`WrittenScore`] gives the bytes of a file.
//!
//! What a file is, its content says and not its name; text may be UTF-8 or UTF-16. What comes out is a checked [`ReadScore`]:
//! one part in musical time with its bars, tempi, keys and chord symbols, and beside each note when
//! it is played, where it stood, so that a message can point there, and what place the file settles
//! for it. Nothing here opens a file, and nothing panics, whatever the bytes are. The limits, past
//! which a file is refused, are [`LONGEST_FILE`], [`LONGEST_SCORE`], [`MOST_NOTES`],
//! [`LONGEST_PART_S`] and, for XML, [`DEEPEST_NESTING`].

mod archive;
mod choice;
mod element;
mod encoding;
mod error;
mod json;
mod kind;
mod lead_sheet;
mod limits;
mod locator;
mod midi;
mod moved;
mod music_xml;
pub(crate) mod notation;
mod offer;
mod origin;
mod read_lead_sheet;
mod read_score;
mod recorded;
mod write_error;
mod write_midi;
mod write_music_xml;
mod written_score;
mod xml;

pub use choice::{Choice, Repeats};
pub use encoding::text;
pub use error::{At, ScoreFileError, too_long};
pub use lead_sheet::{LeadSheet, SheetMeasure};
pub use limits::{
    DEEPEST_NESTING, LONGEST_FILE, LONGEST_PART_S, LONGEST_SCORE, MOST_BARS, MOST_NOTES,
};
pub use origin::NoteOrigin;
pub use read_lead_sheet::read_lead_sheet;
pub use read_score::{FretsFrom, NoteSource, ReadNote, ReadScore};
pub use write_error::ScoreWriteError;
pub use written_score::{WrittenNote, WrittenScore};

use kind::Kind;

/// Reads the score in a file's bytes: of its parts the chosen one.
///
/// # Errors
///
/// Where the bytes are none of these kinds, are not well formed, or pass a limit; where the
/// choice names what the file does not have.
///
/// # Example
///
/// ```
/// use fretloom::score_file::{self, Choice};
/// let file = br#"{"notes":[{"onset_s":0.5,"duration_s":0.2,"midi":60,"string":3}]}"#;
/// let read = score_file::read(file, &Choice::default()).unwrap();
/// assert_eq!(read.score().parts[0].notes()[0].pitch().to_string(), "C4");
/// assert_eq!(read.notes().next().unwrap().time.onset_s(), 0.5);
/// let error = score_file::read(b"do re mi", &Choice::default()).unwrap_err();
/// assert!(error.to_string().contains("expected"));
/// ```
pub fn read(bytes: &[u8], choice: &Choice) -> Result<ReadScore, ScoreFileError> {
    if bytes.len() > LONGEST_FILE {
        return Err(too_long());
    }
    let kind = Kind::of(bytes)?;
    kind.check(choice)?;
    match kind {
        Kind::Midi => midi::read(bytes, choice.track.as_deref()),
        Kind::MusicXml => music_xml::read(&text(bytes)?, choice),
        Kind::Compressed => compressed(bytes, choice),
        Kind::Json => json::read(&text(bytes)?),
    }
}

/// Do these bytes begin as a score does, and not as text that is typed?
#[must_use]
pub fn is_score(bytes: &[u8]) -> bool {
    matches!(Kind::of(bytes), Ok(Kind::Midi | Kind::MusicXml | Kind::Compressed))
}

/// The score in an archive; places in it are those of the score as it is unpacked.
fn compressed(bytes: &[u8], choice: &Choice) -> Result<ReadScore, ScoreFileError> {
    let score = archive::score(bytes)?;
    let read = text(&score.bytes).and_then(|text| music_xml::read(&text, choice));
    read.map_err(|error| error.within(&score.name))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(bytes: &[u8], choice: &Choice) -> String {
        read(bytes, choice).unwrap_err().to_string()
    }

    #[test]
    fn other_files_are_refused_with_what_they_are() {
        let any = Choice::default();
        for (bytes, words) in [
            (&b""[..], "it is empty"),
            (b"PK\x03\x04\x14", "it is compressed, as .mxl files are, and the list at its end"),
            (b"\xff\xfe<\0a\0>\0", "found \"a\"; expected MusicXML"),
            (b"\xff\xfe{\0 ", "it is UTF-16 text that ends within a character"),
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
        let track = Choice { track: Some("1".to_owned()), ..Choice::default() };
        let part = Choice { part: Some("P1".to_owned()), ..Choice::default() };
        assert!(refused(b"{}", &track).contains("no tracks"));
        assert!(refused(b"<score-partwise/>", &track).contains("no tracks"));
        assert!(refused(b"MThd", &part).contains("no parts"));
    }
}
