//! Notes that are struck together, in voices in which nothing overlaps.

use fretloom_theory::Quarters;

use crate::score_file::written_score::WrittenScore;

/// Notes that begin and end together.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Struck {
    pub(crate) from: Quarters,
    pub(crate) to: Quarters,
    /// Their indices, at least one.
    pub(crate) notes: Vec<usize>,
}

/// All that is struck, and which of it each voice has, in order of time; at least one voice.
pub(crate) struct Voices {
    pub(crate) struck: Vec<Struck>,
    pub(crate) voices: Vec<Vec<usize>>,
}

impl Voices {
    /// The voices of a part: as few as will do. A note without length is left out.
    pub(crate) fn of(written: &WrittenScore) -> Voices {
        let struck = struck(written);
        let mut voices: Vec<Vec<usize>> = vec![Vec::new()];
        let mut ends = vec![Quarters::ZERO];
        for (index, chord) in struck.iter().enumerate() {
            let free = ends.iter().position(|end| *end <= chord.from);
            let voice = free.unwrap_or(voices.len());
            if voice == voices.len() {
                voices.push(Vec::new());
                ends.push(chord.to);
            }
            if let (Some(own), Some(end)) = (voices.get_mut(voice), ends.get_mut(voice)) {
                own.push(index);
                *end = chord.to;
            }
        }
        Voices { struck, voices }
    }
}

fn struck(written: &WrittenScore) -> Vec<Struck> {
    let mut notes: Vec<(Quarters, Quarters, usize)> = written
        .played()
        .enumerate()
        .filter(|(_, (note, _))| !note.duration().is_zero())
        .map(|(index, (note, _))| (note.onset(), note.end(), index))
        .collect();
    notes.sort_unstable();
    let mut struck: Vec<Struck> = Vec::new();
    for (from, to, index) in notes {
        match struck.last_mut() {
            Some(last) if (last.from, last.to) == (from, to) => last.notes.push(index),
            _ => struck.push(Struck { from, to, notes: vec![index] }),
        }
    }
    struck
}
