//! What stands around the notes: bars, tempi and chords.

use fretloom_theory::{
    Bar, BarLabel, Bars, ChordSymbol, Meter, Note, Quarters, Score, Tempo, TempoMap, Timeline,
};
use serde_json::Value;
use serde_json::value::RawValue;

use super::clock::Clock;
use super::fields::{BEATS, Fields, SECONDS};
use super::file::{File, offset_in};
use super::list::RawList;
use crate::score_file::error::{At, ScoreFileError};
use crate::score_file::limits::MOST_NOTES;
use crate::score_file::locator::Locator;
use crate::score_file::read_score::{BarsFrom, ReadScore};

/// What stands around the notes.
pub(super) struct Frame {
    bars: Bars,
    tempi: TempoMap,
    bars_from: BarsFrom,
    /// Each with its place in the file.
    chords: Vec<(Quarters, ChordSymbol, At)>,
}

/// The shortest and the longest bar, in seconds.
const BARS_S: std::ops::RangeInclusive<f64> = 0.05..=600.0;

/// The slowest and the fastest tempo.
const TEMPI: std::ops::RangeInclusive<f64> = 5.0..=1000.0;

impl Frame {
    pub(super) fn read(text: &str, file: &File<'_>, clock: Clock) -> Result<Frame, ScoreFileError> {
        let reader = Reader { text };
        let tempo = file.tempo.map(|raw| reader.tempo(raw)).transpose()?;
        let meter = file.meter.map(|raw| reader.meter(raw)).transpose()?;
        let in_file = tempo.is_some() || meter.is_some();
        let (tempo, meter) = (tempo.unwrap_or(Tempo::USUAL), meter.unwrap_or(Meter::COMMON));
        let steady = (Bars::of(meter), TempoMap::steady(tempo));
        let ((bars, tempi), bars_from) = match (clock, file.bars_s, file.bars) {
            (Clock::Seconds, Some(raw), _) => {
                let usual_s = meter.bar().to_f64() * tempo.quarter_s();
                (recorded_bars(&reader.bars_s(raw)?, meter, usual_s), BarsFrom::File)
            }
            (Clock::Seconds, None, _) if !in_file => (steady, BarsFrom::TwoSeconds),
            (Clock::Seconds, None, _) | (Clock::Beats, _, None) => (steady, BarsFrom::File),
            (Clock::Beats, _, Some(raw)) => {
                let bars = written_bars(&reader.onsets(raw)?, meter).unwrap_or(steady.0);
                ((bars, steady.1), BarsFrom::File)
            }
        };
        let chords = reader.chords(file, clock, &tempi)?;
        Ok(Frame { bars, tempi, bars_from, chords })
    }

    pub(super) fn tempi(&self) -> &TempoMap {
        &self.tempi
    }

    /// How many bars stand before a note's. Of a recording without bars each lasts two seconds.
    pub(super) fn bar_of(&self, note: &Note) -> u64 {
        match (self.bars_from, note.recorded()) {
            // At most a day, which is checked of the whole: no bar is lost.
            (BarsFrom::TwoSeconds, Some(time)) => (time.onset_s() / ReadScore::BAR_S) as u64,
            (BarsFrom::File | BarsFrom::TwoSeconds, _) => {
                self.bars.at(note.onset()).map_or(0, |at| at.index)
            }
        }
    }

    /// The score without its part, which ends then, and what should be known of it.
    pub(super) fn until(
        self,
        end: Quarters,
    ) -> Result<(Score, BarsFrom, Vec<String>), ScoreFileError> {
        let Frame { bars, tempi, bars_from, chords } = self;
        let late: Vec<&(Quarters, ChordSymbol, At)> =
            chords.iter().filter(|(onset, ..)| *onset >= end && !onset.is_zero()).collect();
        let mut remarks = Vec::new();
        if let Some((_, symbol, at)) = late.first() {
            let told = format!("the chord {symbol:#} begins after the last note");
            if late.len() == chords.len() {
                let expected = "chords that begin where the notes are, in the same unit of time";
                return Err(ScoreFileError::new(*at, told, expected));
            }
            let others = match late.len() {
                1 => "is left out".to_owned(),
                count => format!("is left out, and so are {} more", count - 1),
            };
            remarks.push(format!("{at}{told}, and {others}"));
        }
        let kept = chords.into_iter().filter(|(onset, ..)| *onset < end || onset.is_zero());
        let chords = Timeline::of(kept.map(|(onset, symbol, _)| (onset, symbol)));
        Ok((Score { bars, tempi, chords, ..Score::default() }, bars_from, remarks))
    }
}

