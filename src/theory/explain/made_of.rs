//! Lines that say what they were made of, read so where their notes agree.
//!
//! Nothing is believed that cannot be heard. A field is read as it says where every note that is said
//! to be of a triad is one of that triad, at most half of the notes are free, and the pair is heard:
//! both triads sound whole in it and in the fields beside it that say the same, or both sound in it in
//! three notes or more, or one of them sounds whole there and a quarter of the notes is free at most. So pairs are told of lines in which no group
//! holds a whole triad, as in twos, or in which a chord goes by with one triad of two. All else is
//! read as if nothing were said.

use std::ops::Range;

use super::candidate::Candidate;
use super::field::Field;
use super::ground::Ground;
use super::line::Line;
use super::made_note::{MadeNote, sounds_alike};
use super::search::Role;
use super::sounded::{Sounded, classes};
use super::span::Span;
use crate::{PitchClassSet, Quarters, TriadPair, WhichTriad};

/// A line with what it says of itself.
pub(super) struct MadeOf<'a> {
    pub(super) spans: &'a [Span],
    pub(super) grounds: &'a [Ground],
    pub(super) notes: &'a [Sounded],
    pub(super) fields: &'a [Field],
    /// What is said of each note, and the field whose chord it then speaks.
    said: Vec<Option<(usize, MadeNote)>>,
}

/// How many notes of one field show both triads though neither is whole.
const OF_BOTH: usize = 3;
/// One note of so many may be free where both triads are heard …
const FREE_OF: usize = 2;
/// … and where only one is.
const FREE_OF_ONE: usize = 4;

