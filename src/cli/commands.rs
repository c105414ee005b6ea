//! The commands that print what `answer` says, each with its text and its JSON, and play it where that is
//! asked for.

mod changes;
mod explain;
mod finger;
mod line;
mod neck;
mod pairs;
mod read_chart;
mod read_score;
mod shapes;
mod sheet;
mod tunings;
mod two_triads;

use super::answered::Answered;
use super::args::{Command, TuningQuestion};
use super::call::Call;
use super::{files, text};
use crate::answer::{self, ChartsAnswer, PatternsAnswer, Refusal, TuningsAnswer};

impl Call<'_> {
    /// What a command prints, and what it plays.
    pub(super) fn print(&self, command: &Command) -> Result<Answered, Refusal> {
        let text = match command {
            Command::Pairs(wanted) => self.pairs(wanted)?,
            Command::Scales(wanted) => self.printed(&self.scales(wanted)?, text::scales),
            Command::Triads { scale } => {
                let triads = answer::triads_of(scale, self.spelling(), self.own_scales())?;
                self.printed(&triads, text::triads)
            }
            Command::Chord { symbol, file } => match (symbol, file) {
                (_, Some(file)) => {
                    self.printed(&answer::chord_list(&files::list(file)?), text::chords)
                }
                (symbol, None) => {
                    let symbol = symbol.as_deref().unwrap_or_default();
                    self.printed(&answer::chord(symbol)?, text::chord)
                }
            },
            Command::Shapes(shapes) => return self.shapes(shapes),
            Command::Ladder(ladder) => self.ladder(ladder)?,
            Command::Neck(wanted) => self.neck(wanted)?,
            Command::Line(wanted) => return self.line(wanted),
            Command::Changes(wanted) => return self.changes(wanted),
            Command::Sheet(wanted) => self.sheet(wanted)?,
            Command::Explain(wanted) => self.explain(wanted)?,
            Command::Finger(wanted) => self.finger(wanted)?,
            Command::Patterns => {
                self.printed(&PatternsAnswer::new(self.patterns()), text::patterns)
            }
            Command::Charts => {
                let charts = self.charts();
                self.printed(&ChartsAnswer::new(charts, self.own_scales()), text::charts)
            }
            Command::Tunings { question: None } => {
                self.printed(&TuningsAnswer::new(self.tunings()), text::tunings)
            }
            Command::Tunings { question: Some(TuningQuestion::Compare { a, b, pair }) } => {
                self.printed(&self.compared(a, b, pair.as_deref())?, text::compare)
            }
        };
        Ok(text.into())
    }
}
