//! What is typed on the changes screen.

use fretloom_theory::{BarText, Chart, Key, Meter, ReadError};

use crate::answer::{ChartMoment, HandArea, Refusal, TuneWishes};
use crate::tui::music_file::MusicFileKind;
use crate::tui::shared::Shared;
use crate::tui::widget::TextField;

/// A line of text that is being typed, and what it is to be.
pub(super) struct Field {
    pub(super) what: Typed,
    pub(super) text: TextField,
}

/// What is typed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Typed {
    /// All bars.
    Chords,
    /// The written bar with this index, which is heard as the one with this number.
    Bar { written: usize, number: u64 },
    /// Where the hand stays.
    Where,
    /// What is wished of the tune and its plan, while the player is at this moment.
    Wishes(Option<ChartMoment>),
    /// What the tune is called.
    Title,
    /// Its key.
    Key,
    /// The name of a file to be written.
    Save,
    /// The name of a file for the stabs of its pairs.
    Comping,
}

impl Typed {
    /// What is said of what is typed, as long as it can be read.
    pub(super) const fn help(self) -> &'static str {
        match self {
            Typed::Chords => "bars: Dm7 | G7 | Cmaj7 | %; chords share their bar, [A] a section",
            Typed::Bar { .. } => {
                "chords of this bar; Dm7 | G7 makes two of it, nothing takes it away"
            }
            Typed::Wishes(_) => {
                "major & minor, thirds, 6 pairs, contrast, once, never B@5; nothing: none"
            }
            Typed::Title => "what the tune is called",
            Typed::Key => "a key: C, Eb, F#m; nothing: as its chords are read",
            Typed::Save => "the name of a file, as in tune.toml; one that is there is not lost",
            Typed::Comping => {
                "the name of a file: stabs.mid, stabs.musicxml, or stabs.txt for tablature"
            }
            Typed::Where => "a position, frets or three strings: V 5-10 4-3-2; nothing: anywhere",
        }
    }
}

impl Field {
    /// As much as a tune of a few hundred bars takes.
    const LONGEST: usize = 4_000;

    pub(super) fn new(what: Typed, text: &str) -> Field {
        Field { what, text: TextField::holding_up_to(text, Field::LONGEST) }
    }

    /// What stands before the field.
    pub(super) fn label(&self) -> String {
        match self.what {
            Typed::Chords => " chords ".to_owned(),
            Typed::Bar { number, .. } => format!(" bar {number} "),
            Typed::Where => " where ".to_owned(),
            Typed::Wishes(_) => " wish ".to_owned(),
            Typed::Title => " title ".to_owned(),
            Typed::Key => " key ".to_owned(),
            Typed::Save => " save as ".to_owned(),
            Typed::Comping => " stabs to ".to_owned(),
        }
    }

    /// Why what is typed cannot be taken, if it cannot.
    pub(super) fn mistake(&self, chart: Option<&Chart>, shared: &Shared) -> Option<String> {
        let text = self.text.text();
        match self.what {
            Typed::Chords => chart_of(&text, chart).err().map(|error| error.to_string()),
            Typed::Bar { written, .. } => {
                let read = chart?.retyped(written..written + 1, &text);
                read.err().map(|error| error.to_string())
            }
            Typed::Where => read_area(&text, shared).err().map(|refusal| refusal.to_string()),
            Typed::Wishes(here) => {
                TuneWishes::read_line(&text, here).err().map(|error| error.to_string())
            }
            Typed::Key => read_key(&text).err().map(|error| error.to_string()),
            Typed::Comping => MusicFileKind::mistake(&text),
            Typed::Title | Typed::Save => None,
        }
    }
}

/// A tune of these bars; the rest of it as before. What was settled stays where its chord does.
fn chart_of(text: &str, before: Option<&Chart>) -> Result<Chart, ReadError> {
    match before {
        Some(chart) => chart.retyped(0..chart.bars.bars().len(), text),
        None => BarText::read(text, Meter::COMMON).map(Chart::of),
    }
}

/// A key, or none where nothing is typed.
pub(super) fn read_key(text: &str) -> Result<Option<Key>, ReadError> {
    match text.trim() {
        "" => Ok(None),
        text => text.parse().map(Some),
    }
}

/// Where the hand stays, as it is typed.
pub(super) fn read_area(text: &str, shared: &Shared) -> Result<HandArea, Refusal> {
    let area = HandArea::read_line(text)?;
    area.check(shared.neck())?;
    Ok(area)
}
