//! The state of the changes screen.

use std::ops::Range;
use std::sync::Arc;

use fretloom_theory::{BarText, Chart, Melody, Meter, ReadError};

use super::chart_list::ChartList;
use super::choices::Choices;
use super::chosen::{ChartInHand, Chosen, Page};
use super::comping::Comping;
use super::field::Field;
use super::files::Files;
use super::layout::lists_in_window;
use super::melody::MelodyInHand;
use super::place;
use super::plans::{Plans, Taken};
use super::sheet::{Cell, Sheet, SheetBar, Sounds};
use crate::answer::{ChangesChord, ChangesPlan, ChartMoment, TuneWishes};
use crate::library::{ChartFile, ReadChart};
use crate::tui::command::Section;
use crate::tui::found::{Found, FoundPlan};
use crate::tui::music_file::MusicFiles;
use crate::tui::runtime::Job;
use crate::tui::shared::Shared;

/// The changes screen: a tune, its plan, and the hand over it.
pub struct ChangesScreen {
    pub(super) chosen: Chosen,
    /// Its bars.
    pub(super) sheet: Sheet,
    pub(super) plans: Plans,
    /// What is listed to choose from over the chord in hand; none where nothing is.
    pub(super) choices: Option<Choices>,
    /// Which cell of the sheet the player is at.
    pub(super) cursor: usize,
    /// What is comped, once the tune was to be heard.
    pub(super) comping: Option<Arc<Comping>>,
    pub(super) field: Option<Field>,
    pub(super) list: Option<ChartList>,
    pub(super) files: Files,
    pub(super) music_files: MusicFiles,
    /// Has the player been here, today or another day?
    pub(super) was_opened: bool,
}

impl ChangesScreen {
    /// The screen before anybody has been there.
    pub(in crate::tui) fn new() -> ChangesScreen {
        let chosen = Chosen::first();
        ChangesScreen {
            sheet: chosen.sheet(),
            chosen,
            plans: Plans::default(),
            choices: None,
            cursor: 0,
            comping: None,
            field: None,
            list: None,
            files: Files::default(),
            music_files: MusicFiles::default(),
            was_opened: false,
        }
    }

    /// Comes to the front as it was left; the instrument may be another one.
    pub(in crate::tui) fn resume(&mut self, shared: &Shared) {
        self.was_opened = true;
        (self.field, self.list) = (None, None);
        self.chosen.area = place::on(self.chosen.area, shared.neck());
    }

    /// Comes to the front with a tune, which is that of a file if one is given.
    pub(in crate::tui) fn open(
        &mut self,
        tune: ReadChart,
        file: Option<ChartFile>,
        shared: &Shared,
    ) {
        self.resume(shared);
        let chart = ChartInHand::new(tune.chart);
        self.chosen.from = file.as_ref().map(|file| file.path().to_owned());
        if let Some(file) = file {
            self.files.know(file, chart.clone());
        }
        self.begin_with(Some(chart), tune.melody);
    }

    /// Begins with another tune, or with none. What was wished of the one before was meant for that.
    pub(super) fn begin_with(&mut self, chart: Option<ChartInHand>, melody: Melody) {
        (self.chosen.chart, self.chosen.plan, self.cursor) = (chart, 0, 0);
        self.chosen.melody = MelodyInHand::new(melody);
        (self.chosen.wishes, self.chosen.held) = (TuneWishes::NONE, Vec::new());
        self.sheet = self.chosen.sheet();
    }

    /// What is to be worked out, read and written. What is listed to choose from follows the chord in
    /// hand at once.
    pub(in crate::tui) fn jobs(&mut self, shared: &Shared) -> impl Iterator<Item = Job<Found>> {
        let lists = lists_in_window(&self.sheet, shared);
        let known = self.choices.take();
        let chord = self.chord().filter(|_| !lists.pairs.is_empty());
        self.choices = chord.map(|chord| Choices::of(chord, known, shared));
        let plan = self.plans.job(&self.chosen, shared, !lists.plans.is_empty());
        plan.into_iter().chain(self.files.take_job()).chain(self.music_files.take_job())
    }

    /// Takes what was worked out. Is it another plan?
    pub(in crate::tui) fn take_plan(&mut self, found: FoundPlan) -> bool {
        let taken = self.plans.take(found);
        let last = self.plans.number().saturating_sub(1);
        if !self.plans.is_waiting() {
            self.chosen.plan = self.chosen.plan.min(last);
        }
        taken == Taken::New
    }

    /// Takes this tune with what is typed in the place of some written bars; what belongs to a chord
    /// goes along with it.
    pub(super) fn retype(&mut self, bars: Range<usize>, typed: &str) -> Result<(), ReadError> {
        let Some(chart) = self.chosen.chart() else {
            let bars = BarText::read(typed, Meter::COMMON)?;
            self.take_chart(Chart::of(bars));
            return Ok(());
        };
        let retyped = chart.retyped_with(bars, typed, &self.chosen.moments())?;
        self.chosen.move_to(&retyped.moments);
        self.take_chart(retyped.chart);
        Ok(())
    }

