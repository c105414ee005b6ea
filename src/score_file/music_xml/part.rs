//! One part from its first measure to its last.

use super::measure;
use super::reading::{Found, Notes, Reading};
use super::tempo_change::TempoChange;
use super::xml::Xml;
use crate::score_file::error::ScoreFileError;

/// Reads a part that has just been opened, and adds its tempi.
pub(super) fn read(
    xml: &mut Xml<'_>,
    tempi: &mut Vec<TempoChange>,
    notes: Notes,
) -> Result<Found, ScoreFileError> {
    let mut reading = Reading::new(tempi, notes);
    while let Some(element) = xml.next_child()? {
        if element.name == "measure" {
            measure::read(&mut reading, xml, &element)?;
        } else {
            xml.skip()?;
        }
    }
    reading.settle_graces();
    Ok(reading.found)
}

/// What a player should know of how a part was read.
pub(super) fn remarks(found: &Found) -> Vec<String> {
    let mut remarks = Vec::new();
    if found.has_repeats {
        remarks.push("the part has repeats, which are not unfolded".to_owned());
    }
    if found.unpitched > 0 {
        remarks.push(format!("left out {} notes without a pitch", found.unpitched));
    }
    if found.cues > 0 {
        remarks.push(format!("left out {} cue notes", found.cues));
    }
    remarks
}
