//! The sections of a text as texts of their own.

use std::fmt;

use super::mark::OpeningMark;
use super::print::Printed;
use super::section::BarSection;
use super::written_bar::WrittenBar;

/// A section of a text, which prints as a text of its own: its name and the pick-up stand beside it.
///
/// Those of a text are read as the same again, all together.
///
/// ```
/// use fretloom_theory::{BarText, Meter};
/// let text = BarText::read("| C | [B] F | G |", Meter::COMMON)?;
/// let parts: Vec<(Option<String>, String)> = text
///     .parts()
///     .map(|part| (part.name().map(str::to_owned), part.to_string()))
///     .collect();
/// let [(None, first), (Some(name), second)] = &parts[..] else { panic!("{parts:?}") };
/// assert_eq!((&**first, &**name, &**second), ("| C |", "B", "| F | G |"));
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BarPart {
    name: Option<Box<str>>,
    bars: Vec<WrittenBar>,
    /// The comments after the last bar.
    comments: Vec<Box<str>>,
}

impl BarPart {
    /// The parts of these bars: one begins with the first bar, and with each that begins with the name
    /// of a section.
    pub(super) fn of(bars: &[WrittenBar], comments: &[Box<str>]) -> Vec<BarPart> {
        let mut parts: Vec<BarPart> = Vec::new();
        for bar in bars {
            let mut bar = bar.clone();
            let name = take_name(&mut bar);
            match parts.last_mut().filter(|_| name.is_none()) {
                Some(part) => part.bars.push(bar),
                None => parts.push(BarPart { name, bars: vec![bar], comments: Vec::new() }),
            }
        }
        if let Some(last) = parts.last_mut() {
            last.comments = comments.to_vec();
        }
        parts
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> Option<&str> {
        self.name.as_deref()
    }
}

/// Takes out the name of the section with which a bar begins.
fn take_name(bar: &mut WrittenBar) -> Option<Box<str>> {
    let Some(OpeningMark::Section(name)) = bar.opening.first() else { return None };
    if BarSection::name_in_brackets(name).as_deref() != Some(name) {
        return None;
    }
    match bar.opening.remove(0) {
        OpeningMark::Section(name) => Some(name),
        OpeningMark::Meter(_) | OpeningMark::Ending(_) | OpeningMark::Segno | OpeningMark::Coda => {
            None
        }
    }
}

impl fmt::Display for BarPart {
    /// In the notation that is read, four bars in a line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        Printed { pick_up: None, bars: &self.bars, comments: &self.comments }.fmt(f)
    }
}
