//! A part of a score in MusicXML, score-partwise, 4.0 and older.
//!
//! Pitches come out as they sound: `<transpose>` is applied, which guitar parts carry for their
//! octave. Tied notes are one note. Grace notes are short and come before the beat. Repeats are not
//! unfolded, which is said. `<string>` and `<fret>` settle the place; they count from the capo.
//! Where a part has a staff of tablature beside another, both show the same notes, and the
//! tablature is read. The score is read piece by piece; document types are passed over and no
//! entity is replaced but the five of XML itself.

mod element;
mod grace;
mod measure;
mod note;
mod part;
mod score;
mod ties;
mod xml;

use super::line::FretsFrom;
use super::locator::Locator;
use super::tempo::TempoMap;
use super::{Line, LineError, Whereabouts, WrittenNote};
use part::{Part, RawNote};

/// Reads the chosen part, by its id or counted from 1; else the first one.
pub(super) fn read(text: &str, chosen: Option<&str>) -> Result<Line, LineError> {
    let score = score::read(text, chosen)?;
    let tempi = TempoMap::of(score.tempi);
    let mut remarks = score.remarks;
    let raw = wanted_staff(score.part, &mut remarks);
    let mut notes = written(&raw, text, &tempi);
    // By time; what begins together stays in the order of the file.
    notes.sort_by(|one, other| one.onset_s.total_cmp(&other.onset_s));
    Ok(Line::of(notes)?.counting_frets_from(FretsFrom::Capo).saying(remarks))
}

/// The notes of the tablature where there is one beside another staff; else all.
fn wanted_staff(part: Part, remarks: &mut Vec<String>) -> Vec<RawNote> {
    let Part { mut notes, tablature, .. } = part;
    let Some(staff) = tablature else { return notes };
    let is_wanted = |note: &RawNote| note.staff == staff;
    if notes.iter().any(is_wanted) && !notes.iter().all(is_wanted) {
        notes.retain(is_wanted);
        remarks.push(format!("read the tablature, staff {staff}, and no other staff of the part"));
    }
    notes
}

fn written(raw: &[RawNote], text: &str, tempi: &TempoMap) -> Vec<WrittenNote> {
    let onsets: Vec<f64> = raw.iter().map(|note| note.onset_s(tempi)).collect();
    // Grace notes at the very beginning come before it: the line then begins with the first.
    let first = onsets.iter().copied().fold(0.0, f64::min);
    let mut locator = Locator::new(text);
    let note = |(note, onset): (&RawNote, &f64)| WrittenNote {
        onset_s: onset - first,
        duration_s: note.duration_s(tempi),
        pitch: note.pitch,
        pin: note.pin,
        bar: note.bar_index,
        stands: Whereabouts::InBar {
            bar: note.bar.clone(),
            beat: note.beat,
            at: locator.at(note.offset),
        },
    };
    raw.iter().zip(&onsets).map(note).collect()
}

#[cfg(test)]
mod tests;
