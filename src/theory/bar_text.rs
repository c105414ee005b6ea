//! Bars of chords as text, in the form in which players type them.
//!
//! Words are found first (`token.rs`), then what each means (`sign.rs`), then bars (`reader.rs`).
//! What they say of one another is checked where it is worked out: what `%` and `/` stand for
//! (`measure.rs`), and in which order the bars are heard (`form.rs`).

mod chorus;
mod fault;
mod form;
mod mark;
mod measure;
mod page;
mod part;
mod pass;
mod pick_up;
mod print;
mod problem;
mod reader;
mod section;
mod sign;
mod token;
mod written_bar;

use std::fmt;

pub use chorus::{Chorus, HeardBar, OptionalChords};
pub use fault::{BarFault, UnreadBar};
pub use mark::{ClosingMark, Jump, JumpTo, JumpUntil, OpeningMark};
pub use part::BarPart;
pub use pass::Pass;
pub use pick_up::PickUp;
pub use section::BarSection;
pub use written_bar::{BarContent, BeatSign, WrittenBar, WrittenChord};

use crate::{Meter, Quarters, ReadError};
use chorus::{HeardMeasure, chorus};
use form::order;
use measure::{Measure, measures};
use page::{Page, Place, WHAT};
use print::Printed;
use problem::{Problem, Spot};
use reader::{Faults, Read, read, unread};

/// The chords of a tune or a passage, bar by bar, as they are written.
///
/// | written | meaning |
/// |---|---|
/// | `\|`, `\|\|` | bar lines; the end of a line is one too |
/// | `Dm7 G7` | chords, which share their bar evenly: in 3/4 one and a half beats each |
/// | `G7sus4 / / G7` | one sign a beat, where `/` goes on with the chord before |
/// | `%`, `%%` | the bar before; the two bars before, which stands for two bars |
/// | `N.C.`, `(A7)` | no chord; a chord that may be left out |
/// | `[A]` `3/4` `1.` `Segno` `Coda` | before the chords: a section, a meter, an ending |
/// | `\|:` `:\|` `:\|3` | what is repeated, heard twice or three times |
/// | `ToCoda` `Fine` `D.C.` `D.S.alCoda` … | after the chords |
/// | `pickup=1` | before everything else: the first bar has one beat |
/// | `# …` | a line of comment |
///
/// Where neither `|` nor `/` is written, each chord has its bar. A text is checked as a whole when
/// it is read: what has been read can be played. It holds at most 200,000 characters, of which at
/// most 10,000 bars are heard.
///
/// # Example
///
/// ```
/// use fretloom_theory::{BarText, Meter, OptionalChords, Quarters};
/// let text = BarText::read("|: Dm7 G7 |1. Cmaj7 (A7) :|2. C6 |", Meter::COMMON)?;
/// assert_eq!(text.bars().len(), 3);
/// let chorus = text.unfolded(OptionalChords::LeftOut);
/// assert_eq!(chorus.end, Quarters::whole(16));
/// let written: Vec<usize> = chorus.heard.iter().map(|bar| bar.written).collect();
/// assert_eq!(written, [0, 1, 0, 2]);
/// assert_eq!(chorus.chords.at(Quarters::whole(7)).unwrap().to_string(), "Cmaj7");
/// assert_eq!(text.to_string(), "|: Dm7 G7 | 1. Cmaj7 (A7) :| 2. C6 |");
///
/// let error = BarText::read("| Dm7 | G7x |", Meter::COMMON).unwrap_err();
/// assert_eq!(error.at(), 11);
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct BarText {
    meter: Meter,
    pick_up: Option<PickUp>,
    bars: Vec<WrittenBar>,
    comments: Vec<Box<str>>,
    /// The bars that each written bar stands for.
    measures: Vec<Vec<Measure>>,
    /// Which written bars are heard, in order.
    order: Vec<usize>,
}

impl BarText {
    /// The longest text that is read, in characters.
    pub const LONGEST: usize = 200_000;

    /// Reads bars of chords, which begin in a meter that they may change.
    ///
    /// # Errors
    ///
    /// Where a word means nothing or stands where it means nothing, where repeats and jumps do not
    /// fit together, and beyond the limits: with the line, if there are several, the character, and
    /// what was expected there.
    pub fn read(text: &str, meter: Meter) -> Result<BarText, ReadError> {
        let sections = [BarSection::unnamed(text)];
        let read = BarText::of_sections(&sections, meter, None, Faults::Refused);
        read.map(|(text, _)| text).map_err(|fault| fault.error)
    }

