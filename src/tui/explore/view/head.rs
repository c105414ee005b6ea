//! The head: chord, scale and instrument; or the field in which something is typed.

use fretloom_fretboard::{FretRange, Neck};
use fretloom_theory::{Degree, ReadChord, Scale, parent_in_words};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use super::super::drawing::Drawing;
use super::super::overlay::Overlay;
use super::super::shown::families_of;
use super::super::suggest::suggestions;
use crate::answer::{HandArea, Wishes, behind_capo};
use crate::tui::command::{Command, ProgramCommand, TypingCommand};
use crate::tui::widget::{TextField, below, broken, cut_to, indented, write};
use crate::words::{counted, spaced};

impl Drawing<'_> {
    /// Rows of the head: a mistake in what is typed may take more than one to explain; what there is
    /// to say about the scale takes at most `spare` more than one.
    pub(super) fn head_rows(&self, width: u16, spare: u16) -> u16 {
        let told = |text: &str| broken(text, width.saturating_sub(1)).len() as u16;
        match self.typed() {
            Some((_, field)) => 1 + told(&self.told(field).0).clamp(1, 3),
            None => 1 + told(&self.notes()).clamp(1, 1 + spare),
        }
    }

    pub(super) fn draw_head(&self, area: Rect, buffer: &mut Buffer) {
        match self.typed() {
            Some((label, field)) => self.draw_field(area, buffer, label, field),
            None => self.draw_chord(area, buffer),
        }
    }

    /// What is being typed, and its label.
    pub(super) fn typed(&self) -> Option<(&'static str, &TextField)> {
        match self.explore.overlay.as_ref()? {
            Overlay::Chord(field) => Some((" chord ", field)),
            Overlay::Wishes(field) => Some((" wish ", field)),
            Overlay::Where(field) => Some((" where ", field)),
            Overlay::Tunings(_) | Overlay::Scales(_) | Overlay::Details(_) => None,
        }
    }

    /// The chord, its scale, the instrument; then why this scale, wishes, and what was assumed.
    fn draw_chord(&self, area: Rect, buffer: &mut Buffer) {
        let mut spans = vec![
            Span::raw(" "),
            Span::styled(self.explore.chosen.chord.read.chord.to_string(), self.shared.theme.title),
        ];
        let chosen = self.explore.shown.pairs.harmony.scale();
        spans.push(Span::raw(format!("   {}", chosen.scale())));
        if let Some(from) = parent_of(chosen.scale()) {
            spans.push(Span::styled(format!(", {from}"), self.shared.theme.muted));
        }
        let line = Line::from(spans);
        let (first, used) = (below(area, 0), line.width() as u16);
        write(buffer, first, &line);
        self.shared.draw_instrument(first, used, buffer);
        let rest = Rect { y: area.y + 1, height: area.height.saturating_sub(1), ..area };
        let rest = indented(rest);
        let lines = cut_to(broken(&self.notes(), rest.width), usize::from(rest.height));
        for (line, row) in lines.into_iter().zip(0..rest.height) {
            write(buffer, below(rest, row), &Line::styled(line, self.shared.theme.muted));
        }
    }

    /// What limits the list, what was assumed of the chord, and why this scale.
    fn notes(&self) -> String {
        let mut notes = self.limits();
        let chosen = self.explore.shown.pairs.harmony.scale();
        let misses: Vec<Degree> = chosen.misses().collect();
        if !misses.is_empty() {
            notes.push(format!("without the chord's own {}", spaced(misses)));
        }
        notes.extend(self.explore.chosen.chord.read.assumed.iter().map(ToString::to_string));
        let (at, count) = (self.explore.chosen.scale + 1, self.explore.shown.scales.len());
        notes.extend(chosen.why().map(|why| format!("scale {at} of {count}: {why}")));
        notes.join(" · ")
    }

    /// The capo, and what keeps pairs out of the list or lets more in.
    fn limits(&self) -> Vec<String> {
        let mut limits: Vec<String> = self.capo_words().into_iter().collect();
        let problems = self.shared.library.problems().count();
        if problems > 0 {
            let key = self.shared.key_of(Command::Program(ProgramCommand::Help));
            limits.push(format!("{} in your files: {key}", counted(problems, "problem")));
        }
        if !self.explore.chosen.wishes.are_none() {
            limits.push(format!("wish {}", self.explore.chosen.wishes));
        }
        let frets = self.explore.chosen.frets;
        if frets != FretRange::WHOLE_NECK {
            limits.push(format!("only frets {}–{}", frets.first(), frets.last()));
        }
        if self.explore.chosen.families > 0 {
            limits.push(families_of(&self.explore.chosen).1.to_owned());
        }
        limits
    }

    /// The words for what the hand makes behind the capo; none without a capo.
    fn capo_words(&self) -> Option<String> {
        let capo = self.shared.neck().tuning().capo();
        let pair = self.explore.pair();
        let shapes = pair.and_then(|pair| behind_capo(capo, [pair.first.name, pair.second.name]));
        match (capo.strings(), shapes) {
            _ if capo.is_none() => None,
            (None, Some([first, second])) => {
                Some(format!("capo {} · shapes of {first} & {second}", capo.fret()))
            }
            (Some(strings), _) => Some(format!("capo {} on {strings}", capo.fret())),
            (None, None) => Some(format!("capo {}", capo.fret())),
        }
    }

    /// What is being typed, with what it means or what is wrong with it.
    pub(super) fn draw_field(
        &self,
        area: Rect,
        buffer: &mut Buffer,
        label: &str,
        field: &TextField,
    ) {
        write(buffer, below(area, 0), &field.line(label, &self.shared.theme));
        let rest =
            Rect { y: area.y.saturating_add(1), height: area.height.saturating_sub(1), ..area };
        let (told, readable) = self.told(field);
        let style = if readable { self.shared.theme.muted } else { self.shared.theme.error };
        let lines = broken(&told, indented(rest).width);
        for (line, row) in lines.into_iter().zip(0..rest.height) {
            write(buffer, below(indented(rest), row), &Line::styled(line, style));
        }
    }

    /// What the typed text means, or what is wrong with it; and which of the two it is.
    fn told(&self, field: &TextField) -> (String, bool) {
        match self.explore.overlay {
            Some(Overlay::Wishes(_)) => return told_of_wishes(&field.text()),
            Some(Overlay::Where(_)) => return told_of_area(&field.text(), self.shared.neck()),
            Some(
                Overlay::Chord(_) | Overlay::Tunings(_) | Overlay::Scales(_) | Overlay::Details(_),
            )
            | None => {}
        }
        let (told, readable) = told_of_chord(&field.text());
        (told + &self.going_on(&field.text()), readable)
    }

    /// What typing could go on to, with the key that takes the first of it.
    fn going_on(&self, typed: &str) -> String {
        let chords: Vec<String> = suggestions(typed).take(SUGGESTIONS).collect();
        if chords.is_empty() {
            return String::new();
        }
        format!(
            " · {} {}",
            self.shared.key_of(Command::Typing(TypingCommand::Suggestion)),
            chords.join("  ")
        )
    }
}

