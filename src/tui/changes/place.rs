//! Where the hand stays, as plans are asked for it.

use fretloom_fretboard::{FretRange, Neck, Region, StringSet};

use crate::answer::HandArea;

/// The part of the neck to which the hand is locked; none for the whole neck, where pairs are planned
/// without it.
pub(super) fn region(area: HandArea) -> Option<Region> {
    area.region()
}

/// The same area on another neck, without what that does not have.
pub(super) fn on(area: HandArea, neck: &Neck) -> HandArea {
    let count = neck.tuning().string_count();
    let strings = area.strings.filter(|set| set.is_on(count));
    let area = HandArea { strings, ..area };
    if area.check(neck).is_ok() { area } else { HandArea { strings, ..HandArea::WHOLE_NECK } }
}

/// Sets of three strings side by side, and none for any.
pub(super) fn string_sets(neck: &Neck) -> Vec<Option<StringSet>> {
    let sets = StringSet::neighbours(neck.tuning().string_count(), 3);
    sets.map(Some).chain([None]).collect()
}

/// `position V, strings 4-3-2, frets 5–10`; `anywhere`
pub(super) fn in_words(area: HandArea) -> String {
    let position = area.position.map(|position| format!("position {position}"));
    let strings = area.strings.map(|set| format!("strings {set}"));
    let frets = (area.frets != FretRange::WHOLE_NECK)
        .then(|| format!("frets {}–{}", area.frets.first(), area.frets.last()));
    let words: Vec<String> = [position, strings, frets].into_iter().flatten().collect();
    if words.is_empty() { "anywhere".to_owned() } else { words.join(", ") }
}

#[cfg(test)]
mod tests {
    use fretloom_fretboard::Tuning;

    use super::*;

    #[test]
    fn a_position_is_the_frets_that_the_hand_reaches() {
        let region = |typed: &str| region(HandArea::read_line(typed).unwrap());
        let frets = |typed: &str| region(typed).unwrap().frets().to_string();
        assert_eq!([frets("V"), frets("V 5-8"), frets("I 4-3-2")], ["4-9", "5-8", "0-5"]);
        assert_eq!(region(""), None);
        assert_eq!(region("4-3-2").unwrap().strings(), "4-3-2".parse().ok());
        assert_eq!(
            in_words(HandArea::read_line("V 5-8 4-3-2").unwrap()),
            "position V, strings 4-3-2, frets 5–8"
        );
    }

    #[test]
    fn what_a_neck_does_not_have_is_left_out() {
        let neck = Neck::new(Tuning::read("GCEA").unwrap());
        let on = |typed: &str| on(HandArea::read_line(typed).unwrap(), &neck).to_string();
        assert_eq!(
            [on("6-5-4"), on("4-3-2"), on("V 4-3-2"), on("30-36")],
            ["", "4-3-2", "V 4-3-2", ""]
        );
    }
}
