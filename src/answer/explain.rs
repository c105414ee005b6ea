//! What a line does over its chords.

use fretloom_theory::{
    BarText, ChordScale, ExplainedBar, Explanation, Letter, Meter, NoteName, OptionalChords, Part,
    Score, SpelledTriad, Speller, Spelling, Timeline, Triad, TriadPair,
};

use super::pairs::NamedPair;
use super::refusal::Refusal;
use super::rounds::Rounds;
use crate::score_file::ReadScore;

/// The answer of `explain FILE`.
#[derive(Clone, PartialEq, Debug)]
pub struct ExplainAnswer {
    /// What the line does, bar by bar.
    pub explanation: Explanation,
    /// How triads are written.
    pub spelling: Spelling,
    /// What should be known of how the file was read, a sentence each.
    pub remarks: Vec<String>,
}

impl ExplainAnswer {
    /// What does this line do over its chords, or over these in their place?
    ///
    /// The bars of a text lie one after another from the beginning, and go round as long as there
    /// are notes.
    ///
    /// # Errors
    ///
    /// Where the chords cannot be read.
    pub fn new(
        read: &ReadScore,
        chords: Option<&str>,
        spelling: Spelling,
    ) -> Result<ExplainAnswer, Refusal> {
        let score = read.score();
        let empty = Part::new([]);
        let part = score.parts.first().unwrap_or(&empty);
        let mut remarks = read.remarks().to_vec();
        let explanation = match chords {
            Some(text) => Explanation::of(&under(score, part, text)?, part),
            None => Explanation::of_made(score, part, read.made_of()),
        };
        let is_bare = chords.is_none() && score.chords.is_empty();
        remarks.extend(is_bare.then(|| NO_CHORDS.to_owned()));
        Ok(ExplainAnswer { explanation, spelling, remarks })
    }
}

const NO_CHORDS: &str = "the line has no chords, so that nothing is said of scales and landings; \
                         --chords \"| Dm7 | G7 |\" names them";

/// The score under the chords and in the bars of a text.
fn under(score: &Score, part: &Part, text: &str) -> Result<Score, Refusal> {
    let meter = score.bars.bar(0).map_or(Meter::COMMON, |bar| bar.meter);
    let chorus = BarText::read(text, meter)?.unfolded(OptionalChords::LeftOut);
    let laid = Rounds::of(&chorus).until(part.end());
    let chords = laid.chords.into_iter().map(|(from, _, symbol)| (from, symbol));
    Ok(Score { bars: laid.bars, chords: Timeline::of(chords), ..score.clone() })
}

/// Names what stands in a bar, over its chord.
pub struct BarNames {
    speller: Option<Speller>,
    pair: Option<NamedPair>,
}

impl BarNames {
    /// The names that go with the sentence of a bar.
    #[must_use]
    pub fn of(bar: &ExplainedBar, spelling: Spelling) -> BarNames {
        let chord = bar.chord.as_ref().and_then(|symbol| symbol.chord());
        let over = chord.cloned().zip(bar.scale.clone());
        let speller =
            over.map(|(chord, scale)| Speller::new(ChordScale::over(chord, scale), spelling));
        let pair = bar.pair.map(|pair| named(speller.as_ref(), pair));
        BarNames { speller, pair }
    }

    /// A pair.
    #[must_use]
    pub fn pair(&self, pair: TriadPair) -> NamedPair {
        named(self.speller.as_ref(), pair)
    }

    /// A triad, called as in the pair of the bar.
    #[must_use]
    pub fn triad(&self, triad: Triad) -> SpelledTriad {
        let of_pair = self.pair.map(NamedPair::names).into_iter().flatten();
        let known = of_pair.into_iter().find(|name| name.triad() == triad);
        let alone = || self.speller.as_ref().map(|speller| speller.triad(triad));
        known.or_else(alone).unwrap_or_else(|| everyday(triad))
    }
}

fn named(speller: Option<&Speller>, pair: TriadPair) -> NamedPair {
    let names = match speller {
        Some(speller) => speller.pair(pair),
        None => pair.triads().map(everyday),
    };
    NamedPair::of(pair, names)
}

fn everyday(triad: Triad) -> SpelledTriad {
    let root = NoteName::everyday(triad.root()).next();
    let root = root.unwrap_or(NoteName::natural(Letter::C));
    SpelledTriad::stacked(root, triad.quality())
}
