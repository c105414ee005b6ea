//! Phrases of a line, as a player writes them in a file: a section for each, in order.
//!
//! ```toml
//! [question]
//! from = "1.1&"
//! pattern = "1232 321 a"
//! target = "3@2.1:below"
//!
//! [stab]
//! from = "3.1"
//! notes = "F3+A3:4 -:4 B3:8"
//! ```
//!
//! `from` is a bar and a beat, or a section of the form, `"[B]"`: then it is played each time that the section
//! comes, to its end. Everything else may be missing: `to`, `pair`, `pattern` (figures, or the
//! name of a pattern), `rhythm`, `travel`, `start`, `target`, and `notes`, which are entered one by
//! one and belong to no pair. `like` answers a phrase above it: the same pattern, rhythm and travel, and
//! the same place on the neck, but for what the section says itself. `wide = true` puts the middle note of each triad an octave up;
//! with `runs-on = true` pattern and rhythm go on where the phrase before was. With `at-change` a phrase
//! goes on through changes of chords in the pair of each, and its pattern `"runs-on"`, begins `"again"` or is
//! `"cut"` with its last whole group; over a section it runs on unless it says so. Moments, starts and
//! targets are kept as they are written: what they mean depends on the line.
//!
//! `target` may name several notes with spaces between them, `"b3@2.1 3@3.1:below"`: the phrase goes through each for
//! one value of its rhythm and begins its pattern again, and it rests on the last one.
//!
//! `view`, `position`, `choice`, `strings` and `frets` say where on the neck it is played, where that is
//! not where the line is.

mod area;
mod asked;
mod written;

use fretloom_theory::{AtChange, FreeNotes, Pattern, Rhythm, Travel};

use super::fields::{Fields, text};
use super::in_quotes::{in_quotes, read, read_pair};
use super::{LoadedPatterns, Problem};

pub use area::{PhraseArea, PhraseView};
pub use asked::AskedPhrase;
pub use written::text_of_phrases;

use area::AREA_KEYS;
use asked::{AT_CHANGES, TRAVELS};

/// The most phrases of one file.
pub const MOST_PHRASES: usize = 500;

const KEYS: &[&str] = &[
    "from",
    "to",
    "like",
    "wide",
    "runs-on",
    "at-change",
    "pair",
    "pattern",
    "rhythm",
    "travel",
    "start",
    "target",
    "notes",
];

const A_SECTION: &str = "a section, as in [question] above what it says";

/// The phrases in the text of a file, in their order; at least one.
///
/// # Errors
///
/// Where the text is not TOML, and where something in it cannot be used: everything that is wrong,
/// in the order of the file.
///
/// # Example
///
/// ```
/// use fretloom::library::{LoadedPatterns, phrases_of_text};
/// let patterns = LoadedPatterns::load(None);
/// let text = "[one]\nfrom = \"1.1\"\npattern = \"threes-up\"\n";
/// let phrases = phrases_of_text("own.toml", text, &patterns).unwrap();
/// assert_eq!(phrases[0].pattern.as_ref().unwrap().to_string(), "123");
/// let problems = phrases_of_text("own.toml", "[one]\nfrom = 1\n", &patterns).unwrap_err();
/// assert!(problems[0].to_string().contains("own.toml:2:8"));
/// ```
pub fn phrases_of_text(
    file: &str,
    content: &str,
    patterns: &LoadedPatterns,
) -> Result<Vec<AskedPhrase>, Vec<Problem>> {
    let mut fields = Fields::read(file, content).map_err(|problem| vec![problem])?;
    let mut phrases = Vec::new();
    let names = fields.names();
    if names.is_empty() || names.len() > MOST_PHRASES {
        let expected = format!("one to {MOST_PHRASES} phrases, each with {A_SECTION}");
        return Err(vec![Problem::of_file(file, expected)]);
    }
    for (name, place) in names {
        let Some(mut section) = fields.take_section(&name, &place, A_SECTION) else { continue };
        section.report_unknown(&[KEYS, &AREA_KEYS].concat());
        let read = phrase(&name, &mut section, &phrases, patterns);
        phrases.extend(read);
        fields.add_problems_of(section);
    }
    let problems = fields.into_problems();
    if problems.is_empty() { Ok(phrases) } else { Err(problems) }
}