    /// Takes another tune, or this one with something changed in it.
    pub(super) fn take_chart(&mut self, chart: Chart) {
        let bar = self.bar().map(|bar| bar.number);
        let beat = self.cell().map(|cell| cell.beat);
        self.chosen.chart = Some(ChartInHand::new(chart));
        let before = std::mem::replace(&mut self.sheet, self.chosen.sheet());
        let melody = std::mem::take(&mut self.chosen.melody);
        self.chosen.melody = melody.over(&before, &self.sheet);
        self.go_near(bar, beat);
    }

    /// Wishes this of the tune. Chords in brackets may come and go.
    pub(super) fn wish(&mut self, wishes: TuneWishes) {
        let at = (self.bar().map(|bar| bar.number), self.cell().map(|cell| cell.beat));
        (self.chosen.wishes, self.chosen.plan) = (wishes, 0);
        self.sheet = self.chosen.sheet();
        self.go_near(at.0, at.1);
    }

    /// When the chord in hand begins, by its bar and its beat.
    pub(super) fn moment(&self) -> Option<ChartMoment> {
        Some(ChartMoment { bar: self.bar()?.number, beat: self.cell()?.beat })
    }

    /// To the cell of a bar with this number that is on a beat, or the last one before.
    fn go_near(&mut self, bar: Option<u64>, beat: Option<fretloom_theory::ChartBeat>) {
        let (Some(number), Some(beat)) = (bar, beat) else { return self.stay_in_tune() };
        let before = |cell: &Cell| {
            let at = self.sheet.bars.get(cell.bar).map(|bar| bar.number);
            at.is_some_and(|at| (at, cell.beat) <= (number, beat))
        };
        self.cursor = self.sheet.cells.iter().take_while(|cell| before(cell)).count();
        self.cursor = self.cursor.saturating_sub(1);
        self.stay_in_tune();
    }

    fn stay_in_tune(&mut self) {
        self.cursor = self.cursor.min(self.sheet.cells.len().saturating_sub(1));
    }

    /// What is chosen now, to be taken back to.
    pub(in crate::tui) fn chosen(&self) -> &Chosen {
        &self.chosen
    }

    /// Chooses all this again.
    pub(in crate::tui) fn restore(&mut self, chosen: Chosen, shared: &Shared) {
        (self.field, self.list) = (None, None);
        let optional = self.chosen.wishes.optional;
        if chosen.chart != self.chosen.chart || chosen.wishes.optional != optional {
            self.sheet = chosen.sheet();
        }
        self.chosen = chosen;
        self.chosen.area = place::on(self.chosen.area, shared.neck());
        self.stay_in_tune();
    }

    /// The tune, as it can be turned back to.
    pub(in crate::tui) fn page(&self) -> Page {
        Page { chosen: self.chosen.clone() }
    }

    /// Turns to a tune.
    pub(in crate::tui) fn turn_to(&mut self, page: Page, shared: &Shared) {
        self.restore(page.chosen, shared);
    }

    /// Where keys are pressed now: on the screen, or in the field that lies over it.
    pub(in crate::tui) fn section(&self) -> Section {
        match (&self.list, &self.field) {
            (Some(_), _) => Section::Picking,
            (None, Some(_)) => Section::Typing,
            (None, None) => Section::Changes,
        }
    }

    /// The part of a bar at which the player is.
    pub(super) fn cell(&self) -> Option<&Cell> {
        self.sheet.cells.get(self.cursor)
    }

    /// Its bar.
    pub(super) fn bar(&self) -> Option<&SheetBar> {
        self.sheet.bar_of(self.cursor)
    }

    /// The plan that is chosen, as it was found last.
    #[must_use]
    pub fn plan(&self) -> Option<&ChangesPlan> {
        self.plans.last(self.chosen.plan)
    }

    /// The chord of the plan that sounds in a cell; none where the plan is of another chord, since it
    /// is being made anew.
    pub(super) fn planned(&self, cell: &Cell) -> Option<(usize, &ChangesChord)> {
        let (index, planned) = self.plan()?.at(cell.from)?;
        let is_it = matches!(&cell.sounds, Sounds::Chord(chord) if planned.chord() == chord);
        is_it.then_some((index, planned))
    }

    /// The chord in hand, with its pair.
    #[must_use]
    pub fn chord(&self) -> Option<&ChangesChord> {
        self.planned(self.cell()?).map(|(_, chord)| chord)
    }

    /// The chord that comes after it, after the last one the first where the tune goes round.
    pub(super) fn next_chord(&self) -> Option<&ChangesChord> {
        let (index, _) = self.planned(self.cell()?)?;
        let chords = &self.plan()?.chords;
        let goes_round = !self.chosen.wishes.plan.ends;
        chords.get(index + 1).or_else(|| chords.first().filter(|_| goes_round))
    }
}
