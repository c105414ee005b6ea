//! Rows of lists in which pairs and scales stand to be chosen.

use fretloom_theory::{Criterion, Degree, ScaleChoice};
use ratatui::text::{Line, Span};

use super::line::padded;
use crate::answer::{PairAnswer, TriadAnswer};
use crate::tui::theme::Theme;
use crate::words::spaced;

/// What stands in the columns of a pair.
pub(in crate::tui) struct PairRow {
    name: String,
    /// What the notes of either triad are.
    says: [String; 2],
    left_out: String,
    /// Why it stands where it does: as many phrases as there is room for, the weightiest first.
    why: Vec<String>,
}

/// How wide the columns of some pairs are: names, what is said, what is left out.
#[derive(Clone, Copy)]
pub(in crate::tui) struct PairColumns([usize; 3]);

impl PairRow {
    /// A pair with what counts for it and against it; before that what else there is to say of it.
    pub(in crate::tui) fn of(
        pair: &PairAnswer,
        first: impl IntoIterator<Item = String>,
    ) -> PairRow {
        let (good, bad): (Vec<Criterion>, Vec<Criterion>) =
            pair.sound.criteria().iter().partition(|criterion| criterion.points() > 0);
        let words = good.into_iter().chain(bad).map(|criterion| criterion.word().to_owned());
        PairRow {
            name: pair.name().to_string(),
            says: [&pair.first, &pair.second].map(|triad| says(triad, pair)),
            left_out: left_out(pair),
            why: first.into_iter().chain(words).collect(),
        }
    }

    /// With the sign between the triads.
    fn says_width(&self) -> usize {
        let [first, second] = &self.says;
        first.chars().count() + 3 + second.chars().count()
    }
}

impl PairColumns {
    /// Wide enough for all of these and for their headings.
    pub(in crate::tui) fn of(rows: &[PairRow]) -> PairColumns {
        let widest = |width: &dyn Fn(&PairRow) -> usize| rows.iter().map(width).max();
        PairColumns([
            widest(&|row| row.name.chars().count()).unwrap_or_default().max(4),
            widest(&PairRow::says_width).unwrap_or_default().max(4),
            widest(&|row| row.left_out.chars().count()).unwrap_or_default().max(10),
        ])
    }

    /// `   pair   says   leaves out  why`
    pub(in crate::tui) fn heading(self) -> String {
        let PairColumns([name, says, left_out]) = self;
        format!(
            "   {}  {}  {}  why",
            padded("pair", name),
            padded("says", says),
            padded("leaves out", left_out)
        )
    }

    /// A row of so many columns.
    pub(in crate::tui) fn line<'a>(
        self,
        row: &'a PairRow,
        width: u16,
        is_chosen: bool,
        theme: &Theme,
    ) -> Line<'a> {
        let PairColumns([name_width, says_width, left_out_width]) = self;
        let base = if is_chosen { theme.chosen } else { theme.text };
        let [first, second] = &row.says;
        let room = says_width.saturating_sub(row.says_width());
        let mut spans = vec![
            Span::styled(if is_chosen { " ▸ " } else { "   " }, base),
            Span::styled(padded(&row.name, name_width) + "  ", base),
            Span::styled(first, base.patch(theme.first)),
            Span::styled(" · ", theme.muted),
            Span::styled(second, base.patch(theme.second)),
            Span::raw(" ".repeat(room + 2)),
            Span::styled(padded(&row.left_out, left_out_width), base),
        ];
        let used = 3 + name_width + 2 + says_width + 2 + left_out_width + 2;
        let why = phrases_within(&row.why, usize::from(width).saturating_sub(used));
        spans.push(Span::styled(format!("  {why}"), theme.muted));
        spans.retain(|span| !span.content.is_empty());
        Line::from(spans)
    }
}

/// `▸ G Lydian  the ♯11 does not rub`
pub(in crate::tui) fn scale_line(
    choice: &ScaleChoice,
    is_chosen: bool,
    theme: &Theme,
) -> Line<'static> {
    let style = if is_chosen { theme.chosen } else { theme.text };
    Line::from(vec![
        Span::styled(if is_chosen { "▸ " } else { "  " }, style),
        Span::styled(choice.scale().to_string(), style),
        Span::styled(format!("  {}", choice.why()), theme.muted),
    ])
}

/// `1 3 5`, with a mark on what rubs.
pub(in crate::tui) fn says(triad: &TriadAnswer, pair: &PairAnswer) -> String {
    let marked = |degree: Degree| {
        let mark = if pair.rubs.contains(&degree) { RUBS } else { "" };
        format!("{degree}{mark}")
    };
    spaced(triad.degrees.map(marked))
}

/// What stands after a degree that rubs.
const RUBS: &str = "!";

/// As many phrases as fit, at least the first.
fn phrases_within(phrases: &[String], width: usize) -> String {
    let mut text = String::new();
    for phrase in phrases {
        let separator = if text.is_empty() { "" } else { ", " };
        let length = text.chars().count() + separator.len() + phrase.chars().count();
        if length > width && !text.is_empty() {
            break;
        }
        text = text + separator + phrase;
    }
    text
}

fn left_out(pair: &PairAnswer) -> String {
    let notes = pair.left_out.iter().map(|out| format!("{} {}", out.note, out.degree));
    notes.collect::<Vec<_>>().join(", ")
}
