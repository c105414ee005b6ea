//! What is typed: chords, a pattern, a rhythm, targets, where the hand may be.

use fretloom_fretboard::FretRange;
use fretloom_theory::FreeNotes;

use super::super::chosen::{Chosen, OfChord};
use super::super::field::{Field, Typed, read_chords, read_pattern};
use super::super::phrases::{moment as written_moment, moment_of, of_the_line};
use super::super::state::LineScreen;
use super::super::targets::{aims_of, read_targets, written_aims};
use crate::answer::{HandArea, LineChords, LineTarget};
use crate::library::{AskedPhrase, PhraseArea, PhraseView};
use crate::tui::command::TypingCommand;
use crate::tui::key::Key;
use crate::tui::line_place::LinePlace;
use crate::tui::one_line::in_one_line;
use crate::tui::shared::Shared;

impl LineScreen {
    pub(super) fn edit(&mut self, what: Typed) {
        self.music_files.forget();
        let own = self.own_in_hand().map(|(index, _)| index);
        let phrase = match what {
            Typed::Pattern | Typed::Rhythm | Typed::Where => own,
            // What is aimed at is a phrase's own in any case.
            Typed::Targets => Some(self.in_hand()).filter(|_| !self.chosen.phrases.is_empty()),
            Typed::Chords | Typed::Notes | Typed::File => None,
        };
        self.field = Some(match phrase {
            Some(index) => Field::of_phrase(what, index, &self.chosen),
            None => Field::new(what, &self.chosen),
        });
    }

    /// The notes of the phrase in hand, one by one.
    pub(super) fn edit_notes(&mut self, shared: &mut Shared) {
        if self.with_phrases(shared).is_some() {
            self.field = Some(Field::of_phrase(Typed::Notes, self.in_hand(), &self.chosen));
        }
    }

    /// Types a key that stands for no command, where something is typed.
    pub(in crate::tui) fn type_key(&mut self, key: Key) {
        if let Some(field) = &mut self.field {
            field.text.press(key);
        }
    }

    /// Types a pasted text, where something is typed. A chart of several lines is one line of bars.
    pub(in crate::tui) fn paste(&mut self, text: &str) {
        if let Some(field) = &mut self.field {
            field.text.insert(&in_one_line(text));
        }
    }

    /// Does what a command means in the field that lies over the screen.
    pub(in crate::tui) fn update_field(&mut self, command: TypingCommand, shared: &mut Shared) {
        match command {
            TypingCommand::Suggestion => self.take_suggestion(shared),
            TypingCommand::Accept => self.accept(shared),
            TypingCommand::Cancel => {
                self.music_files.forget();
                self.field = None;
            }
        }
    }

    /// Types the figures of the pattern that is offered; they can be typed on.
    fn take_suggestion(&mut self, shared: &Shared) {
        let Some(field) = &mut self.field else { return };
        if let Some(named) = field.suggestion(shared) {
            *field = Field::with(field.what, field.phrase, &named.figures.to_string());
            field.text.go_to_end();
        }
    }

    /// Takes what is typed. What cannot be read, or of which no line can be made, stays in the field.
    fn accept(&mut self, shared: &mut Shared) {
        let Some(field) = &self.field else { return };
        let (what, phrase, text) = (field.what, field.phrase, field.text.text());
        if what == Typed::File {
            return self.write_to(&text, shared);
        }
        let chosen = match phrase {
            Some(index) => self.put_in_phrase(what, index, &text, shared),
            None => {
                let mut chosen = self.chosen.clone();
                put(&mut chosen, what, &text, shared).then_some(chosen)
            }
        };
        if let Some(chosen) = chosen
            && self.take(chosen, shared)
        {
            self.field = None;
        }
    }

