//! The neck with the shape in hand and where its fingers go next, and the line above it.

use fretloom_fretboard::{Place, VoiceMove};
use fretloom_theory::{Degree, NoteName, Pitch, WhichTriad};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use super::super::drawing::Drawing;
use super::super::place;
use crate::answer::ChangesChord;
use crate::picture::{Handed, Labels, Mark, MarkRole, NeckPicture};
use crate::tui::widget::{indented, write};

impl Drawing<'_> {
    /// The neck as it is to be drawn now.
    pub(super) fn picture(&self) -> NeckPicture {
        let marks = self.screen.chord().map(|chord| self.marks(chord)).unwrap_or_default();
        let picture = NeckPicture::new(self.shared.neck(), marks)
            .with_fret_widths(self.shared.setup.fret_widths);
        let picture = match self.screen.chosen.area.strings {
            Some(set) => picture.locked_to(set),
            None => picture,
        };
        let goes = self.moves().map(|moves| moves.map(|one| one.to()));
        let in_view = self.shared.frets_up_to(&picture, |mark| {
            mark.is_held || goes.is_some_and(|goes| goes.contains(&mark.place))
        });
        self.shared.lying(picture.within(in_view))
    }

    /// Do the shapes of the plan lie on this neck?
    fn is_on_this_neck(&self) -> bool {
        self.screen.plans.is_on(&self.shared.setup.tuning)
    }

    /// How the fingers go to the next chord, voice by voice; none where the hand holds nothing, and
    /// while it comps.
    pub(super) fn moves(&self) -> Option<[VoiceMove; 3]> {
        if !self.screen.stabs_heard(self.shared).is_empty() {
            return None;
        }
        self.screen.chord()?.hand?;
        let next = self.screen.next_chord()?.hand?;
        next.movement.filter(|_| self.is_on_this_neck()).map(|movement| movement.voices())
    }

    /// The pair where the hand may be, the shape in hand, and where its fingers go; while stabs are heard
    /// the shapes of these.
    fn marks(&self, chord: &ChangesChord) -> Vec<Mark> {
        let neck = self.shared.neck();
        let region = place::region(self.screen.chosen.area).unwrap_or_default();
        let inside = neck.places().filter(|(at, _)| region.contains(neck, *at));
        let mut marks: Vec<Mark> =
            inside.filter_map(|(at, pitch)| self.mark(chord, at, pitch)).collect();
        let stabs = self.screen.stabs_heard(self.shared);
        let hand = chord.hand.filter(|_| stabs.is_empty() && self.is_on_this_neck());
        let held = stabs.iter().map(|stab| stab.shape).chain(hand.map(|hand| hand.shape));
        for place in held.flat_map(|held| held.shape.places()) {
            let is_marked = marks.iter().any(|mark| mark.place == place);
            if let Some(pitch) = neck.pitch_at(place).filter(|_| !is_marked) {
                marks.extend(self.mark(chord, place, pitch));
            }
            for mark in marks.iter_mut().filter(|mark| mark.place == place) {
                mark.is_held = true;
            }
        }
        if let (Some(next), Some(moves)) = (self.screen.next_chord(), self.moves()) {
            for one in moves {
                self.add_move(&mut marks, next, one);
            }
        }
        marks
    }

    /// A place of the pair.
    fn mark(&self, chord: &ChangesChord, place: Place, pitch: Pitch) -> Option<Mark> {
        let (which, note, member) = member_of(chord, pitch)?;
        let label = self.label(chord, place, (note, member));
        let mark = Mark::new(place, MarkRole::Triad(which), label);
        Some(Mark { is_root: member == Degree::ROOT, ..mark })
    }

    /// What stands in a mark of a chord.
    fn label(
        &self,
        chord: &ChangesChord,
        place: Place,
        (note, member): (NoteName, Degree),
    ) -> String {
        match self.screen.chosen.labels {
            Labels::Note | Labels::Order => note.to_string(),
            Labels::Degree => chord.over().degree(note.pitch_class()).to_string(),
            Labels::Member => member.to_string(),
            Labels::Finger => {
                let shape = chord.hand.map(|hand| hand.shape.shape);
                let held = shape.and_then(|shape| Some((shape.places(), shape.fingers()?)));
                let finger = held.and_then(|(places, fingers)| {
                    let held = places.iter().zip(fingers).find(|(at, _)| **at == place);
                    held.map(|(_, finger)| finger.number())
                });
                finger.map_or_else(|| note.to_string(), |finger| finger.to_string())
            }
        }
    }

    /// Where a voice goes: the note is tied where it stays, and has an arrow where it comes from
    /// elsewhere.
    fn add_move(&self, marks: &mut Vec<Mark>, next: &ChangesChord, one: VoiceMove) {
        let neck = self.shared.neck();
        let Some(pitch) = neck.pitch_at(one.to()) else { return };
        let Some((_, note, member)) = member_of(next, pitch) else { return };
        let there = marks.iter_mut().find(|mark| mark.place == one.to());
        let label = self.label(next, one.to(), (note, member));
        let label = format!("{}{label}", self.arrow(one.frets()));
        match there {
            Some(mark) if one.from() == one.to() => {
                (mark.label, mark.stays) = (format!("={}", mark.label), true);
            }
            Some(mark) => mark.label = label,
            None => marks.push(Mark::new(one.to(), MarkRole::LeftOut, label)),
        }
    }

    /// Points along the drawn neck; a half step is marked apart from what lies farther.
    fn arrow(&self, frets: i8) -> &'static str {
        let is_right = (frets > 0) == (self.shared.setup.handed == Handed::Right);
        match (frets.unsigned_abs(), is_right) {
            (0, _) => "=",
            (1, true) => "→",
            (1, false) => "←",
            (_, true) => "»",
            (_, false) => "«",
        }
    }

    /// `─ strings 4-3-2 ─ frets 1–11 of 22 ─ [C] & (D) ─ shown: note ────`
    pub(super) fn draw_rule(&self, area: Rect, buffer: &mut Buffer, picture: &NeckPicture) {
        let (theme, muted) = (&self.shared.theme, self.shared.theme.muted);
        let columns = picture.columns(indented(area).width);
        let last = self.shared.neck().tuning().last_fret();
        let mut line =
            Line::styled(format!("─ {} ─ ", place::in_words(self.screen.chosen.area)), muted);
        if let Some(chord) = self.screen.chord() {
            let [first, second] = chord.pair.names();
            line.push_span(Span::styled(format!("[{first}]"), theme.first));
            line.push_span(Span::styled(" & ", muted));
            line.push_span(Span::styled(format!("({second})"), theme.second));
            line.push_span(Span::styled(" ─ ", muted));
        }
        let frets = format!("frets {}–{} of {last}", columns.first_shown(), columns.last_shown());
        let shown = format!("shown: {} ", self.screen.chosen.labels.word());
        line.push_span(Span::styled(format!("{frets} ─ {shown}"), muted));
        let rest = usize::from(area.width).saturating_sub(line.width());
        line.push_span(Span::styled("─".repeat(rest), muted));
        write(buffer, area, &line);
    }
}

/// Which triad of a chord's pair a note is in, what it is called there, and which member it is.
pub(super) fn member_of(
    chord: &ChangesChord,
    pitch: Pitch,
) -> Option<(WhichTriad, NoteName, Degree)> {
    let names = WhichTriad::BOTH.into_iter().zip(chord.pair.names());
    names.into_iter().find_map(|(which, name)| {
        let (index, note) = name.member(pitch.pitch_class())?;
        Some((which, note, *name.quality().degrees().get(index)?))
    })
}
