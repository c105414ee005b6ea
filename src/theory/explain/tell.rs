//! From roles to what is told of each bar.

use super::arrival::Arrival;
use super::bar::{ExplainedApproach, ExplainedBar, ExplainedGroup, GroupTiming};
use super::candidate::Candidate;
use super::field::Field;
use super::ground::Ground;
use super::landing::Landing;
use super::movement::Movement;
use super::readings::{Shape, as_short};
use super::search::Role;
use super::sounded::{Sounded, classes};
use super::span::Span;
use crate::{
    ChordScale, Direction, Pitch, PitchClass, PitchClassSet, Quarters, Scale, Triad, TriadPair,
    TriadQuality,
};

/// A line that was read.
pub(super) struct Read<'a> {
    pub(super) spans: &'a [Span],
    pub(super) grounds: &'a [Ground],
    pub(super) notes: &'a [Sounded],
    pub(super) fields: &'a [Field],
    pub(super) candidates: &'a [Vec<Candidate>],
    /// What each note is.
    pub(super) roles: &'a [Role],
}

/// A group as it was read: the field, the candidate there, its notes.
struct Group {
    field: usize,
    triad: Triad,
    notes: Vec<usize>,
}

impl Read<'_> {
    /// What is told, bar by bar.
    pub(super) fn bars(&self) -> Vec<ExplainedBar> {
        let mut bars: Vec<ExplainedBar> = self.spans.iter().map(|span| self.blank(span)).collect();
        for (at, field) in self.fields.iter().enumerate() {
            self.tell_pair(at, field, &mut bars[field.span]);
        }
        for group in self.groups() {
            let bar = &mut bars[self.fields[group.field].span];
            let told = self.group(&group, bar);
            bar.groups.push(told);
        }
        for (at, (note, role)) in self.notes.iter().zip(self.roles).enumerate() {
            let bar = &mut bars[note.span];
            if !matches!(role, Role::Grouped { .. }) {
                bar.free.push(note.index);
            }
            if *role == Role::Free {
                bar.approaches.extend(self.approach(at));
            }
        }
        self.tell_landings(&mut bars);
        bars
    }

    fn ground(&self, span: &Span) -> Option<&Ground> {
        span.chord.and_then(|chord| self.grounds.get(chord))
    }

    /// A bar in which nothing begins.
    fn blank(&self, span: &Span) -> ExplainedBar {
        ExplainedBar {
            label: span.label.clone(),
            from: span.from,
            to: span.to,
            beat: span.beat,
            chord: span.symbol.clone(),
            scale: self.ground(span).and_then(|ground| ground.scales.first().cloned()),
            pair: None,
            groups: Vec::new(),
            free: Vec::new(),
            approaches: Vec::new(),
            landing: None,
            readings: Vec::new(),
            movement: Some(Movement::Rests),
        }
    }

    /// Scale, pair and readings of a field, or what the line does there.
    fn tell_pair(&self, at: usize, field: &Field, bar: &mut ExplainedBar) {
        let ground = self.ground(&self.spans[field.span]);
        let own = field.own_notes(self.notes);
        let pair = self.pair_of(at);
        let heard = pair.map_or_else(|| classes(own), TriadPair::set);
        if let Some((_, scale)) = ground.and_then(|ground| ground.holding(heard)) {
            bar.scale = Some(scale.clone());
        }
        let reference = ground.map(|ground| ground.chord.root().pitch_class());
        let named = |pair| named(pair, bar.scale.as_ref(), reference);
        bar.readings = self.readings(at, field, pair).into_iter().map(named).collect();
        bar.pair = pair.map(named);
        let chord = ground.map_or(PitchClassSet::EMPTY, |ground| ground.chord.set());
        let pitches: Vec<Pitch> = own.iter().map(|note| note.pitch).collect();
        bar.movement = if pair.is_some() { None } else { Some(Movement::of(&pitches, chord)) };
    }

    /// The pair of a field, as the search names it.
    fn pair_of(&self, at: usize) -> Option<TriadPair> {
        let near = self.fields[at].near.clone();
        let mut roles = self.roles[near].iter();
        roles.find_map(|role| match role {
            Role::Grouped { field, candidate, .. } if *field == at => {
                Some(self.candidates[at][*candidate].pair)
            }
            Role::Grouped { .. } | Role::Free | Role::Unexplained => None,
        })
    }

    /// The other candidates that explain a field as shortly as its pair does; in an arpeggio, those
    /// that it could be.
    fn readings(&self, at: usize, field: &Field, pair: Option<TriadPair>) -> Vec<TriadPair> {
        if pair.is_none() && !field.stacked {
            return Vec::new();
        }
        let belongs = |note: &usize| match self.roles[*note] {
            Role::Grouped { field: other, .. } => other == at,
            Role::Free | Role::Unexplained => self.notes[*note].span == field.span,
        };
        let notes: Vec<usize> = field.near.clone().filter(belongs).collect();
        let Some((first, last)) = notes.first().zip(notes.last()) else { return Vec::new() };
        let next = self.notes.get(last + 1).map(|note| note.pitch);
        let line: Vec<Pitch> = self.notes[*first..=*last].iter().map(|note| note.pitch).collect();
        let shape = pair.and_then(|_| self.shape_of(&notes));
        let others = self.candidates[at].iter().filter(|candidate| Some(candidate.pair) != pair);
        let as_short = |candidate: &&Candidate| as_short(candidate, &line, next, shape);
        others.filter(as_short).map(|candidate| candidate.pair).collect()
    }

    /// How many groups and free notes these notes were read as.
    fn shape_of(&self, notes: &[usize]) -> Option<Shape> {
        let mut shape = Shape { groups: 0, free: 0 };
        for (at, note) in notes.iter().enumerate() {
            match self.roles[*note] {
                Role::Grouped { begins, .. } => shape.groups += usize::from(begins || at == 0),
                Role::Free | Role::Unexplained => shape.free += 1,
            }
        }
        Some(shape)
    }

    /// The groups in order; one that goes on behind the bar line under the same pair stands in the
    /// bar in which it begins.
    fn groups(&self) -> Vec<Group> {
        let mut groups: Vec<Group> = Vec::new();
        for (note, role) in self.roles.iter().enumerate() {
            let Role::Grouped { field, candidate, which, begins } = *role else { continue };
            match groups.last_mut().filter(|_| !begins) {
                Some(group) => group.notes.push(note),
                None => {
                    let triad = which.triad_of(self.candidates[field][candidate].pair);
                    groups.push(Group { field, triad, notes: vec![note] });
                }
            }
        }
        groups
    }

    fn group(&self, group: &Group, bar: &ExplainedBar) -> ExplainedGroup {
        let note = |note: &usize| (self.notes[*note].index, self.notes[*note].pitch);
        let notes: Vec<(usize, Pitch)> = group.notes.iter().map(note).collect();
        let pair = bar.pair.map(TriadPair::triads).into_iter().flatten();
        let triad = pair.into_iter().find(|triad| triad.set() == group.triad.set());
        let triad = triad.unwrap_or(group.triad);
        ExplainedGroup::of(triad, &notes, self.timing(group))
    }

    /// Under one pair a group that crosses the bar line is on time: its notes speak the chords in
    /// whose time they sound.
    fn timing(&self, group: &Group) -> GroupTiming {
        let speaks = |note: &usize| match self.roles[*note] {
            Role::Grouped { field, .. } => self.fields[field].span,
            Role::Free | Role::Unexplained => self.notes[*note].span,
        };
        let out_of_time = |note: &&usize| speaks(note) != self.notes[**note].span;
        let Some(note) = group.notes.iter().find(out_of_time) else { return GroupTiming::OnTime };
        let span = &self.spans[speaks(note)];
        if speaks(note) > self.notes[*note].span {
            let by = span.from.checked_sub(self.notes[*note].onset);
            return by.map_or(GroupTiming::OnTime, GroupTiming::Early);
        }
        let last = group.notes.last().map_or(Quarters::ZERO, |last| self.notes[*last].end);
        last.checked_sub(span.to).map_or(GroupTiming::OnTime, GroupTiming::Late)
    }

    /// What a free note does.
    fn approach(&self, at: usize) -> Option<ExplainedApproach> {
        let later = self.roles.get(at + 1..)?.iter().position(|role| *role != Role::Free)?;
        let (note, target) = (self.notes.get(at)?, self.notes.get(at + 1 + later)?);
        let arrival = Arrival::between(note.pitch, target.pitch);
        let rises = note.pitch.semitones_up_to(target.pitch) > 0;
        arrival.is_step().then(|| ExplainedApproach {
            note: note.index,
            class: note.pitch.pitch_class(),
            into: target.index,
            target: target.pitch.pitch_class(),
            direction: if rises { Direction::Up } else { Direction::Down },
            arrival,
        })
    }

    /// Where the line lands on each new chord.
    fn tell_landings(&self, bars: &mut [ExplainedBar]) {
        let spoken = |at: usize| match self.roles[at] {
            Role::Grouped { field, .. } => self.fields[field].span,
            Role::Free | Role::Unexplained => self.notes[at].span,
        };
        for at in 1..self.notes.len() {
            let (before, there) = (spoken(at - 1), spoken(at));
            if there == before + 1 && bars[before].chord != bars[there].chord {
                bars[before].landing = self.landing(at, &bars[there]);
            }
        }
    }

    fn landing(&self, at: usize, bar: &ExplainedBar) -> Option<Landing> {
        let chord = bar.chord.as_ref()?.chord()?.clone();
        let note = &self.notes[at];
        let over = ChordScale::over(chord.clone(), bar.scale.clone()?);
        let arrival = Arrival::between(self.notes[at - 1].pitch, note.pitch);
        Some(Landing {
            note: note.index,
            degree: over.degree(note.pitch.pitch_class()),
            chord,
            arrival,
        })
    }
}

/// A pair as it is called in a scale, the triad first whose root comes first going up from the
/// reference.
fn named(pair: TriadPair, scale: Option<&Scale>, reference: Option<PitchClass>) -> TriadPair {
    let [first, second] = pair.triads().map(|triad| in_scale(triad, scale));
    let reference = reference.unwrap_or(first.root());
    TriadPair::new(first, second, reference).unwrap_or(pair)
}

/// An augmented triad under the root that the scale gives it; all others have one root only.
fn in_scale(triad: Triad, scale: Option<&Scale>) -> Triad {
    let same = |scale: &Scale| {
        let triads = scale.triads(&[TriadQuality::Augmented]);
        triads.into_iter().find(|other| other.set() == triad.set())
    };
    match triad.quality() {
        TriadQuality::Augmented => scale.and_then(same).unwrap_or(triad),
        TriadQuality::Major
        | TriadQuality::Minor
        | TriadQuality::Diminished
        | TriadQuality::Sus
        | TriadQuality::FlatFive => triad,
    }
}
