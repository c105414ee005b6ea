//! The stretches of a line that are explained one by one: bars, cut where a chord changes.

use crate::{Bar, BarLabel, Bars, ChordSymbol, PitchClass, Quarters, Score, Timeline};

/// A bar, or the part of it over which one chord stands.
#[derive(Clone, Debug)]
pub(super) struct Span {
    /// How many bars stand before its bar.
    pub(super) bar: u64,
    pub(super) label: BarLabel,
    pub(super) from: Quarters,
    pub(super) to: Quarters,
    pub(super) beat: Quarters,
    pub(super) symbol: Option<ChordSymbol>,
    /// Which of the chords of the score that is, symbols that name no chord not counted.
    pub(super) chord: Option<usize>,
}

/// How far a chord may stand from a bar line and still change there: a 32nd note. What writes
/// times in seconds rounds them to just before the line.
const NEAR_BAR_LINE: (u64, u32) = (1, 8);
/// The same for a beat within the bar: a 64th note.
const NEAR_BEAT: (u64, u32) = (1, 16);
/// How many bars in which nothing begins are told, beyond four for each note and chord. A hostile
/// score may hold more of them than there is memory.
const EMPTY_BARS: usize = 1000;

impl Span {
    /// Is a note the root or the third of its chord, on which arpeggios begin? Without a chord any
    /// note may be.
    pub(super) fn begins_on(&self, class: PitchClass) -> bool {
        let chord = self.symbol.as_ref().and_then(ChordSymbol::chord);
        chord.is_none_or(|chord| {
            matches!(chord.root().pitch_class().semitones_up_to(class), 0 | 3 | 4)
        })
    }

    /// The spans of a score, up to `end`, in order. `onsets` are those of its notes, in order: an
    /// empty bar is left out where there are more than anybody reads.
    pub(super) fn all(score: &Score, onsets: &[Quarters], end: Quarters) -> Vec<Span> {
        let chords = snapped(&score.chords, &score.bars);
        let mut empty = EMPTY_BARS + 4 * (onsets.len() + chords.changes().len());
        let mut spans = Vec::new();
        let mut index = 0;
        while let Some(bar) = score.bars.bar(index).filter(|bar| bar.from < end || index == 0) {
            let Some(to) = bar.from.checked_add(bar.length) else { break };
            cut(&bar, index, to, &chords, &mut spans);
            index += 1;
            let next = [next_onset(onsets, to), next_change(&chords, to)].into_iter().flatten();
            let Some(event) = next.min() else {
                empty = empty.min(EMPTY_BARS);
                match empty.checked_sub(1) {
                    Some(left) => empty = left,
                    None => break,
                }
                continue;
            };
            let Some(there) = score.bars.at(event) else { break };
            if there.index > index {
                match empty.checked_sub(1) {
                    Some(left) => empty = left,
                    None => index = there.index,
                }
            }
        }
        spans
    }
}

fn next_onset(onsets: &[Quarters], from: Quarters) -> Option<Quarters> {
    onsets.get(onsets.partition_point(|onset| *onset < from)).copied()
}

fn next_change(chords: &Timeline<Numbered>, from: Quarters) -> Option<Quarters> {
    let changes = chords.changes();
    changes.get(changes.partition_point(|(at, _)| *at < from)).map(|(at, _)| *at)
}

/// A symbol and which of the chords it is.
type Numbered = (ChordSymbol, Option<usize>);

/// Cuts a bar where chords change.
fn cut(bar: &Bar, index: u64, to: Quarters, chords: &Timeline<Numbered>, spans: &mut Vec<Span>) {
    let changes = chords.changes();
    let first = changes.partition_point(|(at, _)| *at <= bar.from);
    let inside = changes[first..].iter().map(|(at, _)| *at).take_while(|at| *at < to);
    let mut from = bar.from;
    for next in inside.chain([to]) {
        let (symbol, chord) = chords.at(from).cloned().map_or((None, None), |(s, n)| (Some(s), n));
        let label = bar.label.clone();
        let beat = bar.meter.beat();
        spans.push(Span { bar: index, label, from, to: next, beat, symbol, chord });
        from = next;
    }
}