fn phrase(
    name: &str,
    section: &mut Fields<'_>,
    above: &[AskedPhrase],
    patterns: &LoadedPatterns,
) -> Option<AskedPhrase> {
    let from = section.required("from", "a bar and a beat in quotes, as in \"1.1\"", text);
    let mut written = |key, expected| section.optional(key, expected, text).map(|it| it.value);
    let to = written("to", "a bar and a beat in quotes, as in \"3.1\"");
    let start = written("start", "\"root\", \"first\", \"second\" or a note, as in \"F3\"");
    let target = written("target", "degrees or notes at a bar and beat, as in \"3@2.1:below\"");
    let pair = section.read_key("pair", |value| Ok(read_pair(&in_quotes(value)?)?.1));
    let pattern = section.read_key("pattern", |value| read_pattern(&in_quotes(value)?, patterns));
    let rhythm = section.read_key("rhythm", |value| read::<Rhythm>(&in_quotes(value)?));
    let notes = section.read_key("notes", |value| read_notes(in_quotes(value)?));
    let travel = section.read_key("travel", |value| read_travel(&in_quotes(value)?));
    let at_change = section.read_key("at-change", |value| read_at_change(&in_quotes(value)?));
    let like = section.read_key("like", |value| name_above(in_quotes(value)?, above));
    let mut is = |key| {
        let read = section.optional(key, "true or false", toml::de::DeValue::as_bool);
        read.is_some_and(|is| is.value)
    };
    let (is_wide, runs_on) = (is("wide"), is("runs-on"));
    let area = PhraseArea::read(section);
    let mut phrase = AskedPhrase::beginning(name, &from?.value);
    (phrase.to, phrase.start, phrase.target) = (to, start, target);
    (phrase.like, phrase.is_wide, phrase.runs_on) = (like, is_wide, runs_on);
    phrase.at_change = at_change;
    Some(AskedPhrase { pair, pattern, rhythm, travel, notes, area, ..phrase })
}

/// The name of a phrase above this one.
fn name_above(name: String, above: &[AskedPhrase]) -> Result<String, String> {
    let is_there = above.iter().any(|phrase| phrase.name == name);
    is_there.then_some(name).ok_or_else(|| "the name of a phrase above this one".to_owned())
}

/// Notes that can be read, as they are written.
fn read_notes(text: String) -> Result<String, String> {
    read::<FreeNotes>(&text).map(|_| text)
}

fn read_pattern(text: &str, patterns: &LoadedPatterns) -> Result<Pattern, String> {
    match patterns.by_id_or_name(text) {
        Some(named) => Ok(named.figures.clone()),
        None => read(text),
    }
}

fn read_travel(text: &str) -> Result<Travel, String> {
    let known = TRAVELS.iter().find(|(word, _)| *word == text);
    let words = || TRAVELS.map(|(word, _)| word).join(", ");
    known.map(|(_, travel)| *travel).ok_or_else(|| format!("one of {}", words()))
}

