//! What is asked about: a chord of the moment with its scale, and what the player wishes.

use std::fmt;
use std::str::FromStr;

use fretloom_theory::{
    ChordScale, Degree, ReadChord, ReadError, Scale, ScaleChoice, ScaleKind, Speller, Spelling,
    TriadQuality,
};

use super::Refusal;

/// The chord of the moment as it was typed and read, with the scale chosen for it; or a scale by
/// itself.
#[derive(Clone, PartialEq, Debug)]
pub struct Moment {
    chord: Option<(String, ReadChord)>,
    ground: ChordScale,
    why: String,
}

impl Moment {
    /// A chord with its usual scale.
    ///
    /// # Errors
    ///
    /// Where the symbol cannot be read.
    pub fn of_chord(symbol: &str) -> Result<Moment, Refusal> {
        let read: ReadChord = symbol.parse()?;
        let choices = ScaleChoice::for_chord(&read.chord);
        // The chromatic scale fits every chord, so there is always a first choice.
        let first = choices.first().map(|choice| (choice.scale().clone(), why(choice)));
        let (scale, why) = match first {
            Some(first) => first,
            None => ("C chromatic".parse()?, String::new()),
        };
        Ok(Moment::over(symbol, read, scale, why))
    }

    /// A chord with the scale that the player wants: a whole name, or a kind alone, which is then
    /// taken on the chord's root. Kinds of one's `own` are known by name too.
    ///
    /// # Errors
    ///
    /// Where the symbol or the scale cannot be read.
    pub fn of_chord_in(symbol: &str, scale: &str, own: &[ScaleKind]) -> Result<Moment, Refusal> {
        let read: ReadChord = symbol.parse()?;
        let of_own = own.iter().find(|kind| kind.is_called(scale));
        let scale = match of_own.or_else(|| ScaleKind::named(scale)) {
            Some(kind) => Scale::new(read.chord.root(), kind.clone()),
            None => Scale::read_with(scale, own)?,
        };
        let usual = ScaleChoice::for_chord_with(&read.chord, own);
        let known = usual.iter().find(|choice| *choice.scale() == scale);
        let why = known.map_or_else(|| "chosen by hand".to_owned(), why);
        Ok(Moment::over(symbol, read, scale, why))
    }

    /// A chord with one of the scales that fit it.
    #[must_use]
    pub fn with_choice(symbol: &str, read: ReadChord, choice: &ScaleChoice) -> Moment {
        Moment::over(symbol, read, choice.scale().clone(), why(choice))
    }

    /// A scale by itself.
    ///
    /// # Errors
    ///
    /// Where the scale cannot be read.
    pub fn of_scale(scale: &str) -> Result<Moment, Refusal> {
        Moment::of_scale_with(scale, &[])
    }

    /// A scale by itself, which may be of a kind of one's `own`.
    ///
    /// # Errors
    ///
    /// Where the scale cannot be read.
    pub fn of_scale_with(scale: &str, own: &[ScaleKind]) -> Result<Moment, Refusal> {
        let scale = Scale::read_with(scale, own)?;
        Ok(Moment { chord: None, ground: ChordScale::alone(scale), why: String::new() })
    }

    fn over(symbol: &str, read: ReadChord, scale: Scale, why: String) -> Moment {
        let ground = ChordScale::over(read.chord.clone(), scale);
        Moment { chord: Some((symbol.trim().to_owned(), read)), ground, why }
    }

    /// The chord as typed, and as read; `None` for a scale by itself.
    #[must_use]
    pub fn chord(&self) -> Option<(&str, &ReadChord)> {
        self.chord.as_ref().map(|(symbol, read)| (symbol.as_str(), read))
    }

    /// The scale over the chord.
    #[must_use]
    pub fn ground(&self) -> &ChordScale {
        &self.ground
    }

    /// Why this scale, in a sentence; empty where no chord asks for one.
    #[must_use]
    pub fn why(&self) -> &str {
        &self.why
    }

    /// Names notes and triads of the moment.
    #[must_use]
    pub fn speller(&self, spelling: Spelling) -> Speller {
        Speller::new(self.ground.clone(), spelling)
    }
}

fn why(choice: &ScaleChoice) -> String {
    choice.why().to_string()
}

/// Which families of triads are paired: the tertian ones or some of them, sus, flat-five.
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
}

impl Families {
    /// The families in the order in which a key goes through them, each with its name.
    #[must_use]
    pub fn in_turn() -> [(Families, &'static str); 4] {
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
    type Err = String;

    /// Reads `tertian`, `all`, one quality such as `major` or `sus`, or several separated by
    /// commas.
    fn from_str(text: &str) -> Result<Families, String> {
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

fn family(word: &str) -> Result<&'static [TriadQuality], String> {
    match word {
        "tertian" => Ok(TriadQuality::TERTIAN),
        "all" => Ok(TriadQuality::ALL),
        _ => {
            let at = TriadQuality::ALL.iter().position(|quality| quality.word() == word);
            at.and_then(|at| TriadQuality::ALL.get(at..=at)).ok_or_else(|| {
                format!(
                    "\"{word}\" is no family of triads: expected tertian, major, minor, \
                     diminished, augmented, sus, flat-five or all"
                )
            })
        }
    }
}

/// Degrees that the player wants to hear, and degrees not wanted.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Wishes {
    with: Vec<Degree>,
    without: Vec<Degree>,
}

impl Wishes {
    /// Wishes as two lists of degrees separated by commas, as in `7,#11`.
    ///
    /// # Errors
    ///
    /// Where one of the degrees cannot be read.
    pub fn read(with: &str, without: &str) -> Result<Wishes, Refusal> {
        Ok(Wishes { with: degrees(with)?, without: degrees(without)? })
    }

    /// Wishes as one line, as they are typed on the screen: `7 #11 -13` wants 7 and ♯11 and no 13.
    ///
    /// # Errors
    ///
    /// Where one of the degrees cannot be read.
    pub fn read_line(line: &str) -> Result<Wishes, Refusal> {
        let words = || line.split([',', ' ']).filter(|word| !word.is_empty());
        let with: Vec<&str> = words().filter(|word| !word.starts_with('-')).collect();
        let without: Vec<&str> = words().filter_map(|word| word.strip_prefix('-')).collect();
        Wishes::read(&with.join(" "), &without.join(" "))
    }

    /// Is nothing wished for?
    #[must_use]
    pub fn are_none(&self) -> bool {
        self.with.is_empty() && self.without.is_empty()
    }

    /// Does a set of notes over `ground` fulfil them? Degrees are compared by sound.
    #[must_use]
    pub fn allow(&self, notes: fretloom_theory::PitchClassSet, ground: &ChordScale) -> bool {
        let root = ground.root().pitch_class();
        let holds = |degree: &Degree| notes.contains(degree.over(root));
        self.with.iter().all(holds) && !self.without.iter().any(holds)
    }
}

fn degrees(list: &str) -> Result<Vec<Degree>, ReadError> {
    let mut degrees = Vec::new();
    let mut at = 1;
    for word in list.split([',', ' ']) {
        if !word.is_empty() {
            let degree = word.parse::<Degree>();
            degrees.push(degree.map_err(|error| error.within("degrees", list, at))?);
        }
        at += word.chars().count() + 1;
    }
    Ok(degrees)
}

impl fmt::Display for Wishes {
    /// The line that [`read_line`](Wishes::read_line) reads.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let with = self.with.iter().map(|degree| format!("{degree}"));
        let without = self.without.iter().map(|degree| format!("-{degree}"));
        f.write_str(&with.chain(without).collect::<Vec<_>>().join(" "))
    }
}