/// The symbols, each at the bar line or beat that it stands next to.
fn snapped(chords: &Timeline<ChordSymbol>, bars: &Bars) -> Timeline<Numbered> {
    let mut count = 0;
    let numbered = chords.changes().iter().map(|(at, symbol)| {
        let number = symbol.chord().map(|_| count);
        count += usize::from(number.is_some());
        (nearest_line(*at, bars).unwrap_or(*at), (symbol.clone(), number))
    });
    Timeline::of(numbered.collect::<Vec<_>>())
}

/// The bar line or beat next to a moment; the moment itself where none is near.
fn nearest_line(moment: Quarters, bars: &Bars) -> Option<Quarters> {
    let (near_bar, near_beat) = (length(NEAR_BAR_LINE)?, length(NEAR_BEAT)?);
    let at = bars.at(moment)?;
    let bar_end = at.bar.from.checked_add(at.bar.length)?;
    let to_end = bar_end.checked_sub(moment)?;
    let to_beat = at.bar.meter.beat().checked_sub(at.after_beat)?;
    if at.into <= near_bar {
        return Some(at.bar.from);
    }
    if to_end <= near_bar {
        return Some(bar_end);
    }
    if at.after_beat <= near_beat {
        return moment.checked_sub(at.after_beat);
    }
    if to_beat <= near_beat { moment.checked_add(to_beat) } else { Some(moment) }
}

fn length((numerator, denominator): (u64, u32)) -> Option<Quarters> {
    Quarters::new(numerator, denominator)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Meter;

    fn told(changes: &[(u64, u32, &str)], onsets: &[u32], end: u32) -> String {
        let moment = |numerator, denominator| Quarters::new(numerator, denominator).unwrap();
        let symbol = |(numerator, denominator, text): &(u64, u32, &str)| {
            (moment(*numerator, *denominator), ChordSymbol::read(text))
        };
        let score = Score {
            bars: Bars::of(Meter::COMMON),
            chords: Timeline::of(changes.iter().map(symbol)),
            ..Score::default()
        };
        let onsets: Vec<Quarters> = onsets.iter().map(|onset| Quarters::whole(*onset)).collect();
        let spans = Span::all(&score, &onsets, Quarters::whole(end));
        let tell = |span: &Span| {
            let chord = span.symbol.as_ref().map_or("-".to_owned(), ToString::to_string);
            format!("{}:{}-{} {chord}", span.label, span.from, span.to)
        };
        spans.iter().map(tell).collect::<Vec<_>>().join(", ")
    }

    #[test]
    fn a_bar_is_cut_where_the_chord_changes() {
        let chords = [(0, 1, "Dm7"), (2, 1, "G7"), (4, 1, "Cmaj7")];
        assert_eq!(told(&chords, &[0, 4], 8), "1:0-2 Dm7, 1:2-4 G7, 2:4-8 Cmaj7");
    }

    /// Three decimals of a second at 90 to the minute leave a chord 0.0005 quarters early.
    #[test]
    fn a_chord_just_before_or_after_a_bar_line_changes_there() {
        let chords = [(1, 100, "Dm7"), (3999, 1000, "G7"), (8049, 1000, "Cmaj7")];
        assert_eq!(told(&chords, &[0, 4, 8], 12), "1:0-4 Dm7, 2:4-8 G7, 3:8-12 Cmaj7");
        assert_eq!(told(&[(0, 1, "Dm7"), (199, 100, "G7")], &[0], 4), "1:0-2 Dm7, 1:2-4 G7");
        // An eighth before is meant.
        assert_eq!(told(&[(0, 1, "C"), (7, 2, "F")], &[0], 4), "1:0-7/2 C, 1:7/2-4 F");
    }

    #[test]
    fn without_chords_or_notes_there_are_bars_still() {
        assert_eq!(told(&[], &[], 0), "1:0-4 -");
        assert_eq!(told(&[], &[5], 8), "1:0-4 -, 2:4-8 -");
    }

    #[test]
    fn endless_rests_are_bounded() {
        let billion = 4_000_000_000;
        let score = Score::default();
        let spans = Span::all(&score, &[Quarters::whole(billion)], Quarters::whole(u32::MAX));
        assert!(spans.len() < 3000, "{}", spans.len());
        assert!(spans.iter().any(
            |span| span.from <= Quarters::whole(billion) && Quarters::whole(billion) < span.to
        ));
    }
}
