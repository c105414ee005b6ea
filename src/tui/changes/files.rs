//! Files of tunes: what is to be read and written, and what has become of it.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use fretloom_theory::{Chart, ScaleKind};

use super::chosen::ChartInHand;
use crate::answer::read_chart;
use crate::library::{ChartFile, KnownChart, LONGEST_CHART};
use crate::tui::found::{Found, OpenedChart, SavedChart};
use crate::tui::runtime::{Job, Subject};
use crate::words::{in_plain_words, spaced};

/// The files that were read or written here.
#[derive(Default)]
pub(super) struct Files {
    known: Vec<Known>,
    /// How often something was asked for.
    count: u64,
    /// What is to be done with a file.
    job: Option<Job<Found>>,
    /// The file of that name that is there, and was not asked to be replaced before.
    pub(super) there: Option<PathBuf>,
}

/// A file, and the chart that it holds.
struct Known {
    file: ChartFile,
    chart: ChartInHand,
}

/// How many files are known at once.
const MOST: usize = 20;

impl Files {
    /// What is to be done now, once.
    pub(super) fn take_job(&mut self) -> Option<Job<Found>> {
        self.job.take()
    }

    /// Is this what was asked for last?
    pub(super) fn wants(&self, number: u64) -> bool {
        self.count == number
    }

    /// What is being done is no longer wanted.
    pub(super) fn forget(&mut self) {
        self.count += 1;
        self.there = None;
    }

    /// Does the file hold this chart?
    pub(super) fn holds(&self, path: &Path, chart: &ChartInHand) -> bool {
        self.known.iter().any(|known| known.file.path() == path && known.chart == *chart)
    }

    pub(super) fn know(&mut self, file: ChartFile, chart: ChartInHand) {
        self.known.retain(|known| known.file.path() != file.path());
        self.known.insert(0, Known { file, chart });
        self.known.truncate(MOST);
    }

    /// Has a file read.
    pub(super) fn open(&mut self, path: PathBuf, own: Vec<ScaleKind>) {
        self.count += 1;
        let number = self.count;
        let work = move |_: &_| Found::Opened(Box::new(opened(number, path, &own)));
        self.job = Some(Job::new(work).about(Subject::File));
    }

    /// Has a tune of the library read.
    pub(super) fn open_known(&mut self, known: KnownChart, own: Vec<ScaleKind>) {
        self.count += 1;
        let number = self.count;
        let work = move |_: &_| {
            let (file, read) = match known.open(&own) {
                Ok(opened) => (opened.file, Ok(opened.read)),
                Err(problems) => (None, Err(spaced(problems))),
            };
            Found::Opened(Box::new(OpenedChart { number, file, read }))
        };
        self.job = Some(Job::new(work).about(Subject::File));
    }

    /// Has a chart written: into the file that holds it, into a new one, or over one that is there
    /// and was told of before.
    pub(super) fn save(&mut self, path: PathBuf, chart: &ChartInHand, own: Vec<ScaleKind>) {
        self.count += 1;
        let (number, chart) = (self.count, chart.share());
        let known = self.known.iter().find(|known| known.file.path() == path);
        let known = known.map(|known| known.file.clone());
        let may_replace = self.there.take().is_some_and(|there| there == path);
        let work = move |_: &_| {
            let outcome = match known {
                Some(mut file) if !may_replace => file.save(&chart, &own).map(|()| file),
                _ if may_replace => ChartFile::replace(path.clone(), &chart),
                _ => ChartFile::create(path.clone(), &chart),
            };
            Found::Saved(Box::new(SavedChart { number, path, chart, outcome }))
        };
        self.job = Some(Job::new(work).about(Subject::File));
    }
}

fn opened(number: u64, path: PathBuf, own: &[ScaleKind]) -> OpenedChart {
    let name = path.display().to_string();
    let bytes = bytes(&path).map_err(|error| {
        format!("cannot read {name}: {}; expected a file with a chart", in_plain_words(&error))
    });
    let read = bytes.and_then(|bytes| {
        let read = read_chart(&name, &bytes, own).map_err(|refusal| refusal.to_string())?;
        // What is no text is saved under another name.
        let text = String::from_utf8(bytes).ok().filter(|text| !text.trim_start().starts_with('<'));
        Ok((read, text))
    });
    match read {
        Ok((read, text)) => {
            let file = text.map(|text| ChartFile::read(path, text));
            OpenedChart { number, file, read: Ok(read) }
        }
        Err(why) => OpenedChart { number, file: None, read: Err(why) },
    }
}

/// As much of a file as the longest chart has, and one byte, which tells that it is longer.
fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    // A pipe may have nobody who writes it.
    if !fs::metadata(path)?.is_file() {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    let mut bytes = Vec::new();
    File::open(path)?.take(LONGEST_CHART as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The name of a new file for a tune, without its ending: `two-doors`.
pub(super) fn name_for(chart: &Chart) -> String {
    let title = chart.title.as_deref().unwrap_or("tune").to_lowercase();
    let words = title.split(|sign: char| !sign.is_alphanumeric()).filter(|word| !word.is_empty());
    let name = words.collect::<Vec<_>>().join("-");
    let name: String = name.chars().take(60).collect();
    if name.is_empty() { "tune".to_owned() } else { name }
}

impl ChartInHand {
    fn share(&self) -> Arc<Chart> {
        Arc::clone(self.shared())
    }
}
