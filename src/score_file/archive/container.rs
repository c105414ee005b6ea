//! `META-INF/container.xml`: which file of the archive is the score.

use crate::score_file::element::Element;
use crate::score_file::encoding::text;
use crate::score_file::error::ScoreFileError;
use crate::score_file::xml::Xml;

/// The kinds under which containers name a score; the standard's own is the first.
const SCORES: [&str; 4] = [
    "application/vnd.recordare.musicxml+xml",
    "application/vnd.recordare.musicxml",
    "application/xml",
    "text/xml",
];

const EXPECTED: &str = "a rootfile with the full-path of the score";

/// The name of the score: that of the first root file that is one, as the standard asks.
pub(super) fn score_name(container: &[u8]) -> Result<String, ScoreFileError> {
    let container = text(container)?;
    let mut xml = Xml::new(&container);
    let mut first = None;
    while let Some(element) = xml.next_element()? {
        if element.name == "rootfile" && is_score(&element) {
            first = first.or(Some(element));
        }
    }
    let Some(rootfile) = first else {
        return Err(ScoreFileError::whole("it names no score", EXPECTED));
    };
    let name = rootfile.attribute("full-path").unwrap_or_default();
    let leads_out = name.starts_with('/') || name.split(['/', '\\']).any(|part| part == "..");
    if name.is_empty() || leads_out {
        let expected = "the full-path of a score within the archive";
        return Err(xml.found(rootfile.offset, name, expected));
    }
    Ok(name.to_owned())
}

/// A root file of another kind may be a page or a sound.
fn is_score(rootfile: &Element) -> bool {
    rootfile.attribute("media-type").is_none_or(|kind| SCORES.contains(&kind))
}
