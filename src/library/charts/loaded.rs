//! The charts there are, built in and the player's own.

use std::path::{Path, PathBuf};

use fretloom_theory::ScaleKind;

use super::built_in::BUILT_IN;
use super::file::ChartFile;
use super::read_chart::ReadChart;
use crate::library::files::{read_text, toml_files, unreadable};
use crate::library::{Problem, Source};

/// The folder in the player's folder.
const FOLDER: &str = "charts";

/// A chart of the library, which is not read before it is wanted: a player may have hundreds.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct KnownChart {
    /// What it is asked for by: the name of its file without the ending.
    pub id: String,
    /// Where it comes from.
    pub source: Source,
    /// The text of one that is built in.
    text: Option<&'static str>,
}

/// A chart with the file that it is saved in, if there is one that may be written.
#[derive(Clone, PartialEq, Debug)]
pub struct OpenedChart {
    /// The chart.
    pub read: ReadChart,
    /// Its file; `None` for a tune that is built in, and for files that are no text of a chart.
    pub file: Option<ChartFile>,
}

/// The charts there are: the built-in tunes, and the TOML files in the player's folder `charts`.
///
/// # Example
///
/// ```
/// use fretloom::library::LoadedCharts;
/// let charts = LoadedCharts::load(None);
/// let known = charts.by_id("nine-doors-and-a-stair").unwrap();
/// assert_eq!(known.source.to_string(), "built in");
/// let opened = known.open(&[]).unwrap();
/// assert_eq!(opened.read.chart.title.as_deref(), Some("Nine Doors and a Stair"));
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LoadedCharts {
    charts: Vec<KnownChart>,
    folder: Option<PathBuf>,
    /// That the folder cannot be read.
    problem: Option<Problem>,
}

impl LoadedCharts {
    /// The built-in tunes, and the files in the folder `charts` of the player's `config_folder`, by name. A
    /// player's chart with the id of a built-in one replaces it.
    #[must_use]
    pub fn load(config_folder: Option<&Path>) -> LoadedCharts {
        let built_in = BUILT_IN.iter().map(|(id, text)| KnownChart {
            id: (*id).to_owned(),
            source: Source::BuiltIn,
            text: Some(text),
        });
        let folder = config_folder.map(|config| config.join(FOLDER));
        let mut loaded =
            LoadedCharts { charts: built_in.collect(), folder: folder.clone(), problem: None };
        match folder.as_deref().map(|folder| (folder, toml_files(folder))) {
            Some((_, Ok(files))) => files.into_iter().for_each(|path| loaded.put(path)),
            Some((folder, Err(error))) => {
                loaded.problem = Some(unreadable(folder, "a folder", &error));
            }
            None => {}
        }
        loaded
    }

    fn put(&mut self, path: PathBuf) {
        let id = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let own = KnownChart { id, source: Source::File(path), text: None };
        match self.charts.iter_mut().find(|there| there.id == own.id) {
            Some(there) => *there = own,
            None => self.charts.push(own),
        }
    }

    /// The charts: built-in ones first.
    pub fn iter(&self) -> impl Iterator<Item = &KnownChart> {
        self.charts.iter()
    }

    /// The chart with that id; upper and lower case are the same.
    #[must_use]
    pub fn by_id(&self, id: &str) -> Option<&KnownChart> {
        self.charts.iter().find(|chart| chart.id.eq_ignore_ascii_case(id.trim()))
    }

    /// Where the player's own chart of that title would be saved; `None` without a folder of theirs.
    ///
    /// ```
    /// use std::path::Path;
    /// use fretloom::library::LoadedCharts;
    /// let charts = LoadedCharts::load(Some(Path::new("no-such-folder")));
    /// let place = charts.place_of("A Tune, at Last!").unwrap();
    /// assert!(place.ends_with("charts/a-tune-at-last.toml"));
    /// ```
    #[must_use]
    pub fn place_of(&self, title: &str) -> Option<PathBuf> {
        let words = title.split(|sign: char| !sign.is_alphanumeric() && sign != '\'');
        let words = words.map(|word| word.replace('\'', "").to_lowercase());
        let words: Vec<String> = words.filter(|word| !word.is_empty()).collect();
        let id: String = words.join("-").chars().take(LONGEST_ID).collect();
        let id = if id.is_empty() { "tune" } else { &id };
        self.folder.as_ref().map(|folder| folder.join(format!("{id}.toml")))
    }

    /// Everything in the player's charts that could not be used; reads all of them.
    #[must_use]
    pub fn problems(&self, own: &[ScaleKind]) -> Vec<Problem> {
        let is_own = |chart: &&KnownChart| chart.text.is_none();
        let read = self.charts.iter().filter(is_own).flat_map(|chart| match chart.open(own) {
            Ok(opened) => opened.read.problems,
            Err(problems) => problems,
        });
        self.problem.iter().cloned().chain(read).collect()
    }
}

/// Names of files may be longer nearly everywhere. In characters.
const LONGEST_ID: usize = 60;

impl KnownChart {
    /// Reads it. Scales of the player's `own` kinds are known by name.
    ///
    /// # Errors
    ///
    /// Where its file cannot be read, and where no chart can be made of it.
    pub fn open(&self, own: &[ScaleKind]) -> Result<OpenedChart, Vec<Problem>> {
        match (&self.source, self.text) {
            (Source::File(path), None) => {
                let text =
                    read_text(path).map_err(|error| vec![unreadable(path, "a file", &error)])?;
                let read = ReadChart::of_text(&path.display().to_string(), &text, own)?;
                Ok(OpenedChart { read, file: Some(ChartFile::read(path.clone(), text)) })
            }
            (_, text) => {
                let file = format!("assets/charts/{}.toml", self.id);
                let read = ReadChart::of_text(&file, text.unwrap_or_default(), own)?;
                Ok(OpenedChart { read, file: None })
            }
        }
    }
}