/// How many chords are offered: as many as stand beside the reading at 80 columns.
const SUGGESTIONS: usize = 4;

/// The parent and how to find it: `D♭ melodic minor a half step up`.
/// `the notes of D major`; none for a scale that is its own parent, or that has none.
fn parent_of(scale: &Scale) -> Option<String> {
    let parent = scale.parent()?.on_everyday_root();
    let is_another = parent_in_words(scale).is_some();
    is_another.then(|| format!("the notes of {} {}", parent.root, parent.name))
}

fn told_of_chord(text: &str) -> (String, bool) {
    match text.parse::<ReadChord>() {
        Ok(read) => {
            let mut words = vec![format!("{}: {}", read.chord, spaced(read.chord.tones()))];
            words.extend(read.assumed.iter().map(ToString::to_string));
            (words.join(" · "), true)
        }
        Err(error) => (format!("character {}: expected {}", error.at(), error.advice()), false),
    }
}

fn told_of_area(text: &str, neck: &Neck) -> (String, bool) {
    let area = HandArea::read_line(text).and_then(|area| area.check(neck).map(|()| area));
    match area {
        Ok(HandArea::WHOLE_NECK) => (
            "a position V, frets 1-12, strings 3-2-1, or some of them; empty for the whole neck"
                .into(),
            true,
        ),
        Ok(area) => (format!("the hand stays {}", area.in_words()), true),
        Err(refusal) => (refusal.to_string(), false),
    }
}

fn told_of_wishes(text: &str) -> (String, bool) {
    match Wishes::read_line(text) {
        Ok(wishes) if wishes.are_none() => (
            "degrees to have, with a minus not to have: 7 ♯11 -13; empty for every pair".into(),
            true,
        ),
        Ok(wishes) => (format!("only pairs with {wishes}"), true),
        Err(refusal) => (refusal.to_string(), false),
    }
}
