//! Why a phrase cannot lie where it is wanted in its line.

use std::fmt;

use fretloom_theory::Quarters;

/// A phrase of a line, or a note that it is to arrive at, that lies where it cannot.
#[derive(Clone, PartialEq, Debug)]
#[non_exhaustive]
pub enum PhraseRefusal {
    /// A note to arrive at that does not lie in the line.
    TargetOutside {
        /// The target as it is typed.
        target: String,
        /// How many bars there are.
        bars: u64,
    },
    /// A moment of a written phrase that does not lie in the line.
    MomentOutside {
        /// The moment as it is written.
        moment: String,
        /// How many bars there are.
        bars: u64,
    },
    /// A phrase for a section that there is not.
    NoSection {
        /// The section as it is written.
        section: String,
        /// Those that there are.
        known: Vec<String>,
    },
    /// A phrase for a section that says when it ends.
    SectionEnds {
        /// The section.
        section: String,
    },
    /// A note to arrive at that does not lie in the section of its phrase.
    TargetBesideSection {
        /// The target as it is typed.
        target: String,
        /// The section.
        section: String,
    },
    /// A written phrase that ends before it begins.
    EmptyPhrase {
        /// When it begins.
        from: Quarters,
        /// When it ends.
        to: Quarters,
    },
    /// A note to arrive at that comes only when the next written phrase has begun.
    TargetTooLate {
        /// The target as it is typed.
        target: String,
        /// When that phrase begins.
        next: String,
    },
    /// A note to arrive at that comes too soon for anything to lead there.
    TargetTooSoon {
        /// The target as it is typed.
        target: String,
    },
}

impl fmt::Display for PhraseRefusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PhraseRefusal::TargetOutside { target, bars } => write!(
                f,
                "the target {target} does not lie in the line: expected a beat of bars 1 to \
                 {bars} after the beginning, or {}.1, the first beat after them",
                bars + 1
            ),
            PhraseRefusal::MomentOutside { moment, bars } => write!(
                f,
                "{moment} does not lie in the line: expected a beat of bars 1 to {bars}, or {}.1, \
                 the first beat after them",
                bars + 1
            ),
            PhraseRefusal::NoSection { section, known } => match known.as_slice() {
                [] => write!(
                    f,
                    "there is no section {section}, since none has a name: expected a bar and a \
                     beat, as in 1.1"
                ),
                known => {
                    let known = known.join(", ");
                    write!(f, "there is no section {section}: expected one of {known}")
                }
            },
            PhraseRefusal::SectionEnds { section } => write!(
                f,
                "it is for section {section} and lasts until that ends: expected no end of its own"
            ),
            PhraseRefusal::TargetBesideSection { target, section } => write!(
                f,
                "the target {target} does not lie in section {section}: expected a beat of it after \
                 its beginning"
            ),
            PhraseRefusal::EmptyPhrase { from, to } => write!(
                f,
                "it ends at quarter {to} and begins at quarter {from}: expected an end after the \
                 beginning"
            ),
            PhraseRefusal::TargetTooLate { target, next } => write!(
                f,
                "the next phrase begins at {next} and would lie over the target {target}: expected \
                 an earlier target, or a later beginning of that phrase"
            ),
            PhraseRefusal::TargetTooSoon { target } => write!(
                f,
                "nothing can lead to the target {target}, it comes too soon: expected more than a \
                 beat after the beginning and after the target before"
            ),
        }
    }
}
