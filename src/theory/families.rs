//! Which kinds of triads are paired.

use std::fmt;
use std::str::FromStr;

use crate::{ReadError, TriadQuality};

/// Which families of triads are paired: the tertian ones or some of them, sus, flat-five.
///
/// # Example
///
/// ```
/// use fretloom_theory::{Families, TriadQuality};
/// let families: Families = "tertian,sus".parse().unwrap();
/// assert!(families.qualities().contains(&TriadQuality::Sus));
/// assert!("tertiary".parse::<Families>().is_err());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Families(Vec<TriadQuality>);

impl Default for Families {
    fn default() -> Self {
        Families(TriadQuality::TERTIAN.to_vec())
    }
}

impl Families {
    /// The qualities that take part.
    #[must_use]
    pub fn qualities(&self) -> &[TriadQuality] {
        &self.0
    }

    /// The usual choices, each with its name: the tertian triads, those with sus, those with
    /// flat-five, and all.
    #[must_use]
    pub fn usual() -> [(Families, &'static str); 4] {
        let with = |more: &[TriadQuality]| Families([TriadQuality::TERTIAN, more].concat());
        [
            (Families::default(), "tertian"),
            (with(&[TriadQuality::Sus]), "tertian and sus"),
            (with(&[TriadQuality::FlatFive]), "tertian and flat-five"),
            (Families(TriadQuality::ALL.to_vec()), "all families"),
        ]
    }
}

impl fmt::Display for Families {
    /// As it is read: `tertian`, `all`, `tertian,sus`, `major,minor`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 == TriadQuality::ALL {
            return f.write_str("all");
        }
        let tertian = self.0.starts_with(TriadQuality::TERTIAN);
        let rest = if tertian { TriadQuality::TERTIAN.len() } else { 0 };
        let words = self.0.iter().skip(rest).map(|quality| quality.word());
        let words: Vec<&str> = tertian.then_some("tertian").into_iter().chain(words).collect();
        f.write_str(&words.join(","))
    }
}

impl FromStr for Families {
    type Err = ReadError;

    /// Reads `tertian`, `all`, one quality such as `major` or `sus`, or several separated by
    /// commas.
    fn from_str(text: &str) -> Result<Families, ReadError> {
        let mut qualities = Vec::new();
        for word in text.split(',').map(str::trim) {
            for quality in family(word)? {
                if !qualities.contains(quality) {
                    qualities.push(*quality);
                }
            }
        }
        Ok(Families(qualities))
    }
}

fn family(word: &str) -> Result<&'static [TriadQuality], ReadError> {
    match word {
        "tertian" => Ok(TriadQuality::TERTIAN),
        "all" => Ok(TriadQuality::ALL),
        _ => {
            let at = TriadQuality::ALL.iter().position(|quality| quality.word() == word);
            at.and_then(|at| TriadQuality::ALL.get(at..=at)).ok_or_else(|| {
                let expected =
                    "tertian, major, minor, diminished, augmented, sus, flat-five or all";
                ReadError::whole("family of triads", word, expected)
            })
        }
    }
}
