use super::*;
use crate::time::Meter;
use crate::{NamedPitch, PhraseNote, Pitch, PitchClass, Role, ScaleChoice, SpelledTriad};

fn stretch(from: u32, symbol: &str, pair: &str) -> ChordStretch {
    let chord: crate::Chord = symbol.parse().unwrap();
    let scale = ScaleChoice::for_chord(&chord)[0].scale().clone();
    let triads: Vec<crate::Triad> =
        pair.split(" & ").map(|name| name.parse::<SpelledTriad>().unwrap().triad()).collect();
    let pair = TriadPair::in_order(triads[0], triads[1]).unwrap();
    ChordStretch { from: Quarters::whole(from), over: ChordScale::over(chord, scale), pair }
}

fn two_five_one() -> LineQuery {
    let chords =
        vec![stretch(0, "Dm7", "F & G"), stretch(4, "G7", "F & G"), stretch(8, "Cmaj7", "G & Am")];
    LineQuery::new(Bars::of(Meter::COMMON), chords, Quarters::whole(16))
}

fn reach() -> Reach {
    Reach::between(48, 76)
}

fn class(note: &str) -> PitchClass {
    note.parse::<crate::NoteName>().unwrap().pitch_class()
}

fn at(line: &Line, onset: Quarters) -> Option<&PhraseNote> {
    line.notes().iter().find(|note| note.onset == onset)
}

/// The longest stretch of silence among the first so many quarters.
fn longest_rest(line: &Line, until: Quarters) -> Quarters {
    let mut silent_from = Quarters::ZERO;
    let mut longest = Quarters::ZERO;
    let onsets = line.notes().iter().map(|note| (note.onset, note.end()));
    for (onset, end) in onsets.chain([(until, until)]) {
        longest = longest.max(onset.checked_sub(silent_from).unwrap_or_default());
        silent_from = silent_from.max(end);
    }
    longest
}

/// What a player expects of a line that nobody asked to be anything: it begins off the beat, lands
/// on guide tones by step, breathes for a beat, and rests on a third or seventh. Common practice, no
/// source.
#[test]
fn unasked_a_line_is_music() {
    let line = two_five_one().line(&reach()).unwrap();
    assert_eq!(line.notes()[0].onset, Quarters::EIGHTH);
    let landed = at(&line, Quarters::whole(4)).unwrap();
    assert!([class("B"), class("F")].contains(&landed.pitch.pitch_class()));
    let last = line.notes().last().unwrap();
    assert!([class("E"), class("B")].contains(&last.pitch.pitch_class()), "{last:?}");
    assert!(last.duration >= Quarters::whole(2));
    assert!(longest_rest(&line, Quarters::whole(16)) >= Quarters::ONE);
    for pair in line.notes().windows(2) {
        assert!(pair[0].end() <= pair[1].onset, "{pair:?}");
    }
}

/// The guide tones that are asked for, on the first beats.
#[test]
fn what_is_asked_for_is_reached() {
    let asked = |bar: u32, note: &str, approach| AskedTarget {
        at: Quarters::whole(4 * (bar - 1)),
        notes: PitchClassSet::EMPTY.with(class(note)),
        approach,
        timing: Timing::OnTime,
    };
    for approach in
        [Approach::HalfStepBelow, Approach::HalfStepAbove, Approach::Step, Approach::Enclosure]
    {
        let query = two_five_one()
            .in_pattern("1232 321 a".parse().unwrap())
            .arriving(vec![asked(3, "E", approach), asked(2, "B", approach)]);
        let line = query.line(&reach()).unwrap();
        for (beat, note) in [(4, "B"), (8, "E")] {
            let index = line.notes().iter().position(|n| n.onset == Quarters::whole(beat)).unwrap();
            let [before, landed] = [&line.notes()[index - 1], &line.notes()[index]];
            assert_eq!(landed.pitch.pitch_class(), class(note), "{approach:?}");
            let by = before.pitch.semitones_up_to(landed.pitch);
            match approach {
                Approach::HalfStepBelow | Approach::Enclosure => assert_eq!(by, 1),
                Approach::HalfStepAbove => assert_eq!(by, -1),
                Approach::Step | Approach::Any => assert!((1..=2).contains(&by.abs()), "{by}"),
            }
        }
    }
}

/// An exercise has no rest, and runs on over the change of chord.
#[test]
fn an_exercise_does_not_break() {
    let line = two_five_one().styled(LineStyle::Exercise).line(&reach()).unwrap();
    assert_eq!(line.notes().len(), 32);
    assert_eq!(longest_rest(&line, Quarters::whole(16)), Quarters::ZERO);
    assert!(line.notes().iter().all(|note| matches!(note.role, Role::Triad(_))));
    let first: Vec<Pitch> = line.notes().iter().take(3).map(|note| note.pitch).collect();
    let f_a_c = ["F3", "A3", "C4"].map(|name| name.parse::<NamedPitch>().unwrap().pitch());
    assert_eq!(first, f_a_c);
}

/// A rhythm that leaves no room for a step, and bars with two chords.
#[test]
fn what_nobody_asked_for_gives_way() {
    let long = two_five_one().in_rhythm("1".parse().unwrap()).line(&reach()).unwrap();
    assert!(!long.notes().is_empty());
    let chords = (0..8).map(|half| stretch(2 * half, "G7", "F & G")).collect();
    let dense = LineQuery::new(Bars::of(Meter::COMMON), chords, Quarters::whole(16));
    let line = dense.line(&reach()).unwrap();
    assert!(line.notes().len() > 12, "{}", line.notes().len());
    assert!(longest_rest(&line, Quarters::whole(13)) >= Quarters::ONE);
    let one_bar = LineQuery::new(
        Bars::of(Meter::COMMON),
        vec![stretch(0, "G7", "F & G")],
        Quarters::whole(4),
    );
    let line = one_bar.line(&reach()).unwrap();
    assert!([class("B"), class("F")].contains(&line.notes().last().unwrap().pitch.pitch_class()));
}
