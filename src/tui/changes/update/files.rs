//! Opening, saving and beginning tunes.

use std::path::Path;

use fretloom_theory::{Chart, Melody};

use super::super::chosen::ChartInHand;
use super::super::field::{Field, Typed};
use super::super::state::ChangesScreen;
use crate::library::{ChartNotSaved, text_of_chart};
use crate::tui::found::{OpenedChart, SavedChart};
use crate::tui::screen::ScreenEffect;
use crate::tui::shared::Shared;
use crate::tui::typed_path::path_of;
use crate::words::counted;

impl ChangesScreen {
    /// Another tune, of which nothing stands there yet: its bars are typed at once.
    pub(super) fn begin_new(&mut self) {
        self.chosen.from = None;
        self.begin_with(None, Melody::default());
        self.edit(Typed::Chords);
    }

    /// Saves the tune in its file; asks for a name where it has none.
    pub(super) fn save(&mut self, shared: &mut Shared) {
        let Some(chart) = &self.chosen.chart else { return Self::tell_no_bars(shared) };
        match &self.chosen.from {
            Some(path) if self.files.holds(path, chart) => {
                shared.tell(format!("{} holds it as it is", path.display()));
            }
            Some(path) => {
                let own = shared.library.scales.kinds().to_vec();
                self.files.save(path.clone(), chart, own);
            }
            None => self.edit(Typed::Save),
        }
    }

    pub(super) fn save_as(&mut self, shared: &mut Shared) {
        match self.chosen.chart {
            Some(_) => self.edit(Typed::Save),
            None => Self::tell_no_bars(shared),
        }
    }

    /// Has the tune written under a typed name; the field stays until that is done.
    pub(super) fn save_in(&mut self, typed: &str, shared: &mut Shared) -> bool {
        match (path_of(typed), &self.chosen.chart) {
            (Some(path), Some(chart)) => {
                self.files.save(path, chart, shared.library.scales.kinds().to_vec());
            }
            (None, _) => shared.tell("expected the name of a file"),
            (_, None) => Self::tell_no_bars(shared),
        }
        false
    }

    /// Asks for a name for the tune, this one to begin with.
    fn ask_for_name(&mut self, path: &Path) {
        if let Some(name) = path.to_str()
            && !self.field.as_ref().is_some_and(|field| field.what == Typed::Save)
        {
            self.field = Some(Field::new(Typed::Save, name));
        }
    }

    /// The name of the file in which the tune is.
    pub(super) fn path_in_words(&self) -> Option<String> {
        self.chosen.from.as_ref()?.to_str().map(str::to_owned)
    }

    /// Changes something that stands beside the bars.
    pub(super) fn change_chart(&mut self, change: impl FnOnce(&mut Chart)) -> bool {
        if let Some(chart) = self.chosen.chart() {
            let mut chart = chart.clone();
            change(&mut chart);
            self.take_chart(chart);
        }
        true
    }

    /// Copies the tune as a file has it.
    pub(super) fn copy_chart(&self, shared: &mut Shared) -> Vec<ScreenEffect> {
        match self.chosen.chart() {
            Some(chart) => {
                vec![ScreenEffect::Copy { what: "the tune", text: text_of_chart(chart) }]
            }
            None => {
                Self::tell_no_bars(shared);
                Vec::new()
            }
        }
    }
}

impl ChangesScreen {
    /// Takes a tune that was read, if it is still wanted.
    pub(in crate::tui) fn take_opened(&mut self, opened: OpenedChart, shared: &mut Shared) {
        if !self.files.wants(opened.number) {
            return;
        }
        let read = match opened.read {
            Ok(read) => read,
            Err(why) => return shared.tell(why),
        };
        let told = read.problems.first().map(|first| match read.problems.len() {
            1 => first.to_string(),
            count => format!("{} in the file; {first}", counted(count, "mistake")),
        });
        let told = told.or_else(|| read.remarks.first().cloned());
        shared.notice = told;
        let (chart, melody) = (ChartInHand::new(read.chart), read.melody);
        self.chosen.from = opened.file.as_ref().map(|file| file.path().to_owned());
        if let Some(file) = opened.file {
            self.files.know(file, chart.clone());
        }
        (self.field, self.list) = (None, None);
        self.begin_with(Some(chart), melody);
    }

    /// Hears what has become of a tune that was to be saved.
    pub(in crate::tui) fn take_saved(&mut self, saved: SavedChart, shared: &mut Shared) {
        let is_wanted = self.files.wants(saved.number);
        let SavedChart { path, chart, outcome, .. } = saved;
        match outcome {
            Ok(file) => {
                let chart = ChartInHand::sharing(chart);
                // Another tune may have come to the front meanwhile.
                if self.chosen.chart.as_ref() == Some(&chart) {
                    self.chosen.from = Some(path.clone());
                }
                self.files.know(file, chart);
                if is_wanted {
                    self.field = None;
                    let wished = match self.chosen.wishes.are_none() {
                        true => "",
                        false => "; what is wished is not saved with it",
                    };
                    shared.tell(format!("saved in {}{wished}", path.display()));
                }
            }
            Err(ChartNotSaved::Exists(path)) => {
                shared.tell(format!("{} is there already: once more replaces it", path.display()));
                self.ask_for_name(&path);
                self.files.there = Some(path);
            }
            Err(why @ ChartNotSaved::BarsAlone(_)) => {
                shared.tell(why.to_string());
                self.ask_for_name(&path.with_extension("toml"));
            }
            Err(why) => {
                shared.tell(why.to_string());
                self.ask_for_name(&path);
            }
        }
    }
}
