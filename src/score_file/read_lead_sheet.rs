//! Reading lead sheets of every kind of file.

use super::archive;
use super::encoding::text;
use super::error::{ScoreFileError, too_long};
use super::kind::Kind;
use super::lead_sheet::LeadSheet;
use super::limits::LONGEST_FILE;
use super::music_xml;

/// Reads the tune in the bytes of a MusicXML file, compressed or not.
///
/// # Errors
///
/// Where the bytes are nothing of the kind, are not well formed, pass a limit, or hold no chord symbol
/// that can be read.
///
/// # Example
///
/// ```
/// use fretloom::score_file::read_lead_sheet;
/// let file = br#"<score-partwise><part id="P1"><measure number="1">
///     <attributes><divisions>1</divisions></attributes>
///     <harmony><root><root-step>D</root-step></root><kind>minor-seventh</kind></harmony>
///     <note><rest/><duration>2</duration></note>
///     <harmony><root><root-step>G</root-step></root><kind>dominant</kind></harmony>
///     <note><pitch><step>B</step><octave>4</octave></pitch><duration>2</duration></note>
/// </measure></part></score-partwise>"#;
/// let sheet = read_lead_sheet(file).unwrap();
/// assert_eq!(sheet.chart.to_string(), "| Dm7 G7 |");
/// assert!(!sheet.melody.is_empty());
/// ```
pub fn read_lead_sheet(bytes: &[u8]) -> Result<LeadSheet, ScoreFileError> {
    if bytes.len() > LONGEST_FILE {
        return Err(too_long());
    }
    match Kind::of(bytes)? {
        Kind::MusicXml => music_xml::lead_sheet(&text(bytes)?),
        Kind::Compressed => {
            let score = archive::score(bytes)?;
            let read = text(&score.bytes).and_then(|text| music_xml::lead_sheet(&text));
            read.map_err(|error| error.within(&score.name))
        }
        Kind::Midi | Kind::Json => {
            let expected = "a chart in TOML, bars as they are typed, or MusicXML (also .mxl)";
            Err(ScoreFileError::whole("it is music without chord symbols", expected))
        }
    }
}
