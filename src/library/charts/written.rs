//! Charts as the text of a file.

use std::fmt::{Display, Write};

use fretloom_theory::{Chart, ChartChoice, Meter, PickUp, Scale};

use crate::library::in_quotes::quoted;

/// The text of a file with this chart, which [`ReadChart::of_text`](super::ReadChart::of_text) reads.
///
/// ```
/// use fretloom::library::{ReadChart, text_of_chart};
/// let text = "title = \"Two Doors\"\n\n[[section]]\nname = \"A\"\nbars = \"|: Dm7 | G7 :|\"\n";
/// let read = ReadChart::of_text("own.toml", text, &[]).unwrap();
/// assert_eq!(text_of_chart(&read.chart), text);
/// ```
#[must_use]
pub fn text_of_chart(chart: &Chart) -> String {
    let mut text = String::new();
    for (key, value) in head(chart) {
        line(&mut text, key, value);
    }
    for (name, bars) in sections(chart) {
        text.push_str(if text.is_empty() { "" } else { "\n" });
        text.push_str("[[section]]\n");
        if let Some(name) = name {
            line(&mut text, "name", quoted(&name));
        }
        line(&mut text, "bars", bars);
    }
    for choice in &chart.choices {
        text.push_str("\n[[choice]]\n");
        line(&mut text, "bar", choice.bar);
        for (key, value) in chosen(choice) {
            line(&mut text, key, value);
        }
    }
    text
}

/// The keys that may stand above the sections.
pub(super) const HEAD_KEYS: [&str; 6] = ["title", "key", "meter", "tempo", "feel", "pickup"];

/// What stands above the sections, each as it is written.
pub(super) fn head(chart: &Chart) -> Vec<(&'static str, String)> {
    let meter = chart.bars.meter();
    let pairs = [
        ("title", chart.title.as_deref().map(quoted)),
        ("key", chart.key.map(|key| quoted(&format!("{key:#}")))),
        ("meter", (meter != Meter::COMMON).then(|| quoted(&meter.to_string()))),
        ("tempo", chart.tempo.map(|tempo| tempo.to_string())),
        ("feel", chart.feel.as_deref().map(quoted)),
        ("pickup", chart.bars.pick_up().map(pick_up)),
    ];
    pairs.into_iter().filter_map(|(key, value)| Some((key, value?))).collect()
}

fn pick_up(beats: PickUp) -> String {
    let written = beats.to_string();
    if written.contains('/') { quoted(&written) } else { written }
}

/// The sections by name, each with its bars in quotes.
pub(super) fn sections(chart: &Chart) -> Vec<(Option<String>, String)> {
    let parts = chart.bars.parts();
    parts.map(|part| (part.name().map(str::to_owned), in_quotes(&format!("{part:#}")))).collect()
}

/// Bars in quotes, which go over several lines where the bars do.
fn in_quotes(bars: &str) -> String {
    if !bars.contains('\n') {
        return quoted(bars);
    }
    let lines = bars.lines().map(|line| {
        let line = quoted(line);
        line.get(1..line.len() - 1).unwrap_or_default().to_owned() + "\n"
    });
    format!("\"\"\"\n{}\"\"\"", lines.collect::<String>())
}

/// What a choice says besides its bar.
pub(super) fn chosen(choice: &ChartChoice) -> Vec<(&'static str, String)> {
    let beat = choice.beat.whole();
    let beat = beat.map_or_else(|| quoted(&choice.beat.to_string()), |beat| beat.to_string());
    let scale = choice.scale.as_ref().map(|scale| quoted(&as_asked(scale)));
    let pair = choice.pair.map(|[one, other]| quoted(&format!("{one:#} & {other:#}")));
    let pairs = [("beat", Some(beat)), ("scale", scale), ("pair", pair)];
    pairs.into_iter().filter_map(|(key, value)| Some((key, value?))).collect()
}

/// A scale by the root that it has been asked for by, which may be another name of its own.
fn as_asked(scale: &Scale) -> String {
    let (text, root) = (format!("{scale:#}"), format!("{:#}", scale.root()));
    match (scale.respelled_from(), text.strip_prefix(&root)) {
        (Some(asked), Some(rest)) => format!("{asked:#}{rest}"),
        (None, _) | (_, None) => text,
    }
}

fn line(text: &mut String, key: &str, value: impl Display) {
    // Writing to a text does not fail.
    let _ = writeln!(text, "{key} = {value}");
}
