//! All about the chosen pair, on the whole screen.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Line;

use super::super::drawing::Drawing;
use crate::answer::{PairAnswer, TriadAnswer};
use crate::tui::widget::{below, broken, list_rows, says, write};
use crate::words::spaced;

/// A heading in the left column, and what is said under it.
type Fact = (&'static str, String);

/// The width of the column of headings.
const HEADINGS: u16 = 14;

impl Drawing<'_> {
    /// The page from its line `top` on.
    pub(super) fn draw_details(&self, area: Rect, buffer: &mut Buffer, top: usize) {
        let title = match self.explore.pair() {
            Some(pair) => format!(" {} over {}", pair.name(), self.over()),
            None => " this scale holds no pair".to_owned(),
        };
        write(buffer, area, &Line::styled(title, self.shared.theme.title));
        let rows = list_rows(area);
        let lines = self.detail_lines(area.width).into_iter().skip(top);
        for ((text, style), row) in lines.zip(0..rows.height) {
            write(buffer, below(rows, row), &Line::styled(text, style));
        }
        self.draw_list_footer(area, buffer);
    }

    /// `Gmaj7♯11 in G Lydian`
    fn over(&self) -> String {
        let scale = self.explore.shown.pairs.harmony.scale().scale().to_string();
        format!("{} in {scale}", self.explore.chosen.chord.read.chord)
    }

    /// The lines of the page, broken to a width, each with its style.
    pub(in crate::tui::explore) fn detail_lines(&self, width: u16) -> Vec<(String, Style)> {
        let Some(pair) = self.explore.pair() else { return Vec::new() };
        let theme = &self.shared.theme;
        let styles = [theme.first, theme.second];
        let facts = facts(pair).into_iter().enumerate();
        facts
            .flat_map(|(index, (heading, words))| {
                let style = styles.get(index).copied().unwrap_or(theme.text);
                let lines = broken(&words, width.saturating_sub(HEADINGS + 2));
                lines.into_iter().enumerate().map(move |(line, words)| {
                    let heading = if line == 0 { heading } else { "" };
                    (format!(" {heading:<w$} {words}", w = usize::from(HEADINGS)), style)
                })
            })
            .collect()
    }
}

/// The two triads first, then what the pair says, leaves out and serves.
fn facts(pair: &PairAnswer) -> Vec<Fact> {
    let none = |list: String| if list.is_empty() { "none".to_owned() } else { list };
    let left_out = pair.left_out.iter().map(|out| format!("{} {}", out.note, out.degree));
    let mut facts = vec![
        ("first triad", triad(&pair.first, pair)),
        ("second triad", triad(&pair.second, pair)),
        ("why", pair.why.to_string()),
        ("leaves out", none(left_out.collect::<Vec<_>>().join(", "))),
        ("rubs", none(spaced(&pair.rubs))),
        ("tensions", none(spaced(&pair.tensions))),
        ("of the chord", of_the_chord(pair)),
    ];
    if !pair.outside.is_empty() {
        facts.push(("outside", spaced(&pair.outside)));
    }
    facts.push(("counts", counts(pair)));
    facts.push((
        "also serves",
        none(pair.also_fits.iter().map(ToString::to_string).collect::<Vec<_>>().join("  ")),
    ));
    facts.push(("in theory", pair.as_a_set()));
    facts
}

/// `[G]  G B D   1 3 5`
fn triad(triad: &TriadAnswer, pair: &PairAnswer) -> String {
    format!("{}   {}   {}", triad.name, spaced(triad.name.notes()), says(triad, pair))
}

/// `all but 5 7`, or that nothing of what the symbol names is missing.
fn of_the_chord(pair: &PairAnswer) -> String {
    if pair.drops_named.is_empty() {
        return "every tone that its symbol names".to_owned();
    }
    format!("all that its symbol names but {}", spaced(&pair.drops_named))
}

/// What the place in the list is the sum of: `two majors a step apart +8, a rub -2: 6 in all`
fn counts(pair: &PairAnswer) -> String {
    let criteria = pair.sound.criteria();
    let words = criteria.iter().map(|one| format!("{} {:+}", one.word(), one.points()));
    let sum: i32 = criteria.iter().map(|one| one.points()).sum();
    format!("{}: {sum} in all", words.collect::<Vec<_>>().join(", "))
}
