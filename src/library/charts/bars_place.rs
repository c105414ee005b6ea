//! Where in a file the bars of a chart stand.

use std::ops::Range;

use fretloom_theory::BarFault;

use crate::library::Problem;
use crate::library::problem::line_and_column;

/// Where in a file a text of bars stands. Lines are counted where there is a fault alone, so that a
/// file of many sections is not gone through for each of them.
pub(super) struct BarsPlace<'a> {
    content: &'a str,
    /// The byte of the file with which the text begins.
    begins: usize,
    /// Does it stand there sign by sign? Else only where it begins is known.
    is_as_written: bool,
}

impl<'a> BarsPlace<'a> {
    /// That of a file which holds nothing else.
    pub(super) const fn whole(content: &'a str) -> BarsPlace<'a> {
        BarsPlace { content, begins: 0, is_as_written: true }
    }

    /// That of a text in quotes, which stands at `span` in the file.
    pub(super) fn in_quotes(content: &'a str, span: &Range<usize>, text: &str) -> BarsPlace<'a> {
        let written = content.get(span.clone()).unwrap_or_default();
        let quote = ["\"\"\"", "'''", "\"", "'"].into_iter().find_map(|quote| {
            let inner = written.strip_prefix(quote)?.strip_suffix(quote)?;
            // A line that ends with the quotes is no part of the text.
            let breaks = ["\r\n", "\n"].into_iter().filter(|_| quote.len() == 3);
            let skipped = breaks.into_iter().find(|end| inner.starts_with(end)).map_or(0, str::len);
            Some((quote.len() + skipped, inner.get(skipped..)?))
        });
        let as_written = quote.filter(|(_, inner)| inner.lines().eq(text.lines()));
        let before = as_written.map_or(0, |(before, _)| before);
        BarsPlace { content, begins: span.start + before, is_as_written: as_written.is_some() }
    }

    /// A fault in these bars as a problem of the file.
    pub(super) fn problem(&self, file: &str, fault: &BarFault) -> Problem {
        let (in_line, at) = (fault.error.line().unwrap_or(1), fault.error.at());
        let (line, column) = match (line_and_column(self.content, self.begins), in_line) {
            (begins, _) if !self.is_as_written => begins,
            ((line, column), 1) => (line, column + at - 1),
            ((line, _), _) => (line + in_line - 1, at),
        };
        Problem::quoting(file, (line, column), &fault.word, fault.error.advice())
    }
}
