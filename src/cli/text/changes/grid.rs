//! The bars of a chart, four to a line, with chord and pair in each.

use crate::answer::{BarChord, ChangesAnswer, ChangesBar, Sounding};

/// How wide a line is at most, where four bars fit.
const COLUMNS: usize = 80;

/// How much of a bar that cannot be read is shown.
const UNREAD: usize = 12;

/// A bar: the columns of its chords, each a symbol over a pair.
struct GridBar<'a> {
    bar: &'a ChangesBar,
    columns: Vec<[String; 2]>,
}

/// The bars, four in a line or two; a section begins with its name, and a pick-up stands alone.
pub(super) fn grid(answer: &ChangesAnswer) -> String {
    let mut meter = answer.chart.bars.meter();
    let mut bars = Vec::with_capacity(answer.bars.len());
    for bar in &answer.bars {
        let mut columns = columns(answer, bar);
        if let Some([symbol, _]) = columns.first_mut().filter(|_| bar.meter != meter) {
            *symbol = format!("{} {symbol}", bar.meter);
        }
        meter = bar.meter;
        bars.push(GridBar { bar, columns });
    }
    let content = bars.iter().map(GridBar::width).max().unwrap_or_default();
    let number = bars.iter().map(|bar| bar.number().len()).max().unwrap_or_default();
    let width = number + 2 + content;
    let in_a_line = if 4 * width + 3 * GAP <= COLUMNS { 4 } else { 2 };
    let line = |line: &[&GridBar<'_>]| {
        let row = |row: usize| {
            let cells = line.iter().map(|bar| {
                let number = if row == 0 {
                    format!("{:>number$}", bar.number())
                } else {
                    " ".repeat(number)
                };
                format!("{:width$}", format!("{number}  {}", bar.row(row)))
            });
            cells.collect::<Vec<_>>().join(&" ".repeat(GAP)).trim_end().to_owned() + "\n"
        };
        row(0) + &row(1)
    };
    let mut text = String::new();
    let mut section = None;
    for part in
        bars.chunk_by(|one, next| one.bar.section == next.bar.section && one.bar.number != 0)
    {
        let name = part.first().and_then(|bar| bar.bar.section.as_deref());
        if let Some(name) = name.filter(|name| Some(*name) != section) {
            text += &format!("\n[{name}]");
        }
        section = name;
        text += "\n";
        let bars: Vec<&GridBar<'_>> = part.iter().collect();
        text += &bars.chunks(in_a_line).map(line).collect::<String>();
    }
    text
}

/// Between two bars.
const GAP: usize = 2;

impl GridBar<'_> {
    fn number(&self) -> String {
        self.bar.number.to_string()
    }

    fn width(&self) -> usize {
        self.row(0).chars().count().max(self.row(1).chars().count())
    }

    /// Its symbols, or its pairs, lined up.
    fn row(&self, row: usize) -> String {
        let cell = |column: &[String; 2]| {
            let width = column.iter().map(|cell| cell.chars().count()).max().unwrap_or_default();
            let text = column.get(row).map(String::as_str).unwrap_or_default();
            format!("{text:width$}")
        };
        let cells: Vec<String> = self.columns.iter().map(cell).collect();
        cells.join("  ").trim_end().to_owned()
    }
}

fn columns(answer: &ChangesAnswer, bar: &ChangesBar) -> Vec<[String; 2]> {
    if let Some(unread) = &bar.unread {
        return vec![[clipped(unread.text()), "?".to_owned()]];
    }
    match bar.chords.as_slice() {
        [BarChord { sounding: Sounding::GoesOn(_), .. }] => {
            vec![["%".to_owned(), "=".to_owned()]]
        }
        chords => chords.iter().map(|chord| column(answer, chord)).collect(),
    }
}

fn column(answer: &ChangesAnswer, chord: &BarChord) -> [String; 2] {
    let index = chord.sounding.chord();
    let Some((index, planned)) = index.zip(index.and_then(|at| answer.best().chords.get(at)))
    else {
        return ["N.C.".to_owned(), String::new()];
    };
    let is_kept = chord.goes_on() || index > 0 && planned.is_kept();
    let pair = if is_kept { "=".to_owned() } else { planned.pair.to_string() };
    [planned.chord().to_string(), pair]
}

fn clipped(text: &str) -> String {
    match text.char_indices().nth(UNREAD) {
        Some((end, _)) => format!("{}…", text.get(..end).unwrap_or_default()),
        None => text.to_owned(),
    }
}
