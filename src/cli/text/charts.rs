//! The charts that there are.

use super::table::{row, table};
use crate::answer::{ChartAnswer, ChartsAnswer};
use crate::library::Source;

/// `charts`
pub(in crate::cli) fn charts(answer: &ChartsAnswer) -> String {
    let head = row(["id", "bars", "meter", "key", "title"]);
    let rows = answer.charts.iter().map(chart);
    let rows: Vec<Vec<String>> = std::iter::once(head).chain(rows).collect();
    table(&rows) + LEGEND
}

const LEGEND: &str = "
fretloom changes ID plans one of them, fretloom line --chart ID makes a line.
Charts of your own lie in the folder charts beside your settings.
";

fn chart(answer: &ChartAnswer) -> Vec<String> {
    let chart = &answer.chart;
    let title = chart.title.as_deref().unwrap_or("-");
    vec![
        answer.id.clone(),
        answer.bars().to_string(),
        chart.bars.meter().to_string(),
        chart.key.map_or_else(|| "-".to_owned(), |key| key.to_string()),
        match &answer.source {
            Source::BuiltIn => title.to_owned(),
            Source::File(_) => format!("{title} ({})", answer.source),
        },
    ]
}
