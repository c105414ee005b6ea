//! Charts: a tune as it stands on paper.

mod beat;
mod choice;
pub(crate) mod edit;

use std::fmt;

pub use beat::ChartBeat;
pub use choice::ChartChoice;

use crate::{BarText, Chorus, Key, Meter, OpeningMark, OptionalChords, Quarters, Tempo};

/// A tune as it stands on paper, with what the player has settled for its chords.
///
/// It knows the chords and the form; how it is heard says [`chorus`](Self::chorus), whose bar numbers
/// are those of the [choices](Self::choices). It prints as [bar text](BarText); its title and the rest
/// stand in files of other kinds.
///
/// # Example
///
/// ```
/// use fretloom_theory::{BarText, Chart, Meter, OptionalChords, Tempo};
/// let bars = BarText::read("|: Dm7 | G7 :| Cmaj7 |", Meter::COMMON)?;
/// let mut chart = Chart::of(bars);
/// chart.tempo = Tempo::nearest(160.0);
/// assert_eq!(chart.chorus(OptionalChords::Played).heard.len(), 5);
/// assert_eq!(chart.to_string(), "|: Dm7 | G7 :| Cmaj7 |");
/// # Ok::<(), fretloom_theory::ReadError>(())
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Chart {
    /// What it is called.
    pub title: Option<String>,
    /// Its key, where that is written.
    pub key: Option<Key>,
    /// Its tempo, where that is written.
    pub tempo: Option<Tempo>,
    /// How it is to be played, in words: `swing`, `even eighths`.
    pub feel: Option<String>,
    /// Its bars with their form.
    pub bars: BarText,
    /// What is settled, by bar and beat; one for each moment.
    pub choices: Vec<ChartChoice>,
}

impl Chart {
    /// A chart of bars and nothing else. A meter with which the first bar begins is that of the text.
    #[must_use]
    pub fn of(bars: BarText) -> Chart {
        let bars = bars.beginning_in_its_meter();
        Chart { title: None, key: None, tempo: None, feel: None, bars, choices: Vec::new() }
    }

    /// The bars as they are heard.
    #[must_use]
    pub fn chorus(&self, optional: OptionalChords) -> Chorus {
        self.bars.unfolded(optional)
    }

    /// What is settled for this beat of this bar.
    #[must_use]
    pub fn choice_at(&self, bar: u64, beat: ChartBeat) -> Option<&ChartChoice> {
        self.choices.iter().find(|choice| (choice.bar, choice.beat) == (bar, beat))
    }

    /// Puts a choice in the place of what was settled for its moment. One that settles nothing takes
    /// that away.
    ///
    /// ```
    /// use fretloom_theory::{BarText, Chart, ChartBeat, ChartChoice, Meter};
    /// let mut chart = Chart::of(BarText::read("| Dm7 | G7 |", Meter::COMMON)?);
    /// let nothing = ChartChoice::nothing(2, ChartBeat::FIRST);
    /// let altered = Some("G altered".parse()?);
    /// chart.settle(ChartChoice { scale: altered, ..nothing.clone() });
    /// assert!(chart.choice_at(2, ChartBeat::FIRST).is_some());
    /// chart.settle(nothing);
    /// assert_eq!(chart.choices, []);
    /// # Ok::<(), fretloom_theory::ReadError>(())
    /// ```
    pub fn settle(&mut self, choice: ChartChoice) {
        let moment = (choice.bar, choice.beat);
        self.choices.retain(|there| (there.bar, there.beat) != moment);
        if choice.settles_nothing() {
            return;
        }
        let index = self.choices.partition_point(|there| (there.bar, there.beat) < moment);
        self.choices.insert(index, choice);
    }

    /// The moment of a choice in the chorus; `None` where the chorus has no such beat.
    #[must_use]
    pub fn moment_of(chorus: &Chorus, choice: &ChartChoice) -> Option<Quarters> {
        choice.beat.moment_in(choice.bar, chorus)
    }
}

impl fmt::Display for Chart {
    /// Its bars, in the notation that is read, a meter other than 4/4 before them.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.bars.meter() {
            Meter::COMMON => self.bars.fmt(f),
            meter => self.bars.marked_first(OpeningMark::Meter(meter)).fmt(f),
        }
    }
}

#[cfg(test)]
mod tests;
