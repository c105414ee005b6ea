//! Columns as they come, one moment after another.

use fretloom_fretboard::{Fret, HandPosition, StringNumber};
use fretloom_theory::{Bar, ChordSymbol, Quarters, Slur};

use super::bar::{TabColumn, TabHold, TabNote, Turn};
use super::count::Count;
use super::event::TabMusic;
use super::moments::within;
use super::of_strings::OfStrings;
use super::slurs::slurs;
use super::timed::Timed;

/// Makes the columns of notes; moments are asked for in order.
pub(super) struct Columns<'a> {
    notes: &'a [Timed<'a>],
    /// By note.
    slurs: Vec<Option<Slur>>,
    chords: &'a [(Quarters, ChordSymbol)],
    /// Where notes begin that are no grace notes, in order.
    onsets: Vec<Quarters>,
    /// Where notes end, in order.
    ends: Vec<Quarters>,
    /// Where notes are tied, in order.
    ties: Vec<Quarters>,
    /// How many notes have had their column.
    done: usize,
    sounding: OfStrings<Sounding<'a>>,
    /// Has something stopped since the last note began?
    has_stopped: bool,
    position: Option<HandPosition>,
}

/// A note that has begun and goes on.
#[derive(Clone, Copy, Debug)]
struct Sounding<'a> {
    string: StringNumber,
    fret: Fret,
    end: Quarters,
    ties: &'a [Quarters],
    /// Does something begin or stop before it ends?
    must_be_held: bool,
}

impl<'a> Columns<'a> {
    pub(super) fn new(notes: &'a [Timed<'a>], music: &TabMusic<'a>) -> Columns<'a> {
        let sounding = || notes.iter().filter(|note| note.sounds_until().is_some());
        let mut ends: Vec<Quarters> = sounding().map(|note| note.end).collect();
        let tied = |note: &'a Timed<'a>| {
            let within = move |tie: &&Quarters| note.event.onset < **tie && **tie < note.end;
            note.event.ties.iter().filter(within).copied()
        };
        let mut ties: Vec<Quarters> = sounding().flat_map(tied).collect();
        ends.sort_unstable();
        ties.sort_unstable();
        let on_time = notes.iter().filter(|note| !note.is_grace());
        Columns {
            notes,
            slurs: slurs(notes),
            chords: music.chords.changes(),
            onsets: on_time.map(|note| note.event.onset).collect(),
            ends,
            ties,
            done: 0,
            sounding: OfStrings::default(),
            has_stopped: true,
            position: None,
        }
    }

    /// The next moment, from this one on, at which there is something to be said. That notes end
    /// there is said anyway.
    pub(super) fn next_mark(&self, from: Quarters) -> Option<Quarters> {
        let note = self.notes.get(self.done).map(|note| note.event.onset);
        let end = after(&self.ends, from);
        let tie = from_on(&self.ties, from, |tie| *tie);
        let chord = from_on(self.chords, from, |(chord, _)| *chord);
        [note, end, tie, chord].into_iter().flatten().min()
    }

    /// When something happens in a bar, in order, counted from its beginning.
    pub(super) fn marks_in(&self, bar: &Bar) -> Vec<Quarters> {
        let mut marks = Vec::new();
        let onsets = self.notes.iter().skip(self.done).map(|note| note.event.onset);
        let ends = later(&self.ends, bar.from, |end| *end);
        let ties = later(&self.ties, bar.from, |tie| *tie);
        let chords = later(self.chords, bar.from, |(chord, _)| *chord);
        marks.extend(onsets.map_while(|onset| within(bar, onset)));
        marks.extend(ends.map_while(|end| within(bar, end)));
        marks.extend(ties.map_while(|tie| within(bar, tie)));
        marks.extend(chords.map_while(|chord| within(bar, chord)));
        marks.sort_unstable();
        marks.dedup();
        marks
    }

