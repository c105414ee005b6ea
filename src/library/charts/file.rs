//! Files of charts that are written.

use std::path::{Path, PathBuf};
use std::{fmt, fs, io};

use fretloom_theory::{Chart, ScaleKind};

use super::edited::edited_text;
use super::of_text::is_toml;
use super::read_chart::ReadChart;
use super::written::text_of_chart;
use crate::library::staged_file::StagedFile;
use crate::words::in_plain_words;

/// A file that a chart has been read from or written to, as far as this program knows it.
///
/// It is replaced whole, and only while its text is the one that is known: what somebody else has
/// written there meanwhile stays.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ChartFile {
    path: PathBuf,
    text: String,
}

/// Why a chart was not saved. The file is as it was.
#[derive(Debug)]
#[non_exhaustive]
pub enum ChartNotSaved {
    /// There is a file of that name already.
    Exists(PathBuf),
    /// Somebody has written the file since it was read.
    Changed(PathBuf),
    /// It holds bars alone, in which nothing is settled, and would become TOML.
    BarsAlone(PathBuf),
    /// It is no TOML any more where it is broken, and would lose that.
    Broken(PathBuf),
    /// The system refuses.
    System(PathBuf, io::Error),
}

impl ChartFile {
    /// The file from which this text has been read.
    #[must_use]
    pub fn read(path: PathBuf, text: String) -> ChartFile {
        ChartFile { path, text }
    }

    /// Writes a chart to a new file, with the folder it is in.
    ///
    /// # Errors
    ///
    /// Where there is a file of that name, and where the system refuses.
    pub fn create(path: PathBuf, chart: &Chart) -> Result<ChartFile, ChartNotSaved> {
        let file = ChartFile { text: text_of_chart(chart), path };
        let refused = |error: io::Error| match error.kind() {
            io::ErrorKind::AlreadyExists => ChartNotSaved::Exists(file.path.clone()),
            _ => ChartNotSaved::System(file.path.clone(), error),
        };
        let folder = file.path.parent().unwrap_or(Path::new(""));
        fs::create_dir_all(folder).map_err(refused)?;
        let staged = StagedFile::write(&file.path, file.text.as_bytes()).map_err(refused)?;
        staged.put_new(&file.path).map_err(refused)?;
        Ok(file)
    }

    /// Writes a chart over whatever file is there.
    ///
    /// # Errors
    ///
    /// Where the system refuses.
    pub fn replace(path: PathBuf, chart: &Chart) -> Result<ChartFile, ChartNotSaved> {
        let mut file = ChartFile { text: String::new(), path };
        file.write(text_of_chart(chart))?;
        Ok(file)
    }

    /// Where it is.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Writes a chart in the place of the one that is there. Comments, unknown keys and what could not
    /// be used stay. Scales of the player's `own` kinds are known by name.
    ///
    /// # Errors
    ///
    /// Where the file is not as it was left, where it holds bars alone, where it holds lines that are no TOML, which would be
    /// lost, and where the system refuses.
    pub fn save(&mut self, chart: &Chart, own: &[ScaleKind]) -> Result<(), ChartNotSaved> {
        let there = fs::read(&self.path);
        let there = there.map_err(|error| ChartNotSaved::System(self.path.clone(), error))?;
        if there != self.text.as_bytes() {
            return Err(ChartNotSaved::Changed(self.path.clone()));
        }
        if !is_toml(&self.text) {
            return Err(ChartNotSaved::BarsAlone(self.path.clone()));
        }
        if ReadChart::is_broken_toml(&self.text) {
            return Err(ChartNotSaved::Broken(self.path.clone()));
        }
        self.write(edited_text(&self.text, chart, own))
    }

    fn write(&mut self, text: String) -> Result<(), ChartNotSaved> {
        let staged = StagedFile::write(&self.path, text.as_bytes());
        let put = staged.and_then(|staged| staged.put_over(&self.path));
        put.map_err(|error| ChartNotSaved::System(self.path.clone(), error))?;
        self.text = text;
        Ok(())
    }
}

impl fmt::Display for ChartNotSaved {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ChartNotSaved::Exists(path) => {
                let path = path.display();
                write!(f, "{path} is there already; expected the name of a new file")
            }
            ChartNotSaved::BarsAlone(path) => {
                let path = path.display();
                write!(
                    f,
                    "{path} holds bars alone; expected the name of a new file for the whole tune"
                )
            }
            ChartNotSaved::Changed(path) => {
                let path = path.display();
                write!(
                    f,
                    "{path} has been changed since it was read; expected another name, or it read again"
                )
            }
            ChartNotSaved::Broken(path) => {
                let path = path.display();
                write!(
                    f,
                    "{path} holds lines that are no TOML; expected them mended, or another name"
                )
            }
            ChartNotSaved::System(path, error) => {
                let (path, why) = (path.display(), in_plain_words(error));
                write!(f, "cannot write the chart {path}: {why}; expected a place for a file")
            }
        }
    }
}

impl std::error::Error for ChartNotSaved {}
