//! Charts from files of every kind.

use std::path::Path;

use fretloom_theory::ScaleKind;

use super::refusal::Refusal;
use crate::library::{ChartFile, LoadedCharts, OpenedChart, ReadChart, bytes_of_file};
use crate::score_file;
use crate::words::{in_plain_words, nearest};

/// The chart in the bytes of a file of this name: TOML, or bars as they are typed. What the file is, its
/// content says. Scales of the player's `own` kinds are known by name.
///
/// # Errors
///
/// Where the bytes are none of these, and where the form of the tune stays uncertain. What costs less
/// is among the [problems](ReadChart::problems).
///
/// # Example
///
/// ```
/// use fretloom::answer::read_chart;
/// let read = read_chart("own", b"|: Dm7 | G7 :| Cmaj7 | % |", &[]).unwrap();
/// assert_eq!(read.chart.bars.bars().len(), 4);
/// let said = read_chart("own", b"|: Dm7 | G7 |", &[]).unwrap_err().to_string();
/// assert!(said.starts_with("own:1:1: found `|:`, expected a :| for this |:"));
/// ```
pub fn read_chart(name: &str, bytes: &[u8], own: &[ScaleKind]) -> Result<ReadChart, Refusal> {
    let no_text = |error| Refusal::ChartFile { name: name.to_owned(), error: Box::new(error) };
    let text = score_file::text(bytes).map_err(no_text)?;
    ReadChart::of_text(name, &text, own).map_err(|problems| Refusal::Chart { problems })
}

/// The chart of that file, or where there is no such file, of that id in the library.
///
/// # Errors
///
/// Where there is neither, where the file cannot be read, and where no chart can be made of it.
///
/// # Example
///
/// ```
/// use fretloom::answer::open_chart;
/// use fretloom::library::LoadedCharts;
/// let charts = LoadedCharts::load(None);
/// let opened = open_chart("salt-on-the-windowsill".as_ref(), &charts, &[]).unwrap();
/// assert_eq!(opened.read.chart.bars.meter().to_string(), "3/4");
/// let said = open_chart("salt-on-the-window".as_ref(), &charts, &[]).unwrap_err().to_string();
/// assert!(said.ends_with("did you mean salt-on-the-windowsill?"));
/// ```
pub fn open_chart(
    file: &Path,
    charts: &LoadedCharts,
    own: &[ScaleKind],
) -> Result<OpenedChart, Refusal> {
    if !file.exists() {
        return chart_of_id(&file.display().to_string(), charts, own);
    }
    let name = file.display().to_string();
    let bytes = bytes_of_file(file, score_file::LONGEST_FILE).map_err(|error| {
        Refusal::LineFile { name: name.clone(), reason: in_plain_words(&error) }
    })?;
    let read = read_chart(&name, &bytes, own)?;
    let text = String::from_utf8(bytes).ok().filter(|text| !score_file::is_score(text.as_bytes()));
    Ok(OpenedChart { read, file: text.map(|text| ChartFile::read(file.to_owned(), text)) })
}

/// The chart of the library with that id.
///
/// # Errors
///
/// Where there is none, and where no chart can be made of its file.
pub fn chart_of_id(
    id: &str,
    charts: &LoadedCharts,
    own: &[ScaleKind],
) -> Result<OpenedChart, Refusal> {
    let Some(known) = charts.by_id(id) else {
        let near = nearest(id.trim(), charts.iter().map(|known| known.id.as_str()));
        return Err(Refusal::NoChart { name: id.to_owned(), nearest: near.map(str::to_owned) });
    };
    known.open(own).map_err(|problems| Refusal::Chart { problems })
}
