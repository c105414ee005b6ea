//! Charts from files of every kind.

use std::borrow::Cow;
use std::path::Path;

use fretloom_theory::{Chord, ScaleKind};

use super::refusal::Refusal;
use crate::library::{ChartFile, LoadedCharts, OpenedChart, Problem, ReadChart, bytes_of_file};
use crate::score_file::{self, LeadSheet};
use crate::words::{in_plain_words, nearest};

/// The chart in the bytes of a file of this name: TOML, bars as they are typed, or MusicXML, compressed
/// or not. What the file is, its content says. Scales of the player's `own` kinds are known by name.
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
    let wrong = |error| Refusal::ChartFile { name: name.to_owned(), error: Box::new(error) };
    if score_file::is_score(bytes) {
        return score_file::read_lead_sheet(bytes)
            .map(|sheet| of_sheet(name, sheet))
            .map_err(wrong);
    }
    let text = score_file::text(bytes).map_err(wrong)?;
    ReadChart::of_text(name, &with_line_feeds(&text), own)
        .map_err(|problems| Refusal::Chart { problems })
}

/// Lines that end with a carriage return alone end with a line feed; every byte stays where it is.
fn with_line_feeds(text: &str) -> Cow<'_, str> {
    if !text.contains('\r') {
        return text.into();
    }
    let next = text.chars().skip(1).map(Some).chain([None]);
    let ended = |(sign, next)| if sign == '\r' && next != Some('\n') { '\n' } else { sign };
    text.chars().zip(next).map(ended).collect()
}

/// A tune of a score. Its bars are told by where they stand and by what the score calls them.
fn of_sheet(name: &str, sheet: LeadSheet) -> ReadChart {
    let LeadSheet { chart, melody, measures, remarks } = sheet;
    let told = chart.bars.unread().map(|(index, bar)| {
        let at = measures.get(index);
        let called = at.map_or("", |measure| measure.name.as_str());
        // What the score has is told, not how a chart marks it.
        let riddle = bar.text().split_whitespace().find_map(|word| word.strip_prefix('?'));
        let mistake = riddle.and_then(|word| word.parse::<Chord>().err());
        let advice = mistake.as_ref().unwrap_or(bar.error()).advice();
        let found = riddle.unwrap_or(bar.text());
        let place = at.map_or((1, 1), |measure| (measure.line, measure.column));
        Problem::quoting(name, place, found, format!("{advice} (bar {called})"))
    });
    let problems = told.collect();
    ReadChart { melody, problems, remarks, ..ReadChart::of(chart) }
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

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(bytes: &[u8]) -> String {
        read_chart("own", bytes, &[]).unwrap_err().to_string()
    }

    /// Lines that end with a carriage return, as old machines wrote them, are lines.
    #[test]
    fn a_carriage_return_ends_a_line() {
        let read = read_chart("own", b"| Am7 | D7 |\r# by ear\r| G7 | Hx |\r", &[]).unwrap();
        assert_eq!(read.chart.bars.bars().len(), 4);
        assert!(read.problems[0].to_string().starts_with("own:3:8: found `Hx`"));
    }

    /// What a program writes that cannot read a bar either: a root that is not shown is none.
    #[test]
    fn a_root_that_is_not_shown_is_no_root() {
        let bar = |step: &str, kind: &str| {
            format!(
                "<measure><attributes><divisions>1</divisions></attributes><harmony><root>{step}\
                 </root>{kind}</harmony><note><rest/><duration>4</duration></note></measure>"
            )
        };
        let bars = bar("<root-step>C</root-step>", "<kind>major</kind>")
            + &bar("<root-step text=\"\">C</root-step>", "<kind text=\"D7x\">other</kind>");
        let score = format!("<score-partwise><part id=\"P1\">{bars}</part></score-partwise>");
        let read = read_chart("own", score.as_bytes(), &[]).unwrap();
        let told = read.problems[0].to_string();
        assert!(told.contains("found `D7x`"), "{told}");
    }

    /// `CNeapolitan` over the second of two bars, called 8.
    #[test]
    fn a_score_is_a_chart_whose_bars_are_told_by_what_it_calls_them() {
        let bar = |number: u8, kind: &str| {
            format!(
                "<measure number=\"{number}\"><attributes><divisions>1</divisions></attributes>\
                 <harmony><root><root-step>C</root-step></root><kind>{kind}</kind></harmony>\
                 <note><rest/><duration>4</duration></note></measure>"
            )
        };
        let bars = bar(7, "major") + &bar(8, "Neapolitan");
        let score = format!("<score-partwise><part id=\"P1\">{bars}</part></score-partwise>");
        let read = read_chart("own", score.as_bytes(), &[]).unwrap();
        assert_eq!(read.chart.bars.bars().len(), 2);
        let told: Vec<String> = read.problems.iter().map(ToString::to_string).collect();
        let column = score.find("<measure number=\"8\"").unwrap() + 1;
        let expected = "expected a quality (m, maj, dim, +, sus), a number, an alteration such as \
                        b9, add, no, alt, or /bass (bar 8)";
        assert_eq!(told, [format!("own:1:{column}: found `CNeapolitan`, {expected}")]);
    }

    #[test]
    fn what_is_no_chart_is_refused_and_soon() {
        let began = std::time::Instant::now();
        let many = "| C ".repeat(100_000);
        assert!(refused(many.as_bytes()).contains("expected at most 200000 characters"));
        let many = "C ".repeat(100_000);
        assert!(refused(many.as_bytes()).contains("expected at most 10000 bars to be heard"));
        let toml = format!("[[section]]\nbars = \"{}\"\n", "C ".repeat(99_999));
        assert!(refused(toml.as_bytes()).contains("own:2:20009: found `C`"));
        for (rubbish, said) in [
            (
                &b"\x7fELF\x02\x01\xff\xfe\x00"[..],
                "cannot read the chart own: byte 6: it is not UTF-8",
            ),
            (b"MThd\x00\x00", "it is music without chord symbols; expected a chart in TOML"),
            (b"PK\x03\x04", "cannot read the chart own: "),
            (b"", "own:1:1: expected a chord, or bars as in | Dm7 | G7 |"),
            (b"\x00\x01\x02", "own:1:1: "),
            (b"<html></html>", "expected MusicXML"),
        ] {
            assert!(refused(rubbish).contains(said), "{}", refused(rubbish));
        }
        assert!(began.elapsed().as_secs() < 20, "{:?}", began.elapsed());
    }

    /// A file that is there wins over a chart of that name, and may be saved; a tune of the program and
    /// a score may not.
    #[test]
    fn a_chart_is_opened_by_its_file_or_its_name() {
        let charts = LoadedCharts::load(None);
        let opened = open_chart("nine-doors-and-a-stair".as_ref(), &charts, &[]).unwrap();
        assert_eq!(opened.file, None);
        let file = std::env::temp_dir().join(format!("fretloom-open-{}", std::process::id()));
        std::fs::write(&file, "| Dm7 | G7 |").unwrap();
        let opened = open_chart(&file, &charts, &[]).unwrap();
        assert_eq!(opened.file.unwrap().path(), file);
        assert_eq!(opened.read.chart.to_string(), "| Dm7 | G7 |");
        std::fs::remove_file(&file).unwrap();
        let said = open_chart(&std::env::temp_dir(), &charts, &[]).unwrap_err().to_string();
        assert!(said.contains("it is not a file"), "{said}");
    }
}