/// Bars that begin at these seconds, each as long as its meter says, so that the tempo changes with
/// them; what comes before the first is bar 0.
fn recorded_bars(begins_s: &[f64], meter: Meter, usual_s: f64) -> (Bars, TempoMap) {
    let length = meter.bar();
    let quarters = length.to_f64();
    let lasting = |index: usize| match (begins_s.get(index), begins_s.get(index + 1)) {
        (Some(from), Some(to)) => Some(to - from),
        _ => None,
    };
    let tempo_of = |bar_s: f64| Tempo::nearest(60.0 * quarters / bar_s).unwrap_or(Tempo::USUAL);
    let first_s = begins_s.first().copied().unwrap_or_default();
    let first_tempo = tempo_of(lasting(0).unwrap_or(usual_s));
    let lead = Quarters::nearest(first_s / first_tempo.quarter_s()).unwrap_or_default();
    let mut from = lead;
    let mut bars = Vec::with_capacity(begins_s.len() + 1);
    let mut tempi = vec![(Quarters::ZERO, first_tempo)];
    if !lead.is_zero() {
        let missing = length.checked_sub(lead).unwrap_or_default();
        let label = BarLabel::Number(0);
        bars.push(Bar { from: Quarters::ZERO, length: lead, meter, missing, label });
    }
    for (index, number) in (0..begins_s.len()).zip(1..) {
        let label = BarLabel::Number(number);
        bars.push(Bar { from, length, meter, missing: Quarters::ZERO, label });
        tempi.extend(lasting(index).map(|bar_s| (from, tempo_of(bar_s))));
        from = from.checked_add(length).unwrap_or(from);
    }
    let bars = Bars::written(bars).unwrap_or_else(|| Bars::of(meter));
    (bars, TempoMap::of(&Timeline::of(tempi)))
}

/// Bars that begin at these moments: those as long as the meter says in that meter, the others in
/// one of their own; a shorter first one is a pick-up.
fn written_bars(begins: &[Quarters], meter: Meter) -> Option<Bars> {
    let mut bars = Vec::with_capacity(begins.len());
    let lengths = begins.windows(2).map(|two| two[1].checked_sub(two[0]));
    let lengths: Vec<Option<Quarters>> = lengths.chain([None]).collect();
    let mut number = 1;
    for (index, (from, length)) in begins.iter().zip(lengths).enumerate() {
        let last: Option<&Bar> = bars.last();
        let length = length.or(last.map(|bar| bar.length)).unwrap_or(meter.bar());
        let missing = meter.bar().checked_sub(length).unwrap_or_default();
        let is_pick_up = index == 0 && !missing.is_zero() && begins.len() > 1;
        let (meter, missing) = match (is_pick_up, meter_of(length)) {
            (true, _) => (meter, missing),
            (false, Some(own)) if length != meter.bar() => (own, Quarters::ZERO),
            (false, _) => (meter, Quarters::ZERO),
        };
        if is_pick_up {
            number = 0;
        }
        bars.push(Bar { from: *from, length, meter, missing, label: BarLabel::Number(number) });
        number += 1;
    }
    Bars::written(bars)
}

/// The meter of a bar of this length: of quarters where it holds whole ones, else of finer notes.
fn meter_of(length: Quarters) -> Option<Meter> {
    [4u8, 8, 16, 32].into_iter().find_map(|kind| {
        let units = length.times(u32::from(kind / 4)).filter(|units| units.denominator() == 1)?;
        Meter::new(u8::try_from(units.numerator()).ok()?, kind)
    })
}

/// Reads what stands around the notes, with its places.
struct Reader<'a> {
    text: &'a str,
}

