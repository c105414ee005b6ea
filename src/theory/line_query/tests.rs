use super::*;
use crate::time::Meter;
use crate::{
    Direction, Inversion, NamedPitch, NoteChange, NoteEdit, PhraseNote, Pitch, PitchClass, Role,
    ScaleChoice, SpelledTriad, WhichTriad,
};

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

/// Four and three with a half step below into what follows: so it leads into every chord, asked or not.
#[test]
fn the_approach_of_a_pattern_leads_into_the_chords() {
    for (figures, by) in [("1232 321 a", 1), ("1232 321 A", -1)] {
        let line = two_five_one().in_pattern(figures.parse().unwrap()).line(&reach()).unwrap();
        let index = line.notes().iter().position(|note| note.onset == Quarters::whole(4)).unwrap();
        let [before, landed] = [&line.notes()[index - 1], &line.notes()[index]];
        assert_eq!(before.pitch.semitones_up_to(landed.pitch), by, "{figures}");
        assert_eq!(before.role, Role::Free);
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

/// Threes up the ladder over Dm7: F A C, G B D, A C.
fn threes() -> (LineQuery, Vec<PhraseNote>) {
    let chords = vec![stretch(0, "Dm7", "F & G")];
    let query = LineQuery::new(Bars::of(Meter::COMMON), chords, Quarters::whole(4))
        .styled(LineStyle::Exercise);
    let line = query.line(&Reach::between(53, 77)).unwrap();
    (query, line.notes().to_vec())
}

fn names(notes: &[PhraseNote]) -> String {
    let name = |note: &PhraseNote| format!("{:#}", NamedPitch::everyday(note.pitch));
    notes.iter().map(name).collect::<Vec<_>>().join(" ")
}

fn changed(eighth: u32, change: NoteChange) -> NoteEdit {
    NoteEdit { onset: Quarters::EIGHTH.times(eighth).unwrap(), voice: 0, change }
}

/// By hand, on the second note, A: the next of F & G are B and G; of D Dorian too; then B flat.
#[test]
fn a_note_goes_to_the_next_of_the_pair_or_by_a_step() {
    use Direction::{Down, Up};
    use NoteChange::{HalfStep, PairNote, ScaleStep};
    let (query, line) = threes();
    let reach = Reach::between(53, 77);
    assert_eq!(names(&line), "F3 A3 C4 G3 B3 D4 A3 C4");
    for (edits, second, role) in [
        (vec![PairNote(Up)], "B3", Role::Triad(WhichTriad::Second)),
        (vec![PairNote(Down)], "G3", Role::Triad(WhichTriad::Second)),
        (vec![PairNote(Up), PairNote(Up), PairNote(Up)], "D4", Role::Triad(WhichTriad::Second)),
        (vec![ScaleStep(Up)], "B3", Role::Triad(WhichTriad::Second)),
        (vec![PairNote(Up), PairNote(Up), PairNote(Up), ScaleStep(Up)], "E4", Role::Free),
        (vec![HalfStep(Up)], "Bb3", Role::Free),
        (vec![HalfStep(Down), HalfStep(Up)], "A3", Role::Triad(WhichTriad::First)),
    ] {
        let edits: Vec<NoteEdit> = edits.into_iter().map(|change| changed(1, change)).collect();
        let edited = query.edited(&query.phrases(), &line, &edits, &reach);
        assert_eq!(names(&edited), format!("F3 {second} C4 G3 B3 D4 A3 C4"), "{edits:?}");
        assert_eq!(edited[1].role, role, "{edits:?}");
    }
    // Nothing is below the lowest note that may be used, and nothing begins between the eighths.
    let nowhere = NoteEdit { onset: Quarters::new(1, 4).unwrap(), ..changed(0, PairNote(Up)) };
    for edit in [changed(0, PairNote(Down)), changed(0, HalfStep(Down)), nowhere] {
        assert_eq!(query.edited(&query.phrases(), &line, &[edit], &reach), line, "{edit:?}");
    }
}

#[test]
fn a_note_sounds_on_is_accented_or_falls_silent() {
    let (query, line) = threes();
    let reach = Reach::between(53, 77);
    let held = query.edited(&query.phrases(), &line, &[changed(1, NoteChange::SoundsOn)], &reach);
    assert_eq!(names(&held), "F3 A3 G3 B3 D4 A3 C4");
    assert_eq!(held[1].duration, Quarters::ONE);
    assert_eq!(held[2].onset, Quarters::new(3, 2).unwrap());
    let twice = [changed(1, NoteChange::SoundsOn), changed(1, NoteChange::SoundsOn)];
    assert_eq!(names(&query.edited(&query.phrases(), &line, &twice, &reach)), "F3 A3 B3 D4 A3 C4");
    // Nothing comes after the last one.
    assert_eq!(
        query.edited(&query.phrases(), &line, &[changed(7, NoteChange::SoundsOn)], &reach),
        line
    );
    let silent = query.edited(&query.phrases(), &line, &[changed(0, NoteChange::Silent)], &reach);
    assert_eq!(names(&silent), "A3 C4 G3 B3 D4 A3 C4");
    let loud = query.edited(&query.phrases(), &line, &[changed(3, NoteChange::Accent)], &reach);
    assert!(loud[3].accent);
    let again = [changed(3, NoteChange::Accent), changed(3, NoteChange::Accent)];
    assert_eq!(query.edited(&query.phrases(), &line, &again, &reach), line);
}

/// D major and E major over Dm7, written as a phrase of its own beside the chord's F & G: from F sharp
/// the next of its notes up is G sharp, of E. An entered note goes the same way and stays free. A landing
/// that comes early goes on in the pair of the chord that it speaks: from E over Cmaj7, G & Am lead
/// to G, of G.
#[test]
fn a_note_goes_on_in_the_pair_of_its_phrase() {
    use Direction::Up;
    let pair = stretch(0, "Dm7", "D & E").pair;
    let start = Some(Start::Lowest(Inversion::Root));
    let own = WrittenPhrase { pair: Some(pair), start, to: Some(Quarters::whole(4)), ..plain() };
    let stab = WrittenPhrase {
        notes: NotesFrom::Entered("F3:4 A3:4".parse().unwrap()),
        from: Quarters::whole(4),
        to: Some(Quarters::whole(6)),
        ..plain()
    };
    let target = AskedTarget {
        at: Quarters::whole(8),
        notes: PitchClassSet::EMPTY.with(class("E")),
        approach: Approach::Step,
        timing: Timing::Early(Quarters::EIGHTH),
    };
    let from = Quarters::whole(6);
    let aimed = WrittenPhrase { from, target: Some(target), ..plain() };
    let query = two_five_one().styled(LineStyle::Exercise).written(vec![own, stab, aimed]);
    let line = query.line(&reach()).unwrap();
    for (eighth, from, to, role) in [
        (1, "Gb3", "Ab3", Role::Triad(WhichTriad::Second)),
        (10, "A3", "B3", Role::Free),
        (15, "E4", "G4", Role::Triad(WhichTriad::First)),
    ] {
        let change = changed(eighth, NoteChange::PairNote(Up));
        let edited = query.edited(&query.phrases(), line.notes(), &[change], &reach());
        let index = edited.iter().position(|note| note.onset == change.onset).unwrap();
        assert_eq!(names(&line.notes()[index..=index]), from, "at {eighth}");
        assert_eq!(names(&edited[index..=index]), to, "at {eighth}");
        assert_eq!(edited[index].role, role, "at {eighth}");
    }
}

/// From F4, the lowest note of its phrase, no pair note leads down; in the phrase before one does.
#[test]
fn a_note_goes_on_among_the_notes_of_its_phrase() {
    let start = Some(Start::Lowest(Inversion::Root));
    let to = Some(Quarters::whole(4));
    let of_line = WrittenPhrase { start, to, ..plain() };
    let own = Some(Reach::between(65, 84));
    let from = Quarters::whole(4);
    let high = WrittenPhrase { from, start, reach: own, ..plain() };
    let query = two_five_one().styled(LineStyle::Exercise).written(vec![of_line, high]);
    let line = query.line(&reach()).unwrap();
    for (eighth, before, after) in [(0, "F3", "D3"), (8, "F4", "F4")] {
        let change = changed(eighth, NoteChange::PairNote(Direction::Down));
        let edited = query.edited(&query.phrases(), line.notes(), &[change], &reach());
        let index = edited.iter().position(|note| note.onset == change.onset).unwrap();
        assert_eq!(names(&line.notes()[index..=index]), before, "at {eighth}");
        assert_eq!(names(&edited[index..=index]), after, "at {eighth}");
    }
}

/// A phrase as it is where nothing is written.
fn plain() -> WrittenPhrase {
    WrittenPhrase {
        from: Quarters::ZERO,
        to: None,
        begin: Begin::Again,
        pair: None,
        pattern: None,
        is_wide: false,
        rhythm: None,
        travel: None,
        start: None,
        target: None,
        ending: None,
        notes: NotesFrom::Pair,
        reach: None,
    }
}

/// F and C together: the lower one does not pass the upper one.
#[test]
fn notes_of_a_chord_keep_their_order() {
    let (query, _) = threes();
    let reach = Reach::between(53, 77);
    let query = query.in_pattern("(13)".parse().unwrap());
    let line = query.line(&reach).unwrap().notes().to_vec();
    assert_eq!(names(&line).get(..5), Some("F3 C4"));
    let up = changed(0, NoteChange::PairNote(Direction::Up));
    // G, A, B, and no further.
    let edited = query.edited(&query.phrases(), &line, &[up; 9], &reach);
    assert_eq!(names(&edited).get(..5), Some("B3 C4"));
    let upper = NoteEdit { voice: 1, ..changed(0, NoteChange::PairNote(Direction::Down)) };
    assert_eq!(
        names(&query.edited(&query.phrases(), &line, &[upper; 9], &reach)).get(..5),
        Some("F3 G3")
    );
    let third = NoteEdit { voice: 2, ..upper };
    assert_eq!(query.edited(&query.phrases(), &line, &[third], &reach), line);
}

/// Two phrases as a player writes them: a stab and an approach entered by hand, then four and three
/// into the third of the next chord, with a pair of its own.
#[test]
fn written_phrases_are_played_as_they_are_written() {
    let stab = WrittenPhrase {
        notes: NotesFrom::Entered("F3+A3:4 -:4 Eb4:8".parse().unwrap()),
        to: Some(Quarters::whole(3)),
        ..plain()
    };
    let target = AskedTarget {
        at: Quarters::whole(8),
        notes: PitchClassSet::EMPTY.with(class("E")),
        approach: Approach::HalfStepBelow,
        timing: Timing::OnTime,
    };
    let four_three = WrittenPhrase { from: Quarters::whole(4), target: Some(target), ..plain() };
    let query = two_five_one().written(vec![four_three.clone(), stab]);
    let line = query.line(&reach()).unwrap();
    let free = line.notes().iter().take_while(|note| note.role == Role::Free).count();
    assert_eq!(free, 3);
    assert_eq!(at(&line, Quarters::whole(4)).map(|note| note.phrase), Some(1));
    let last = line.notes().last().unwrap();
    assert_eq!((last.onset, last.pitch.pitch_class()), (Quarters::whole(8), class("E")));
    // What was written does not give way.
    let around = AskedTarget { approach: Approach::Enclosure, ..target };
    let rhythm = Some("1".parse().unwrap());
    let whole = WrittenPhrase { rhythm, target: Some(around), ..four_three };
    assert!(two_five_one().written(vec![whole]).line(&reach()).is_err());
}

/// Over the second bar nothing is to be played. The pattern stops with it and begins again after it.
/// By hand: F A C G B D A C in bar 1; B is the note of G nearest to the last C.
#[test]
fn an_exercise_rests_where_nothing_is_to_be_played() {
    let rest = Rest { from: Quarters::whole(4), to: Quarters::whole(8) };
    let query = two_five_one().styled(LineStyle::Exercise).resting(vec![rest]);
    let line = query.line(&reach()).unwrap();
    let in_first_bar = line.notes().iter().filter(|note| note.onset < rest.from);
    let midi: Vec<u8> = in_first_bar.map(|note| note.pitch.midi()).collect();
    assert_eq!(midi, [53, 57, 60, 55, 59, 62, 57, 60]);
    assert!(line.notes().iter().all(|note| note.end() <= rest.from || note.onset >= rest.to));
    let again = at(&line, rest.to).unwrap();
    assert_eq!((again.role, again.pitch.midi()), (Role::Triad(WhichTriad::First), 59));
}

/// Music lands on a guide tone before the rest, and begins off the beat after it.
#[test]
fn music_comes_to_rest_before_a_rest() {
    let chords = (0..4).map(|bar| match bar % 2 {
        0 => stretch(4 * bar, "Dm7", "F & G"),
        _ => stretch(4 * bar, "Cmaj7", "G & Am"),
    });
    let rest = Rest { from: Quarters::whole(8), to: Quarters::whole(12) };
    let query = LineQuery::new(Bars::of(Meter::COMMON), chords.collect(), Quarters::whole(16));
    let line = query.resting(vec![rest]).line(&reach()).unwrap();
    assert!(line.notes().iter().all(|note| note.end() <= rest.from || note.onset >= rest.to));
    let before = line.notes().iter().rfind(|note| note.onset < rest.from).unwrap();
    assert!([class("E"), class("B")].contains(&before.pitch.pitch_class()), "{before:?}");
    let after = line.notes().iter().find(|note| note.onset >= rest.to).unwrap();
    assert_eq!(after.onset, Quarters::new(25, 2).unwrap());
}

/// Asked for a beat after a chord begins, the third comes; the landing on that chord, which nobody asked
/// for, gives way, and so does a breath.
#[test]
fn what_is_asked_for_soon_after_a_chord_is_reached() {
    let chords = vec![
        stretch(0, "Dm7", "F & G"),
        stretch(10, "G7", "F & G"),
        stretch(11, "Cmaj7", "G & Am"),
    ];
    let query = LineQuery::new(Bars::of(Meter::COMMON), chords, Quarters::whole(16));
    for (beat, note) in [(11, "E"), (12, "E"), (13, "B")] {
        let notes = PitchClassSet::EMPTY.with(class(note));
        let (approach, timing) = (Approach::HalfStepBelow, Timing::OnTime);
        let asked = AskedTarget { at: Quarters::whole(beat), notes, approach, timing };
        let line = query.clone().arriving(vec![asked]).line(&reach()).unwrap();
        let landed = at(&line, Quarters::whole(beat)).unwrap();
        assert_eq!(landed.pitch.pitch_class(), class(note), "{beat}");
    }
}
