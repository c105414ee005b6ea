//! The bars that are written.

use fretloom_theory::{Bar, Bars, Quarters};

use crate::score_file::limits::MOST_BARS;
use crate::score_file::write_error::ScoreWriteError;

/// The bars until a moment, the last one whole; at least one.
pub(super) fn until(bars: &Bars, end: Quarters) -> Result<Vec<Bar>, ScoreWriteError> {
    let mut written = Vec::new();
    for index in 0.. {
        let bar = bars.bar(index).ok_or(ScoreWriteError::TooLong)?;
        if bar.from >= end && !written.is_empty() {
            break;
        }
        if written.len() == MOST_BARS {
            return Err(ScoreWriteError::TooLong);
        }
        written.push(bar);
    }
    Ok(written)
}