fn read_at_change(text: &str) -> Result<AtChange, String> {
    let known = AT_CHANGES.iter().find(|(word, _)| *word == text);
    let words = || AT_CHANGES.map(|(word, _)| word).join(", ");
    known.map(|(_, at_change)| *at_change).ok_or_else(|| format!("one of {}", words()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read_text(text: &str) -> Result<Vec<AskedPhrase>, Vec<String>> {
        let read = phrases_of_text("own.toml", text, &LoadedPatterns::load(None));
        read.map_err(|problems| problems.iter().map(ToString::to_string).collect())
    }

    #[test]
    fn a_file_is_read_whole() {
        let text = "[question]\nfrom = \"1.1&\"\nto = \"2.1\"\npair = \"F & G\"\npattern = \"132 32\"\n\
                    rhythm = \"triplets\"\ntravel = \"arc\"\nstart = \"first\"\ntarget = \"3@2.1\"\n\
                    [stab]\nfrom = \"3.1\"\nnotes = \"F3+A3:4\"\n";
        let [question, stab] = &read_text(text).unwrap()[..] else { panic!() };
        assert_eq!((question.name.as_str(), question.from.as_str()), ("question", "1.1&"));
        assert_eq!(question.travel, Some(Travel::Arc));
        assert!(question.pair.is_some() && question.notes.is_none());
        assert_eq!(stab.notes.as_deref(), Some("F3+A3:4"));
    }

    /// The same figures and rhythm, with a target of its own; and the same with the third an octave up.
    #[test]
    fn a_phrase_may_answer_another() {
        let text = "[question]\nfrom = \"1.1\"\npattern = \"123\"\nrhythm = \"4\"\ntravel = \"stay\"\n\
                    [answer]\nfrom = \"2.1\"\nlike = \"question\"\ntarget = \"3@3.1\"\n\
                    [wide]\nfrom = \"3.2\"\nlike = \"answer\"\nwide = true\nrhythm = \"8\"\n\
                    [again]\nfrom = \"4.2\"\nlike = \"wide\"\n";
        let phrases = read_text(text).unwrap();
        let full: Vec<AskedPhrase> =
            (0..4).map(|index| phrases[index].in_full(&phrases[..index])).collect();
        let [question, answer, wide, again] = &full[..] else { panic!() };
        assert_eq!((&answer.pattern, &answer.rhythm), (&question.pattern, &question.rhythm));
        assert_eq!((answer.travel, question.target.as_ref()), (Some(Travel::Stay), None));
        assert_eq!(wide.pattern.as_ref().unwrap().to_string(), "123");
        assert_eq!(wide.rhythm.as_ref().unwrap().to_string(), "8");
        assert!(wide.is_wide && again.is_wide && !answer.is_wide);
    }

    #[test]
    fn everything_wrong_is_told_with_its_place() {
        for (text, words) in [
            ("", "own.toml:1:1: expected one to 500 phrases"),
            ("[one]\nto = \"2.1\"\n", "own.toml:1:2: found `one`, expected a key `from`"),
            ("one = 3\n", "own.toml:1:7: found `3`, expected a section"),
            ("[one]\nfrom = \"1.1\"\npatern = \"12\"\n", "`pattern`, perhaps"),
            ("[one]\nfrom = \"1.1\"\npattern = \"128\"\n", "a figure from 0 to 6"),
            ("[one]\nfrom = \"1.1\"\npair = \"F & Am\"\n", "without a common note"),
            ("[one]\nfrom = \"1.1\"\npair = \"F\"\n", "two triads, as in"),
            ("[one]\nfrom = \"1.1\"\ntravel = \"sideways\"\n", "one of up, down, linked"),
            ("[one]\nfrom = \"1.1\"\nnotes = \"H3\"\n", "a note as in B3"),
            ("[one]\nfrom = \"1.1\"\nrhythm = 8\n", "a text in quotes"),
            ("[one]\nfrom = \"1.1\"\nlike = \"one\"\n", "the name of a phrase above"),
            ("[one]\nfrom = \"1.1\"\nwide = 1\n", "true or false"),
            ("[one]\nfrom = \"[A]\"\nat-change = \"on\"\n", "one of runs-on, again, cut"),
            ("[one\n", "expected TOML"),
        ] {
            let said = read_text(text).unwrap_err().join("\n");
            assert!(said.contains(words), "{text}: {said}");
        }
    }

    /// A key that is known and not read would be passed over without a word.
    #[test]
    fn each_key_that_is_known_is_read() {
        for key in KEYS.iter().chain(&AREA_KEYS) {
            let from = if *key == "from" { "" } else { "from = \"1.1\"\n" };
            let said = read_text(&format!("[one]\n{from}{key} = {{ a = 1 }}\n"));
            assert!(said.is_err(), "{key}");
        }
    }
}
