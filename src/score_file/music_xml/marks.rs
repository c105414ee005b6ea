//! What sends the player elsewhere: repeats, endings, D.C. and D.S.

use std::collections::{BTreeMap, BTreeSet};

use crate::score_file::element::Element;

/// A sign that stands in a measure.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) enum Sign {
    /// `|:`
    RepeatBegins,
    Segno,
    Coda,
    ToCoda,
    Fine,
    DaCapo,
    DalSegno,
}

/// What in a measure sends the player elsewhere.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub(super) struct Marks {
    pub(super) signs: BTreeSet<Sign>,
    /// `:|`, and how often all is heard: `times` of the standard, 2 where it is not said.
    pub(super) repeat_ends: Option<u32>,
    /// The times through for which an ending begins here.
    pub(super) ending: Passes,
    /// Does an ending end here?
    pub(super) ending_ends: bool,
    /// What the section is called that begins here.
    pub(super) rehearsal: Option<String>,
}

/// Times through a repeat. A range may be as long as a file likes, so it is not written out.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub(super) struct Passes(BTreeSet<(u32, u32)>);

impl Passes {
    /// `1, 2` as the standard has it, and `1-3` or `1.` as some programs write it; the first time
    /// for what names none.
    pub(super) fn read(text: &str) -> Passes {
        let number = |text: &str| number_of_times(text).filter(|number| *number > 0);
        let range = |word: &str| match word.split_once('-') {
            Some((first, last)) => Some((number(first)?, number(last)?)),
            None => number(word).map(|number| (number, number)),
        };
        let ranges = text.split([',', ' ', '.']).filter_map(range);
        let ranges: BTreeSet<_> = ranges.filter(|(first, last)| first <= last).collect();
        Passes::merged(if ranges.is_empty() { BTreeSet::from([(1, 1)]) } else { ranges })
    }

    /// Ranges that neither meet nor follow one another, so that one look finds a time among many.
    fn merged(ranges: BTreeSet<(u32, u32)>) -> Passes {
        let mut merged = BTreeSet::new();
        let mut ranges = ranges.into_iter();
        let Some(mut open) = ranges.next() else { return Passes::default() };
        for (first, last) in ranges {
            if first <= open.1.saturating_add(1) {
                open.1 = open.1.max(last);
            } else {
                merged.insert(open);
                open = (first, last);
            }
        }
        merged.insert(open);
        Passes(merged)
    }

    /// These and others.
    fn add(&mut self, others: Passes) {
        let both = std::mem::take(&mut self.0).into_iter().chain(others.0).collect();
        *self = Passes::merged(both);
    }

    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(super) fn contains(&self, pass: u32) -> bool {
        let before = self.0.range(..=(pass, u32::MAX)).next_back();
        before.is_some_and(|(_, last)| pass <= *last)
    }

    pub(super) fn last(&self) -> Option<u32> {
        self.0.iter().map(|(_, last)| *last).max()
    }

    /// All of them in order; of a long range as many as anybody writes.
    pub(super) fn all(&self) -> BTreeSet<u32> {
        const MOST: usize = 100;
        self.0.iter().flat_map(|(first, last)| (*first..=*last).take(MOST)).collect()
    }
}

/// How many times a text says; more than can be counted for a number without end.
fn number_of_times(text: &str) -> Option<u32> {
    let digits = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    digits.then(|| text.parse().unwrap_or(u32::MAX))
}

/// The longest name of a section, in characters.
const LONGEST_SECTION: usize = 40;

impl Marks {
    /// Adds what a `<barline>` says.
    pub(super) fn add_bar_line(&mut self, element: &Element) {
        for repeat in element.children_named("repeat") {
            if repeat.attribute("direction") == Some("forward") {
                self.signs.insert(Sign::RepeatBegins);
            } else {
                let times = repeat.attribute("times").and_then(number_of_times);
                self.repeat_ends = Some(times.filter(|times| *times > 0).unwrap_or(2));
            }
        }
        for ending in element.children_named("ending") {
            self.add_ending(ending);
        }
        for name in ["segno", "coda"] {
            self.add_shown(element, name);
        }
    }

    fn add_ending(&mut self, ending: &Element) {
        if ending.attribute("type") != Some("start") {
            self.ending_ends = true;
            return;
        }
        let passes = Passes::read(ending.attribute("number").unwrap_or_default());
        self.ending.add(passes);
    }

    /// Adds what a `<sound>` says.
    pub(super) fn add_sound(&mut self, element: &Element) {
        for (attribute, sign) in [
            ("dacapo", Sign::DaCapo),
            ("dalsegno", Sign::DalSegno),
            ("segno", Sign::Segno),
            ("coda", Sign::Coda),
            ("tocoda", Sign::ToCoda),
            ("fine", Sign::Fine),
            ("forward-repeat", Sign::RepeatBegins),
        ] {
            let is_said = element.attribute(attribute).is_some_and(|value| value != "no");
            self.signs.extend(is_said.then_some(sign));
        }
    }

    /// Adds what a `<direction>` shows, where no sound says it: signs, and the usual words.
    pub(super) fn add_direction(&mut self, element: &Element) {
        let types = element.children_named("direction-type").flat_map(|kind| &kind.children);
        for shown in types {
            match shown.name.as_str() {
                "segno" => self.signs.extend([Sign::Segno]),
                "coda" => self.signs.extend([Sign::Coda]),
                "words" => self.signs.extend(meant(&shown.text)),
                "rehearsal" => {
                    let name: String = shown.text.trim().chars().take(LONGEST_SECTION).collect();
                    self.rehearsal = Some(name).filter(|name| !name.is_empty());
                }
                _ => {}
            }
        }
    }

