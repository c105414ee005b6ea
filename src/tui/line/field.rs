//! What is typed on the line screen.

use fretloom_fretboard::FretRange;
use fretloom_theory::{FreeNotes, Pattern, ReadError, Rhythm};

use crate::answer::{AskedChords, HandArea, LineChords, Refusal};
use crate::library::{NamedPattern, PhraseArea, PhraseView};
use crate::tui::widget::TextField;

use super::chosen::Chosen;
use super::phrases::name;
use super::targets::{read_targets, spaced};
use crate::tui::music_file::MusicFileKind;
use crate::tui::shared::Shared;

/// A line of text that is being typed, and what it is to be.
pub(super) struct Field {
    pub(super) what: Typed,
    /// Of which phrase it is, from 0; none for the whole line.
    pub(super) phrase: Option<usize>,
    pub(super) text: TextField,
}

/// What is typed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Typed {
    Chords,
    Pattern,
    Rhythm,
    Targets,
    Where,
    Notes,
    /// The name of a file to be written.
    File,
}

const WHERE_OF_LINE: &str = "a position, frets or three strings: V 1-12 4-3-2; nothing: all";
const WHERE_OF_PHRASE: &str =
    "of this phrase alone: V 1-12 4-3-2, as for the line; nothing: no place of its own";

impl Typed {
    /// What is typed.
    const fn word(self) -> &'static str {
        match self {
            Typed::Chords => "chords",
            Typed::Pattern => "pattern",
            Typed::Rhythm => "rhythm",
            Typed::Targets => "aim",
            Typed::Where => "where",
            Typed::Notes => "notes",
            Typed::File => "write to",
        }
    }

    const fn help(self) -> &'static str {
        match self {
            Typed::Chords => "a symbol, or bars: Dm7 | G7 | Cmaj7 | %; chords share their bar",
            Typed::Pattern => {
                "1 2 3 from the lowest, - rest, _ hold, a A half step, s scale note, > accent"
            }
            Typed::Rhythm => "8 eighths, 4. 8~2, -8 rests, 3:2(8 8 8); or eighths, triplets",
            Typed::Targets => {
                "3@2.1 b7@3.1: the third on beat 1 of bar 2, then the b7; :below :above :early"
            }
            Typed::Where => WHERE_OF_LINE,
            Typed::File => "the name of a file: line.mid, line.musicxml, or line.txt for tablature",
            Typed::Notes => {
                "one by one: F3:8 an eighth, B3+D4:4 together, -:4 a rest, > accents; nothing: the pair"
            }
        }
    }
}

impl Field {
    /// The longest text that is typed.
    const LONGEST: usize = 2_000;

    pub(super) fn new(what: Typed, chosen: &Chosen) -> Field {
        let text = match what {
            Typed::Chords => chosen.chords.clone(),
            Typed::Pattern => chosen.pattern.as_ref().map(ToString::to_string).unwrap_or_default(),
            Typed::Rhythm => chosen.rhythm.as_ref().map(ToString::to_string).unwrap_or_default(),
            Typed::Targets => spaced(&chosen.targets),
            Typed::Where => chosen.place.hand_area().to_string(),
            Typed::Notes => String::new(),
            Typed::File => "line.mid".to_owned(),
        };
        Field::with(what, None, &text)
    }

    /// What one phrase has of it.
    pub(super) fn of_phrase(what: Typed, index: usize, chosen: &Chosen) -> Field {
        let phrase = chosen.phrases.get(index);
        let text = phrase.and_then(|phrase| match what {
            Typed::Chords | Typed::File => None,
            Typed::Where => phrase.area.map(|area| typed_area(area).to_string()),
            Typed::Pattern => phrase.pattern.as_ref().map(ToString::to_string),
            Typed::Rhythm => phrase.rhythm.as_ref().map(ToString::to_string),
            Typed::Targets => phrase.target.clone(),
            Typed::Notes => phrase.notes.clone(),
        });
        Field::with(what, Some(index), &text.unwrap_or_default())
    }

    pub(super) fn with(what: Typed, phrase: Option<usize>, text: &str) -> Field {
        Field { what, phrase, text: TextField::holding_up_to(text, Field::LONGEST) }
    }

    /// What stands before the field: ` pattern `, ` aim of phrase 2 `
    pub(super) fn label(&self) -> String {
        let phrase = self.phrase.map(|index| format!("of phrase {} ", name(index)));
        format!(" {} {}", self.what.word(), phrase.unwrap_or_default())
    }

    /// What is said of what is typed, as long as it can be read.
    pub(super) const fn help(&self) -> &'static str {
        match (self.what, self.phrase) {
            (Typed::Where, Some(_)) => WHERE_OF_PHRASE,
            (what, _) => what.help(),
        }
    }

    /// The first pattern of the library whose name or figures have what is typed.
    pub(super) fn suggestion<'a>(&self, shared: &'a Shared) -> Option<&'a NamedPattern> {
        let typed = self.text.text().trim().to_lowercase();
        if self.what != Typed::Pattern || typed.is_empty() {
            return None;
        }
        let has = |named: &&NamedPattern| {
            let figures = named.figures.to_string();
            let goes_on = figures.starts_with(&typed) && figures != typed;
            goes_on || named.name.to_lowercase().contains(&typed)
        };
        shared.library.patterns.patterns().iter().find(has)
    }

    /// Why what is typed cannot be read, if it cannot.
    pub(super) fn mistake(&self, chosen: &Chosen, shared: &Shared) -> Option<String> {
        let text = self.text.text();
        let told = match self.what {
            Typed::Chords => read_chords(&text, chosen, shared).map(|_| ()),
            Typed::Pattern if text.trim().is_empty() => Ok(()),
            Typed::Pattern => read_pattern(&text, shared).map(|_| ()).map_err(Refusal::from),
            Typed::Rhythm if text.trim().is_empty() => Ok(()),
            Typed::Rhythm => text.parse::<Rhythm>().map(|_| ()).map_err(Refusal::from),
            Typed::Targets => read_targets(&text).map(|_| ()),
            Typed::Notes if text.trim().is_empty() => Ok(()),
            Typed::Notes => text.parse::<FreeNotes>().map(|_| ()).map_err(Refusal::from),
            Typed::File => return MusicFileKind::mistake(&text),
            Typed::Where => HandArea::read_line(&text).and_then(|area| area.check(shared.neck())),
        };
        told.err().map(|refusal| refusal.to_string())
    }
}

/// What a phrase says of where it is, as far as it can be typed.
fn typed_area(own: PhraseArea) -> HandArea {
    let position = match own.view {
        Some(PhraseView::Position(position)) => position,
        Some(PhraseView::Set | PhraseView::Across(_) | PhraseView::Two(..)) | None => None,
    };
    let strings = own.strings.filter(|set| set.three().is_some());
    HandArea { position, frets: own.frets.unwrap_or(FretRange::WHOLE_NECK), strings }
}

/// Chords as they are typed, each with its usual scale and pair.
pub(super) fn read_chords(
    text: &str,
    chosen: &Chosen,
    shared: &Shared,
) -> Result<LineChords, Refusal> {
    LineChords::read(&AskedChords {
        spelling: shared.setup.spelling,
        own: shared.library.scales.kinds(),
        ..AskedChords::plain(text, chosen.meter)
    })
}

/// A pattern by its figures, or by the id or the name of one of the library.
pub(super) fn read_pattern(text: &str, shared: &Shared) -> Result<Pattern, ReadError> {
    let known = shared.library.patterns.by_id_or_name(text);
    known.map_or_else(|| text.parse(), |named| Ok(named.figures.clone()))
}
