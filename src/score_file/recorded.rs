//! Notes of files that know seconds and no beats.

use fretloom_theory::{NamedPitch, Note, PlayedTime, Quarters, TempoMap};

/// A note that keeps its seconds bit by bit; its beats are counted in a tempo, to the nearest on
/// the grid of [`Quarters::GRID`]. `None` where a time is negative or not finite.
pub(super) fn recorded(
    tempi: &TempoMap,
    onset_s: f64,
    duration_s: f64,
    pitch: NamedPitch,
) -> Option<Note> {
    let time = PlayedTime::new(onset_s, duration_s)?;
    // Only a time far beyond a day is no moment, and a part that lasts so long is refused.
    let moment = |seconds: f64| tempi.moment_at(seconds).unwrap_or(Quarters::ZERO);
    let (onset, end) = (moment(onset_s), moment(onset_s + duration_s));
    Note::between(onset, end.max(onset), pitch).map(|note| note.recorded_at(time))
}
