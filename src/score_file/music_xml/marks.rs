//! What sends the player elsewhere: repeats, endings, D.C. and D.S.

use std::collections::BTreeSet;

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
    /// `:|`, and how often all is heard.
    pub(super) repeat_ends: Option<u8>,
    /// The times through for which an ending begins here.
    pub(super) ending: BTreeSet<u8>,
    /// Does an ending end here?
    pub(super) ending_ends: bool,
    /// What the section is called that begins here.
    pub(super) rehearsal: Option<String>,
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
                let times = repeat.attribute("times").and_then(|times| times.parse().ok());
                self.repeat_ends = Some(times.filter(|times| *times >= 2).unwrap_or(2));
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
        let numbers = ending.attribute("number").unwrap_or_default().split([',', ' ', '.']);
        let numbers: Vec<u8> = numbers.filter_map(|number| number.parse().ok()).collect();
        self.ending.extend(if numbers.is_empty() { vec![1] } else { numbers });
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
        self.ending.extend(other.ending);
        self.ending_ends |= other.ending_ends;
        self.repeat_ends = self.repeat_ends.max(other.repeat_ends);
        self.rehearsal = self.rehearsal.take().or(other.rehearsal);
    }
}

/// What the usual words mean: `D.C. al Fine`, `Dal Segno`, `To Coda`, `Fine`.
fn meant(words: &str) -> Option<Sign> {
    let bare = |char: &char| char.is_ascii_alphabetic();
    let words: String = words.chars().take(80).filter(bare).collect::<String>().to_lowercase();
    let begins = |with: &[&str]| with.iter().any(|beginning| words.starts_with(beginning));
    match words.as_str() {
        "fine" => Some(Sign::Fine),
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
            ("dolce", None),
            ("Fine e piano", None),
            ("", None),
        ] {
            assert_eq!(meant(words), sign, "{words}");
        }
    }
}
