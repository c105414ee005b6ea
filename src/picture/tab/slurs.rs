//! Which notes are slurred to.

use fretloom_theory::Slur;

use super::timed::Timed;

/// How each note is slurred to, by note.
///
/// A slur goes to the next note on its string, if that begins next; else to the first of those that
/// do, which a finger strikes.
pub(super) fn slurs(notes: &[Timed<'_>]) -> Vec<Option<Slur>> {
    let mut slurs = vec![None; notes.len()];
    let mut next = 0;
    for together in notes.chunk_by(|one, next| one.is_with(next)) {
        next += together.len();
        let begun = notes.get(next..).unwrap_or_default();
        let begun = begun.chunk_by(|one, next| one.is_with(next)).next().unwrap_or_default();
        for note in together.iter().filter(|note| note.event.slurred_to_next) {
            let on_string = begun.iter().position(|to| to.event.string == note.event.string);
            let to = on_string.unwrap_or(0);
            let falls = begun.get(to).is_some_and(|to| {
                to.event.string == note.event.string && to.event.fret < note.event.fret
            });
            if let Some(slur) = slurs.get_mut(next + to) {
                *slur = Some(if falls { Slur::PullOff } else { Slur::HammerOn });
            }
        }
    }
    slurs
}