    /// Reads the sections of a tune as one text, so that repeats and jumps hold over the whole form. A
    /// bar that cannot be read is [kept as it is written](BarContent::Unread), and what is wrong with it
    /// is told beside the text. With a pick-up the first bar is one.
    ///
    /// # Errors
    ///
    /// Where the form is uncertain: where a mark means nothing, where repeats and jumps do not fit
    /// together, where a section has no bars, and beyond the limits. Where no bar at all can be read.
    pub fn read_marking(
        sections: &[BarSection<'_>],
        meter: Meter,
        pick_up: Option<PickUp>,
    ) -> Result<(BarText, Vec<BarFault>), BarFault> {
        let (text, faults) = BarText::of_sections(sections, meter, pick_up, Faults::Marked)?;
        match faults.first() {
            Some(first) if text.unread().count() == text.bars.len() => Err(first.clone()),
            _ => Ok((text, faults)),
        }
    }

    fn of_sections(
        sections: &[BarSection<'_>],
        meter: Meter,
        pick_up: Option<PickUp>,
        policy: Faults,
    ) -> Result<(BarText, Vec<BarFault>), BarFault> {
        refuse_too_long(sections)?;
        let page = Page::of(sections.iter().map(|section| section.text));
        let Read { pick_up, mut bars, places, comments, mut faults } =
            read(&page, sections, pick_up, policy)?;
        let told = |problem: &Problem| {
            let place = places.get(problem.bar).map(|places| places.of(problem.spot));
            page.wrong(place.unwrap_or_default(), problem.expected.clone())
        };
        let first = bars.first().and_then(WrittenBar::meter).unwrap_or(meter);
        let length = pick_up.map(|(pick_up, at)| shorter_than_a_bar(pick_up, first, at, &page));
        let measures = measures(length.transpose()?, meter, &mut bars, |problem| {
            let fault = told(&problem);
            let places = places.get(problem.bar).filter(|_| policy == Faults::Marked);
            let (Some(places), Spot::Content(word)) = (places, problem.spot) else {
                return Err(fault);
            };
            let unread = unread(&page, places, word, &fault);
            faults.push(fault);
            Ok(unread)
        })?;
        faults.sort_by_key(|fault| (fault.section, fault.error.line(), fault.error.at()));
        let whole = usize::from(pick_up.is_some());
        let order = order(&bars, whole).map_err(|problem| told(&problem))?;
        let pick_up = pick_up.map(|(pick_up, _)| pick_up);
        Ok((BarText { meter, pick_up, bars, comments, measures, order }, faults))
    }

    /// The meter in which it begins, unless its first bar changes it.
    #[must_use]
    pub fn meter(&self) -> Meter {
        self.meter
    }

    /// How long its first bar is, where that is a pick-up.
    #[must_use]
    pub fn pick_up(&self) -> Option<PickUp> {
        self.pick_up
    }

    /// Its bars as they are written; at least one.
    #[must_use]
    pub fn bars(&self) -> &[WrittenBar] {
        &self.bars
    }

    /// Its sections as texts of their own.
    #[must_use = "it only takes the text apart"]
    pub fn parts(&self) -> impl Iterator<Item = BarPart> {
        BarPart::of(&self.bars, &self.comments).into_iter()
    }

    /// The bars that could not be read, by their index.
    pub fn unread(&self) -> impl Iterator<Item = (usize, &UnreadBar)> {
        self.bars.iter().enumerate().filter_map(|(index, bar)| match &bar.content {
            BarContent::Unread(unread) => Some((index, unread)),
            BarContent::Shared(_)
            | BarContent::Beats(_)
            | BarContent::BarBefore
            | BarContent::TwoBarsBefore => None,
        })
    }

    /// The same with the meter of its first bar as that in which it begins.
    pub(crate) fn beginning_in_its_meter(mut self) -> BarText {
        if let Some(first) = self.bars.first_mut() {
            self.meter = first.meter().unwrap_or(self.meter);
            first.opening.retain(|mark| !matches!(mark, OpeningMark::Meter(_)));
        }
        self
    }

    /// The same with a mark at the beginning of its first bar.
    pub(crate) fn marked_first(&self, mark: OpeningMark) -> BarText {
        let mut text = self.clone();
        if let Some(first) = text.bars.first_mut() {
            first.opening.insert(0, mark);
        }
        text
    }

    /// The bars as they are heard.
    #[must_use]
    pub fn unfolded(&self, optional: OptionalChords) -> Chorus {
        let sections = self.sections();
        let heard = self.order.iter().flat_map(|&written| {
            let section = sections.get(written).copied().flatten();
            let measures = self.measures.get(written).into_iter().flatten();
            measures.map(move |measure| HeardMeasure { written, section, measure })
        });
        chorus(self.meter, heard, optional)
    }

    /// The section in which each written bar lies.
    fn sections(&self) -> Vec<Option<&str>> {
        let mut section = None;
        let mut sections = Vec::with_capacity(self.bars.len());
        for bar in &self.bars {
            section = bar.section().or(section);
            sections.push(section);
        }
        sections
    }
}

/// Texts that are longer in all than one may be.
fn refuse_too_long(sections: &[BarSection<'_>]) -> Result<(), BarFault> {
    let mut left = BarText::LONGEST;
    for (index, BarSection { text, .. }) in sections.iter().enumerate() {
        match left.checked_sub(text.chars().take(left + 1).count()) {
            Some(rest) => left = rest,
            None => {
                let expected = format!("at most {} characters", BarText::LONGEST);
                let error = ReadError::whole(WHAT, text, expected);
                return Err(BarFault { section: index, word: Box::default(), error });
            }
        }
    }
    Ok(())
}

/// How long a pick-up is that is written at this place.
fn shorter_than_a_bar(
    pick_up: PickUp,
    meter: Meter,
    at: Place,
    page: &Page<'_>,
) -> Result<Quarters, BarFault> {
    let expected = || format!("a pick-up that is shorter than a bar of {meter}");
    pick_up.length(meter).ok_or_else(|| page.wrong(at, expected()))
}

impl fmt::Display for BarText {
    /// In the notation that is read, four bars in a line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let BarText { pick_up, bars, comments, .. } = self;
        Printed { pick_up: *pick_up, bars, comments }.fmt(f)
    }
}

#[cfg(test)]
mod tests;