impl Reader<'_> {
    fn at(&self, raw: &RawValue) -> At {
        Locator::new(self.text).at(offset_in(self.text, raw))
    }

    fn found(&self, raw: &RawValue, expected: &'static str) -> ScoreFileError {
        ScoreFileError::found(self.at(raw), raw.get(), expected)
    }

    fn tempo(&self, raw: &RawValue) -> Result<Tempo, ScoreFileError> {
        let read = serde_json::from_str(raw.get()).ok().filter(|tempo| TEMPI.contains(tempo));
        let expected = "tempo: quarter notes a minute, 5 to 1000, as in 120";
        read.and_then(Tempo::nearest).ok_or_else(|| self.found(raw, expected))
    }

    fn meter(&self, raw: &RawValue) -> Result<Meter, ScoreFileError> {
        let read: Option<String> = serde_json::from_str(raw.get()).ok();
        let read = read.and_then(|meter| meter.parse().ok());
        read.ok_or_else(|| self.found(raw, "meter: one as in \"4/4\" or \"6/8\""))
    }

    /// When bars begin, in seconds.
    fn bars_s(&self, raw: &RawValue) -> Result<Vec<f64>, ScoreFileError> {
        const EXPECTED: &str =
            "bars_s: the seconds at which bars begin, in order, 0.05 to 600 apart, as in [0.0,2.0]";
        let begins = numbers(raw).ok_or_else(|| self.found(raw, EXPECTED))?;
        let in_order = begins.windows(2).all(|two| BARS_S.contains(&(two[1] - two[0])));
        let is_read = in_order && !begins.is_empty() && begins.len() <= MOST_NOTES;
        if is_read { Ok(begins) } else { Err(self.found(raw, EXPECTED)) }
    }

    /// When bars begin, in beats.
    fn onsets(&self, raw: &RawValue) -> Result<Vec<Quarters>, ScoreFileError> {
        const EXPECTED: &str = "bars: the beats at which bars begin, in order, as in [0.0,4.0]";
        let begins = numbers(raw).and_then(|begins| {
            begins.into_iter().map(Quarters::nearest).collect::<Option<Vec<_>>>()
        });
        let begins = begins.ok_or_else(|| self.found(raw, EXPECTED))?;
        let in_order = begins.windows(2).all(|two| two[0] < two[1]);
        let from_start = begins.first().is_none_or(|first| first.is_zero());
        let is_read = in_order && from_start && begins.len() <= MOST_NOTES;
        if is_read { Ok(begins) } else { Err(self.found(raw, EXPECTED)) }
    }

    fn chords(
        &self,
        file: &File<'_>,
        clock: Clock,
        tempi: &TempoMap,
    ) -> Result<Vec<(Quarters, ChordSymbol, At)>, ScoreFileError> {
        let Some(raw) = file.chords else { return Ok(Vec::new()) };
        let listed: RawList<'_> =
            serde_json::from_str(raw.get()).map_err(|_| self.found(raw, CHORDS))?;
        if listed.0.len() > MOST_NOTES {
            let expected = format!("at most {MOST_NOTES} chords");
            return Err(ScoreFileError::whole("it holds too many chords", expected));
        }
        let mut locator = Locator::new(self.text);
        let chords = listed.0.iter().map(|raw| {
            let at = locator.at(offset_in(self.text, raw));
            let fields = Fields::read(raw, at, "a chord: an object with its onset and symbol")?;
            let onset = match clock {
                Clock::Seconds => tempi.moment_at(fields.amount("onset_s", SECONDS)?),
                Clock::Beats => Quarters::nearest(fields.amount("onset", BEATS)?),
            };
            let onset = onset.ok_or_else(|| fields.fail("onset", "a moment within a day"))?;
            let symbol = fields.text("symbol", "a chord symbol, as in \"Dm7\"")?;
            Ok((onset, ChordSymbol::read(symbol), at))
        });
        chords.collect()
    }
}

const CHORDS: &str = "chords: a list, as in [{\"onset_s\":0.0,\"symbol\":\"Dm7\"}]";

/// A list of numbers that are 0 or more.
fn numbers(raw: &RawValue) -> Option<Vec<f64>> {
    let list: Vec<Value> = serde_json::from_str(raw.get()).ok()?;
    let number = |value: &Value| value.as_f64().filter(|at| at.is_finite() && *at >= 0.0);
    list.iter().map(number).collect()
}
