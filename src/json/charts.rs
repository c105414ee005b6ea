//! `charts`

use fretloom_theory::{Key, Meter, Tempo};
use serde::Serialize;

use super::AsJson;
use super::ascii::Ascii;
use crate::answer::{ChartAnswer, ChartsAnswer};

#[derive(Serialize)]
struct Charts<'a> {
    charts: Vec<Chart<'a>>,
}

#[derive(Serialize)]
struct Chart<'a> {
    id: &'a str,
    /// Title, key, tempo and feel are null where the chart does not say them.
    title: Option<&'a str>,
    key: Option<Ascii<Key>>,
    meter: Ascii<Meter>,
    tempo: Option<f64>,
    feel: Option<&'a str>,
    /// How many are heard once through.
    bars: usize,
    source: String,
}

impl<'a> Chart<'a> {
    fn new(answer: &'a ChartAnswer) -> Chart<'a> {
        let chart = &answer.chart;
        Chart {
            id: &answer.id,
            title: chart.title.as_deref(),
            key: chart.key.map(Ascii),
            meter: Ascii(chart.bars.meter()),
            tempo: chart.tempo.map(Tempo::a_minute),
            feel: chart.feel.as_deref(),
            bars: answer.bars(),
            source: answer.source.to_string(),
        }
    }
}

impl AsJson for ChartsAnswer {
    fn as_json(&self) -> impl Serialize {
        Charts { charts: self.charts.iter().map(Chart::new).collect() }
    }
}
