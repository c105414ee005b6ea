//! `<duration>`.

use super::reading::Reading;
use super::time::Time;
use crate::score_file::element::Element;
use crate::score_file::error::ScoreFileError;
use crate::score_file::xml::Xml;

/// The duration of an element.
pub(super) fn read(
    reading: &Reading<'_>,
    xml: &mut Xml<'_>,
    element: &Element,
) -> Result<Time, ScoreFileError> {
    const EXPECTED: &str = "a duration in divisions, 0 or more";
    let Some(duration) = element.child("duration") else {
        let wrong = format!("a {} without a duration", element.name);
        return Err(xml.fail(element.offset, wrong, EXPECTED));
    };
    let number = xml.number_in(duration, EXPECTED)?;
    if number < 0.0 {
        return Err(xml.found(duration.offset, &duration.text, EXPECTED));
    }
    let Some(divisions) = reading.divisions.or_else(|| silent_divisions(element)) else {
        let wrong = "a duration before any divisions".to_owned();
        let expected = "the divisions of a quarter note first";
        return Err(xml.fail(duration.offset, wrong, expected));
    };
    Ok(Time::of(number, divisions))
}

/// Where a score has no divisions, what does not sound may be as long as it likes.
fn silent_divisions(element: &Element) -> Option<f64> {
    let sounds = element.name == "note" && !element.has("rest");
    (!sounds).then_some(1.0)
}
