//! Where in a file the bars of a chart stand.

use std::ops::Range;

use fretloom_theory::BarFault;

use crate::library::Problem;
use crate::library::problem::line_and_column;

/// Where in a file a text of bars stands.
pub(super) enum BarsPlace {
    /// As it is written: it begins at this line and column, and goes on line by line.
    AsWritten { line: usize, column: usize },
    /// With signs that stand for others, so that only where it begins is known.
    Somewhere { line: usize, column: usize },
}

impl BarsPlace {
    /// That of a file which holds nothing else.
    pub(super) const fn whole() -> BarsPlace {
        BarsPlace::AsWritten { line: 1, column: 1 }
    }

    /// That of a text in quotes, which stands at `span` in the file.
    pub(super) fn in_quotes(content: &str, span: &Range<usize>, text: &str) -> BarsPlace {
        let written = content.get(span.clone()).unwrap_or_default();
        let quote = ["\"\"\"", "'''", "\"", "'"].into_iter().find_map(|quote| {
            let inner = written.strip_prefix(quote)?.strip_suffix(quote)?;
            // A line that ends with the quotes is no part of the text.
            let breaks = ["\r\n", "\n"].into_iter().filter(|_| quote.len() == 3);
            let skipped = breaks.into_iter().find(|end| inner.starts_with(end)).map_or(0, str::len);
            Some((quote.len() + skipped, inner.get(skipped..)?))
        });
        match quote {
            Some((before, inner)) if inner.lines().eq(text.lines()) => {
                let (line, column) = line_and_column(content, span.start + before);
                BarsPlace::AsWritten { line, column }
            }
            _ => {
                let (line, column) = line_and_column(content, span.start);
                BarsPlace::Somewhere { line, column }
            }
        }
    }

    /// A fault in these bars as a problem of the file.
    pub(super) fn problem(&self, file: &str, fault: &BarFault) -> Problem {
        let (in_line, at) = (fault.error.line().unwrap_or(1), fault.error.at());
        let (line, column) = match *self {
            BarsPlace::AsWritten { line, column } if in_line == 1 => (line, column + at - 1),
            BarsPlace::AsWritten { line, .. } => (line + in_line - 1, at),
            BarsPlace::Somewhere { line, column } => (line, column),
        };
        Problem::quoting(file, (line, column), &fault.word, fault.error.advice())
    }
}
