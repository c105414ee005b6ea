//! Readers of sheets: students, each with an instrument and wishes of their own.
//!
//! ```toml
//! [[reader]]
//! name = "Mira"
//! tuning = "bass-4-string"
//! left = true
//!
//! [[reader]]
//! name = "Jo"
//! answers = false
//! ```
//!
//! Everything but the name may be missing: `tuning` as it is typed, `left`, `fingers` and `answers`.

use std::str::FromStr;

use fretloom_theory::ReadError;
use toml::de::DeValue;

use super::Problem;
use super::fields::{Fields, text};

/// Whom a sheet is for, and how that one reads it.
///
/// # Example
///
/// ```
/// use fretloom::library::Reader;
/// let reader: Reader = "Mira, bass-4-string, left, no-fingers".parse().unwrap();
/// assert_eq!(reader.name, "Mira");
/// assert_eq!(reader.tuning.as_deref(), Some("bass-4-string"));
/// assert_eq!((reader.left, reader.fingers, reader.answers), (Some(true), Some(false), None));
/// assert!(" , left".parse::<Reader>().is_err());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Reader {
    /// The name on the sheet, and in the name of its file.
    pub name: String,
    /// A tuning as it would be typed; `None` for that of the call.
    pub tuning: Option<String>,
    /// Does the left hand pick, so that necks are drawn as their mirror image? `None` as for the call.
    pub left: Option<bool>,
    /// Are fingers shown? `None` as for the call.
    pub fingers: Option<bool>,
    /// Are notes shown? `None` as for the call.
    pub answers: Option<bool>,
}

/// No lesson has more.
pub const MOST_READERS: usize = 100;

const EXPECTED: &str = "a name with a letter, up to 60 characters, then a tuning, left or right, \
                        fingers or no-fingers, answers or no-answers, with commas between them, as in \"Mira,bass-4-string,left\"";

impl Reader {
    /// A reader of whom only the name is known.
    #[must_use]
    pub fn named(name: &str) -> Reader {
        let name = name.to_owned();
        Reader { name, tuning: None, left: None, fingers: None, answers: None }
    }

    /// The name as a part of a file's name: letters and digits stay, what lies between them becomes a
    /// hyphen.
    ///
    /// ```
    /// use fretloom::library::Reader;
    /// assert_eq!(Reader::named("Ana / B. Løvås").in_file_name(), "Ana-B-Løvås");
    /// ```
    #[must_use]
    pub fn in_file_name(&self) -> String {
        let words = self.name.split(|char: char| !char.is_alphanumeric());
        let words: Vec<&str> = words.filter(|word| !word.is_empty()).collect();
        words.join("-")
    }
}

/// A name has a letter or a digit, and room in the name of a file.
fn is_name(name: &str) -> bool {
    name.chars().any(char::is_alphanumeric) && name.chars().count() <= 60
}

impl FromStr for Reader {
    type Err = ReadError;

    fn from_str(text: &str) -> Result<Reader, ReadError> {
        let mut words = text.split(',').map(str::trim);
        let refused = || ReadError::whole("reader", text, EXPECTED);
        let name = words.next().filter(|name| is_name(name));
        let mut reader = Reader::named(name.ok_or_else(refused)?);
        for word in words {
            match word {
                "left" => reader.left = Some(true),
                "right" => reader.left = Some(false),
                "fingers" => reader.fingers = Some(true),
                "no-fingers" => reader.fingers = Some(false),
                "answers" => reader.answers = Some(true),
                "no-answers" => reader.answers = Some(false),
                "" => {}
                tuning if reader.tuning.is_none() => reader.tuning = Some(tuning.to_owned()),
                _ => return Err(refused()),
            }
        }
        Ok(reader)
    }
}

/// The readers in the text of a file, in order.
///
/// # Errors
///
/// What is wrong in it, all of it: nobody's sheet is left out unsaid.
///
/// # Example
///
/// ```
/// use fretloom::library::readers_of_text;
/// let read = readers_of_text("lesson.toml", "[[reader]]\nname = \"Mira\"\nleft = true\n").unwrap();
/// assert_eq!(read[0].left, Some(true));
/// let problems = readers_of_text("lesson.toml", "[[reader]]\nlefty = true\n").unwrap_err();
/// assert_eq!(problems.len(), 2);
/// ```
pub fn readers_of_text(file: &str, content: &str) -> Result<Vec<Reader>, Vec<Problem>> {
    let mut fields = Fields::read(file, content).map_err(|problem| vec![problem])?;
    fields.report_unknown(&["reader"]);
    let sections = fields.take_list("reader", "a section [[reader]] for each");
    if sections.is_empty() || sections.len() > MOST_READERS {
        let expected = format!("one to {MOST_READERS} readers, each below [[reader]]");
        let problems = fields.into_problems();
        let whole = vec![Problem::of_file(file, expected)];
        return Err(if problems.is_empty() { whole } else { problems });
    }
    let mut readers = Vec::with_capacity(sections.len());
    for mut section in sections {
        section.report_unknown(&["name", "tuning", "left", "fingers", "answers"]);
        readers.extend(reader(&mut section));
        fields.add_problems_of(section);
    }
    let problems = fields.into_problems();
    if problems.is_empty() { Ok(readers) } else { Err(problems) }
}

fn reader(section: &mut Fields<'_>) -> Option<Reader> {
    let named = |value: &DeValue<'_>| text(value).filter(|name| is_name(name));
    let name = section.required("name", "a name with a letter, up to 60 characters", named);
    let tuning = section.optional("tuning", "a tuning's name, or its strings", text);
    let mut flag = |key| section.optional(key, "true or false", DeValue::as_bool);
    let [left, fingers, answers] = ["left", "fingers", "answers"].map(&mut flag);
    Some(Reader {
        name: name?.value,
        tuning: tuning.map(|field| field.value),
        left: left.map(|field| field.value),
        fingers: fingers.map(|field| field.value),
        answers: answers.map(|field| field.value),
    })
}
