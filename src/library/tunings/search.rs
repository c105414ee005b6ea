//! Finding tunings by what a player types: words of their names, or notes.

use fretloom_fretboard::Tuning;

use crate::words::spaced;

/// Those of the tunings that fit a search, in their order: with every word of it in name, instrument,
/// id or notes, in either case. Where it reads as the notes of strings, the tuning that is typed
/// comes first, and then those that hold these notes side by side.
///
/// ```
/// use fretloom::library::{LoadedTunings, search_tunings};
/// let library = LoadedTunings::load(None);
/// let found = |text| search_tunings(library.iter().map(|(tuning, _)| tuning), text);
/// assert_eq!(found("drop d")[0].id(), "guitar-drop-d");
/// assert_eq!(found("dadgad")[0].to_string(), "D2 A2 D3 G3 A3 D4");
/// assert!(found("theremin").is_empty());
/// ```
pub fn search_tunings<'a>(
    tunings: impl IntoIterator<Item = &'a Tuning>,
    text: &str,
) -> Vec<Tuning> {
    let text = text.trim();
    let typed = read_typed(text);
    let fits = |tuning: &&Tuning| match &typed {
        Some(_) => holds_notes(tuning, text),
        None => holds_words(tuning, text),
    };
    // What was typed before is not offered twice.
    let again = |tuning: &Tuning| typed.as_ref().is_some_and(|typed| typed == tuning);
    let known = tunings.into_iter().filter(fits).filter(|tuning| !again(tuning)).cloned();
    let known: Vec<Tuning> = known.collect();
    typed.into_iter().chain(known).collect()
}

/// The one of them that a search means most likely; of notes typed in small letters the known one
/// with these strings, where there is one. `None` where nothing fits, and where no word is longer
/// than the name of a note: notes that cannot be read are no words to search for.
pub(super) fn best_match<'a>(
    tunings: impl Iterator<Item = &'a Tuning> + Clone,
    text: &str,
) -> Option<Tuning> {
    let is_word = |word: &str| word.chars().filter(|char| char.is_alphabetic()).count() > 2;
    if !text.split_whitespace().any(is_word) && read_typed(text.trim()).is_none() {
        return None;
    }
    let first = search_tunings(tunings.clone(), text).into_iter().next()?;
    let strings = first.to_string();
    let mut tunings = tunings;
    let same = tunings.find(|tuning| tuning.to_string() == strings).cloned();
    Some(same.unwrap_or(first))
}

/// The tuning that a search reads as, if it does. Who searches need not press Shift, as long as no
/// `b` is meant as a flat: `d a d g b e`, `dadgad`.
fn read_typed(text: &str) -> Option<Tuning> {
    let large = |word: &str| match word.split_at_checked(1) {
        Some((note, rest)) => note.to_uppercase() + rest,
        None => word.to_owned(),
    };
    let one_word = text.chars().all(|char| matches!(char, 'a'..='g'));
    let words = if one_word { text.to_uppercase() } else { spaced(text.split(' ').map(large)) };
    [text, &words].into_iter().find_map(|text| Tuning::read(text).ok())
}

/// Is every word of the search in the name, the instrument, the id or the notes?
fn holds_words(tuning: &Tuning, text: &str) -> bool {
    let (name, instrument) = (tuning.name(), tuning.instrument());
    let all = format!("{name} {instrument} {} {tuning:#} {}", tuning.id(), names(tuning));
    let all = all.to_lowercase();
    text.to_lowercase().split_whitespace().all(|word| all.contains(word))
}

/// Are the typed notes among those of the tuning, side by side, or in its name?
fn holds_notes(tuning: &Tuning, text: &str) -> bool {
    let squeezed: String = text.split([' ', ',']).collect::<String>().to_lowercase();
    let with_octaves: String = format!("{tuning:#}").split(' ').collect();
    [names(tuning), with_octaves, tuning.name().to_owned()]
        .iter()
        .any(|notes| notes.to_lowercase().contains(&squeezed))
}

/// `EADGBE`
fn names(tuning: &Tuning) -> String {
    tuning.strings().map(|(_, open)| format!("{:#}", open.note().name())).collect()
}