    fn add_shown(&mut self, element: &Element, name: &str) {
        let sign = if name == "segno" { Sign::Segno } else { Sign::Coda };
        self.signs.extend(element.has(name).then_some(sign));
    }

    pub(super) fn has(&self, sign: Sign) -> bool {
        self.signs.contains(&sign)
    }

    pub(super) fn is_empty(&self) -> bool {
        *self == Marks::default()
    }

    /// Adds what another part shows in the same measure.
    pub(super) fn merge(&mut self, other: Marks) {
        self.signs.extend(other.signs);
        self.ending.add(other.ending);
        self.ending_ends |= other.ending_ends;
        self.repeat_ends = self.repeat_ends.max(other.repeat_ends);
        self.rehearsal = self.rehearsal.take().or(other.rehearsal);
    }
}

/// What the marks of a score, by measure, mean together.
///
/// The sign of the coda stands where one leaves for it and where it begins: the last one is the coda,
/// and where nothing says from where one leaves it is the first. A repeat that is heard once is none.
pub(super) fn settled(mut marks: BTreeMap<u64, Marks>) -> BTreeMap<u64, Marks> {
    let with = |sign: Sign| marks.iter().filter(move |(_, it)| it.has(sign)).map(|(at, _)| *at);
    let codas: Vec<u64> = with(Sign::Coda).collect();
    let leaves = with(Sign::ToCoda).next();
    match (codas.as_slice(), leaves) {
        ([first, .., _], None) => {
            marks.entry(*first).and_modify(|it| it.signs.extend([Sign::ToCoda]));
        }
        ([.., last], Some(leaves)) if *last <= leaves => {
            marks.entry(*last).and_modify(|it| {
                it.signs.remove(&Sign::Coda);
            });
        }
        _ => {}
    }
    leave_out_single_repeats(&mut marks);
    marks
}

/// Takes `:|` away where all is heard once, with the `|:` that belongs to it. In endings their
/// numbers say how often.
fn leave_out_single_repeats(marks: &mut BTreeMap<u64, Marks>) {
    let mut begun: Option<u64> = None;
    let mut single: Vec<Option<u64>> = Vec::new();
    let mut in_ending = false;
    for (at, it) in marks.iter_mut() {
        if it.has(Sign::RepeatBegins) {
            (begun, in_ending) = (Some(*at), false);
        }
        in_ending |= !it.ending.is_empty();
        if it.repeat_ends == Some(1) {
            it.repeat_ends = in_ending.then_some(2);
            single.extend((!in_ending).then_some(begun));
        }
        if it.repeat_ends.is_some() {
            begun = None;
        }
        in_ending &= !(it.ending_ends || it.repeat_ends.is_some());
    }
    for begins in single.into_iter().flatten() {
        marks.entry(begins).and_modify(|it| {
            it.signs.remove(&Sign::RepeatBegins);
        });
    }
}

/// What the usual words mean: `D.C. al Fine`, `Dal Segno`, `To Coda`, `Fine`.
fn meant(words: &str) -> Option<Sign> {
    let bare = |char: &char| char.is_ascii_alphabetic();
    let words: String = words.chars().take(80).filter(bare).collect::<String>().to_lowercase();
    let begins = |with: &[&str]| with.iter().any(|beginning| words.starts_with(beginning));
    match words.as_str() {
        "fine" => Some(Sign::Fine),
        "coda" => Some(Sign::Coda),
        "tocoda" | "alcoda" => Some(Sign::ToCoda),
        _ if begins(&["dcal", "dacapo"]) || words == "dc" => Some(Sign::DaCapo),
        _ if begins(&["dsal", "dalsegno"]) || words == "ds" => Some(Sign::DalSegno),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_words_are_known() {
        for (words, sign) in [
            ("D.C. al Fine", Some(Sign::DaCapo)),
            ("D. C.", Some(Sign::DaCapo)),
            ("Da Capo al Coda", Some(Sign::DaCapo)),
            ("D.S. al Coda", Some(Sign::DalSegno)),
            ("dal segno", Some(Sign::DalSegno)),
            ("Fine", Some(Sign::Fine)),
            ("To Coda", Some(Sign::ToCoda)),
            ("CODA", Some(Sign::Coda)),
            ("dolce", None),
            ("Fine e piano", None),
            ("", None),
        ] {
            assert_eq!(meant(words), sign, "{words}");
        }
    }

    #[test]
    fn endings_say_for_which_times_they_are() {
        for (text, passes) in [
            ("1", &[1][..]),
            ("1,2", &[1, 2]),
            ("1, 2, 4", &[1, 2, 4]),
            ("1-3", &[1, 2, 3]),
            ("1-2, 4", &[1, 2, 4]),
            ("2.", &[2]),
            ("", &[1]),
            ("  ", &[1]),
            ("0", &[1]),
            ("3-1", &[1]),
            ("x", &[1]),
        ] {
            assert_eq!(Passes::read(text).all().into_iter().collect::<Vec<_>>(), passes, "{text}");
        }
        let endless = Passes::read("2-99999999999999");
        assert_eq!((endless.last(), endless.all().len()), (Some(u32::MAX), 100));
        assert!(endless.contains(70_000) && !endless.contains(1));
    }
}
