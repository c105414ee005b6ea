//! One part from its first measure to its last.

use fretloom_theory::ChordSymbol;

use super::measure;
use super::raw_note::RawNote;
use super::reading::{Found, Notes, Reading};
use super::tempo_change::TempoChange;
use crate::score_file::error::ScoreFileError;
use crate::score_file::offer::Tally;
use crate::score_file::xml::Xml;
use crate::words::counted;

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

/// Keeps the notes of the tablature alone where there is one beside another staff, and says so.
pub(super) fn keep_wanted_staff(part: &mut Found) -> Option<String> {
    let staff = part.tablature?;
    let is_wanted = |note: &RawNote| note.staff == staff;
    if !part.notes.iter().any(is_wanted) || part.notes.iter().all(is_wanted) {
        return None;
    }
    part.notes.retain(is_wanted);
    Some(format!("read the tablature, staff {staff}, and no other staff of the part"))
}

/// Its notes, those of the tablature alone where there is one beside another staff.
pub(super) fn tally(found: &Found) -> Tally {
    let mut staves = found.tally.clone();
    for note in found.notes.iter().filter(|note| !note.tie.comes_over) {
        staves.entry(note.staff).or_default().count(note.pitch.pitch());
    }
    let of_tablature = found.tablature.and_then(|staff| staves.get(&staff)).copied();
    let all = || staves.values().fold(Tally::default(), |all, staff| all.and(*staff));
    of_tablature.unwrap_or_else(all)
}

/// What a player should know of how a part was read.
pub(super) fn remarks(found: &Found) -> Vec<String> {
    let mut remarks = Vec::new();
    if found.unpitched > 0 {
        remarks.push(format!("left out {} without a pitch", counted(found.unpitched, "note")));
    }
    if found.cues > 0 {
        remarks.push(format!("left out {}", counted(found.cues, "cue note")));
    }
    remarks.extend(unread_chords(found));
    remarks
}

/// How many chord symbols are told by name.
const FEW: usize = 4;

/// Which chord symbols could not be read.
fn unread_chords(found: &Found) -> Option<String> {
    let unread = found.chords.iter().filter_map(|(_, symbol)| match symbol {
        ChordSymbol::Unread(text) => Some(text.as_str()),
        ChordSymbol::Chord(_) | ChordSymbol::NoChord => None,
    });
    let mut names: Vec<&str> = unread.collect();
    names.sort_unstable();
    names.dedup();
    let first = names.iter().take(FEW).copied().collect::<Vec<_>>().join(", ");
    match names.len() {
        0 => None,
        count @ ..=FEW => Some(format!("could not read {}: {first}", symbols(count))),
        count => {
            Some(format!("could not read {}: {first} and {} more", symbols(count), count - FEW))
        }
    }
}

fn symbols(count: usize) -> String {
    if count == 1 { "one chord symbol".to_owned() } else { format!("{count} chord symbols") }
}