    /// The choices with what was typed of a phrase; none where it cannot be read.
    fn put_in_phrase(
        &self,
        what: Typed,
        index: usize,
        text: &str,
        shared: &mut Shared,
    ) -> Option<Chosen> {
        let (mut chosen, chords) = self.with_phrases(shared)?;
        let next = chosen.phrases.get(index + 1).map(|next| next.from.clone());
        let phrase = chosen.phrases.get_mut(index)?;
        let is_empty = text.trim().is_empty();
        match what {
            Typed::Pattern | Typed::Notes if is_empty => *phrase = of_the_line(phrase),
            Typed::Pattern => {
                (phrase.pattern, phrase.notes) = (Some(read_pattern(text, shared).ok()?), None);
            }
            Typed::Rhythm if is_empty => phrase.rhythm = None,
            Typed::Rhythm => phrase.rhythm = Some(text.parse().ok()?),
            Typed::Targets => aim(phrase, &read_targets(text).ok()?, next.as_deref(), &chords),
            Typed::Notes => {
                let _: FreeNotes = text.parse().ok()?;
                // Notes end where they end, and aim at nothing.
                let plain = AskedPhrase::beginning(&phrase.name, &phrase.from);
                let (notes, area) = (Some(text.trim().to_owned()), phrase.area);
                *phrase = AskedPhrase { notes, area, ..plain };
            }
            Typed::Where => {
                let area = HandArea::read_line(text).ok()?;
                area.check(shared.neck()).ok()?;
                phrase.area = own_area(area);
            }
            Typed::Chords | Typed::File => {}
        }
        Some(chosen)
    }
}

/// What a phrase says of where it is; nothing where nothing was typed.
fn own_area(typed: HandArea) -> Option<PhraseArea> {
    let HandArea { position, frets, strings } = typed;
    let view = position.map(|position| PhraseView::Position(Some(position)));
    let frets = Some(frets).filter(|frets| *frets != FretRange::WHOLE_NECK);
    let is_said = view.is_some() || strings.is_some() || frets.is_some();
    is_said.then_some(PhraseArea { view, strings, frets })
}

/// The phrase aims at these, and holds the last as long as it held the last before.
fn aim(phrase: &mut AskedPhrase, targets: &[LineTarget], next: Option<&str>, chords: &LineChords) {
    let moment = |text: &str| moment_of(chords, text);
    let last = |phrase: &AskedPhrase| chords.moment(aims_of(phrase, chords).last()?.moment());
    let before = last(phrase);
    let held = phrase.to.as_deref().and_then(|to| moment(to)?.checked_sub(before?));
    phrase.target = written_aims(targets);
    if let Some(now) = last(phrase) {
        let end = held.and_then(|held| now.checked_add(held));
        let end = end.filter(|end| next.and_then(moment).is_none_or(|next| *end < next));
        phrase.to = end.and_then(|end| written_moment(chords, end));
    }
}

/// Puts what was typed among the choices; false where it cannot be read.
fn put(chosen: &mut Chosen, what: Typed, text: &str, shared: &Shared) -> bool {
    let is_empty = text.trim().is_empty();
    match what {
        Typed::Chords => match read_chords(text, chosen, shared) {
            Ok(chords) => put_chords(chosen, text, &chords),
            Err(_) => return false,
        },
        Typed::Pattern if is_empty => chosen.pattern = None,
        Typed::Pattern => match read_pattern(text, shared) {
            Ok(pattern) => chosen.pattern = Some(pattern),
            Err(_) => return false,
        },
        Typed::Rhythm if is_empty => chosen.rhythm = None,
        Typed::Rhythm => match text.parse() {
            Ok(rhythm) => chosen.rhythm = Some(rhythm),
            Err(_) => return false,
        },
        Typed::Targets => match read_targets(text) {
            Ok(targets) => chosen.targets = targets,
            Err(_) => return false,
        },
        // Notes are always those of a phrase, and a file is no choice.
        Typed::Notes | Typed::File => return false,
        Typed::Where => match HandArea::read_line(text) {
            Ok(area) if area.check(shared.neck()).is_ok() => {
                chosen.place = LinePlace::of_hand_area(area);
            }
            Ok(_) | Err(_) => return false,
        },
    }
    true
}

/// Other chords. What was chosen for a chord stays with it; phrases and changes of single notes do
/// not.
fn put_chords(chosen: &mut Chosen, text: &str, chords: &LineChords) {
    let mut each: Vec<OfChord> = Vec::new();
    for chord in chords.chords() {
        let symbol = chord.over.chord().map(|chord| format!("{chord:#}")).unwrap_or_default();
        if chord.written >= each.len() {
            each.resize(chord.written, OfChord::default());
            let before = chosen.each.iter().find(|before| before.symbol == symbol).cloned();
            each.push(before.unwrap_or(OfChord { symbol, ..OfChord::default() }));
        }
    }
    if chosen.chords != text.trim() {
        chosen.edits.clear();
        chosen.phrases.clear();
    }
    (chosen.chords, chosen.each) = (text.trim().to_owned(), each);
    (chosen.bars, chosen.key) = (None, 0);
}
