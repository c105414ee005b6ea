//! One call of the program: its arguments, with the data files that it may need.

use std::path::PathBuf;

use fretloom_fretboard::{FretRange, Neck, Region};
use fretloom_theory::{ScaleKind, Spelling};

use super::args::{self, Cli};
use super::complain::complain;
use crate::answer::{self, Harmony, Refusal, TuningAnswer};
use crate::glyphs;
use crate::json::{self, AsJson};
use crate::library::{Library, LoadedCharts, LoadedPatterns, LoadedTunings, Problem};
use crate::settings::Ascii;

/// A call of a command that prints, with the data files that it may need.
pub(super) struct Call<'a> {
    pub(super) cli: &'a Cli,
    pub(super) library: Library,
    /// The folder of what the player keeps; `None` where the system names none.
    pub(super) data: Option<PathBuf>,
}

impl Call<'_> {
    pub(super) fn printed<A: AsJson>(&self, answer: &A, text: impl Fn(&A) -> String) -> String {
        printed(self.cli, answer, text)
    }

    /// Text that answers, in plain ASCII where that is asked for.
    pub(super) fn as_text(&self, text: &str) -> String {
        as_text(self.cli, text)
    }

    pub(super) fn spelling(&self) -> Spelling {
        self.cli.common.spelling.into()
    }

    /// The tunings there are. What is wrong with a player's own files is said on standard error
    /// and costs no more than those files.
    pub(super) fn tunings(&self) -> &LoadedTunings {
        say_all(self.library.tunings.problems());
        &self.library.tunings
    }

    /// The player's own scales; what is wrong with them is said likewise.
    pub(super) fn own_scales(&self) -> &[ScaleKind] {
        say_all(self.library.scales.problems());
        self.library.scales.kinds()
    }

    /// The patterns there are; what is wrong with the player's own is said likewise.
    pub(super) fn patterns(&self) -> &LoadedPatterns {
        say_all(self.library.patterns.problems());
        &self.library.patterns
    }

    /// The charts there are; what is wrong with the player's own is said likewise.
    pub(super) fn charts(&self) -> &LoadedCharts {
        let charts = &self.library.charts;
        say_all(&charts.problems(self.library.scales.kinds()));
        charts
    }

    /// The chosen tuning, with the capo.
    pub(super) fn tuning(&self) -> Result<TuningAnswer, Refusal> {
        let found = answer::find_tuning(self.tunings(), &self.cli.common.tuning)?;
        answer::put_capo(found, self.cli.common.capo()?)
    }

    /// The chosen neck, and which of its frets are wanted. A range may end beyond the neck, as one
    /// that is made for a longer one does; it may not begin there.
    pub(super) fn neck_within(
        &self,
        frets: Option<&str>,
    ) -> Result<(Neck, TuningAnswer, FretRange), Refusal> {
        let tuning = self.tuning()?;
        let (neck, frets) = neck_within(&tuning, frets)?;
        Ok((neck, tuning, frets))
    }

    pub(super) fn harmony(
        &self,
        chord: Option<&str>,
        scale: Option<&str>,
    ) -> Result<Harmony, Refusal> {
        match (chord, scale) {
            (Some(chord), Some(scale)) => Harmony::of_chord_in(chord, scale, self.own_scales()),
            (Some(chord), None) => Harmony::of_chord_with(chord, self.own_scales()),
            (None, scale) => Harmony::of_scale_with(scale.unwrap_or_default(), self.own_scales()),
        }
    }
}

/// The neck of a tuning, and which of its frets are wanted.
pub(super) fn neck_within(
    tuning: &TuningAnswer,
    frets: Option<&str>,
) -> Result<(Neck, FretRange), Refusal> {
    let frets = args::frets(frets)?;
    let neck = Neck::new(tuning.tuning.clone());
    Region::default().within(frets).check(&neck)?;
    Ok((neck, frets))
}

/// An answer as text, or as JSON where that is asked for.
pub(super) fn printed<A: AsJson>(cli: &Cli, answer: &A, text: impl Fn(&A) -> String) -> String {
    if cli.common.json {
        return json::text(answer) + "\n";
    }
    as_text(cli, &text(answer))
}

fn as_text(cli: &Cli, text: &str) -> String {
    let text = glyphs::printable(text);
    if is_ascii(cli) { glyphs::to_ascii(&text) } else { text }
}

/// Is plain ASCII asked for, or all that the terminal takes?
pub(super) fn is_ascii(cli: &Cli) -> bool {
    match cli.common.ascii {
        Ascii::Auto => !glyphs::locale_is_utf8(),
        Ascii::Always => true,
        Ascii::Never => false,
    }
}

/// Says on standard error what is wrong with data files.
pub(super) fn say_all(problems: &[Problem]) {
    problems.iter().take(FEW).for_each(complain);
    if let Some(more @ 1..) = problems.len().checked_sub(FEW) {
        complain(&format!("and {more} more; fretloom check lists them"));
    }
}

/// How many problems are said before an answer that was not asked for them.
const FEW: usize = 8;