    /// The columns of a moment: grace notes, then what is on time, then what comes after it.
    pub(super) fn at(
        &mut self,
        moment: Quarters,
        count: Count,
        begins_bar: bool,
    ) -> Vec<TabColumn> {
        self.has_stopped |= self.sounding.keep(|note| note.end > moment);
        let held = self.held(moment, begins_bar);
        let column = |count, turn| TabColumn {
            moment,
            count,
            turn,
            chord: None,
            position: None,
            notes: Vec::new(),
            held: held.clone(),
        };
        let mut columns = Vec::new();
        let mut on_time = None;
        while let Some(notes) = self.next_at(moment) {
            let is_grace = notes.first().is_some_and(Timed::is_grace);
            let own = if is_grace { Count::Grace } else { Count::Rolled };
            if !is_grace && on_time.is_none() {
                on_time = Some(columns.len());
            }
            let mut begun = column(own, Turn::Begins);
            self.begin(notes, &mut begun);
            columns.push(begun);
        }
        let on_time = on_time.unwrap_or_else(|| {
            let turn = if self.has_stopped { Turn::Stops } else { Turn::GoesOn };
            columns.push(column(count, turn));
            columns.len() - 1
        });
        if let Some(column) = columns.get_mut(on_time) {
            column.count = count;
            column.chord = self.chord_at(moment);
        }
        columns
    }

    /// The next notes that begin at this moment and have one place there.
    fn next_at(&mut self, moment: Quarters) -> Option<&'a [Timed<'a>]> {
        let rest = self.notes.get(self.done..)?;
        let first = rest.first().filter(|note| note.event.onset <= moment)?;
        let count = rest.iter().take_while(|note| note.is_with(first)).count();
        self.done += count;
        rest.get(..count)
    }

    fn begin(&mut self, notes: &'a [Timed<'a>], column: &mut TabColumn) {
        let first = self.done - notes.len();
        for (note, slur) in notes.iter().zip(self.slurs.get(first..).unwrap_or_default()) {
            let event = note.event;
            column.notes.push(TabNote {
                event: note.index,
                string: event.string,
                fret: event.fret,
                finger: event.finger,
                degree: event.degree,
                name: event.name,
                triad: None,
                accent: event.accent,
                stroke: event.stroke,
                slur: *slur,
            });
        }
        notes.iter().for_each(|note| self.sound(note));
        let position = notes.iter().find_map(|note| note.event.position);
        if let Some(position) = position.filter(|position| self.position != Some(*position)) {
            column.position = Some(position);
            self.position = Some(position);
        }
    }

    fn sound(&mut self, note: &'a Timed<'a>) {
        if note.is_grace() {
            return;
        }
        self.has_stopped = false;
        let Some(end) = note.sounds_until() else { return };
        let event = note.event;
        let next_turn = [&self.onsets, &self.ends].map(|turns| after(turns, event.onset));
        let must_be_held = next_turn.into_iter().flatten().any(|turn| turn < end);
        let (string, fret, ties) = (event.string, event.fret, event.ties.as_slice());
        self.sounding.put(string, Sounding { string, fret, end, ties, must_be_held });
    }

    /// What goes on at a moment and must be said to.
    fn held(&self, moment: Quarters, begins_bar: bool) -> Vec<TabHold> {
        let hold = |note: &Sounding<'_>| {
            let is_tied = begins_bar || note.ties.contains(&moment);
            let tied = is_tied.then_some(note.fret);
            (is_tied || note.must_be_held).then_some(TabHold { string: note.string, tied })
        };
        self.sounding.all().filter_map(hold).collect()
    }

    fn chord_at(&self, moment: Quarters) -> Option<ChordSymbol> {
        let at = self.chords.binary_search_by_key(&moment, |(from, _)| *from).ok()?;
        self.chords.get(at).map(|(_, chord)| chord.clone())
    }
}

/// The first of these moments, which are in order, after another.
fn after(moments: &[Quarters], moment: Quarters) -> Option<Quarters> {
    let index = moments.partition_point(|other| *other <= moment);
    moments.get(index).copied()
}

/// The moments of these things, which are in order, from one on.
fn later<T>(
    things: &[T],
    from: Quarters,
    moment: impl Fn(&T) -> Quarters + Copy,
) -> impl Iterator<Item = Quarters> {
    let index = things.partition_point(|thing| moment(thing) < from);
    things.get(index..).unwrap_or_default().iter().map(moment)
}

fn from_on<T>(
    things: &[T],
    from: Quarters,
    moment: impl Fn(&T) -> Quarters + Copy,
) -> Option<Quarters> {
    later(things, from, moment).next()
}
