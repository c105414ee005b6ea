//! Phrases as the text of a file.

use std::fmt::Write;

use fretloom_theory::{AtChange, NoteName, SpelledTriad, Travel, TriadPair};

use super::area::PhraseView;
use super::asked::{AT_CHANGES, AskedPhrase, TRAVELS};
use crate::library::in_quotes::quoted;

/// The text of a file with these phrases, which [`phrases_of_text`](super::phrases_of_text) reads.
///
/// ```
/// use fretloom::library::{AskedPhrase, text_of_phrases};
/// let phrase = AskedPhrase::beginning("question", "1.1&");
/// assert_eq!(text_of_phrases(&[phrase]), "[question]\nfrom = \"1.1&\"\n");
/// ```
#[must_use]
pub fn text_of_phrases(phrases: &[AskedPhrase]) -> String {
    phrases.iter().map(section).collect::<Vec<_>>().join("\n")
}

fn section(phrase: &AskedPhrase) -> String {
    let AskedPhrase { to, like, pair, pattern, rhythm, travel, start, target, notes, .. } = phrase;
    let area = phrase.area;
    let view = area.and_then(|area| area.view);
    let texts = [
        ("from", Some(phrase.from.clone())),
        ("to", to.clone()),
        ("like", like.clone()),
        ("at-change", phrase.at_change.and_then(word_of_change).map(str::to_owned)),
        ("pair", pair.map(pair_in_words)),
        ("pattern", pattern.as_ref().map(ToString::to_string)),
        ("rhythm", rhythm.as_ref().map(ToString::to_string)),
        ("travel", travel.and_then(word_of_travel).map(str::to_owned)),
        ("start", start.clone()),
        ("target", target.clone()),
        ("notes", notes.clone()),
        ("view", view.map(|view| view.to_string())),
        ("position", view.and_then(PhraseView::position).map(|position| position.to_string())),
        ("strings", area.and_then(|area| area.strings).map(|strings| strings.to_string())),
        ("frets", area.and_then(|area| area.frets).map(|frets| frets.to_string())),
    ];
    let mut lines = format!("[{}]\n", key(&phrase.name));
    for (name, text) in texts {
        if let Some(text) = text {
            // Writing to a text does not fail.
            let _ = writeln!(lines, "{name} = {}", quoted(&text));
        }
    }
    if let Some(choice) = view.and_then(PhraseView::choice) {
        let _ = writeln!(lines, "choice = {choice}");
    }
    for (name, is) in [("wide", phrase.is_wide), ("runs-on", phrase.runs_on)] {
        lines.push_str(&if is { format!("{name} = true\n") } else { String::new() });
    }
    lines
}

fn word_of_change(at_change: AtChange) -> Option<&'static str> {
    AT_CHANGES.iter().find(|(_, known)| *known == at_change).map(|(word, _)| *word)
}

fn word_of_travel(travel: Travel) -> Option<&'static str> {
    TRAVELS.iter().find(|(_, known)| *known == travel).map(|(word, _)| *word)
}

/// `F & G`, in ASCII.
fn pair_in_words(pair: TriadPair) -> String {
    let name = |triad: fretloom_theory::Triad| {
        let root = NoteName::everyday(triad.root()).next()?;
        Some(format!("{:#}", SpelledTriad::stacked(root, triad.quality())))
    };
    pair.triads().into_iter().filter_map(name).collect::<Vec<_>>().join(" & ")
}

/// A name as a key: as it is where it needs no quotes.
fn key(name: &str) -> String {
    let is_bare = |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '_');
    if !name.is_empty() && name.chars().all(is_bare) { name.to_owned() } else { quoted(name) }
}

#[cfg(test)]
mod tests {
    use fretloom_theory::{Triad, TriadQuality};

    use super::super::area::PhraseArea;
    use super::super::phrases_of_text;
    use super::*;
    use crate::library::LoadedPatterns;

    fn whole() -> AskedPhrase {
        AskedPhrase {
            to: Some("3.4&".to_owned()),
            like: Some("odd \"name\\\u{7}".to_owned()),
            is_wide: true,
            runs_on: true,
            pattern: Some("1232 321 a".parse().unwrap()),
            rhythm: Some("4. 3:2(8 8 8) -8".parse().unwrap()),
            travel: Some(Travel::Arc),
            start: Some("first".to_owned()),
            target: Some("b7@3.1:below:early".to_owned()),
            notes: Some("F3+A3:4 -:4 >B3:8".to_owned()),
            ..AskedPhrase::beginning("2", "2.1&")
        }
    }

    #[test]
    fn what_is_written_is_read_again() {
        let odd = AskedPhrase::beginning("odd \"name\\\u{7}", "1.1");
        let mut phrases = vec![odd, whole()];
        for (number, (_, travel)) in (3..).zip(TRAVELS) {
            let plain = AskedPhrase::beginning(&number.to_string(), "4.1");
            phrases.push(AskedPhrase { travel: Some(travel), ..plain });
        }
        for (word, at_change) in AT_CHANGES {
            let plain = AskedPhrase::beginning(word, "[B]");
            phrases.push(AskedPhrase { at_change: Some(at_change), ..plain });
        }
        let (five, set, frets) = ("V".parse().ok(), "4-3-2".parse().ok(), "1-12".parse().ok());
        for (view, strings, frets) in [
            (None, set, None),
            (None, None, frets),
            (Some(PhraseView::Position(five)), set, frets),
            (Some(PhraseView::Position(None)), None, None),
            (Some(PhraseView::Set), set, None),
            (Some(PhraseView::Across(1)), None, None),
            (Some(PhraseView::Across(3)), None, frets),
            (Some(PhraseView::Two(None, 1)), None, None),
            (Some(PhraseView::Two(five, 2)), set, frets),
        ] {
            let plain = AskedPhrase::beginning(&format!("at {}", phrases.len()), "4.1");
            let area = Some(PhraseArea { view, strings, frets });
            phrases.push(AskedPhrase { area, ..plain });
        }
        let (patterns, text) = (LoadedPatterns::load(None), text_of_phrases(&phrases));
        assert_eq!(phrases_of_text("own.toml", &text, &patterns).unwrap(), phrases, "{text}");
    }

    #[test]
    fn every_pair_has_a_name() {
        let triads: Vec<Triad> = Triad::every(TriadQuality::ALL).collect();
        let pairs = triads.iter().flat_map(|one| triads.iter().map(move |two| (*one, *two)));
        let patterns = LoadedPatterns::load(None);
        for pair in pairs.filter_map(|(one, two)| TriadPair::in_order(one, two)) {
            let phrase = AskedPhrase { pair: Some(pair), ..AskedPhrase::beginning("1", "4.2") };
            let text = text_of_phrases(std::slice::from_ref(&phrase));
            assert_eq!(phrases_of_text("own.toml", &text, &patterns).unwrap(), [phrase], "{text}");
        }
    }
}
