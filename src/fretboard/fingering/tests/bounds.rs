//! Lines that were made to take all time and memory. What is counted is the work, not the seconds.

use super::super::cheapest::Cheapest;
use super::*;

fn at(onset_s: f64, midi: u8) -> LineNote {
    LineNote::new(onset_s, 0.2, Pitch::from_midi(midi).unwrap()).unwrap()
}

/// How many beginnings the list of the `count` cheapest goes on from.
fn nodes(neck: &Neck, line: &[LineNote], count: usize) -> usize {
    let query = FingeringQuery::default();
    let went_on = query.solve(neck, line, |onsets, to_go| {
        let mut cheapest = Cheapest::new(onsets, to_go, count);
        assert_eq!(cheapest.by_ref().count(), count);
        cheapest.went_on()
    });
    went_on.unwrap()
}

/// Two strings each of three pitches: every note has two places that cost the same or nearly so,
/// and of 200 notes there are 2 to the power of 200 ways.
#[test]
fn ways_that_cost_the_same_do_not_multiply() {
    let neck = neck("E2 E2 E3 E3 E4 E4");
    let arpeggio = [45, 57, 69, 62, 50].into_iter().cycle().take(200);
    let line: Vec<LineNote> =
        arpeggio.zip(0u8..).map(|(midi, n)| at(f64::from(n) * 0.2, midi)).collect();
    for count in [1, 6, 40] {
        let nodes = nodes(&neck, &line, count);
        assert!(nodes <= count * line.len(), "{nodes} for {count}");
    }
    let ways = FingeringQuery::default().alternatives(&neck, &line, 20).unwrap();
    assert_eq!((ways.fingerings.len(), ways.is_cut_short), (20, false));
}

/// The note has five places on the strings of a guitar.
#[test]
fn seventy_notes_of_one_pitch_at_one_time_come_as_few_at_a_time_as_a_hand_holds() {
    let neck = neck("EADGBE");
    let line = vec![at(0.0, 64); 70];
    let ways = FingeringQuery::default().alternatives(&neck, &line, 3).unwrap().fingerings;
    for way in ways {
        assert_eq!(way.notes().len(), 70);
        let [broken] = way.broken_chords() else { panic!("{way}") };
        let played: Vec<usize> = broken.groups.concat();
        assert_eq!(played, (0..70).collect::<Vec<_>>());
    }
}

#[test]
fn twelve_notes_on_twelve_strings_all_get_their_places() {
    for (tuning, notes) in [
        ("E3 E3 E3 E3 E3 E3 E3 E3 E3 E3 E3 E3", vec![60; 12]),
        ("E3 A4 A4 A4 A4 A4 A4 A4 A4 A4 A4 A4", [vec![72; 11], vec![60]].concat()),
        ("E3 F3 E3 F3 E3 F3 E3 F3 E3 F3 E3 F3", (54..66).collect()),
    ] {
        let chord: Vec<LineNote> = notes.iter().map(|midi| at(0.0, *midi)).collect();
        let ways = FingeringQuery::default().alternatives(&neck(tuning), &chord, 20).unwrap();
        let best = &ways.fingerings[0];
        for (note, midi) in best.notes().iter().zip(&notes) {
            assert_eq!(neck(tuning).pitch_at(note.place).unwrap().midi(), *midi);
        }
    }
    let chord = vec![at(0.0, 60); 12];
    let held = best(&neck("E3 E3 E3 E3 E3 E3 E3 E3 E3 E3 E3 E3"), &chord);
    assert_eq!(held.broken_chords(), [] as [BrokenChord; 0], "a barre holds all");
}

/// Of a line too long for every condition fewer are tried, and it is said.
#[test]
fn of_a_long_line_not_every_condition_is_tried() {
    let line: Vec<LineNote> = (0..20_000u32)
        .map(|n| at(f64::from(n) * 0.2, 50 + u8::try_from(n * 7 % 23).unwrap()))
        .collect();
    let ways = FingeringQuery::default().alternatives(&neck("EADGBE"), &line, 20).unwrap();
    assert!(ways.is_cut_short && (2..=20).contains(&ways.fingerings.len()));
    let short = FingeringQuery::default().alternatives(&neck("EADGBE"), &line[..40], 3).unwrap();
    assert!(!short.is_cut_short);
}