impl<'a> MadeOf<'a> {
    /// `said` is what the line says of each note of the part.
    pub(super) fn new(
        spans: &'a [Span],
        grounds: &'a [Ground],
        notes: &'a [Sounded],
        fields: &'a [Field],
        said: &[Option<MadeNote>],
    ) -> MadeOf<'a> {
        let speaks = |(note, sounded): (usize, &Sounded)| {
            let made = said.get(sounded.index).copied().flatten()?;
            Some((spoken(spans, fields, note, sounded, made.speaks)?, made))
        };
        let said = notes.iter().enumerate().map(speaks).collect();
        MadeOf { spans, grounds, notes, fields, said }
    }

    /// What each note is. The pairs that are told so are added to the candidates where they are none.
    pub(super) fn roles(&self, candidates: &mut [Vec<Candidate>]) -> Vec<Role> {
        let heard = self.heard();
        let mut roles = vec![None; self.notes.len()];
        let mut before: Option<MadeNote> = None;
        for (note, role) in roles.iter_mut().enumerate() {
            let known = self.said[note].filter(|(field, _)| heard[*field].is_some());
            *role = match known {
                Some((field, made)) => {
                    let begins = before.is_none_or(|before| !before.is_of_group_of(&made));
                    before = Some(made);
                    self.grouped(field, note, begins, made.pair, candidates)
                }
                None => heard[field_of(self.fields, note)].map(|_| Role::Free),
            };
            before = before.filter(|_| role.is_some());
        }
        self.read_the_rest(&roles, candidates)
    }

    /// The pair of each field that is read as it says.
    fn heard(&self) -> Vec<Option<TriadPair>> {
        let mut of_fields: Vec<Vec<usize>> = vec![Vec::new(); self.fields.len()];
        for note in 0..self.notes.len() {
            if let Some((field, _)) = self.said[note] {
                of_fields[field].push(note);
            }
        }
        let fields = self.fields.iter().zip(&of_fields);
        let said: Vec<Option<TriadPair>> =
            fields.map(|(field, notes)| self.said_pair(field, notes)).collect();
        let mut heard = vec![None; said.len()];
        for run in self.runs(&said) {
            let whole = self.both_are_whole(&of_fields[run.clone()]);
            for field in run {
                heard[field] = said[field]
                    .filter(|_| whole || self.shows(&self.fields[field], &of_fields[field]));
            }
        }
        heard
    }

    /// The one pair of which all notes are that speak a chord, if they are.
    fn said_pair(&self, field: &Field, notes: &[usize]) -> Option<TriadPair> {
        let (_, first) = self.said[*notes.first()?]?;
        let agrees = |note: &usize| {
            self.said[*note].is_some_and(|(_, made)| {
                made.is_of_pair_of(&first) && made.agrees(self.notes[*note].pitch)
            })
        };
        let fits = FREE_OF * self.free(field) <= field.notes.len() && notes.iter().all(agrees);
        fits.then_some(first.pair)
    }

    /// How many notes of a field are of no triad.
    fn free(&self, field: &Field) -> usize {
        field.notes.clone().filter(|note| self.said[*note].is_none()).count()
    }

    /// Fields next to one another that say the same pair.
    fn runs(&self, said: &[Option<TriadPair>]) -> Vec<Range<usize>> {
        let mut runs: Vec<Range<usize>> = Vec::new();
        for (at, pair) in said.iter().enumerate() {
            let Some(pair) = pair else { continue };
            let goes_on = |run: &&mut Range<usize>| {
                run.end == at
                    && self.fields[at].follows
                    && said[run.start].is_some_and(|other| sounds_alike(other, *pair))
            };
            match runs.last_mut().filter(goes_on) {
                Some(run) => run.end = at + 1,
                None => runs.push(at..at + 1),
            }
        }
        runs
    }

    fn both_are_whole(&self, of_fields: &[Vec<usize>]) -> bool {
        let notes = || of_fields.iter().flatten();
        let Some((_, made)) = notes().next().and_then(|note| self.said[*note]) else {
            return false;
        };
        let sounded: PitchClassSet =
            notes().map(|note| self.notes[*note].pitch.pitch_class()).collect();
        made.pair.set().is_subset(sounded)
    }

    /// Do these notes show their pair, with what is said of it?
    fn shows(&self, field: &Field, notes: &[usize]) -> bool {
        let Some((_, made)) = notes.first().and_then(|note| self.said[*note]) else {
            return false;
        };
        let sounded: Vec<Sounded> = notes.iter().map(|note| self.notes[*note]).collect();
        let sounded = classes(&sounded);
        let triads = WhichTriad::BOTH.map(|which| which.triad_of(made.pair).set());
        let few_are_free = FREE_OF_ONE * self.free(field) <= field.notes.len();
        let whole = few_are_free && triads.iter().any(|triad| triad.is_subset(sounded));
        let both = triads.iter().all(|triad| triad.iter().any(|class| sounded.contains(class)));
        whole || both && notes.len() >= OF_BOTH
    }

    fn grouped(
        &self,
        field: usize,
        note: usize,
        begins: bool,
        pair: TriadPair,
        candidates: &mut [Vec<Candidate>],
    ) -> Option<Role> {
        let candidate = self.candidate(field, pair, &mut candidates[field]);
        let class = self.notes[note].pitch.pitch_class();
        let (which, _) = candidates[field].get(candidate)?.member(class)?;
        Some(Role::Grouped { field, candidate, which, begins })
    }

    /// Which of the candidates of a field a pair is; it becomes one where it is none.
    fn candidate(&self, field: usize, pair: TriadPair, candidates: &mut Vec<Candidate>) -> usize {
        let known = candidates.iter().position(|candidate| sounds_alike(candidate.pair, pair));
        known.unwrap_or_else(|| {
            let ground = self.fields[field].chord.and_then(|chord| self.grounds.get(chord));
            candidates.push(Candidate::new(pair, ground));
            candidates.len() - 1
        })
    }

    /// The roles of all notes; those that have none yet are read as a line of their own.
    fn read_the_rest(
        &self,
        roles: &[Option<Role>],
        candidates: &mut [Vec<Candidate>],
    ) -> Vec<Role> {
        let is_open = |at: &usize| roles[*at].is_none();
        let notes: Vec<Sounded> =
            (0..roles.len()).filter(is_open).map(|at| self.notes[at]).collect();
        let fields = Field::all(self.spans, &notes);
        let own = Candidate::all(&fields, &notes, self.grounds);
        let mut read = Line::new(&notes, &fields, &own).read().into_iter();
        let mut role = |(note, role): (usize, &Option<Role>)| {
            let role = role.or_else(|| read.next());
            match role.filter(|_| roles[note].is_none()) {
                Some(Role::Grouped { field, candidate, begins, .. }) => {
                    let (pair, span) = (own[field][candidate].pair, fields[field].span);
                    let there = self.fields.partition_point(|other| other.span < span);
                    self.grouped(there, note, begins, pair, candidates)
                }
                Some(Role::Free | Role::Unexplained) | None => role,
            }
        };
        let roles = roles.iter().enumerate().map(&mut role);
        roles.map(|role| role.unwrap_or(Role::Unexplained)).collect()
    }
}

/// The field in which a note begins.
fn field_of(fields: &[Field], note: usize) -> usize {
    fields.partition_point(|field| field.notes.end <= note)
}

/// The field whose chord a note speaks that is said to speak at a moment: its own or the next one.
fn spoken(
    spans: &[Span],
    fields: &[Field],
    note: usize,
    sounded: &Sounded,
    moment: Quarters,
) -> Option<usize> {
    let own = field_of(fields, note);
    if moment <= sounded.onset {
        return Some(own);
    }
    let later = fields.get(own + 1)?;
    let after = spans.partition_point(|span| span.from <= moment);
    (later.span + 1 == after && later.near.contains(&note)).then_some(own + 1)
}
