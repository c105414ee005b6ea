//! A tuning in a line of text.

use std::iter;

use crate::words::spaced;
use fretloom_fretboard::{OpenString, StringNumber, Tuning};

/// Name, strings and capo: `Guitar, standard   E2 A2 D3 G3 B3 E4   capo at 2`. A tuning that is called
/// by its strings has no other name.
///
/// ```
/// use fretloom::export::text::tuning_line;
/// use fretloom_fretboard::Tuning;
/// let tuning = Tuning::read("D A D G B E").unwrap();
/// assert_eq!(tuning_line(&tuning), "D2 A2 D3 G3 B3 E4   (octaves inferred)");
/// ```
#[must_use]
pub fn tuning_line(tuning: &Tuning) -> String {
    let strings = strings_with_courses(tuning);
    let name = Some(tuning.name()).filter(|name| *name != strings).map(str::to_owned);
    let inferred = tuning.octaves_inferred().then(|| "(octaves inferred)".to_owned());
    let capo = (!tuning.capo().is_none()).then(|| tuning.capo().to_string());
    let parts: Vec<String> = [name, Some(strings), inferred, capo].into_iter().flatten().collect();
    parts.join("   ")
}

/// The strings as they are tuned, those of one course joined: `E2+E3 A2+A3`.
#[must_use]
pub fn strings_with_courses(tuning: &Tuning) -> String {
    let course = |(number, open): (StringNumber, OpenString)| {
        let notes = iter::once(open.note()).chain(tuning.doublings(number).iter().copied());
        notes.map(|note| format!("{note:#}")).collect::<Vec<_>>().join("+")
    };
    spaced(tuning.strings().map(course))
}
